package weather

import (
	"archive/tar"
	"bytes"
	"compress/gzip"
	"fmt"
	"strings"
	"testing"
)

// archived packs files, given as name and text by turns, into a tar archive.
func archived(t testing.TB, files ...string) string {
	t.Helper()
	var b bytes.Buffer
	w := tar.NewWriter(&b)
	for i := 0; i < len(files); i += 2 {
		if err := w.WriteHeader(&tar.Header{Name: files[i], Mode: 0o644, Size: int64(len(files[i+1]))}); err != nil {
			t.Fatal(err)
		}
		w.Write([]byte(files[i+1]))
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// zipped packs text with gzip.
func zipped(text string) string {
	var b bytes.Buffer
	w := gzip.NewWriter(&b)
	w.Write([]byte(text))
	w.Close()
	return b.String()
}

// ecccYear is a file of n days of one station from a date, with rain of 1, 2, ... mm.
func ecccYear(id, latitude string, start Date, n int) string {
	var b strings.Builder
	b.WriteString(strings.NewReplacer("0000000", id, "46.90", latitude).Replace(ecccHead) + ecccOld)
	for i := range n {
		b.WriteString(ecccDay(fmt.Sprintf("%v,,5,,-5,,%d,,,", start+Date(i), i+1)))
	}
	return b.String()
}

// TestArchive: files in any order, packed or not, make one record; a day that is empty
// in one file is taken from the other.
func TestArchive(t *testing.T) {
	first, second := ecccYear("1", "46.90", NewDate(2001, 12, 30), 2), ecccYear("1", "46.90", NewDate(2002, 1, 1), 2)
	empty := ecccHead + ecccOld + ecccDay("2002-01-01,,,,,,,,7,") + ecccDay("2002-01-02,,,,,,,,,")
	empty = strings.Replace(empty, "0000000", "1", 1)
	text := archived(t, "2002.csv", second, "._2002.csv", "\x00\x05", "2001.csv", first, "2002b.csv", "\xef\xbb\xbf"+empty)
	for name, text := range map[string]string{"tar": text, "tar.gz": zipped(text)} {
		s, rep := read(t, text)
		if s.Start != NewDate(2001, 12, 30) || s.Days() != 4 || rep.Total().Rows != 4 || rep.Total().Duplicates != 0 {
			t.Errorf("%s: %d days from %v, %+v", name, s.Days(), s.Start, rep.Total())
		}
		near(t, name, s.Precip, []float64{1, 2, 1, 2})
		near(t, name, s.SnowDepth, []float64{nan, nan, 0.07, nan})
	}
}

// TestArchiveStations: a station that took over at the same place goes on with the
// record, and one elsewhere does not.
func TestArchiveStations(t *testing.T) {
	before, after := ecccYear("1", "46.90", NewDate(2001, 1, 1), 3), ecccYear("2", "46.92", NewDate(2001, 1, 3), 3)
	s, rep := read(t, archived(t, "a.csv", before, "b.csv", after))
	near(t, "precip", s.Precip, []float64{1, 2, 3, 2, 3})
	notes := strings.Join(rep.Notes, "; ")
	if !strings.Contains(notes, "station 1 (INVENTED ÉTÉ) goes on as 2 (INVENTED ÉTÉ) in b.csv") || !strings.Contains(notes, "1 days have readings of both stations") || s.Station.ID != "2" {
		t.Errorf("notes %q", notes)
	}
	checkFaults(t, []faultCase{
		{"elsewhere", archived(t, "a.csv", before, "b.csv", ecccYear("2", "47.90", NewDate(2002, 1, 3), 3)),
			`f.csv: found "station 2 in b.csv"; allowed station 1, as in a.csv: keep the files of one place in the archive`},
		{"both for long", archived(t, "a.csv", ecccYear("1", "46.90", NewDate(2001, 1, 1), 60), "b.csv", ecccYear("2", "46.90", NewDate(2001, 1, 2), 60)),
			`found "2001-02-02, line 45 of b.csv"; allowed each day once`},
		{"same station, other values", archived(t, "a.csv", before, "b.csv", ecccYear("1", "46.90", NewDate(2001, 1, 2), 3)),
			`found "2001-01-02, line 14 of b.csv"; allowed each day once: another file of the archive gives the day other values`},
		{"two layouts", archived(t, "a.csv", before, "b.csv", powerText+powerDays), `found "NASA POWER daily point CSV in b.csv"; allowed Environment Canada daily CSV, as in a.csv`},
		{"fault inside", archived(t, "a.csv", before, "b.csv", strings.Replace(after, `"5"`, `"x"`, 1)), `f.csv/b.csv:14: column Max Temp: found "x"`},
		{"unknown inside", archived(t, "read.me", "hello\n", "a.csv", before), `f.csv/read.me:1: found "hello"`},
		{"empty inside", archived(t, "a.csv", before, "b.csv", ""), `f.csv/b.csv: found "an empty file"`},
		{"empty", archived(t), `f.csv: found "an archive without files"; allowed the files of one record`},
		{"plain inside", archived(t, "a.csv", "date,tmin_C,tmax_C,precip_mm\n2001-01-01,1,2,3\n"), `found "the layout Mottle plain CSV"; allowed files of an agency`},
		{"cut short", archived(t, "a.csv", before, "b.csv", after)[:2500], `f.csv: found "an archive that is damaged, unexpected EOF"`},
	})
}

func FuzzArchive(f *testing.F) {
	text := archived(f, "a.csv", ecccYear("1", "46.90", NewDate(2001, 1, 1), 3), "b.csv", ecccYear("1", "46.90", NewDate(2002, 1, 1), 3))
	fuzz(f, text, zipped(text))
}
