package soil

import (
	"cmp"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
)

// thickestLitter is the most organic material (m) on a mineral soil that is left
// out; from 0.20 m on Soil Taxonomy (2014) calls it a histic epipedon, and the
// relations know no peat.
const thickestLitter = 0.20

// shallowest profile (m) of a field; common practice, a plough works deeper.
const shallowest = 0.10

// slowest conductivity (m/s) that lets water through: a survey's "very low" class
// ends at 0.1 um/s (Soil Survey Manual 2017, classes of Ksat).
const slowest = 0.1e-6

// lay turns the rows of one component into a profile.
func (s *Survey) lay(t *surveyTable, rows []surveyRow) {
	before := len(t.faults.list)
	for _, r := range rows {
		t.faults.wanted(r.line, depthTop, r.value.Top, "a depth in cm", "")
		t.faults.wanted(r.line, depthBottom, r.value.Bottom, "a depth in cm", "")
		if r.value.Bottom <= r.value.Top {
			t.faults.add(r.line, depthBottom, cm(r.value.Bottom), "a depth below "+depthTop+", "+cm(r.value.Top), "exchange the two, in the header where all rows are so")
		}
	}
	if len(t.faults.list) > before {
		return
	}
	slices.SortStableFunc(rows, func(a, b surveyRow) int { return cmp.Compare(a.value.Top, b.value.Top) })
	rows = s.dropRepeats(rows)
	rows = s.dropLitter(t, rows)
	if n := len(rows); n > 0 && rows[n-1].value.Bottom < shallowest {
		t.faults.add(rows[n-1].line, depthBottom, cm(rows[n-1].value.Bottom), "a profile deeper than "+cm(shallowest), "depths are in cm: are these in m?")
		return
	}
	depth := 0.0
	for i, r := range rows {
		h := &r.value
		switch {
		case h.Top > depth+1e-6:
			t.faults.add(r.line, depthTop, cm(h.Top), cm(depth)+", where the layer above ends", "a gap: add the layer between, or move a depth")
		case h.Top < depth-1e-6:
			t.faults.add(r.line, depthTop, cm(h.Top), cm(depth)+", where the layer above ends", "an overlap: keep one of the two, or move a depth")
		}
		depth = h.Bottom
		why := stopsWater(r)
		if why != "" && math.IsNaN(s.Restrictive) {
			s.Restrictive = h.Top
			s.note("restrictive layer at %s: %s", meters(h.Top), why)
		}
		switch {
		case !textured(r) && i > 0 && (why != "" || !slices.ContainsFunc(rows[i:], textured)):
			s.note("%s from %s carries no texture: the profile ends above it", called(r), meters(h.Top))
			for _, below := range rows[i+1:] {
				s.note("%s from %s lies below and is left out", called(below), meters(below.value.Top))
			}
			return
		case !textured(r):
			const allowed, mend = "a percentage, of every layer above rock", "fill it in, or take another component"
			t.faults.wanted(r.line, sandColumn, h.Sand, allowed, mend)
			t.faults.wanted(r.line, clayColumn, h.Clay, allowed, mend)
			continue
		}
		s.complete(t, &r)
		s.Horizons, s.Low, s.High = append(s.Horizons, r.value), append(s.Low, r.low), append(s.High, r.top)
	}
}

func textured(r surveyRow) bool { return given(r.value.Sand) && given(r.value.Clay) }

// dropRepeats leaves out rows that say the same again, as joins of tables do.
func (s *Survey) dropRepeats(rows []surveyRow) []surveyRow {
	n := len(rows)
	rows = slices.CompactFunc(rows, func(a, b surveyRow) bool {
		a.line = b.line
		return fmt.Sprint(a) == fmt.Sprint(b) // NaN equals NaN here
	})
	if n > len(rows) {
		s.note("%d rows repeat the one above and were left out", n-len(rows))
	}
	return rows
}

// dropLitter leaves out a thin organic cover and counts depths from the mineral
// surface.
func (s *Survey) dropLitter(t *surveyTable, rows []surveyRow) []surveyRow {
	n := 0
	for n < len(rows) && organic(rows[n]) {
		n++
	}
	if n == 0 {
		return rows
	}
	thick := rows[n-1].value.Bottom
	if n == len(rows) || thick >= thickestLitter {
		t.faults.add(rows[0].line, "hzname", called(rows[0]), fmt.Sprintf("organic material up to %s thick", cm(thickestLitter)),
			"peat and muck lie beyond the relations: take another component, or measure the retention curve")
		return rows
	}
	s.note("%s of organic material at the surface left out: depths count from the mineral soil", cm(thick))
	rows = rows[n:]
	for i := range rows {
		for _, h := range []*Horizon{&rows[i].value, &rows[i].low, &rows[i].top} {
			// Whole millimetres, so that neighbours keep meeting.
			h.Top, h.Bottom = math.Round(1000*(h.Top-thick))/1000, math.Round(1000*(h.Bottom-thick))/1000
		}
	}
	return rows
}

// complete puts a layer in order for Derive and says what was done.
func (s *Survey) complete(t *surveyTable, r *surveyRow) {
	h := &r.value
	if sum := h.Sand + h.Clay; sum > 100 || given(h.Silt) && math.Abs(sum+h.Silt-100) > 1.5 {
		found := fmt.Sprintf("sand %g, silt %g, clay %g %%", h.Sand, h.Silt, h.Clay)
		mend := "correct the share that is wrong"
		if sum <= 1 {
			mend = "are these fractions? write them in percent"
		}
		t.faults.add(r.line, clayColumn, found, "shares that make 100 %", mend)
		return
	}
	if !given(h.BulkDensity) && given(r.saturated) && r.saturated > 0 {
		h.BulkDensity = math.Round(1000*ParticleDensity*(1-r.saturated)) / 1000
		s.note("%s: density %.3g Mg/m3 from wsatiated_r", called(*r), h.BulkDensity)
	}
	if given(h.Ksat) && h.Ksat <= 0 {
		h.Ksat = math.NaN()
		s.note("%s: ksat_r of 0 is no conductivity: derived instead", called(*r))
	}
	points := [2]float64{h.Water33, h.Water1500}
	if (h.Water33 > 0) != (h.Water1500 > 0) {
		h.Water33, h.Water1500 = 0, 0
		s.note("%s: one of wthirdbar_r, wfifteenbar_r alone: both derived instead", called(*r))
	}
	if !h.pointsGiven() {
		h.Water33, h.Water1500 = 0, 0
	}
	if err := h.Check(); err != nil {
		t.faults.addError(r, err)
		return
	}
	_, err := Derive(*h)
	if err != nil && h.pointsGiven() {
		h.Water33, h.Water1500 = 0, 0
		s.note("%s: wthirdbar_r %.3g and wfifteenbar_r %.3g %% fit no curve below the pores of its density: derived instead", called(*r), 100*points[0], 100*points[1])
		_, err = Derive(*h)
	}
	if err != nil {
		t.faults.addError(r, err)
	}
}

// Names of horizons (Soil Survey Manual 2017, chapter 3): a digit for another
// parent material, capitals for the master horizon, small letters for what befell
// it: r weathered rock, d dense, m cemented, x a fragipan.
var (
	masterRock  = regexp.MustCompile(`^[0-9']*R`)
	softRock    = regexp.MustCompile(`^[0-9']*C[a-z]*r`)
	denseLayer  = regexp.MustCompile(`^[0-9']*[BCE]+[a-z]*[dmx]`)
	organicName = regexp.MustCompile(`^[0-9']*O`)
)

// stopsWater says why water does not pass a layer, "" when it does.
func stopsWater(r surveyRow) string {
	switch {
	case masterRock.MatchString(r.name):
		return r.name + " is bedrock"
	case softRock.MatchString(r.name):
		return r.name + " is weathered bedrock"
	case denseLayer.MatchString(r.name):
		return r.name + " is dense or cemented"
	case r.value.Ksat < slowest:
		return fmt.Sprintf("%s has a ksat_r of %.3g um/s, under 0.1", called(r), r.value.Ksat*1e6)
	}
	return ""
}

// organic says whether a layer is litter or peat: by its name, or without one by
// organic matter that no mineral soil has (Soil Taxonomy: 12-18 % organic carbon,
// 20-30 % organic matter).
func organic(r surveyRow) bool {
	return organicName.MatchString(r.name) || r.value.Organic > 30 || r.value.Organic > 20 && !given(r.value.Sand)
}

func called(r surveyRow) string {
	if r.name == "" {
		return "layer of line " + strconv.Itoa(r.line)
	}
	return r.name
}

func cm(m float64) string     { return fmt.Sprintf("%.3g cm", 100*m) }
func meters(m float64) string { return fmt.Sprintf("%.3g m", m) }
