package weather

import (
	"math"
	"strconv"
	"testing"
)

type matrix = [3][3]float64

func product(a, b matrix) (c matrix) {
	for i := range c {
		for j := range c {
			for k := range c {
				c[i][j] += a[i][k] * b[k][j]
			}
		}
	}
	return c
}

func transpose(a matrix) (b matrix) {
	for i := range b {
		for j := range b {
			b[i][j] = a[j][i]
		}
	}
	return b
}

// stationary solves S = A S A^T + B B^T by repetition; A's largest eigenvalue is
// 0.69, so that 200 rounds reach the last digit.
func stationary() matrix {
	noise := product(residualB, transpose(residualB))
	s := noise
	for range 200 {
		next := product(product(residualA, s), transpose(residualA))
		for i := range s {
			for j := range s {
				s[i][j] = next[i][j] + noise[i][j]
			}
		}
	}
	return s
}

func correlation(s matrix, i, j int) float64 { return s[i][j] / math.Sqrt(s[i][i]*s[j][j]) }

// monthlySD is the standard deviation of a monthly total of n days, mm (Katz 1977):
// n (pi a b^2 + mu^2 pi (1-pi)(1+d)/(1-d)).
func monthlySD(m ClimateMonth, n float64) float64 {
	pi, mu, d := m.WetFraction(), m.Shape*m.Scale, m.WetAfterWet-m.WetAfterDry
	return math.Sqrt(n * (pi*m.Shape*m.Scale*m.Scale + mu*mu*pi*(1-pi)*(1+d)/(1-d)))
}

// unguarded is the demo climate with Tmax out of the guard's reach.
func unguarded() Climate {
	c := DemoClimate()
	for m := range c.Months {
		c.Months[m].TmaxDry += 200
		c.Months[m].TmaxWet += 200
	}
	return c
}

// TestDemoClimateTable compares the demo climate with the invented table it was
// drawn up in, and the statistics printed there with the formulas (to 0.1 %, the
// digits printed).
func TestDemoClimateTable(t *testing.T) {
	c := DemoClimate()
	if !c.Invented {
		t.Error("the demo climate is not marked invented")
	}
	for i, r := range table(t, "atmosphere-weathergen-demo.csv") {
		p := c.Months[i]
		n := float64(monthDays(2001, i+1))
		for column, got := range map[string]float64{
			"p_wet_after_dry": p.WetAfterDry, "p_wet_after_wet": p.WetAfterWet,
			"gamma_shape": p.Shape, "gamma_scale_mm": p.Scale,
			"Tmax_dry_C": p.TmaxDry, "Tmax_wet_C": p.TmaxWet, "Tmax_sd_C": p.TmaxSD,
			"Tmin_C": p.Tmin, "Tmin_sd_C": p.TminSD,
			"Rs_dry_MJ": p.SolarDry, "Rs_wet_MJ": p.SolarWet, "Rs_sd_MJ": p.SolarSD,
			"wet_fraction": p.WetFraction(), "expected_precip_mm": n * p.WetFraction() * p.Shape * p.Scale,
			"sd_monthly_precip_mm": monthlySD(p, n),
		} {
			want, err := strconv.ParseFloat(r[column], 64)
			if err != nil || math.Abs(got-want) > 1e-3*math.Abs(want) {
				t.Errorf("%s %s = %v, want %v", r["month"], column, got, r[column])
			}
		}
	}
}

// monthMeans are the statistics of a generated series by month.
type monthMeans struct{ days, wet, rain, tmax, tmin, solar float64 }

func byMonth(s *Series) (m [12]monthMeans) {
	for i := range s.Precip {
		_, month, _ := s.Date(i).Civil()
		p := &m[month-1]
		p.days++
		if s.Precip[i] > 0 {
			p.wet++
		}
		p.rain += s.Precip[i]
		p.tmax += s.Tmax[i]
		p.tmin += s.Tmin[i]
		p.solar += s.Solar[i]
	}
	return m
}

// TestInventRain: 100 years, the mean of a month's rain within three standard
// errors after Katz (1977), the share of wet days within 0.03. A right generator
// fails one of twelve three-sigma tests once in 30 seeds.
func TestInventRain(t *testing.T) {
	const years = 100
	c := DemoClimate()
	s := Invent(c, NewDate(1901, 1, 1), years, 1)
	total := 0.0
	for i, m := range byMonth(s) {
		p := c.Months[i]
		n := m.days / years
		want := n * p.WetFraction() * p.Shape * p.Scale
		if got, slack := m.rain/years, 3*monthlySD(p, n)/math.Sqrt(years); math.Abs(got-want) > slack {
			t.Errorf("month %d: %.2f mm, want %.2f within %.2f", i+1, got, want, slack)
		}
		if got, want := m.wet/m.days, p.WetFraction(); math.Abs(got-want) > 0.03 {
			t.Errorf("month %d: wet share %.3f, want %.3f within 0.03", i+1, got, want)
		}
		total += m.rain / years
	}
	// The table adds up to 649 mm; its standard deviation of 112 mm a year makes
	// three standard errors of 100 years 34 mm.
	if math.Abs(total-649) > 34 {
		t.Errorf("%.0f mm a year, want 649 within 34", total)
	}
}

// TestInventTemperature: the means of Tmax and Tmin by month, within 0.3 C from
// October to April and 0.2 C in summer. Day-to-day correlation of 0.65 leaves a mean
// of January over 100 years a standard error of 0.32 C, more than the tolerance
// itself; 1000 years bring it to 0.10. The guard pulls Tmin down by up to 0.15 C in
// winter, so there Tmin is compared in a climate where the guard does not act.
func TestInventTemperature(t *testing.T) {
	if testing.Short() {
		t.Skip("1000 years of weather")
	}
	c := DemoClimate()
	guarded := byMonth(Invent(c, NewDate(1001, 1, 1), 1000, 2))
	free := byMonth(Invent(unguarded(), NewDate(1001, 1, 1), 1000, 2))
	for i := range guarded {
		p, m := c.Months[i], guarded[i]
		slack := 0.3
		if i >= 4 && i <= 8 {
			slack = 0.2
		}
		wet := m.wet / m.days
		for _, v := range []struct {
			name      string
			got, want float64
		}{
			{"Tmax", m.tmax / m.days, p.TmaxDry + wet*(p.TmaxWet-p.TmaxDry)},
			{"Tmin", free[i].tmin / m.days, p.Tmin},
		} {
			if math.Abs(v.got-v.want) > slack {
				t.Errorf("month %d: %s %.2f C, want %.2f within %v", i+1, v.name, v.got, v.want, slack)
			}
		}
		if d := (m.tmin - free[i].tmin) / m.days; d > 0 || d < -0.3 {
			t.Errorf("month %d: the guard moves Tmin by %.2f C", i+1, d)
		}
	}
}

// TestResiduals: lag-1 autocorrelation and cross correlations of the residuals of
// 300 years (1e5 steps, standard error about 0.005) against Richardson (1981):
// 0.621, 0.674, 0.251 and 0.633, 0.186, -0.193, each within 0.02.
func TestResiduals(t *testing.T) {
	c := Climate{Latitude: 0}
	for m := range c.Months {
		c.Months[m] = ClimateMonth{Shape: 1, Scale: 1, TmaxDry: 100, TmaxSD: 1, TminSD: 1, SolarDry: 20, SolarSD: 1}
	}
	s := Invent(c, NewDate(1801, 1, 1), 300, 3)
	corr := func(a, b []float64) float64 {
		var sa, sb, aa, bb, ab float64
		for i := range a {
			sa, sb = sa+a[i], sb+b[i]
		}
		n := float64(len(a))
		for i := range a {
			x, y := a[i]-sa/n, b[i]-sb/n
			aa, bb, ab = aa+x*x, bb+y*y, ab+x*y
		}
		return ab / math.Sqrt(aa*bb)
	}
	n := s.Days()
	for _, v := range []struct {
		name string
		got  float64
		want float64
	}{
		{"Tmax lag 1", corr(s.Tmax[1:], s.Tmax[:n-1]), 0.621},
		{"Tmin lag 1", corr(s.Tmin[1:], s.Tmin[:n-1]), 0.674},
		{"solar lag 1", corr(s.Solar[1:], s.Solar[:n-1]), 0.251},
		{"Tmax Tmin", corr(s.Tmax, s.Tmin), 0.633},
		{"Tmax solar", corr(s.Tmax, s.Solar), 0.186},
		{"Tmin solar", corr(s.Tmin, s.Solar), -0.193},
	} {
		if math.Abs(v.got-v.want) > 0.02 {
			t.Errorf("%s %.3f, want %.3f within 0.02", v.name, v.got, v.want)
		}
	}
}

// TestStationaryVariance: the tabled pair A, B keeps the variance of each residual at
// 1 (Richardson & Wright 1984); rounding to three decimals leaves 0.001.
func TestStationaryVariance(t *testing.T) {
	s := stationary()
	for i := range s {
		if math.Abs(s[i][i]-1) > 0.001 {
			t.Errorf("variance %d is %v", i, s[i][i])
		}
	}
}

// TestInventBounds: the promises of Invent, and the same seed twice.
func TestInventBounds(t *testing.T) {
	c := DemoClimate()
	s, again, other := Invent(c, NewDate(2000, 3, 1), 30, 5), Invent(c, NewDate(2000, 3, 1), 30, 5), Invent(c, NewDate(2000, 3, 1), 30, 6)
	if !s.Invented || s.Last() != NewDate(2030, 2, 28) {
		t.Errorf("invented %v, last day %v", s.Invented, s.Last())
	}
	if !sameSeries(s, again) {
		t.Error("the same seed gave other weather")
	}
	if sameSeries(s, other) {
		t.Error("another seed gave the same weather")
	}
	for i := range s.Tmin {
		ra := ExtraterrestrialRadiation(c.Latitude, s.Date(i).DayOfYear())
		if !(s.Tmin[i] <= s.Tmax[i]-1) || !(s.Precip[i] >= 0) || !(s.Solar[i] >= 0.05*ra && s.Solar[i] <= ClearSky(ra, c.Elevation)) {
			t.Fatalf("%v: Tmin %v Tmax %v rain %v solar %v", s.Date(i), s.Tmin[i], s.Tmax[i], s.Precip[i], s.Solar[i])
		}
	}
}

// TestCurvesKeepTheMonth: the means of each month are the climate's (1e-6: the
// rounds of newCurves leave 1e-9 of at most 10 C), and no day jumps. Between two
// middles 30 days apart the steepest parameter rises by 10.6 C, with the correction
// less than 0.5 C a day; a step by month would jump by 10 C.
func TestCurvesKeepTheMonth(t *testing.T) {
	c := DemoClimate()
	cv := newCurves(c)
	var sum [12]float64
	before := cv.on(NewDate(2000, 12, 31)).Tmin
	for d := NewDate(2001, 1, 1); d.Year() == 2001; d++ {
		_, m, _ := d.Civil()
		v := cv.on(d).Tmin
		sum[m-1] += v
		if math.Abs(v-before) > 0.5 {
			t.Errorf("%v: Tmin jumps from %.2f to %.2f", d, before, v)
		}
		before = v
	}
	for m, total := range sum {
		if got, want := total/float64(monthDays(2001, m+1)), c.Months[m].Tmin; math.Abs(got-want) > 1e-6 {
			t.Errorf("month %d: mean %v, want %v", m+1, got, want)
		}
	}
}
