package sim

import (
	"context"
	"math"

	"mottle/sim/crop"
	"mottle/weather"
)

// Days are the daily results of one twin, one entry a day.
type Days struct {
	Precipitation []float64 // mm, as it fell on the civil day
	BlownOff      []float64 // mm of snow that the wind took
	Runon         []float64 // mm from the land above
	Transpiration []float64 // mm
	Asked         []float64 // mm of transpiration that the weather and the stand asked for
	Thirst        []float64 // mm of it that dryness cost
	Evaporation   []float64 // mm
	Drain         []float64 // mm through the tile
	Ditch         []float64 // mm of slow lateral outflow
	Runoff        []float64 // mm over the surface
	SeepageOut    []float64 // mm through the base
	LetIn         []float64 // mm through the base, inwards
	Storage       []float64 // mm in soil, pond and snow at the day's end
	Pond          []float64 // mm at the day's end
	Snow          []float64 // mm of water equivalent
	SnowDepth     []float64 // m
	Table         []float64 // m, mean depth of the water table; the column's depth when below it
	WetHours      []float64 // h with the table within 0.30 m
	Air           []float64 // m3/m3, mean air-filled space of the top 0.30 m
	Frost         []float64 // m, depth of frost
	Ice           []float64 // m3/m3, largest ice content above 2 m
	IceTop        []float64 // the same in the top 0.30 m
	PeakHour      []float64 // mm/h, largest hourly flow at the field's edge
	PeakRunoff    []float64 // mm/h, largest hourly surface runoff
	RootECe       []float64 // dS/m
	SaltIndex     []float64 // RootECe over the crop's threshold
	SaltDrained   []float64 // kg/ha through the tile
	Planted       []float64 // day of the year of planting, 0 before
	Bears         []bool    // a fieldwork day
	Season        []bool    // the crop stands
	Drowned       []bool    // standing water cost the stand
	Phase         []crop.Phase
}

func newDays(n int) *Days {
	d := &Days{Bears: make([]bool, n), Season: make([]bool, n), Drowned: make([]bool, n), Phase: make([]crop.Phase, n)}
	for _, s := range d.series() {
		*s = make([]float64, n)
	}
	return d
}

func (d *Days) series() []*[]float64 {
	return []*[]float64{&d.Precipitation, &d.BlownOff, &d.Runon, &d.Transpiration, &d.Asked, &d.Thirst, &d.Evaporation, &d.Drain, &d.Ditch, &d.Runoff,
		&d.SeepageOut, &d.LetIn, &d.Storage, &d.Pond, &d.Snow, &d.SnowDepth, &d.Table, &d.WetHours, &d.Air, &d.Frost, &d.Ice, &d.IceTop,
		&d.PeakHour, &d.PeakRunoff, &d.RootECe, &d.SaltIndex, &d.SaltDrained, &d.Planted}
}

// Record is what one twin's run left behind.
type Record struct {
	Forcing *Forcing
	Days    *Days
	Years   []YearSpan // the complete calendar years
	Ledger  Ledger
	Begun   float64 // mm stored before the first day
	// Of runs that keep their hours, 24 a day, mm: surface runoff, and flow through
	// the tile.
	Hourly, HourlyDrain []float64
}

// YearSpan is a calendar year in the record: days First to End-1.
type YearSpan struct {
	Year       int
	First, End int
}

// completeYears finds the calendar years that the record covers whole.
func completeYears(f *Forcing) []YearSpan {
	var spans []YearSpan
	for i := 0; i < f.Days(); {
		j := i
		for j < f.Days() && f.Year[j] == f.Year[i] {
			j++
		}
		year := int(f.Year[i])
		if f.YearDay[i] == 1 && j-i == int(weather.NewDate(year+1, 1, 1)-weather.NewDate(year, 1, 1)) {
			spans = append(spans, YearSpan{year, i, j})
		}
		i = j
	}
	return spans
}

// Run carries the engine through the whole record. keepHours asks for the hours of
// surface runoff and drain flow. progress, if not nil, is told of each year's end.
func (e *Engine) Run(ctx context.Context, keepHours bool, progress func()) (*Record, error) {
	f := e.forcing
	n := f.Days()
	r := &Record{Forcing: f, Days: newDays(n), Years: completeYears(f)}
	r.Begun = (e.Water.Storage() + e.Pack.SWE) * 1000
	if keepHours {
		r.Hourly, r.HourlyDrain = make([]float64, 24*n), make([]float64, 24*n)
	}
	book := newBook(e)
	for i := range n {
		if f.YearDay[i] == 1 {
			if err := ctx.Err(); err != nil {
				return nil, err
			}
			if i > 0 && progress != nil {
				progress()
			}
		}
		if err := e.Day(i, true); err != nil {
			return nil, err
		}
		e.note(r.Days, i)
		if keepHours {
			for h, q := range e.day.runoffHours {
				r.Hourly[24*i+h] = q * 1000
				r.HourlyDrain[24*i+h] = (e.day.hours[h] - q) * 1000
			}
		}
		book.day(e)
		if i+1 == n || f.Year[i+1] != f.Year[i] {
			r.Days.fallowSeason(f, i)
			r.Ledger.close(book, e, int(f.Year[i]))
		}
	}
	if progress != nil {
		progress()
	}
	return r, nil
}

// fallowSeason gives the year that ends on day i a season of April to October if
// no crop stood in it: a field too wet to plant must not count as one that was
// never wet in the season.
func (d *Days) fallowSeason(f *Forcing, i int) {
	first := i
	for ; first > 0 && f.Year[first-1] == f.Year[i]; first-- {
		if d.Season[first] {
			return
		}
	}
	for j := first; j <= i; j++ {
		d.Season[j] = d.Season[j] || f.Month[j] >= 4 && f.Month[j] <= 10
	}
}

// note writes the day into the record.
func (e *Engine) note(d *Days, i int) {
	t, w := &e.day, e.Water
	const mm = 1000
	d.Precipitation[i] = (t.flux.Rain + t.flux.SnowKept + t.flux.BlownOff) * mm
	d.BlownOff[i] = t.flux.BlownOff * mm
	d.Runon[i] = t.runon * mm
	d.Transpiration[i], d.Evaporation[i] = t.transpired*mm, t.evaporated*mm
	d.Drain[i], d.Ditch[i], d.Runoff[i] = t.drain*mm, t.ditch*mm, t.runoff*mm
	d.SeepageOut[i], d.LetIn[i] = t.baseOut*mm, t.baseIn*mm
	d.Storage[i] = (w.Storage() + e.Pack.SWE) * mm
	d.Pond[i], d.Snow[i], d.SnowDepth[i] = w.Pond*mm, e.Pack.SWE*mm, e.Pack.Depth()
	d.Table[i] = t.tableSeconds / 86400
	d.WetHours[i] = t.wetSeconds / 3600
	d.Air[i] = t.air / 86400
	d.Frost[i] = e.Heat.FrostDepth(thawedLimit)
	top := 0.0 // of the layer; the heat column goes on below the water's
	for j, ice := range e.Heat.Ice {
		if top >= 2 {
			break
		}
		d.Ice[i] = max(d.Ice[i], ice)
		if top < topsoilDepth {
			d.IceTop[i] = d.Ice[i]
		}
		top += e.plot.layers[j].Thickness
	}
	for h, q := range t.hours {
		d.PeakHour[i] = max(d.PeakHour[i], q*mm)
		d.PeakRunoff[i] = max(d.PeakRunoff[i], t.runoffHours[h]*mm)
	}
	d.RootECe[i] = e.rootECe
	d.SaltIndex[i] = e.rootECe / e.tolerance.Threshold
	if e.drain >= 0 {
		d.SaltDrained[i] = e.Salt.Lateral[e.drain] * 1e4
	}
	d.Planted[i] = float64(e.Stand.PlantedOn)
	d.Bears[i] = t.bears
	d.Asked[i], d.Thirst[i] = t.asked*mm, t.thirst*mm
	d.Drowned[i], d.Phase[i] = t.drowned, e.Stand.Phase()
	d.Season[i] = inSeason(&e.Stand, int(e.forcing.Month[i]))
}

// Ledger holds the closing errors of each year.
type Ledger struct {
	Year  []int
	Water []float64 // mm
	Salt  []float64 // kg/ha
}

// WorstWater is the largest closing error of a year, mm.
func (l Ledger) WorstWater() float64 { return worst(l.Water) }

// WorstSalt is the largest closing error of a year, kg/ha.
func (l Ledger) WorstSalt() float64 { return worst(l.Salt) }

func worst(x []float64) float64 {
	w := 0.0
	for _, v := range x {
		w = max(w, math.Abs(v))
	}
	return w
}

// book adds up what passed the borders since the last closing.
type book struct {
	water, salt           float64 // in less out, m and kg/m2
	waterStore, saltStore float64 // at the last closing
}

func newBook(e *Engine) *book {
	return &book{waterStore: e.Water.Storage() + e.Pack.SWE, saltStore: e.Salt.Total()}
}

// day books the day's flows over the borders.
func (b *book) day(e *Engine) {
	t := &e.day
	b.water += t.flux.Rain + t.flux.SnowKept + t.runon + t.baseIn -
		t.transpired - t.evaporated - t.drain - t.ditch - t.runoff - t.baseOut
	b.salt += t.saltArrived + t.salt.BaseIn - t.salt.BaseOut - t.salt.Laterals - t.salt.Runoff
}

// close compares the bookings with the stores and begins a new year.
func (l *Ledger) close(b *book, e *Engine, year int) {
	water, salts := e.Water.Storage()+e.Pack.SWE, e.Salt.Total()
	l.Year = append(l.Year, year)
	l.Water = append(l.Water, (b.water-(water-b.waterStore))*1000)
	l.Salt = append(l.Salt, (b.salt-(salts-b.saltStore))*1e4)
	*b = book{waterStore: water, saltStore: salts}
}
