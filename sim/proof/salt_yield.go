package proof

import (
	"fmt"
	"math"

	"mottle/sim/salt"
)

const (
	toleranceFile = "salt-tolerance.csv"
	twoLines      = "Maas and Hoffman 1977 (constants from memory), two straight lines"
	sCurve        = "Steppuhn, van Genuchten and Grieve 2005 (constants of the crop from memory), S-curve"
)

// namedOtherwise are the crops of salt-tolerance.csv that have another name in the product.
var namedOtherwise = map[string]string{
	"barley (grain)": "barley", "wheat": "spring wheat", "wheat, semidwarf": "semidwarf wheat",
	"corn (grain)": "corn", "corn (forage)": "forage corn", "canola (napus)": "canola",
}

// tolerance is the product's of a crop of salt-tolerance.csv.
func tolerance(name string) (salt.Tolerance, error) {
	if other, ok := namedOtherwise[name]; ok {
		name = other
	}
	return salt.ToleranceOf(name)
}

// saltYield compares the yields that salt leaves, by two lines, with the ECe at
// which the table has 90, 75, 50 and 0 %.
func saltYield() ([]Check, error) {
	var checks []Check
	agree := 0.0
	for i, r := range table(toleranceFile) {
		t, err := tolerance(r["crop"])
		if err != nil {
			return nil, err
		}
		for _, p := range []struct {
			column string
			yield  float64
		}{{"ECe_at_90pct", 90}, {"ECe_at_75pct", 75}, {"ECe_at_50pct", 50}, {"ECe_at_0pct", 0}} {
			checks = append(checks, Check{ID: fileRow(toleranceFile, i), What: fmt.Sprintf("%s: yield at ECe %s dS/m", r["crop"], r[p.column]), Source: twoLines, Status: Computed, Unit: "%",
				Expected: p.yield, Got: 100 * t.Yield(r.num(p.column)), Tolerance: r.num("slope_pct_per_dS_m") * 0.0051, Why: "ECe printed to 0.01 dS/m, times the slope"})
		}
		rated := map[string]salt.Rating{"S": salt.Sensitive, "MS": salt.ModeratelySensitive, "MT": salt.ModeratelyTolerant, "T": salt.Tolerant}
		if t.Rating == rated[r["rating"]] {
			agree++
		}
	}
	crops := float64(len(table(toleranceFile)))
	checks = append(checks, Check{ID: toleranceFile, What: "crops whose rating is the table's", Source: salt.ToleranceSource, Status: Memory, Unit: "-",
		Expected: crops, Got: agree, Report: true, Low: crops, High: crops, Note: "the table derives no rating from threshold and slope"})
	var in struct {
		Crops []string
		ECe   float64
	}
	var out struct {
		Yield []float64 `json:"yield_pct"`
	}
	worked("M12", &in, &out)
	for i, name := range in.Crops {
		if name == "wheat" {
			name = "spring wheat"
		}
		t, err := salt.ToleranceOf(name)
		if err != nil {
			return nil, err
		}
		checks = append(checks, Check{ID: "M12", What: fmt.Sprintf("%s: yield at ECe %g dS/m", name, in.ECe), Source: twoLines, Status: Computed, Unit: "%",
			Expected: out.Yield[i], Got: 100 * t.Yield(in.ECe), Tolerance: 0.01, Why: "tolerance of the case"})
	}
	return checks, nil
}

// saltHandbook compares the lines with the ECe of 90, 75, 50 and 0 % that FAO-29
// prints, and with what the crops that are grown are given.
func saltHandbook() ([]Check, error) {
	var checks []Check
	for _, c := range []struct {
		crop string
		ece  [4]float64 // dS/m
		half [4]float64 // of the last digit printed
	}{
		{"corn", [4]float64{2.5, 3.8, 5.9, 10}, [4]float64{0.05, 0.05, 0.05, 0.5}},
		{"barley", [4]float64{10, 13, 18, 28}, [4]float64{0.5, 0.5, 0.5, 0.5}},
		{"alfalfa", [4]float64{3.4, 5.4, 8.8, 16}, [4]float64{0.05, 0.05, 0.051, 0.5}},
		{"grass", [4]float64{6.9, 8.9, 12, 19}, [4]float64{0.05, 0.05, 0.5, 0.5}},
	} {
		t, err := salt.ToleranceOf(c.crop)
		if err != nil {
			return nil, err
		}
		for i, want := range []float64{90, 75, 50, 0} {
			checks = append(checks, Check{ID: "salt/FAO-29:" + c.crop, What: fmt.Sprintf("%s: yield at ECe %g dS/m, handbook", c.crop, c.ece[i]), Source: "FAO-29 table 4 (from memory), recomputed from threshold and slope", Status: Computed, Unit: "%",
				Expected: want, Got: 100 * t.Yield(c.ece[i]), Tolerance: 1.01 * c.half[i] * t.Slope, Why: "half a unit of the last digit of ECe, times the slope"})
		}
	}
	return checks, nil
}

// saltSmooth compares the S-curve with the ECe of half the yield and the steepness
// that the table derives, and with the worked example.
func saltSmooth() ([]Check, error) {
	const halfC50, halfS = 0.00051, 0.000051 // half units of the digits printed
	var checks []Check
	for i, r := range table(toleranceFile) {
		t, err := tolerance(r["crop"])
		if err != nil {
			return nil, err
		}
		c50, s := r.num("S_curve_C50_dS_m"), r.num("S_curve_s")
		// Of 1/(1+x^p) at x = C/C50: its slopes along ln x and ln p, times the errors.
		p := math.Exp(s * c50)
		for _, x := range []float64{1, 1.5} {
			y := 1 / (1 + math.Pow(x, p))
			off := y * (1 - y) * p * (halfC50/c50 + math.Log(x)*(s*halfC50+c50*halfS))
			checks = append(checks, Check{ID: fileRow(toleranceFile, i), What: fmt.Sprintf("%s: yield by the S-curve at ECe %.4g dS/m", r["crop"], x*c50), Source: sCurve, Status: Computed, Unit: "%",
				Expected: 100 * y, Got: 100 * t.SmoothYield(x*c50), Tolerance: 100 * off, Why: "half a unit of the last digits of C50 and s"})
		}
	}
	var in struct{ ECe float64 }
	var out struct {
		Yield float64 `json:"yield_pct"`
	}
	worked("M13", &in, &out)
	corn, err := salt.ToleranceOf("corn")
	if err != nil {
		return nil, err
	}
	return append(checks,
		Check{ID: "M13", What: fmt.Sprintf("corn: yield by the S-curve at ECe %g dS/m", in.ECe), Source: sCurve, Status: Computed, Unit: "%",
			Expected: out.Yield, Got: 100 * corn.SmoothYield(in.ECe), Tolerance: 0.01, Why: "tolerance of the case"},
		Check{ID: "M13", What: "corn: yield by the S-curve at the published C50, 5.54 dS/m", Source: "Steppuhn, van Genuchten and Grieve 2005, table (from memory), recomputed", Status: Computed, Unit: "%",
			Expected: 50, Got: 100 * corn.SmoothYield(5.54), Tolerance: 0.065, Why: "half of 0.01 dS/m, times the slope p/(4 C50) = 12.4 % per dS/m, and a twentieth more for its bend"}), nil
}

// saltClasses compares the limits of the classes of soil.
func saltClasses() ([]Check, error) {
	const file = "salt-classes.csv"
	var checks []Check
	for i, r := range table(file) {
		switch {
		case r["scheme"] == "ECe":
			low := r.num("low")
			at := 2 * max(low, 0.5)
			high := math.Inf(1)
			if r["high"] != "" {
				high = r.num("high")
				at = (low + high) / 2
			}
			class := salt.ClassOf(at)
			if class.Name != r["class"] {
				return nil, fmt.Errorf("%s: ECe %g dS/m is %q, not %q", file, at, class.Name, r["class"])
			}
			add := func(end string, want, got float64) {
				checks = append(checks, Check{ID: fileRow(file, i), What: fmt.Sprintf("soil of ECe %g dS/m, %s: class %s", at, class.Name, end), Source: "Handbook 60 (Richards 1954), as restated", Status: Published, Unit: "dS/m",
					Expected: want, Got: got, Tolerance: 1e-12, Why: "a whole number"})
			}
			add("begins", low, class.From)
			if !math.IsInf(high, 1) {
				add("ends", high, class.Below)
			} else if !math.IsInf(class.Below, 1) {
				return nil, fmt.Errorf("%s: class %q ends at %g dS/m", file, class.Name, class.Below)
			}
		case r["class"] == "factor below 5 dS/m":
			want := r.num("low")
			checks = append(checks, Check{ID: fileRow(file, i), What: "dissolved solids to the dS/m", Source: "Handbook 60, FAO-29", Status: Memory, Unit: "mg/L",
				Expected: want, Got: 1000 * salt.PerEC, Report: true, Low: want - 0.5, High: math.Nextafter(want+0.5, 0), Note: "below 5 dS/m; sulfate waters run to 800"})
		}
	}
	return checks, nil
}
