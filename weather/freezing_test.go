package weather

import (
	"math"
	"testing"
)

// evenWinter is a series of one mean temperature with a daily range of 10 C and no rain.
func evenWinter(first, last Date, mean func(d Date) float64) *Series {
	n := int(last-first) + 1
	s := &Series{Station: unknownStation(), Layout: layoutPlain, Start: first,
		Tmin: make([]float64, n), Tmax: make([]float64, n), Precip: make([]float64, n), Marks: make([]Mark, n)}
	for i := range n {
		m := mean(first + Date(i))
		s.Tmin[i], s.Tmax[i] = m-5, m+5
	}
	return s
}

// TestFreezingIndex holds winters against sums done by hand.
func TestFreezingIndex(t *testing.T) {
	first, last := NewDate(1999, 7, 1), NewDate(2000, 6, 30)
	from := NewDate(1999, 11, 8)
	nan := math.NaN()
	for _, c := range []struct {
		what  string
		mean  func(d Date) float64
		index float64
	}{
		// US Army TM 5-852-6 (from memory): an index of 2500 F-d over 160 days is a
		// mean of 15.6 F below freezing; in C, 2500/1.8 over the same days.
		{"manual's winter of 160 days", func(d Date) float64 {
			if d >= from && d < from+160 {
				return -2500 / 1.8 / 160
			}
			return 8
		}, 2500 / 1.8},
		{"days above 0 C take nothing off", func(d Date) float64 {
			if d >= from && d < from+20 {
				return []float64{-6, 4}[(d-from)%2]
			}
			return 8
		}, 60},
		{"frost in September and May counts", func(d Date) float64 {
			if _, m, day := d.Civil(); (m == 9 || m == 5) && day <= 3 {
				return -1
			}
			return 8
		}, 6},
		// Ten of the 213 days from October to April (2000 is a leap year) missing in a
		// winter of -2 C each: they count as the mean of the days known, -2 C.
		{"ten days missing", func(d Date) float64 {
			_, m, _ := d.Civil()
			switch {
			case d >= from && d < from+10:
				return nan
			case m >= 10 || m <= 4:
				return -2
			}
			return 8
		}, 426},
		{"eleven days missing", func(d Date) float64 {
			if d >= from && d < from+11 {
				return nan
			}
			return -2
		}, nan},
	} {
		winters := FreezingIndex(evenWinter(first, last, c.mean))
		if len(winters) != 1 || winters[0].Begins != 1999 || winters[0].Days != 213 {
			t.Fatalf("%s: %+v, want one winter of 213 days that begins in 1999", c.what, winters)
		}
		if got := winters[0].FreezingIndex; !(math.Abs(got-c.index) < 1e-9) && !(math.IsNaN(got) && math.IsNaN(c.index)) {
			t.Errorf("%s: %v C-d, want %v", c.what, got, c.index)
		}
	}
	if w := FreezingIndex(evenWinter(NewDate(1999, 10, 2), last, func(Date) float64 { return -1 })); len(w) != 0 {
		t.Errorf("a winter without its first of October: %v, want none", w)
	}
}

// TestDesignFreezingIndex: three coldest of the last 30, or the coldest of 10.
func TestDesignFreezingIndex(t *testing.T) {
	var winters []Winter
	for i := range 31 { // 1000 lies before the last 30
		winters = append(winters, Winter{Begins: 1960 + i, FreezingIndex: float64(1000 - 10*i)})
	}
	for _, c := range []struct {
		n, from int
		want    float64
	}{
		{31, 30, (990 + 980 + 970) / 3.},
		{29, 10, 1000 - 190},
		{10, 10, 1000},
		{9, 9, math.NaN()},
	} {
		got, from := DesignFreezingIndex(winters[:c.n])
		if from != c.from || !(math.Abs(got-c.want) < 1e-9) && !(math.IsNaN(got) && math.IsNaN(c.want)) {
			t.Errorf("%d winters: %v from %d, want %v from %d", c.n, got, from, c.want, c.from)
		}
	}
}
