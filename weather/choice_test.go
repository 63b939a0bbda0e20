package weather

import (
	"fmt"
	"strings"
	"testing"
)

// TestListOfStations: of more than twenty those with most usable days come first,
// those without temperature or precipitation last.
func TestListOfStations(t *testing.T) {
	text := ghcnHead
	for i := range 30 {
		for d := range i + 1 {
			temperature := "4,,3,"
			if i == 29 {
				temperature = ",,,"
			}
			text += fmt.Sprintf("S%02d,%v,,,,NAME %d,5,,%s\n", i, NewDate(2001, 1, 1)+Date(d), i, temperature)
		}
	}
	_, _, err := Read("f.csv", strings.NewReader(text), Pick{})
	if err == nil {
		t.Fatal("no error")
	}
	for _, want := range []string{"found \"30 stations\"", "with --station: S28 NAME 28 (29 days); S27 NAME 27 (28 days); ", "S09 NAME 9 (10 days); and 10 more"} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("error\n%v\nlacks %q", err, want)
		}
	}
	if _, _, err := Read("f.csv", strings.NewReader(text), Pick{Station: "S29"}); err != nil {
		t.Errorf("a station without temperature that was asked for: %v", err)
	}
}

// TestPickOfOne: a choice that a file of one station does not fit is a fault, and one
// of units that it states is noted.
func TestPickOfOne(t *testing.T) {
	plain := fixture(t, "plain-invented.csv")
	for _, c := range []struct{ text, pick, want string }{
		{plain, "field-0", ""},
		{plain, "invented FIELD", ""},
		{plain, "other", `column station: found "other"; allowed what the file holds, FIELD-0 Invented field: leave --station out`},
		{fixture(t, "daymet-invented.csv"), "other", `allowed what the file holds, no station by name`},
	} {
		_, rep, err := Read("f.csv", strings.NewReader(c.text), Pick{Station: c.pick, Units: Metric})
		switch {
		case c.want == "" && err != nil, c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want)):
			t.Errorf("%s: error %v, want %q", c.pick, err, c.want)
		case err == nil && !strings.Contains(strings.Join(rep.Notes, ";"), "the choice of metric was not needed"):
			t.Errorf("notes %v", rep.Notes)
		}
	}
}

// TestUnits: each name reads back.
func TestUnits(t *testing.T) {
	for _, u := range []Units{UnitsFromValues, Metric, Standard} {
		if got, err := ParseUnits(u.String()); got != u || err != nil {
			t.Errorf("%v: %v, %v", u, got, err)
		}
	}
	if _, err := ParseUnits("imperial"); err == nil || !strings.Contains(err.Error(), "allowed metric, standard") {
		t.Errorf("error %v", err)
	}
}

// TestRefusals: files that cannot be read as a daily record, with the reason.
func TestRefusals(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"tabs", "20010101\t122\t-17\t0\n20010102\t122\t-17\t0\n", "f.txt:1: found \"numbers without a header\"; allowed a header that names the columns and their units: write them as our plain CSV"},
		{"blanks", "20010101  122  -17  -9999\n", "numbers without a header"},
		{"mean rate", "date,temp_min,temp,temp_max,percip\n", "f.txt:1: column percip: found \"a mean rate of precipitation\"; allowed the total of each day"},
		{"monthly", ghcnHead + "A,1939-10,,,,X,5,,4,,3,\n", "this is a monthly summary"},
		{"not a date", "12345678 1 2 3\n", "save the record in one of these layouts"},
	} {
		s, _, err := Read("f.txt", strings.NewReader(c.text), Pick{})
		if err == nil || s != nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error\n%v\nlacks %q", c.name, err, c.want)
		}
	}
}
