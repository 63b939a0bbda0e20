package weather

import (
	"bytes"
	"fmt"
	"path/filepath"
	"strings"
	"testing"
)

// TestRealAgencies reads the real Canadian records and compares with the table of
// the collection. The archive of Toronto holds 2013 twice, from
// the two stations that took over from one another on 13 June.
func TestRealAgencies(t *testing.T) {
	for _, c := range []realRecord{
		{"eccc/eng-daily-01012009-12312009_montreal-mctavish.csv", "2009-01-01", "2009-12-31", 365, 365, 99.2, 99.5, 98.1, 1, 1073, -24.6, 32.5, 0, 47, 45.50, false, false, false, false},
		{"eccc/eng-daily-01012009-12312009_toronto-pearson.csv", "2009-01-01", "2009-12-31", 365, 365, 100, 100, 100, 1, 904, -22.2, 31.4, 0, 40, 43.68, false, false, true, false},
		{"eccc/eng-daily-01012016-12312016_toronto-intl-a.csv", "2016-01-01", "2016-12-31", 366, 366, 100, 100, 99.5, 1, 631, -26.3, 36.0, 0, 33, 43.68, false, false, true, false},
		{"eccc/toronto-pearson_eng-daily_1953-2017.tar.gz", "1953-01-01", "2017-12-31", 23741, 23741, 98.5, 98.5, 98.4, 63, 775, -31.3, 37.9, 0, 126, 43.68, false, false, true, false},
	} {
		t.Run(filepath.Base(c.name), func(t *testing.T) { c.check(t, Pick{}) })
	}
}

// TestRealArchive: the years of the archive read as those of the single files.
func TestRealArchive(t *testing.T) {
	whole, rep, err := Read("toronto", bytes.NewReader(realFile(t, "eccc/toronto-pearson_eng-daily_1953-2017.tar.gz")), Pick{})
	if err != nil {
		t.Fatal(err)
	}
	notes := strings.Join(rep.Notes, "\n")
	for _, want := range []string{"station 6158733 (TORONTO LESTER B. PEARSON INT'L A) goes on as 6158731 (TORONTO INTL A)", "1 days have readings of both stations"} {
		if !strings.Contains(notes, want) {
			t.Errorf("notes\n%s\nlack %q", notes, want)
		}
	}
	for _, name := range []string{"eccc/eng-daily-01012009-12312009_toronto-pearson.csv", "eccc/eng-daily-01012016-12312016_toronto-intl-a.csv"} {
		year, _, err := Read(name, bytes.NewReader(realFile(t, name)), Pick{})
		if err != nil {
			t.Fatal(err)
		}
		part, err := whole.Slice(year.Start, year.Last())
		if err != nil {
			t.Fatal(err)
		}
		near(t, name+" Tmax", part.Tmax, year.Tmax)
		near(t, name+" precipitation", part.Precip, year.Precip)
		near(t, name+" snow depth", part.SnowDepth, year.SnowDepth)
	}
}

// TestRealGridded: what real files of gridded services give or are refused for.
// The month of Athens has its preamble switched off.
func TestRealGridded(t *testing.T) {
	const name = "nasa-power/POWER_Point_Daily_20220101_20220201_037d98N_023d73E_LST_headerless.csv"
	s, rep, err := Read(name, bytes.NewReader(realFile(t, name)), Pick{})
	if err != nil {
		t.Fatal(err)
	}
	if s.Days() != 32 || s.Last() != NewDate(2022, 2, 1) {
		t.Errorf("%d days to %v", s.Days(), s.Last())
	}
	near(t, "8 January", []float64{s.Tmax[7], s.Tmin[7], s.Precip[7], s.Solar[7], s.Vapour[7], s.Wind[7]},
		[]float64{13.09, 9.79, 20.37, 5.74, VapourFromDewPoint(10.24), 1.97})
	if notes := strings.Join(rep.Notes, "\n"); !strings.Contains(notes, "was taken as MJ/m2: the largest is 13.29") {
		t.Errorf("notes\n%s", notes)
	}
	for _, c := range []struct{ name, want string }{
		{"nasa-power/POWER_Point_Daily_19830101_19830101_089d50S_0179d50W_LST_daily_sb_point_LST.csv", `column PRECTOTCORR: found "no such column"; allowed a file with T2M_MAX, T2M_MIN, PRECTOTCORR`},
		{"nasa-power/POWER_Point_Daily_19830101_19830101_089d50S_0179d50W_UTC_daily_ag_point.csv", `column PRECTOTCORR: found "no such column"`},
		{"nasa-power/POWER_Point_Daily_19830101_19830101_089d50S_0179d50W_UTC_daily_sb_point_UTC.csv", `column PRECTOTCORR: found "no such column"`},
		{"open-meteo/open-meteo-52.55N13.41E38m_daily.csv", `:4: column precipitation_sum: found "no such column"`},
		{"open-meteo/open-meteo-52.55N13.41E38m_HOURLY_head100_tail30.csv", `:4: column time: found "hourly rows"`},
	} {
		_, _, err := Read(c.name, bytes.NewReader(realFile(t, c.name)), Pick{})
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error\n%v\nlacks %q", c.name, err, c.want)
		}
	}
}

// BenchmarkAgencyCenturies reads 100 invented years in each layout.
func BenchmarkAgencyCenturies(b *testing.B) {
	s := Invent(DemoClimate(), NewDate(1901, 1, 1), 100, 1)
	rows := func(head, format string, cells func(i int) []any) string {
		var text strings.Builder
		text.WriteString(head)
		for i := range s.Days() {
			fmt.Fprintf(&text, format, cells(i)...)
		}
		return text.String()
	}
	power := rows(strings.SplitAfter(powerText+powerDays, ",PS\r\n")[0], "%s,%.2f,%.2f,%.2f,%.2f,%.2f,%.2f,98.1\r\n", func(i int) []any {
		y, m, d := s.Date(i).Civil()
		return []any{fmt.Sprintf("%d,%d,%d", y, m, d), s.Tmax[i], s.Tmin[i], 80., 3., s.Precip[i], s.Solar[i]}
	})
	openMeteo := rows(openMeteoPlace1+strings.SplitAfter(openMeteoDays1, "(cm)\n")[0], "%v,%.1f,%.1f,%.2f,%.2f,%.1f,12.0,0.00,0.0\n", func(i int) []any {
		return []any{s.Date(i), s.Tmax[i], s.Tmin[i], s.Precip[i], s.Solar[i], s.Tmin[i]}
	})
	gridMET := rows(strings.SplitAfter(gridMETShort, "vs\n")[0], "%v,%.1f,%.2f,%.2f,%.1f,90,60,3.2\n", func(i int) []any {
		return []any{s.Date(i), s.Precip[i], s.Tmax[i] + 273.15, s.Tmin[i] + 273.15, s.Solar[i] / 0.0864}
	})
	located := rows(strings.SplitAfter(locatedText, "weather\n")[0], "A,%v,%.1f,%.1f,%.1f,3.2,rain\n", func(i int) []any {
		return []any{s.Date(i), s.Precip[i], s.Tmax[i], s.Tmin[i]}
	})
	var years []string
	for y := 1901; y <= 2000; y++ {
		text := strings.Builder{}
		text.WriteString(ecccHead + ecccOld)
		for d := NewDate(y, 1, 1); d <= NewDate(y, 12, 31); d++ {
			i := int(d - s.Start)
			text.WriteString(ecccDay(fmt.Sprintf("%v,,%.1f,,%.1f,,%.1f,,0,", d, s.Tmax[i], s.Tmin[i], s.Precip[i])))
		}
		years = append(years, fmt.Sprintf("%d.csv", y), text.String())
	}
	for _, c := range []struct{ name, text string }{{"POWER", power}, {"Open-Meteo", openMeteo}, {"gridMET", gridMET},
		{"location column", located}, {"Environment Canada, archive", archived(b, years...)}, {"Environment Canada, packed", zipped(archived(b, years...))}} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				got, _, err := Read("century", strings.NewReader(c.text), Pick{})
				if err != nil || got.Days() != s.Days() {
					b.Fatal(err)
				}
			}
		})
	}
}
