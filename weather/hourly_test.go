package weather

import (
	"bytes"
	"fmt"
	"math"
	"strings"
	"testing"
)

// hourlyText writes hours of rain from midnight of a date in our layout.
func hourlyText(start Date, mm ...float64) string {
	var b strings.Builder
	b.WriteString("time,precip_mm\n")
	for h, v := range mm {
		fmt.Fprintf(&b, "%vT%02d:00,%g\n", start+Date(h/24), h%24, v)
	}
	return b.String()
}

// daily is a series of dry air with the gauge's rain, read at an hour.
func daily(readHour float64, precip ...float64) *Series {
	s := &Series{Station: unknownStation(), Layout: layoutPlain, Start: NewDate(2001, 6, 1), Precip: precip, Marks: make([]Mark, len(precip))}
	s.Station.ReadHour = readHour
	for range precip {
		s.Tmin, s.Tmax = append(s.Tmin, 10), append(s.Tmax, 20)
	}
	return s
}

// rainAt returns n days of hours with rain at some of them.
func rainAt(days int, mm map[int]float64) []float64 {
	hours := make([]float64, 24*days)
	for h, v := range mm {
		hours[h] = v
	}
	return hours
}

// TestHourly: hours of three days, a gauge read at 07:00. Worked by hand: 4 mm fall at
// 05:00 of the first day, 6 mm at 20:00 of the second, which the gauge shows on the
// third, and 3 mm at 22:00 of the third, on the fourth.
func TestHourly(t *testing.T) {
	hours := hourlyText(NewDate(2001, 6, 1), rainAt(3, map[int]float64{5: 4, 24 + 20: 6, 48 + 22: 3})...)
	s := daily(7, 4, 0, 6, 3.5, 1)
	s.Marks[2] = SpreadTotal
	got, notes, err := s.WithHourly("hours.csv", strings.NewReader(hours))
	if err != nil {
		t.Fatal(err)
	}
	// The fourth day's gauge holds the 3 mm of the third day's hours and 0.5 mm of its own.
	near(t, "precip", got.Precip, []float64{4, 6, 3, 0.5, 1})
	if got.Marks[2] != 0 || got.Marks[3] != PrecipFilled || got.Marks[4] != 0 || s.Marks[2] != SpreadTotal || s.HourlyPrecip != nil {
		t.Errorf("marks %v, before %v", got.Marks, s.Marks)
	}
	if h := got.HourlyPrecip; len(h) != 24*5 || h[5] != 4 || h[44] != 6 || !math.IsNaN(h[72]) {
		t.Errorf("hours %v", h)
	}
	text := strings.Join(notes, "; ")
	for _, want := range []string{"hourly precipitation on 3 of 5 days; 0 days with some hours only", "on 0 of 1 days with 1 mm or more", "1 days beside hourly ones"} {
		if !strings.Contains(text, want) {
			t.Errorf("notes %q lack %q", text, want)
		}
	}
	var plain bytes.Buffer // and what results is sound
	if err := got.WritePlain(&plain); err != nil {
		t.Fatal(err)
	}
	if again, _ := read(t, plain.String()); !sameSeries(again, got) {
		t.Error("hours do not survive our plain layout")
	}
}

// TestHourlyKeepsRain: whatever days have hours, no rain is lost and none counted
// twice where gauge and hours agree: between two days with no rain around them the
// total stays the same for every hour of reading.
func TestHourlyKeepsRain(t *testing.T) {
	const days = 8
	rain := rainAt(days, map[int]float64{24 + 3: 1, 24 + 9: 2, 48 + 23: 4, 72: 8, 72 + 12: 16, 96 + 6: 32, 120 + 7: 64})
	for readHour := 1; readHour <= 24; readHour++ {
		gauge := make([]float64, days)
		for h, mm := range rain {
			if mm > 0 {
				gauge[(h-readHour+24)/24] += mm
			}
		}
		for from := 0; from <= days; from++ {
			for to := from; to <= days; to++ {
				got, _, err := daily(float64(readHour), gauge...).WithHourly("h", strings.NewReader(hourlyText(NewDate(2001, 6, 1)+Date(from), rain[24*from:24*to]...)))
				if err != nil {
					t.Fatal(err)
				}
				sum := 0.0
				for _, mm := range got.Precip {
					sum += mm
				}
				if !(math.Abs(sum-127) < 1e-9) {
					t.Fatalf("read at %d, hours of days %d to %d: %v mm, want 127", readHour, from, to, sum)
				}
			}
		}
	}
}

// TestHourlyCounts: differences beyond 20 % and days with some of their hours.
func TestHourlyCounts(t *testing.T) {
	for _, c := range []struct {
		name, text string
		s          *Series
		precip     []float64
		want       string
	}{
		{"differs", hourlyText(NewDate(2001, 6, 1), rainAt(3, map[int]float64{5: 7.9, 30: 8.1, 50: 0.5})...), daily(24, 10, 10, 0), []float64{7.9, 8.1, 0.5},
			"the hours differ from the daily gauge by more than 20 % on 1 of 2 days with 1 mm or more"},
		{"some hours", "time,precip_mm\n2001-06-01 05:00:00,3\n", daily(24, 3, 1), []float64{3, 1}, "on 0 of 2 days; 1 days with some hours only keep their daily total"},
		{"some hours beside", "time,precip_mm\n2001-06-01 20:00,3\n", daily(7, 3, 1), []float64{3, 1}, "1 days with some hours only"},
		{"inches", strings.NewReplacer("precip_mm", "precip_in").Replace(hourlyText(NewDate(2001, 6, 1), rainAt(1, map[int]float64{5: 1})...)), daily(24, 0), []float64{25.4}, "on 1 of 1 days"},
		{"unknown gauge", hourlyText(NewDate(2001, 6, 1), rainAt(1, map[int]float64{5: 2})...), daily(nan, nan, 1), []float64{2, 1}, "is not known and was taken as midnight"},
		{"outside", hourlyText(NewDate(2001, 5, 31), rainAt(2, map[int]float64{30: 2})...), daily(24, 2), []float64{2}, "24 hours lie outside"},
	} {
		got, notes, err := c.s.WithHourly("h", strings.NewReader(c.text))
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		near(t, c.name, got.Precip, c.precip)
		if text := strings.Join(notes, "; "); !strings.Contains(text, c.want) {
			t.Errorf("%s: notes %q lack %q", c.name, text, c.want)
		}
	}
}

func TestHourlyFaults(t *testing.T) {
	for _, c := range []faultCase{
		{"empty", "", `f.csv: found "an empty file"`},
		{"no rain", "time,rain_mm\n", `f.csv:1: column precip_mm: found "no such column"; allowed a file with time, precip_mm`},
		{"no time", "date,precip_mm\n", `f.csv:1: column time: found "no such column"`},
		{"two units", "time,precip_mm,precip_in\n", `found "precip_mm and precip_in"; allowed one of them`},
		{"other column", "time,precip_mm,temp\n", `f.csv:1: column temp: found "temp"; allowed time, precip_mm, precip_in`},
		{"half an hour", "time,precip_mm\n2001-06-01T05:30,1\n", `f.csv:2: column time: found "2001-06-01T05:30"; allowed the beginning of an hour`},
		{"universal time", "time,precip_mm\n2001-06-01T05:00Z,1\n", `column time: found "2001-06-01T05:00Z"`},
		{"hour 24", "time,precip_mm\n2001-06-01T24:00,1\n", `column time: found "2001-06-01T24:00"`},
		{"summer time", "time,precip_mm\n2001-10-28T01:00,1\n2001-10-28T01:00,2\n", `f.csv:3: column time: found "2001-10-28T01:00"; allowed an hour after the one above: put the hours in order, each once, in local standard time`},
		{"negative", "time,precip_mm\n2001-06-01T05:00,-1\n", `column precip_mm: found "-1"; allowed 0 to 400 mm/h`},
		{"text", "time,precip_mm\n2001-06-01T05:00,wet\n", `column precip_mm: found "wet"`},
		{"short row", "time,precip_mm\n2001-06-01T05:00\n", `f.csv:2: found "1 fields"; allowed 2`},
	} {
		got, _, err := daily(24, 1).WithHourly("f.csv", strings.NewReader(c.text))
		if err == nil || got != nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error\n%v\nlacks\n%s", c.name, err, c.want)
		}
	}
	checkFaults(t, []faultCase{{"alone", hourlyText(NewDate(2001, 6, 1), 1), `f.csv:1: found "hourly precipitation, without temperature"; allowed a daily record with temperature: name a daily record`}})
}

func FuzzHourly(f *testing.F) {
	f.Add([]byte(hourlyText(NewDate(2001, 6, 1), rainAt(2, map[int]float64{5: 4})...)), 7.0)
	for _, text := range brokenCorpus(f) {
		f.Add([]byte(text), 7.0)
	}
	f.Fuzz(func(t *testing.T, data []byte, readHour float64) {
		if !(readHour > 0 && readHour <= 24) {
			readHour = nan
		}
		got, _, err := daily(readHour, 1, 2, nan).WithHourly("fuzz", bytes.NewReader(data))
		if (err == nil) != (got != nil) {
			t.Fatalf("series %v, error %v", got != nil, err)
		}
		if err != nil {
			return
		}
		for i := range got.Days() {
			if !hoursFit(got.hours(i), got.Precip[i]) || got.Precip[i] < 0 {
				t.Fatalf("day %d: %v mm of %v", i, got.Precip[i], got.hours(i))
			}
		}
	})
}
