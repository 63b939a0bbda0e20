package plots

import (
	"bytes"
	"fmt"
	"html"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"mottle/sim/compare"
	"mottle/sim/worth"
)

// cases are decisions made by hand that a page must show: one that pays, one of a
// field that needs no tile, one that may go either way, one without futures and
// designs, and one of a single year.
func cases(t testing.TB) map[string]*worth.Result {
	pays := invent(t, 40)
	none := invent(t, 40)
	none.Futures = futures(-2500, 700)
	none.Money.NPV, none.Money.Income, none.Money.Rate, none.Money.RateWhy = -2500, -4, math.NaN(), "no rate brings the flows to 0"
	none.Money.Simple.Years, none.Money.Discounted.Years = math.Inf(1), math.Inf(1)
	none.Money.BreakEvenGain, none.Money.BreakEvenPrice = math.Inf(1), math.Inf(1)
	change(none, "peak_hour", func(l *compare.Line) { l.Difference, l.Low, l.High, l.Resolved = 0.6, 0.2, 1.1, true })
	change(none, "days_saturated", func(l *compare.Line) { l.AsItLies, l.WithTile, l.Difference, l.Resolved = 0.6, 0.5, -0.1, false })
	for i := range none.Income {
		none.Income[i] = -float64(i % 7)
	}
	depends := invent(t, 40)
	depends.Futures = futures(100, 3000)
	for i := range 8 { // as many words as a page may have to print
		q, c := depends.Questions[i%4], depends.Cautions[i%4]
		q.Ask, c.Topic, c.Strong = fmt.Sprintf("%s (%d)", q.Ask, i+2), fmt.Sprintf("%s (%d)", c.Topic, i+2), false
		depends.Questions, depends.Cautions = append(depends.Questions, q), append(depends.Cautions, c)
	}
	bare := invent(t, 12)
	bare.Futures, bare.Map, bare.Outlets, bare.Others, bare.Trials, bare.LateralWay, bare.Controlled = nil, nil, nil, nil, nil, 0, worth.Controlled{}
	bare.Questions, bare.Cautions, bare.Assumptions = nil, nil, nil
	return map[string]*worth.Result{"pays": pays, "none": none, "depends": depends, "bare": bare, "year": invent(t, 1)}
}

func pageOf(t testing.TB, r *worth.Result, us bool) string {
	t.Helper()
	b, err := WorthPage(r, us)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

// TestWritePages writes the pages of all cases for a browser to look at into the
// folder that MOTTLE_PAGES names.
func TestWritePages(t *testing.T) {
	dir := os.Getenv("MOTTLE_PAGES")
	if dir == "" {
		t.Skip("MOTTLE_PAGES names no folder")
	}
	for name, r := range cases(t) {
		for suffix, us := range map[string]bool{"si": false, "us": true} {
			if err := os.WriteFile(filepath.Join(dir, name+"-"+suffix+".html"), []byte(pageOf(t, r, us)), 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
}

var traced = regexp.MustCompile(`data-from="([^" ]+) ([^":]+):([^"]+)"`)

// Every claim names a figure or table of its page and a column or row of a file.
func TestClaimsCanBeTraced(t *testing.T) {
	for name, r := range cases(t) {
		text := pageOf(t, r, false)
		files := WorthTables(r)
		found := traced.FindAllStringSubmatch(text, -1)
		if len(found) != strings.Count(text, "data-from=") || len(found) < 8 {
			t.Errorf("%s: %d claims can be read, %d are marked, want 8 and more", name, len(found), strings.Count(text, "data-from="))
		}
		for _, f := range found {
			if !strings.Contains(text, `id="`+f[1]+`"`) {
				t.Errorf("%s: no figure or table %q on the page", name, f[1])
			}
			if f[2] == "yearly.csv" {
				known := f[3] == "year" || slices.ContainsFunc(r.Compare.Lines, func(l compare.Line) bool { return l.Name == f[3] })
				if !known {
					t.Errorf("%s: yearly.csv has no %q", name, f[3])
				}
				continue
			}
			table, ok := files[f[2]]
			if !ok || !slices.Contains(table[0], f[3]) && !slices.ContainsFunc(table, func(row []string) bool { return row[0] == f[3] }) {
				t.Errorf("%s: %s has no %q", name, f[2], f[3])
			}
		}
		for _, c := range answer(r, system(false)) {
			if strings.ContainsAny(c.Text, "0123456789") && c.From == "" {
				t.Errorf("%s: the claim %q names no source", name, c.Text)
			}
		}
	}
}

// What the sentence says is what the files hold.
func TestClaimsAgreeWithTheFiles(t *testing.T) {
	r := invent(t, 40)
	value := func(file string, want ...string) float64 {
		for _, row := range WorthTables(r)[file] {
			if row[0] == want[0] && (len(want) == 1 || slices.Equal(row[2:4], want[1:])) {
				v, err := strconv.ParseFloat(row[len(row)-2], 64)
				if err != nil {
					t.Fatal(err)
				}
				return v
			}
		}
		t.Fatalf("%s: no row %v", file, want)
		return 0
	}
	text := WorthSentence(r, false)
	for _, want := range []string{
		fmt.Sprintf("was %s USD/ha", round3(value("futures.csv", "npv", "30", "0.5"))),
		fmt.Sprintf("(%s to %s in nine futures", round3(value("futures.csv", "npv", "30", "0.05")), round3(value("futures.csv", "npv", "30", "0.95"))),
		fmt.Sprintf("within 15 years in %.0f of 100", 100*value("futures.csv", "paid_back", "15", "")),
		fmt.Sprintf("added %s USD/ha", round3(value("money.csv", "extra_income"))),
		fmt.Sprintf("%.3g m apart", value("money.csv", "tile_spacing")),
	} {
		if !strings.Contains(text, want) {
			t.Errorf("%q lacks %q", text, want)
		}
	}
}

// Text that a user wrote stays text.
func TestPageEscapes(t *testing.T) {
	r := invent(t, 4)
	const evil = `<script>alert("x")</script><img src=x onerror='y'>&`
	f := *r.Field
	f.Name, f.Place = evil, evil
	series := *r.Compare.Series
	series.Station.Name = evil
	r.Field, r.Compare.Series = &f, &series
	r.Cautions[0].Topic, r.Cautions[0].Text, r.Cautions[0].Rule = evil, evil, evil
	r.Questions[0].Ask, r.Questions[0].Answer, r.Questions[0].Why, r.Questions[0].Verdict, r.Questions[0].Unit = evil, evil, evil, evil, evil
	r.Assumptions[0].Key, r.Assumptions[0].Value, r.Assumptions[0].Reason = evil, evil, evil
	r.Others[0].Name, r.Trials[0].Place, r.Bill[0].Item, r.Controlled.Calendar, r.Map.Step = evil, evil, evil, evil, evil
	r.Futures.Inputs[0].Input = evil
	r.Futures.NPV = futures(0, 1000).NPV
	text := pageOf(t, r, false)
	if n := strings.Count(text, "&lt;script&gt;"); n < 15 {
		t.Errorf("the text stands %d times on the page, want 15 and more", n)
	}
	for _, bad := range []string{"<script", "<img", "onerror='y'>"} {
		if strings.Contains(text, bad) {
			t.Errorf("found %q", bad)
		}
	}
}

// A page stands alone: nothing is fetched, nothing runs.
func TestPageStandsAlone(t *testing.T) {
	for name, r := range cases(t) {
		text := pageOf(t, r, true)
		for _, bad := range []string{"http://", "https://", "src=", "@import", "url(", "<script", "<link rel=\"stylesheet", "javascript:", "<iframe", "ZgotmplZ", "NaN", "Inf ", "%!"} {
			if strings.Contains(text, bad) {
				t.Errorf("%s: found %q", name, bad)
			}
		}
		for _, want := range []string{`<html lang="en">`, "<main>", `href="#answer"`, "</html>"} {
			if !strings.Contains(text, want) {
				t.Errorf("%s: lacks %q", name, want)
			}
		}
		if tables, scrolled := strings.Count(text, "<table"), strings.Count(text, `class="scroll" role="region" tabindex="0"`); tables != scrolled || tables != strings.Count(text, "<caption") {
			t.Errorf("%s: %d tables, %d regions that scroll", name, tables, scrolled)
		}
	}
}

// The sentence on the page is the sentence in text, and the page says what it is of.
func TestPageSaysTheAnswer(t *testing.T) {
	for name, r := range cases(t) {
		text := pageOf(t, r, true)
		_, rest, _ := strings.Cut(text, `<p class="answer">`)
		shown, _, _ := strings.Cut(rest, "</p>")
		shown = html.UnescapeString(regexp.MustCompile(`<[^>]*>`).ReplaceAllString(shown, ""))
		if want := WorthSentence(r, true); shown != want {
			t.Errorf("%s: the page says %q, the text %q", name, shown, want)
		}
		if n := strings.Count(text, "INVENTED FIELD AND WEATHER"); n != 2 {
			t.Errorf("%s: marked as invented %d times, want 2", name, n)
		}
	}
	real := invent(t, 4)
	f, w := *real.Field, *real.Compare.Series
	f.Invented, w.Invented = false, false
	real.Field, real.Compare.Series = &f, &w
	if text := pageOf(t, real, true); strings.Contains(text, "INVENTED") {
		t.Error("a real field is marked as invented")
	}
}

// Cautions that the field calls for come first and are named beside the answer.
func TestStrongCautionsFirst(t *testing.T) {
	text := pageOf(t, invent(t, 4), false)
	var order []string
	for _, m := range regexp.MustCompile(`id="caution-\d+"(?: class="strong")?>(?:<strong>This field in particular: |<b>)([^.<]+)\.`).FindAllStringSubmatch(text, -1) {
		order = append(order, m[1])
	}
	if want := []string{"wetland determination", "trench safety", "state and local permit", "outlet"}; !slices.Equal(order, want) {
		t.Errorf("cautions %q, want %q", order, want)
	}
	if !strings.Contains(text, `Settle first:</b> <a href="#caution-1">wetland determination</a>, <a href="#caution-2">trench safety</a>.`) {
		t.Error("the strong cautions are not named beside the answer")
	}
}

// Peaks that rise, fall, may do either, or do not differ, in words.
func TestChangesInWords(t *testing.T) {
	for _, c := range []struct {
		difference, low, high float64
		resolved, date        bool
		want                  string
	}{
		{0.6, 0.2, 1.1, true, false, "rises"}, {-0.8, -1.1, -0.5, true, false, "falls"}, {0.2, -0.3, 0.7, true, false, "unclear: may rise or fall"},
		{0.01, 0.005, 0.02, false, false, "no difference beyond noise"}, {math.NaN(), math.NaN(), math.NaN(), false, false, "cannot be told"},
		{-14, -17, -10, true, true, "earlier"}, {3, 1, 5, true, true, "later"},
	} {
		r := invent(t, 3)
		measure := "peak_hour"
		if c.date {
			measure = "planting_day"
		}
		change(r, measure, func(l *compare.Line) {
			l.Difference, l.Low, l.High, l.Resolved = c.difference, c.low, c.high, c.resolved
		})
		d, err := decide(r, false)
		if err != nil {
			t.Fatal(err)
		}
		found := ""
		for _, row := range d.changes().Rows {
			if strings.HasPrefix(row.Name(), map[bool]string{false: "peak flow, hour", true: "planting date"}[c.date]) {
				found = row.Cells[len(row.Cells)-1]
			}
		}
		if found != c.want {
			t.Errorf("%+v: %q", c, found)
		}
	}
}

func TestPageSameResultSameBytes(t *testing.T) {
	r := invent(t, 6)
	if !bytes.Equal([]byte(pageOf(t, r, true)), []byte(pageOf(t, r, true))) {
		t.Error("one result, two pages")
	}
}
