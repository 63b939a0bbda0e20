package main

import (
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"mottle/sim"
)

// TestDemoFitsAScreen: the demo with its ranges, five of its forty years, as it is
// first met.
func TestDemoFitsAScreen(t *testing.T) {
	text := output(t, "compare", "--to", "1985")
	lines := strings.Split(strings.TrimSuffix(text, "\n"), "\n")
	if len(lines) > 60 {
		t.Errorf("%d lines, want 60 at most", len(lines))
	}
	for _, line := range lines {
		if n := utf8.RuneCountInString(line); n > 140 || strings.TrimRight(line, " ") != line {
			t.Errorf("%d columns, want 140 at most, no blank at the end: %q", n, line)
		}
	}
	for i, want := range []string{"Slough quarter - INVENTED", "soil     ", "tile     ", "weather  invented by the weather generator - INVENTED"} {
		if line := lines[i]; line != want && !(strings.HasSuffix(want, " ") && strings.HasPrefix(line, want)) {
			t.Errorf("line %d: %q, want %q", i+1, line, want)
		}
	}
	for _, m := range sim.Measures() {
		if hidden[m.Name] == strings.Contains(text, "\n"+m.Label+" ") {
			t.Errorf("%s: hidden %v; its line begins with %q", m.Name, hidden[m.Name], m.Label)
		}
	}
	for _, word := range []string{"ditch none", "old_tile", "tile.envelope", "tile.outlet_water", "storms.", "groundwater.kind", "evapotranspiration.method", "NaN", "Inf", "-0.0 "} {
		if strings.Contains(text, word) {
			t.Errorf("%q stands in the text", word)
		}
	}
	for _, word := range []string{"groundwater.outside_level 1.4 m", "outside water level 1.0 to 2.0 m", "surface.snow open", "90 % interval"} {
		if !strings.Contains(text, word) {
			t.Errorf("%q is missing", word)
		}
	}
}

func TestDigits(t *testing.T) {
	for _, c := range []struct {
		x            float64
		unit         string
		want, signed string
	}{
		{-0.04, "mm", "0.0", "0.0"},
		{0.04, "mm", "0.0", "0.0"},
		{-0.06, "mm", "-0.1", "-0.1"},
		{12.34, "mm", "12.3", "+12.3"},
		{123.4, "mm", "123", "+123"},
		{0.004, "in", "0.00", "0.00"},
		{2.56, "ft", "2.56", "+2.56"},
		{100, "d", "100", "+100"},
		{-3.6, "day of year", "-4", "-4 d"},
		{0.2, "day of year", "0", "0 d"},
		{math.NaN(), "mm", "NaN", "-"},
	} {
		if got := digits(c.x, c.unit); got != c.want {
			t.Errorf("digits of %g %s: %q, want %q", c.x, c.unit, got, c.want)
		}
		if got := signed(c.x, c.unit); got != c.signed {
			t.Errorf("signed %g %s: %q, want %q", c.x, c.unit, got, c.signed)
		}
	}
}

// 15 May is day 135 of a common year, 1 March day 60.
func TestDayWords(t *testing.T) {
	for day, want := range map[float64]string{1: "1 Jan", 60: "1 Mar", 134.6: "15 May", 365: "31 Dec"} {
		if got := dayWords(day); got != want {
			t.Errorf("day %g: %q, want %q", day, got, want)
		}
	}
}

func TestWrap(t *testing.T) {
	got := wrap("one two three four", 9, "  ")
	if want := "one two\n  three\n  four"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}
