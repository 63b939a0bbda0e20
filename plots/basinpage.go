package plots

import (
	"bytes"
	_ "embed"
	"fmt"
	"html/template"
	"math"
	"strings"

	"mottle/sim/basin"
	"mottle/sim/site"
	"mottle/sim/worth"
)

//go:embed basinpage.html
var basinText string

// The page of a basin shares the tables of the decision's.
var basinTemplate = template.Must(template.Must(pageTemplate.Clone()).New("basin").Parse(basinText))

// basinView is what the template shows.
type basinView struct {
	Style                template.CSS
	Title, Stamp, Source string
	Stance, Basis        string
	Facts                []fact
	Figures              []pageFigure
	Questions            []publicQuestion
	Scenarios            grid
	Held                 []grid
	LeftOut, Cautions    []worth.Caution
	Assumptions          []site.Assumption
	Notes                []string
}

// publicQuestion is one that people ask where a plan is laid out, with its answer.
type publicQuestion struct{ Ask, Verdict, Answer, Interval, Why string }

// Class is the look of the verdict.
func (q publicQuestion) Class() string {
	switch q.Verdict {
	case rises:
		return "yes"
	case falls, steady:
		return "no"
	case depends:
		return "depends"
	}
	return "unknown"
}

// BasinPage is a basin under its scenarios as one page of HTML that stands alone: it
// fetches nothing, runs no script and follows the reader's colour scheme. Its answers
// hold the scenario whose drained share lies farthest from the first's against the
// first; its tables hold all. With us its units are US customary, flows cubic feet a
// second. The same result gives the same bytes. Errors are those of [BasinFigures].
func BasinPage(r *basin.Result, us bool) ([]byte, error) {
	w, err := survey(r, us)
	if err != nil {
		return nil, err
	}
	p := basinView{Style: template.CSS(pageStyle), Title: r.Basin.Name, Stamp: w.stamp(), Source: w.source(), Facts: w.facts(),
		Scenarios: w.scenarios(), LeftOut: leftOut, Cautions: publicCautions, Assumptions: r.Basin.Assumed,
		Notes: append(append([]string(nil), r.Basin.Notes...), r.Notes...)}
	p.Stance, p.Basis = w.answer()
	if w.other != nil {
		p.Questions = w.questions()
		for k := 1; k < len(r.Scenarios); k++ {
			p.Held = append(p.Held, w.held(k))
		}
	}
	drawings, err := w.drawings()
	if err != nil {
		return nil, err
	}
	for _, one := range drawings {
		svg, err := decision{}.onPage(one)
		if err != nil {
			return nil, err
		}
		p.Figures = append(p.Figures, pageFigure{one.name, one.title, one.says, one.notes, one.from, svg})
	}
	var b bytes.Buffer
	if err := basinTemplate.Execute(&b, p); err != nil {
		return nil, fmt.Errorf("basin page: %w", err)
	}
	return b.Bytes(), nil
}

// answer is the stance in one sentence, and what it rests on.
func (w watershed) answer() (stance, basis string) {
	years := count(len(w.r.Years), "year")
	if w.other == nil {
		return "One scenario, nothing to hold against it.", fmt.Sprintf("%s of weather were simulated under %s.", years, quoted(w.first()))
	}
	by := map[string][]string{} // names by word
	say := func(name, word string) { by[word] = append(by[word], name) }
	if word := w.floodWord(w.other); word != depends {
		say("floods", word)
	} else {
		for _, e := range w.floods(w.other) {
			say("the "+e.name, e.word)
		}
	}
	say("the spring flood", w.spring(w.other).word)
	say("the year’s flow", w.yearly(w.other).word)
	say("low flow", w.lowFlow(w.other).word)
	var parts []string
	for _, one := range []struct{ word, verb string }{{rises, "would have risen"}, {falls, "would have fallen"}, {steady, "would not have changed"}} {
		if names := by[one.word]; len(names) > 0 {
			parts = append(parts, andList(names)+" "+one.verb)
		}
	}
	if names := by[unclear]; len(names) > 0 {
		parts = append(parts, "no one can say from this run which way "+andList(names)+" would have gone")
	}
	stance = "At the outlet " + strings.Join(parts, "; ")
	return stance + ".", fmt.Sprintf("%s of weather, %s (%.0f %% of the drainable land has tile) held against %s (%.0f %%).",
		years, quoted(w.other), 100*w.other.Share, quoted(w.first()), 100*w.first().Share)
}

// andList writes names in a row.
func andList(names []string) string {
	if n := len(names); n > 1 {
		return strings.Join(names[:n-1], ", ") + " and " + names[n-1]
	}
	return names[0]
}

// facts are the figures that a reader looks for first.
func (w watershed) facts() []fact {
	out := outlet(w.first())
	list := []fact{{Name: "land above the outlet", Value: round3(w.value(out.Area/1e4, "ha")), Unit: w.unit("ha"), More: count(len(w.r.Basin.Units), "unit")}}
	if w.other == nil {
		return list
	}
	now := w.first().Name + " → " + w.other.Name
	list = append(list, fact{Name: "drained share", Value: fmt.Sprintf("%.0f → %.0f %%", 100*w.first().Share, 100*w.other.Share), More: now})
	for _, e := range []effect{w.peak(w.other), w.yearly(w.other), w.lowFlow(w.other)} {
		more := e.change()
		if i := e.interval(); i != "" {
			more += ", 90 % interval " + i
		}
		list = append(list, fact{Name: e.name, Value: shortFlow(e.was) + " → " + shortFlow(e.is), Unit: e.unit, More: more + ": " + e.word})
	}
	return list
}

// peak is the mean of the yearly largest hours.
func (w watershed) peak(s *basin.Outcome) effect {
	return ofYears("mean yearly peak", w.flowUnit(), w.flows(outlet(w.first()).Peaks.Year), w.flows(outlet(s).Peaks.Year))
}

// questions are what people ask, answered for the pair from intervals alone.
func (w watershed) questions() []publicQuestion {
	s := w.other
	from := fmt.Sprintf("From %s to %s ", quoted(w.first()), quoted(s))
	one := func(ask string, e effect, subject, why string) publicQuestion {
		answer := from + subject + " goes from " + e.value()
		if c := e.change(); c != "–" {
			answer += ", " + c
		}
		return publicQuestion{ask, e.word, answer + ".", e.interval(), why}
	}
	const ofPairs = "The interval, like those of the next two answers, is Student’s, of the differences of the same years: it holds what the weather does, not what the simulation may have wrong."
	floods := publicQuestion{Ask: "Do floods rise at the outlet?", Verdict: w.floodWord(s), Answer: w.floodWords()}
	if len(w.floods(s)) > 0 {
		floods.Why = "In brackets the 90 % interval of each, years resampled in pairs. A word for all only where all go one way."
	}
	drain := w.drained(s)
	n := worth.Nitrate()
	load := func(drained float64) string { // mg/L of a mm are 0.01 kg/ha
		mm := drained / w.value(1, "mm")
		return fmt.Sprintf("%s to %s %s", shortFlow(w.value(mm*n.Low/100, "kg/ha")), shortFlow(w.value(mm*n.High/100, "kg/ha")), w.unit("kg/ha"))
	}
	nitrate := publicQuestion{Ask: "Does more nitrate leave?", Verdict: drain.word, Interval: drain.interval(),
		Answer: fmt.Sprintf("%sdrain flow goes from %s a year; at published concentrations of drain water it carries %s of nitrogen a year before, %s after.", from, drain.value(), load(drain.was), load(drain.is)),
		Why:    fmt.Sprintf("Typical concentrations are %.0f to %.0f mg N/L (from memory), taken to be the same before and after; no nitrogen is simulated. Verdict and interval are of drain flow.", n.Low, n.High)}
	salt := w.salt(s)
	return []publicQuestion{
		floods,
		one("Does the spring flood rise?", w.spring(s), "the mean of the largest hours of March to May", ofPairs),
		one("Does the yearly flow rise?", w.yearly(s), "the water that leaves in a year, over the land above,", ""),
		one("What of low flow?", w.lowFlow(s), "the mean of the year’s least 7 days", ""),
		one("Does more salt leave?", salt, "the salt that leaves by drains in a year, over the land above,", ""),
		nitrate,
	}
}

// scenarios lists all with what they do at the outlet.
func (w watershed) scenarios() grid {
	g := grid{ID: "all-scenarios", Caption: "Scenarios, means of the years", Words: 1, Head: []string{"scenario", "drained (%)", "yearly peak (" + w.flowUnit() + ")",
		"spring peak (" + w.flowUnit() + ")", "yearly flow (" + w.unit("mm") + ")", "by drains (" + w.unit("mm") + ")", "7-day low (" + w.flowUnit() + ")", "flashiness"}}
	for k := range w.r.Scenarios {
		s := &w.r.Scenarios[k]
		g.Rows = append(g.Rows, row(s.Name, fmt.Sprintf("%.0f", 100*s.Share), shortFlow(w.peak(s).is), shortFlow(w.spring(s).is), shortFlow(w.yearly(s).is),
			shortFlow(w.drained(s).is), shortFlow(w.lowFlow(s).is), shortFlow(outlet(s).Flashiness)))
	}
	return g
}

// held holds a scenario against the first.
func (w watershed) held(k int) grid {
	s := &w.r.Scenarios[k]
	g := grid{ID: fmt.Sprintf("held-%d", k), Caption: fmt.Sprintf("%s held against %s", quoted(s), quoted(w.first())), Words: 1,
		Head: []string{"at the outlet", w.first().Name, s.Name, "change", "90 % interval", "in a word"}}
	for _, e := range w.effects(s) {
		name := e.name
		if e.unit != "" {
			name += " (" + e.unit + ")"
		}
		interval := e.interval()
		if interval == "" {
			interval = "–"
		}
		if e.low < -100 {
			g.Note = "The interval of few years is the same to both sides of the change, so it may reach below −100 %."
		}
		g.Rows = append(g.Rows, row(name, number(e.was), number(e.is), e.change(), interval, strings.ReplaceAll(e.word, " ", "\u00a0")))
	}
	return g
}

// number writes a value of a table.
func number(x float64) string {
	if math.IsNaN(x) {
		return "–"
	}
	return shortFlow(x)
}

// leftOut is what no scenario holds.
var leftOut = []worth.Caution{
	{Topic: "Backwater", Text: "Water that stands high in ditch or stream does not hold back what fields upstream drain; each field drains as if its outlet were free."},
	{Topic: "Channel works", Text: "Ditches stay as the file has them: none is deepened, widened or cleaned for the tile that is laid, and none breaks its banks."},
	{Topic: "Structures", Text: "Culverts, bridges, dikes and surface inlets hold back or pass nothing but what the file gives as an outlet’s capacity or a pond."},
	{Topic: "Ice", Text: "Ice and snow in the channel do not dam it, which often makes the spring flood of a northern stream."},
	{Topic: "Chemistry", Text: "Nitrogen and phosphorus are not simulated; salt is, in the land, not in the channel."},
}

// publicCautions are those that every plan of a basin calls for. They are no legal
// advice.
var publicCautions = []worth.Caution{
	{Topic: "Wetland determination", Text: "Ask the federal conservation service for a certified determination before any land is drained: cropping ground drained after the rules’ dates can end farm-program and crop-insurance help on all land farmed.", Rule: "16 U.S.C. 3821-3824; 7 CFR Part 12"},
	{Topic: "Permits", Text: "County, watershed or drainage district may want a permit, a petition or a fee; work in waters may need a federal permit.", Rule: "state drainage codes; Clean Water Act section 404"},
	{Topic: "Outlet rights", Text: "The water needs a lawful outlet, and those below may have rights or have to grant an easement.", Rule: "state drainage law"},
	{Topic: "Licensed engineer", Text: "This page screens scenarios and designs nothing. Ditches, structures and what a flood may endanger want the design and the stamp of a licensed engineer, with measured flow.", Rule: "state engineering practice law"},
}
