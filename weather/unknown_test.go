package weather

import (
	"archive/tar"
	"bytes"
	"strings"
	"testing"
)

// TestColumnsInAnyOrder: our layout and the one with a location are told by the names
// of their columns, wherever they stand.
func TestColumnsInAnyOrder(t *testing.T) {
	for name, text := range map[string]string{
		"plain":    "tmin_C,precip_mm,tmax_C,date\n-5,1,5,2001-01-01\n-6,,4,2001-01-02\n",
		"location": "date,temp_min,location,temp_max,precipitation\n2001-01-01,-5,A,5,1\n2001-01-02,-6,A,4,\n",
	} {
		s, _ := read(t, text)
		near(t, name+" Tmin", s.Tmin, []float64{-5, -6})
		near(t, name+" Tmax", s.Tmax, []float64{5, 4})
		near(t, name+" precip", s.Precip, []float64{1, nan})
	}
}

// TestMarksInRemarks: semicolons, tabs and bars that part no fields are no fault.
func TestMarksInRemarks(t *testing.T) {
	s, _ := read(t, "# note: a; b; c; d; e | f | g | h\n# origin: x;y;z;w;v;u\ndate,tmin_C,tmax_C,precip_mm\n2001-01-01,-5,5,1\n# a;b;c;d;e;f;g\n2001-01-02,-6,4,0\n")
	near(t, "Tmin", s.Tmin, []float64{-5, -6})
	s, _ = read(t, strings.ReplaceAll(locatedText, "A,", "A; B; C; D,"))
	near(t, "Tmax", s.Tmax, []float64{5, 5})
}

// TestArchiveLink: a link in an archive is not followed, and a note says so.
func TestArchiveLink(t *testing.T) {
	var b bytes.Buffer
	w := tar.NewWriter(&b)
	if err := w.WriteHeader(&tar.Header{Name: "2000.csv", Typeflag: tar.TypeSymlink, Linkname: "/etc/hostname"}); err != nil {
		t.Fatal(err)
	}
	text := b.String() + archived(t, "2001.csv", ecccYear("1", "46.90", NewDate(2001, 1, 1), 3))
	s, rep := read(t, text)
	if notes := strings.Join(rep.Notes, "; "); s.Days() != 3 || !strings.Contains(notes, `1 entries of the archive are links or devices and were not followed, the first is "2000.csv"`) {
		t.Errorf("%d days, notes %q", s.Days(), notes)
	}
}

// TestWholeRecordMissing: days without any value are no record; one element may be
// missing throughout, since hours or a neighbour can give it.
func TestWholeRecordMissing(t *testing.T) {
	const head = "date,tmin_C,tmax_C,precip_mm\n"
	checkFaults(t, []faultCase{{"nothing", head + "2001-01-01,,,\n2001-01-02,,,\n", "f.csv: found no temperature and no precipitation on any of 2 days; allowed days with values"}})
	s, _ := read(t, head+"2001-01-01,-5,5,\n")
	near(t, "precip", s.Precip, []float64{nan})
	if err := (&Series{Start: NewDate(2001, 1, 1), Tmin: []float64{nan}, Tmax: []float64{nan}, Precip: []float64{nan}, Marks: []Mark{0}}).WritePlain(&bytes.Buffer{}); err == nil {
		t.Error("a record without values was written, though it cannot be read")
	}
}
