package main

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"mottle/weather"
)

func TestReadWarming(t *testing.T) {
	for text, want := range map[string]float64{"": 0, "+2 C": 2, "2": 2, "-1.5C": -1.5, "+3.6 F": 2, "-1.8F": -1} {
		if got, err := readWarming(text); err != nil || math.Abs(got-want) > 1e-12 {
			t.Errorf("%q: %v C, %v; want %v", text, got, err, want)
		}
	}
	for _, text := range []string{"warm", "2 K", "C", "+2 C C"} {
		if _, err := readWarming(text); err == nil || !strings.Contains(err.Error(), "--temp") {
			t.Errorf("%q: error %v, want one that names the flag", text, err)
		}
	}
}

func TestReadFactor(t *testing.T) {
	for text, want := range map[string]float64{"": 1, "+10%": 1.1, "-10 %": 0.9, "5%": 1.05, "1.2": 1.2} {
		if got, err := readFactor(text); err != nil || math.Abs(got-want) > 1e-12 {
			t.Errorf("%q: %v, %v; want %v", text, got, err, want)
		}
	}
	for _, text := range []string{"+0.1", "-1.1", "x1.1", "%", "ten %", " "} {
		if _, err := readFactor(text); err == nil || !strings.Contains(err.Error(), "--precip") {
			t.Errorf("%q: error %v, want one that names the flag", text, err)
		}
	}
}

// TestMap: a sign a year by its share, wider for few years, grouped beyond 60, and
// never wider than 80 characters.
func TestMap(t *testing.T) {
	draw := func(first int, shares ...float64) []string {
		var b bytes.Buffer
		var years []int
		for i := range shares {
			years = append(years, first+i)
		}
		writeMap(&b, years, []weather.Completeness{{Element: "precipitation", Share: shares, Days: 50}}, 100)
		return strings.Split(b.String(), "\n")
	}
	if got := draw(1999, 1, 0.95, 0.8, 0.1, 0); got[1] != "               1999    " && strings.TrimSpace(got[1]) != "1999" || got[2] != "precip  50.0 % ####++++----...." {
		t.Errorf("five years: %q", got)
	}
	if got := draw(1970, make([]float64, 60)...); strings.TrimSpace(got[1]) != "1970      1980      1990      2000      2010      2020" {
		t.Errorf("sixty years: %q", got[1])
	}
	whole := make([]float64, 121)
	for i := range whole {
		whole[i] = 1
	}
	whole[3], whole[4], whole[5] = 0.7, 0.7, 0.7 // a group of three
	got := draw(1900, whole...)
	if !strings.Contains(got[0], "groups of 3 years") || strings.TrimPrefix(got[2], "precip  50.0 % ") != "#."+strings.Repeat("#", 39) {
		t.Errorf("121 years: %q", got)
	}
	for _, lines := range [][]string{got, draw(1970, make([]float64, 60)...), draw(1999, 1)} {
		for _, l := range lines {
			if utf8.RuneCountInString(l) > 80 {
				t.Errorf("%d characters: %q", utf8.RuneCountInString(l), l)
			}
		}
	}
}

// spoilt is an invented record of 12 years in which the precipitation of the second
// half is in tenths, July 1985 is missing and one day is far too cold.
func spoilt(t *testing.T) string {
	t.Helper()
	s := weather.Invent(weather.DemoClimate(), weather.NewDate(1981, 1, 1), 12, 1)
	for i := range s.Precip {
		y, m, d := s.Date(i).Civil()
		switch {
		case y == 1985 && m == 7:
			s.Precip[i] = math.NaN()
		case y >= 1987:
			s.Precip[i] /= 10
		case y == 1984 && m == 5 && d == 15:
			s.Tmin[i] = -45
		}
	}
	var b bytes.Buffer
	if err := s.WritePlain(&b); err != nil {
		t.Fatal(err)
	}
	name := filepath.Join(t.TempDir(), "spoilt.csv")
	if err := os.WriteFile(name, b.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
	return name
}

// TestWeatherJSON reads back what other programs read.
func TestWeatherJSON(t *testing.T) {
	name := spoilt(t)
	var r struct {
		Records []struct {
			Completeness []struct {
				Element string
				Days    int
				Share   []float64 `json:"share_by_year"`
			}
			Gaps []struct {
				Element, From string
				Days          int
			}
			Slips []struct {
				Element, From, To string
				Perhaps           []string
			} `json:"unit_slips"`
			Suspects []struct {
				Date, Element, Unit, Reason string
				Value                       float64
			} `json:"suspect_values"`
			Annual []*float64 `json:"annual_precipitation"`
		}
	}
	for units, cold := range map[string]float64{"si": -45, "us": -49} { // -45 C is -49 F
		if err := json.Unmarshal([]byte(output(t, "weather", name, "--format", "json", "--units", units)), &r); err != nil {
			t.Fatal(err)
		}
		v := r.Records[0]
		if len(v.Gaps) != 1 || v.Gaps[0].Days != 31 || v.Gaps[0].From != "1985-07-01" {
			t.Errorf("gaps %+v", v.Gaps)
		}
		if c := v.Completeness[2]; c.Element != "precipitation" || math.Abs(c.Share[4]-334./365) > 1e-12 || c.Days != 4383-31 {
			t.Errorf("completeness %+v", c)
		}
		if len(v.Slips) != 1 || v.Slips[0].Element != "precipitation" || v.Slips[0].From != "1987-01-01" || v.Slips[0].To != "1992-12-31" ||
			len(v.Slips[0].Perhaps) == 0 || !strings.Contains(v.Slips[0].Perhaps[0], "divided by ten") {
			t.Errorf("slips %+v", v.Slips)
		}
		found := false
		for _, s := range v.Suspects {
			found = found || s.Date == "1984-05-15" && s.Element == "Tmin" && math.Abs(s.Value-cold) < 1e-9
		}
		if !found {
			t.Errorf("%s: suspects %+v lack %v on 1984-05-15", units, v.Suspects, cold)
		}
		if v.Annual[4] != nil || v.Annual[0] == nil {
			t.Errorf("annual precipitation %v, want none in 1985", v.Annual)
		}
	}
}

// TestWeatherText: the section stays within 80 characters.
func TestWeatherText(t *testing.T) {
	for _, units := range []string{"si", "us"} {
		text := output(t, "weather", spoilt(t), "--units", units)
		for l := range strings.SplitSeq(text, "\n") {
			if utf8.RuneCountInString(l) > 80 {
				t.Errorf("%d characters: %q", utf8.RuneCountInString(l), l)
			}
		}
		for _, want := range []string{"UNITS      precipitation from 1987-01-01 to 1992-12-31", "precip 31 days from 1985-07-01", "1 value that may be wrong", "1984-05-15 Tmin", "vapour pressure is not in"} {
			if !strings.Contains(text, want) {
				t.Errorf("%s: %q is missing from:\n%s", units, want, text)
			}
		}
	}
}
