package weather

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// Invented station years in the layout of the agency's daily CSV, old (preamble) and
// new; the new header follows the format note from memory, no real one was to be had.
const (
	ecccHead = "\"Station Name\",\"INVENTED ÉTÉ\"\n\"Province\",\"NOWHERE\"\n\"Latitude\",\"46.90\"\n\"Longitude\",\"-97.10\"\n\"Elevation\",\"285.00\"\n" +
		"\"Climate Identifier\",\"0000000\"\n\"WMO Identifier\",\"\"\n\"TC Identifier\",\"\"\n\n\"Legend\"\n\"A\",\"Accumulated\"\n\n"
	ecccOld = `"Date/Time","Year","Month","Day","Data Quality","Max Temp (°C)","Max Temp Flag","Min Temp (°C)","Min Temp Flag","Mean Temp (°C)","Mean Temp Flag","Total Rain (mm)","Total Rain Flag","Total Precip (mm)","Total Precip Flag","Snow on Grnd (cm)","Snow on Grnd Flag","Spd of Max Gust (km/h)","Spd of Max Gust Flag"` + "\n"
	ecccNew = `"Longitude (x)","Latitude (y)","Station Name","Climate ID","Date/Time","Year","Month","Day","Data Quality","Max Temp (°C)","Max Temp Flag","Min Temp (°C)","Min Temp Flag","Mean Temp (°C)","Mean Temp Flag","Total Rain (mm)","Total Rain Flag","Total Precip (mm)","Total Precip Flag","Snow on Grnd (cm)","Snow on Grnd Flag","Spd of Max Gust (km/h)","Spd of Max Gust Flag"` + "\n"
)

// ecccDay writes a row from date, quality, Tmax, flag, Tmin, flag, precipitation, flag
// and snow on the ground, flag.
func ecccDay(cells string) string {
	c := strings.Split(cells, ",")
	row := []string{c[0], c[0][:4], c[0][5:7], c[0][8:], c[1], c[2], c[3], c[4], c[5], "", "", "", "M", c[6], c[7], c[8], c[9], "<31", ""}
	return `"` + strings.Join(row, `","`) + "\"\n"
}

// ecccDays are rows with every flag of the agency's legend.
func ecccDays(lead string) string {
	var b strings.Builder
	for _, cells := range []string{
		"2010-01-01,,-3.8,,-15.6,,0.0,T,2,",
		"2010-01-02,†,-0.7,E,-4.7,^,1.2,E,,",
		"2010-01-03,,,M,-11.8,,,C,2,",
		"2010-01-04,,,N,,Y,0.0,L,0,T",
		"2010-01-05,,1.0,S,-2.0,,9.0,A,5,E",
		"2010-01-06,‡,1.5,,-2.5,,4.0,F,,M",
		"2010-01-07,,1.5,,-2.5,,,M,,",
		"2010-01-08,,1.5,,-2.5,,,C,,",
		"2010-01-09,,1.5,,-2.5,Q,2.0,,,",
		"2010-01-10,,1.5,,-2.5,,3.0,A,,",
	} {
		b.WriteString(lead + ecccDay(cells))
	}
	return b.String()
}

// TestECCC: the 9.0 mm of the 5th are those of the 3rd (C), 4th (L) and 5th. The 8th
// (C) has no total behind it and stays unknown; the totals of the 6th and 10th have no
// unknown day before them. 5 cm are 0.05 m.
func TestECCC(t *testing.T) {
	old := ecccHead + ecccOld + ecccDays("")
	for name, text := range map[string]string{
		"old": old, "marked": "\xef\xbb\xbf" + old,
		"Latin-1": strings.NewReplacer("É", "\xc9", "°", "\xb0", "†", "\x86", "‡", "\x87").Replace(old),
		"CRLF":    strings.ReplaceAll(old, "\n", "\r\n"),
		"new":     "\xef\xbb\xbf" + ecccNew + ecccDays(`"-97.10","46.90","INVENTED ÉTÉ","0000000",`),
	} {
		t.Run(name, func(t *testing.T) {
			s, rep := read(t, text)
			want := Station{"0000000", "INVENTED ÉTÉ", 46.9, -97.1, 285, nan}
			if name == "new" {
				want.Elevation = nan
			}
			if d := cmp.Diff(want, s.Station, cmp.Comparer(func(a, b float64) bool { return a == b || a != a && b != b })); d != "" {
				t.Errorf("station (-want +got):\n%s", d)
			}
			near(t, "Tmax", s.Tmax, []float64{-3.8, -0.7, nan, nan, 1, 1.5, 1.5, 1.5, 1.5, 1.5})
			near(t, "Tmin", s.Tmin, []float64{-15.6, -4.7, -11.8, nan, -2, -2.5, -2.5, -2.5, -2.5, -2.5})
			near(t, "precip", s.Precip, []float64{0, 1.2, 3, 3, 3, 4, nan, nan, 2, 3})
			near(t, "snow depth", s.SnowDepth, []float64{0.02, nan, 0.02, 0, 0.05, nan, nan, nan, nan, nan})
			if d := cmp.Diff([]Mark{TraceRain, 0, SpreadTotal, SpreadTotal, SpreadTotal, 0, 0, 0, 0, 0}, s.Marks); d != "" {
				t.Errorf("marks (-want +got):\n%s", d)
			}
			notes := strings.Join(rep.Notes, "; ")
			for _, want := range []string{"4 values estimated", "1 values based on incomplete data", "1 values with a flag that is not", "2 days not or not fully reviewed", "06:00 UTC"} {
				if !strings.Contains(notes, want) {
					t.Errorf("notes %q lack %q", notes, want)
				}
			}
		})
	}
}

func TestECCCFaults(t *testing.T) {
	text := ecccHead + ecccOld + ecccDays("")
	swap := func(old, new string) string { return strings.Replace(text, old, new, 1) }
	checkFaults(t, []faultCase{
		{"preamble alone", ecccHead, `found "no header"`},
		{"no maximum", swap(`"Max Temp (`, `"Maximum (`), `f.csv:13: column Max Temp: found "no such column"; allowed a file with Max Temp, Min Temp, Total Precip`},
		{"no minimum", swap(`"Min Temp (`, `"Minimum (`), `column Min Temp: found "no such column"`},
		{"no precipitation", swap(`"Total Precip (`, `"Precip (`), `column Total Precip: found "no such column"`},
		{"hourly", `"Date/Time","Year","Month","Day","Time","Temp (°C)"` + "\n", `this is an hourly file`},
		{"monthly", `"Date/Time","Year","Month","Mean Max Temp (°C)"` + "\n", `this is a monthly file`},
		{"unit", swap("Total Precip (mm)", "Total Precip (l)"), `column Total Precip: found "Total Precip (l)"; allowed the column in mm`},
		{"gust in the wrong place", swap(`"-3.8"`, `"<31"`), `f.csv:14: column Max Temp: found "<31"; allowed a number`},
		{"date", swap(`"2010-01-01"`, `"2010-01"`), `column Date/Time: found "2010-01"`},
		{"short row", swap(`"2010","01","01",`, ""), `f.csv:14: found "16 fields"; allowed 19`},
		{"twice", text + ecccDay("2010-01-10,,9.9,,-2.5,,3.0,,,"), `f.csv:24: found "2010-01-10"; allowed each day once`},
		{"two stations", ecccNew + ecccDays(`"-97.10","46.90","A","1",`) + ecccDays(`"-97.10","46.90","B","2",`), `f.csv:12: column Climate ID: found "2"; allowed one station, 1`},
		{"position", swap(`"46.90"`, `"X"`), `f.csv:3: column Latitude: found "X"`},
	})
}

func FuzzECCC(f *testing.F) {
	fuzz(f, ecccHead+ecccOld+ecccDays(""), ecccNew+ecccDays(`"-97.10","46.90","INVENTED","0",`))
}
