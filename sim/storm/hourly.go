package storm

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
)

// Options says how storms are drawn. Start from [Default].
type Options struct {
	Seed         uint64  // of the random streams
	Draw         int     // 0, 1, 2, ...: which of many equally likely sets of storms
	WarmDuration float64 // mean length of a day's storm, May to September, h
	ColdDuration float64 // the same, October to April, h
	ReadHour     float64 // hour of day at which the gauge was read, above 0 to 24; 24 = calendar day
}

// Default returns mean lengths of 5.5 h in the warm and 14 h in the cold
// season and a reading at midnight. They lie between the few hours and the
// day or so of single storms of summer and winter (Thorp & Scott 1982;
// national means near 9-11 h, Driscoll et al. 1989, from memory).
func Default() Options {
	return Options{WarmDuration: 5.5, ColdDuration: 14, ReadHour: 24}
}

// Validate returns every option outside its range, joined, or nil.
func (o Options) Validate() error {
	var faults []error
	if o.Draw < 0 || uint64(o.Draw) > math.MaxUint32 {
		faults = append(faults, fmt.Errorf("storm: draw: found %d, allowed 0 to %d", o.Draw, uint32(math.MaxUint32)))
	}
	for _, q := range []struct {
		name  string
		hours float64
	}{{"warm duration", o.WarmDuration}, {"cold duration", o.ColdDuration}} {
		if !(q.hours >= 1.1 && q.hours <= 23.9) {
			faults = append(faults, fmt.Errorf("storm: %s: found %g h, allowed 1.1 to 23.9", q.name, q.hours))
		}
	}
	if !(o.ReadHour > 0 && o.ReadHour <= 24) {
		faults = append(faults, fmt.Errorf("storm: read hour: found %g, allowed above 0 to 24, which is the calendar day", o.ReadHour))
	}
	return errors.Join(faults...)
}

// warm reports the season of convective storms.
func warm(month int) bool { return month >= 5 && month <= 9 }

// Hourly spreads the daily rain (mm) of a record over its hours: dst, of
// 24*len(daily) entries, receives mm in each hour
// from the first midnight of the record on. The
// rain of day i fell in the 24 h that end at o.ReadHour of day i, as one storm
// whose season follows monthOf(i), 1 to 12. What of the first day's storm falls before
// the record goes to its first hour, so that no rain is lost.
//
// The storm starts anywhere in those 24 h where it fits, each start as likely
// as another. So the middle of a reading gets more rain than its two ends, and
// no hour of the clock is favoured for its own sake. Summer rain does favour
// certain hours, but which ones differs from place to place and daily totals
// do not hold them; where they matter, hourly rain is what is needed.
//
// A day's storm depends on o.Seed, o.Draw and i only, not on other days. An
// error names options out of range, slices that do not match, or the first
// day whose rain is missing or negative; dst is then not to be used.
func Hourly(dst, daily []float64, monthOf func(day int) int, o Options) error {
	if err := o.Validate(); err != nil {
		return err
	}
	if len(dst) != 24*len(daily) {
		return fmt.Errorf("storm: %d hours for %d days, allowed 24 a day", len(dst), len(daily))
	}
	clear(dst)
	lengths := [2]duration{durationOfMean(o.ColdDuration), durationOfMean(o.WarmDuration)}
	var stream rand.PCG
	random := rand.New(&stream)
	for i, rain := range daily {
		if !(rain >= 0) || math.IsInf(rain, 1) {
			return fmt.Errorf("storm: day %d of the record: rain %g mm, allowed 0 and above: fill the gap first", i, rain)
		}
		if rain == 0 {
			continue
		}
		month := monthOf(i)
		if month < 1 || month > 12 {
			return fmt.Errorf("storm: day %d of the record: month %d, allowed 1 to 12", i, month)
		}
		season := 0
		if warm(month) {
			season = 1
		}
		stream.Seed(o.Seed, streamOf(o.Draw, i))
		rank := random.Float64()
		length := max(lengths[season].length(rank), min(rain/heaviest, 24))
		start := float64(24*(i-1)) + o.ReadHour + random.Float64()*(24-length)
		place(dst, rain, quartileOf(rank), start, length)
	}
	return nil
}

// heaviest is the largest mean intensity of a day's storm, mm/h. Great daily
// totals come from long storms: in design rainfall of the US Midwest the worst
// hour of a day of 170 mm (about 100 years) holds 0.4-0.5 of it and the worst six
// hours 0.7 (TP-40, from memory), while lengths drawn without regard to depth
// would let it all fall in an hour in one year of fifteen. With 15 mm/h that day
// lasts 11 h (assumption, argued by those figures).
const heaviest = 15.0

// streamOf numbers the random stream of a day in a draw; no two share one.
func streamOf(draw, day int) uint64 { return uint64(draw)<<32 | uint64(day) }

// place adds a storm of the given rain, mm, to the hours that it covers: start
// and length in h, start counted from the first midnight of the record. The
// part before the record joins the first hour.
func place(dst []float64, rain float64, quartile int, start, length float64) {
	before := 0.0
	for h := max(0, int(math.Floor(start))); before < 1; h++ {
		by := 1.0
		if h < len(dst)-1 {
			by = Fallen(quartile, (float64(h+1)-start)/length)
		}
		dst[h] += rain * (by - before)
		before = by
	}
}
