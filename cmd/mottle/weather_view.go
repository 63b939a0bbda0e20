package main

import (
	"encoding/json"
	"fmt"
	"io"
	"math"

	"mottle/sim/unit"
	"mottle/weather"
)

// quantity is a value with its unit.
type quantity struct {
	Value number `json:"value"`
	Unit  string `json:"unit"`
}

// weatherUnits are the units of daily records that another system has partners of;
// the others stay as they are.
var weatherUnits = map[string]bool{"C": true, "mm": true, "m": true, "C-d": true}

// of turns a value into the units asked for.
func of(x float64, si string, units unit.System) quantity {
	if weatherUnits[si] {
		x, si = units.Value(x, si)
	}
	return quantity{number{value: x}, si}
}

// differenceOf is of for a difference of two values.
func differenceOf(x float64, si string, units unit.System) quantity {
	if weatherUnits[si] {
		x, si = units.Difference(x, si)
	}
	return quantity{number{value: x}, si}
}

// recordView is a record as it is shown, in the units asked for.
type recordView struct {
	Input         source             `json:"input"`
	Station       string             `json:"station"`
	Name          string             `json:"name,omitempty"`
	Latitude      number             `json:"latitude_deg"`
	Longitude     number             `json:"longitude_deg"`
	Elevation     quantity           `json:"elevation"`
	Layout        string             `json:"layout"`
	Invented      bool               `json:"invented"`
	From          string             `json:"from"`
	To            string             `json:"to"`
	Days          int                `json:"days"`
	ReadHour      number             `json:"read_hour"`
	ReadAssumed   string             `json:"read_hour_assumed_because,omitempty"`
	Years         []int              `json:"years"`
	Completeness  []completenessView `json:"completeness"`
	Extremes      []extremeView      `json:"extremes"`
	AnnualPrecip  []number           `json:"annual_precipitation"`
	MeanPrecip    quantity           `json:"mean_annual_precipitation"`
	Trend         trendView          `json:"precipitation_trend"`
	FreezingIndex []winterView       `json:"freezing_index"`
	Design        quantity           `json:"design_freezing_index"`
	DesignWinters int                `json:"design_freezing_index_winters"`
	Gaps          []gapView          `json:"gaps"`
	Counts        countsView         `json:"counts"`
	Notes         []string           `json:"notes"`
	Slips         []slipView         `json:"unit_slips"`
	Suspects      []suspectView      `json:"suspect_values"`
	Untested      []string           `json:"not_tested"`
	WetDays       *shiftView         `json:"wet_day_jump"`
	Demand        demandView         `json:"reference_evapotranspiration"`

	found *weather.Inspection
	units unit.System
}

type completenessView struct {
	Element string    `json:"element"`
	Days    int       `json:"days"`
	Share   []float64 `json:"share_by_year"`
}

type extremeView struct {
	Element string `json:"element"`
	Kind    string `json:"kind"`
	quantity
	Date  string `json:"date"`
	Times int    `json:"days"`
}

type trendView struct {
	Years  int      `json:"years"`
	Slope  quantity `json:"per_decade"`
	P      number   `json:"p"`
	Method string   `json:"method"`
}

type winterView struct {
	Begins int `json:"begins"`
	quantity
	Known int `json:"days_known_october_to_april"`
}

type gapView struct {
	Element string `json:"element"`
	From    string `json:"from"`
	Days    int    `json:"days"`
}

// countsView is what reading the file counted.
type countsView struct {
	Rows           int `json:"rows"`
	Absent         int `json:"absent_days"`
	Rejected       int `json:"rejected_by_the_agency"`
	OutOfRange     int `json:"out_of_range"`
	Contradictory  int `json:"tmax_below_tmin"`
	OutOfOrder     int `json:"out_of_order"`
	Duplicates     int `json:"repeated_rows"`
	Trace          int `json:"trace"`
	Spread         int `json:"spread_totals"`
	CalendarFilled int `json:"calendar_filled"`
}

type slipView struct {
	Element  string   `json:"element"`
	From     string   `json:"from"`
	To       string   `json:"to"`
	Whole    bool     `json:"whole_record"`
	Evidence string   `json:"evidence"`
	Guesses  []string `json:"perhaps"`
}

type suspectView struct {
	Date    string `json:"date"`
	Days    int    `json:"days"`
	Element string `json:"element"`
	quantity
	Reason string `json:"reason"`
}

type shiftView struct {
	Year   int     `json:"year"`
	Before float64 `json:"wet_days_before"`
	After  float64 `json:"wet_days_after"`
	P      float64 `json:"p"`
}

type demandView struct {
	Method  string   `json:"method"`
	PerYear quantity `json:"per_year"`
	Assumed []string `json:"assumed"`
}

const trendMethod = "median of pairwise slopes (Theil 1950, Sen 1968), rank test (Mann 1945, Kendall 1975)"

// newRecordView turns what was found into what is shown.
func newRecordView(r record, units unit.System) recordView {
	f := r.found
	v := recordView{
		Input: r.source, Station: f.Station.ID, Name: f.Station.Name,
		Latitude: number{value: f.Station.Latitude}, Longitude: number{value: f.Station.Longitude}, Elevation: of(f.Station.Elevation, "m", units),
		Layout: f.Layout, Invented: f.Invented, From: f.First.String(), To: f.Last.String(), Days: r.series.Days(),
		ReadHour: number{value: f.ReadHour}, ReadAssumed: f.ReadHourReason, Years: f.Years,
		MeanPrecip:    of(f.MeanPrecip, "mm", units),
		Trend:         trendView{f.PrecipTrend.Years, differenceOf(10*f.PrecipTrend.Slope, "mm", units), number{value: f.PrecipTrend.P}, trendMethod},
		Design:        of(f.Design, "C-d", units),
		DesignWinters: f.DesignYears,
		Notes:         list(f.Notes), Untested: list(f.Untested),
		Extremes: []extremeView{}, FreezingIndex: []winterView{}, Gaps: []gapView{}, Slips: []slipView{}, Suspects: []suspectView{},
		Demand: demandView{"none", of(f.Demand.PerYear, "mm", units), list(f.Demand.Assumed)},
		found:  f, units: units,
	}
	if !math.IsNaN(f.Demand.PerYear) {
		v.Demand.Method = f.Demand.Method.String()
	}
	c := f.Counts
	v.Counts = countsView{c.Rows, c.Absent, c.Rejected, c.OutOfRange, c.Contradictory, c.OutOfOrder, c.Duplicates, c.Trace, c.Spread, c.CalendarFilled}
	for _, e := range f.Complete {
		v.Completeness = append(v.Completeness, completenessView{e.Element, e.Days, e.Share})
	}
	for _, e := range f.Extremes {
		kind := map[bool]string{true: "highest", false: "lowest"}[e.Highest]
		v.Extremes = append(v.Extremes, extremeView{e.Element, kind, of(e.Value, e.Unit, units), e.Date.String(), e.Times})
	}
	for _, x := range f.AnnualPrecip {
		v.AnnualPrecip = append(v.AnnualPrecip, of(x, "mm", units).Value)
	}
	for _, w := range f.Winters {
		v.FreezingIndex = append(v.FreezingIndex, winterView{w.Begins, of(w.FreezingIndex, "C-d", units), w.Known})
	}
	for _, g := range f.Gaps {
		v.Gaps = append(v.Gaps, gapView{g.Element, g.First.String(), g.Days})
	}
	for _, s := range f.Slips {
		v.Slips = append(v.Slips, slipView{s.Element, s.From.String(), s.To.String(), s.Whole, s.Evidence, list(s.Guesses)})
	}
	for _, s := range f.Suspects {
		v.Suspects = append(v.Suspects, suspectView{s.First.String(), s.Days, s.Element, of(s.Value, s.Unit, units), s.Reason})
	}
	if s := f.WetDays; s != nil {
		v.WetDays = &shiftView{s.Year, s.Before, s.After, s.P}
	}
	return v
}

// list is never null in JSON.
func list(lines []string) []string { return append([]string{}, lines...) }

// weatherResult is all that the command shows.
type weatherResult struct {
	Version string        `json:"version"`
	Records []recordView  `json:"records"`
	Overlap []overlapView `json:"overlap,omitempty"`
	Fill    *fillView     `json:"fill,omitempty"`
}

// overlapView sets the first record against another.
type overlapView struct {
	First    string               `json:"first"`
	Second   string               `json:"second"`
	From     string               `json:"from,omitempty"`
	To       string               `json:"to,omitempty"`
	Elements []overlapElementView `json:"elements"`
}

type overlapElementView struct {
	Element     string   `json:"element"`
	Days        int      `json:"days"`
	Difference  quantity `json:"difference"`
	Ratio       number   `json:"ratio"`
	Correlation number   `json:"correlation"`
}

func newWeatherView(records []record, units unit.System) *weatherResult {
	v := &weatherResult{Version: version()}
	for _, r := range records {
		v.Records = append(v.Records, newRecordView(r, units))
	}
	for _, r := range records[1:] {
		o := weather.Compare(byCivilDay(records[0].series), byCivilDay(r.series))
		line := overlapView{First: records[0].name, Second: r.name}
		if o.First <= o.Last {
			line.From, line.To = o.First.String(), o.Last.String()
		}
		for _, e := range o.Elements {
			line.Elements = append(line.Elements, overlapElementView{e.Element, e.Days, differenceOf(e.Difference, e.Unit, units), number{value: e.Ratio}, number{value: e.Correlation}})
		}
		v.Overlap = append(v.Overlap, line)
	}
	return v
}

func (v *weatherResult) writeJSON(w io.Writer) error {
	e := json.NewEncoder(w)
	e.SetIndent("", " ")
	return e.Encode(v)
}

// String is a quantity in words, "4.1 C", "-" where there is none.
func (q quantity) String() string {
	if math.IsNaN(q.Value.value) {
		return "-"
	}
	return fmt.Sprintf("%s %s", digits(q.Value.value, q.Unit), q.Unit)
}
