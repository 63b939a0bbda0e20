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
	fault := func(mend string) error {
		return fmt.Errorf("found %.80q; allowed %s%s", text, dim.Allowed(), mend)
	}
	example := fmt.Sprintf(" (for example %q)", dimensions[dim].example)

	number, name := split(strings.TrimSpace(text))
	x, err := strconv.ParseFloat(number, 64)
	switch {
	case number == "":
		return 0, fault(example)
	case err != nil || math.IsInf(x, 0):
		return 0, fault(": the number is too large")
	case strings.HasPrefix(name, ","):
		return 0, fault(": write the decimals after a point")
	}
	for _, u := range dimensions[dim].units {
		if u.name != name {
			continue
		}
		x = (x - u.zero) * u.times / u.over
		switch {
		case math.IsInf(x, 0):
			return 0, fault(": the number is too large")
		case dim == Fraction && !(x >= 0 && x <= 1):
			return 0, fault(example)
		}
		return x, nil
	}
	if name == "" {
		return 0, fault(example)
	}
	if near := Nearest(name, dim.names()); near != "" {
		return 0, fault(fmt.Sprintf(": did you mean %q?", number+" "+near))
	}
	return 0, fault(example)
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
