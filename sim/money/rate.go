package money

import (
	"fmt"
	"math"
	"strings"
)

// RateError says that flows have no internal rate of return, or several, so that
// none of them is the answer. Judge such flows by their present value.
type RateError struct {
	Rates []float64 // none, or two and more, ascending
}

func (e *RateError) Error() string {
	if len(e.Rates) == 0 {
		return "money: no internal rate of return: no rate brings the flows to a present value of 0; compare present values"
	}
	texts := make([]string, len(e.Rates))
	for i, r := range e.Rates {
		texts[i] = fmt.Sprintf("%.3g %%", 100*r)
	}
	return fmt.Sprintf("money: %d internal rates of return, %s: the flows change sign more than once; compare present values",
		len(e.Rates), strings.Join(texts, ", "))
}

// InternalRate is the one rate at which the present value of the flows is 0, below
// zero where they do not bring back the outlay. Where there is none, or more than
// one, the error is a [*RateError].
func InternalRate(flows []float64) (float64, error) {
	rates := Rates(flows)
	if len(rates) != 1 {
		return math.NaN(), &RateError{rates}
	}
	return rates[0], nil
}

// Factors 1/(1+rate) between which rates are looked for: a dollar that becomes a
// million, or a millionth, in one year.
const leastFactor, mostFactor = 1e-6, 1e6

// Rates are all rates at which the present value of the flows is 0, ascending;
// those that lie within rounding of each other count once. None for flows that are
// all 0 or not all finite.
func Rates(flows []float64) []float64 {
	for _, f := range flows {
		if math.IsNaN(f) || math.IsInf(f, 0) {
			return nil
		}
	}
	factors := zeros(flows, leastFactor, mostFactor)
	rates := make([]float64, len(factors))
	for i, v := range factors {
		rates[len(factors)-1-i] = 1/v - 1
	}
	return rates
}

// zeros finds where the sum of c[t] v^t is 0 between two positive v. Where its
// coefficients change sign but once it has one zero at most (Descartes); else it is
// monotone between the zeros of its derivative (Rolle), and has one at most in each
// such stretch.
func zeros(c []float64, low, high float64) []float64 {
	changes := signChanges(c)
	if changes == 0 {
		return nil
	}
	edges := []float64{low, high}
	if changes > 1 {
		edges = append(append([]float64{low}, zeros(derivative(c), low, high)...), high)
	}
	var found []float64
	for i, b := range edges {
		at := sign(c, b)
		switch {
		case at == 0: // touches 0, or passes through it flat
			if i == 0 || sign(c, math.Sqrt(edges[i-1])*math.Sqrt(b)) != 0 {
				found = append(found, b)
			}
		case i > 0 && at*sign(c, edges[i-1]) < 0:
			found = append(found, bisect(c, edges[i-1], b))
		}
	}
	return found
}

// signChanges counts changes of sign along coefficients, zeros passed over.
func signChanges(c []float64) int {
	n, last := 0, 0.0
	for _, x := range c {
		if x*last < 0 {
			n++
		}
		if x != 0 {
			last = math.Copysign(1, x)
		}
	}
	return n
}

// derivative of the sum of c[t] v^t, scaled by a positive number: only its signs
// matter, and factorials would outgrow the numbers.
func derivative(c []float64) []float64 {
	d, largest := make([]float64, len(c)-1), 0.0
	for t := range d {
		d[t] = c[t+1] * (float64(t+1) / float64(len(c)))
		largest = max(largest, math.Abs(d[t]))
	}
	for t := range d {
		d[t] /= largest
	}
	return d
}

// sign of the sum of c[t] v^t, 0 where rounding hides it.
func sign(c []float64, v float64) int {
	sum, size := powers(c, v)
	switch noise := 4 * float64(len(c)) * 0x1p-53 * size; {
	case sum > noise:
		return 1
	case sum < -noise:
		return -1
	}
	return 0
}

// powers is the sum of c[t] v^t and of its terms' sizes, for v above 1 both over
// v^(len(c)-1), so that neither overflows.
func powers(c []float64, v float64) (sum, size float64) {
	n := len(c)
	for i := range n {
		if v > 1 {
			sum, size = sum/v+c[i], size/v+math.Abs(c[i])
		} else {
			sum, size = sum*v+c[n-1-i], size*v+math.Abs(c[n-1-i])
		}
	}
	return sum, size
}

// bisect closes in, in the logarithm, on the zero between two v with values of
// opposite sign, to the last bit.
func bisect(c []float64, low, high float64) float64 {
	below, _ := powers(c, low)
	for {
		mid := math.Sqrt(low) * math.Sqrt(high)
		if !(mid > low && mid < high) {
			return mid
		}
		switch at, _ := powers(c, mid); {
		case at == 0:
			return mid
		case (at > 0) == (below > 0):
			low = mid
		default:
			high = mid
		}
	}
}
