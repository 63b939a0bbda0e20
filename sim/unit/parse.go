package unit

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Parse reads a quantity with its unit ("3.5 ft", "0.3m/d", "12 %") and returns
// it in the unit of its dimension. Only Number, Fraction and Percent may go
// without one. The error says what was found, what is allowed and how to mend it.
func Parse(text string, dim Dimension) (float64, error) {
	x, _, err := ParseAny(text, dim)
	return x, err
}

// ParseAny is Parse for a quantity that may be of one of several dimensions, one
// at least, which share no unit: a yield by mass or by bushels. It says of which.
func ParseAny(text string, dims ...Dimension) (float64, Dimension, error) {
	fault := func(mend string) (float64, Dimension, error) {
		return 0, dims[0], fmt.Errorf("found %.80q; allowed %s%s", text, AllowedAny(dims...), mend)
	}
	example := fmt.Sprintf(" (for example %q)", dimensions[dims[len(dims)-1]].example)

	number, name := split(strings.TrimSpace(text))
	x, err := strconv.ParseFloat(number, 64)
	switch {
	case number == "":
		return fault(example)
	case err != nil || math.IsInf(x, 0):
		return fault(": the number is too large")
	case strings.HasPrefix(name, ","):
		return fault(": write the decimals after a point")
	}
	var names []string
	for _, dim := range dims {
		for _, u := range dimensions[dim].units {
			if u.name != name {
				continue
			}
			x = (x - u.zero) * u.times / u.over
			switch {
			case math.IsInf(x, 0):
				return fault(": the number is too large")
			case dim == Fraction && !(x >= 0 && x <= 1):
				return fault(example)
			}
			return x, dim, nil
		}
		names = append(names, dim.Units()...)
	}
	if name == "" {
		return fault(example)
	}
	if near := Nearest(name, names); near != "" {
		return fault(fmt.Sprintf(": did you mean %q?", number+" "+near))
	}
	return fault(example)
}

// split parts a decimal number from what follows it. An e belongs to the number
// only with digits after it.
func split(text string) (number, rest string) {
	i := 0
	sign := func() {
		if i < len(text) && (text[i] == '-' || text[i] == '+') {
			i++
		}
	}
	digits := func() (n int) {
		for ; i < len(text) && text[i] >= '0' && text[i] <= '9'; i++ {
			n++
		}
		return n
	}
	sign()
	n := digits()
	if i < len(text) && text[i] == '.' {
		i++
		n += digits()
	}
	if n == 0 {
		return "", text
	}
	end := i
	if i < len(text) && (text[i] == 'e' || text[i] == 'E') {
		i++
		sign()
		if digits() > 0 {
			end = i
		}
	}
	return text[:end], strings.TrimSpace(text[end:])
}
