package proof

import (
	"fmt"
	"strconv"
	"strings"

	"mottle/sim/crop"
)

// span reads a number of a table as a range of nothing, or a range such as 0.6-1.3.
func (r row) span(column string) (low, high float64, err error) {
	from, to, ranged := strings.Cut(r[column], "-")
	if !ranged {
		to = from
	}
	if low, err = strconv.ParseFloat(from, 64); err == nil {
		high, err = strconv.ParseFloat(to, 64)
	}
	if err != nil {
		return 0, 0, fmt.Errorf("column %q: %w", column, err)
	}
	return low, high, nil
}

// cropListing holds the crops' coefficients, height and rooting depth between those
// that FAO-56 lists (atmosphere-crops.csv) for the crop or, for grass, from extensive
// to rotated pasture.
func cropListing() ([]Check, error) {
	const file = "atmosphere-crops.csv"
	rows := map[string]row{}
	for _, r := range table(file) {
		rows[r["crop"]] = r
	}
	var checks []Check
	for _, c := range []struct {
		crop string
		from []string // rows
	}{
		{"corn", []string{"corn_grain_dry_end"}},
		{"soybean", []string{"soybean"}},
		{"spring wheat", []string{"spring_wheat"}},
		{"grass", []string{"grazed_pasture_extensive", "grazed_pasture_rotated"}},
	} {
		kind, err := crop.Named(c.crop)
		if err != nil {
			return nil, err
		}
		mid := crop.Stand{Kind: kind, Need: kind.Maturity, Stage: crop.Full, Units: (kind.Full + kind.Late) / 2 * kind.Maturity}
		if kind.Perennial {
			mid.Units = 0.5 * kind.Maturity
		}
		coefficient := mid.Kcb(july)
		for _, q := range []struct {
			what, unit, lowest, highest string
			got                         float64
		}{
			{"basal coefficient at the start", "-", "Kcb_ini", "Kcb_ini", kind.KcbStart},
			{"basal coefficient in mid-season", "-", "Kcb_mid", "Kcb_mid", coefficient},
			{"basal coefficient at the end", "-", "Kcb_end", "Kcb_end", kind.KcbEnd},
			{"height", "m", "h_max_m", "h_max_m", kind.Height},
			{"rooting depth", "m", "Zr_min_m", "Zr_max_m", kind.RootMax},
		} {
			if kind.Perennial && q.lowest == "Kcb_end" { // it has no end
				continue
			}
			low, high, err := among(rows, c.from, q.lowest, q.highest)
			if err != nil {
				return nil, fmt.Errorf("%s, %s: %w", file, c.crop, err)
			}
			checks = append(checks, Check{ID: fmt.Sprintf("%s:%s, %s", file, c.crop, q.lowest), What: c.crop + ": " + q.what,
				Source: "FAO-56 (Allen et al. 1998) tables 12, 17 and 22", Status: Memory, Unit: q.unit,
				Expected: (low + high) / 2, Got: q.got, Tolerance: (high-low)/2 + lastDigit,
				Why: "within what is listed, and half a digit of it"})
		}
		// The single coefficient was read, the basal one recalled.
		low, high, err := among(rows, c.from, "Kc_mid", "Kc_mid")
		if err != nil {
			return nil, fmt.Errorf("%s, %s: %w", file, c.crop, err)
		}
		const least, most = 0.05, 0.10
		checks = append(checks, Check{ID: fmt.Sprintf("%s:%s, Kc_mid", file, c.crop), What: c.crop + ": single coefficient in mid-season, from the basal one",
			Source: "FAO-56 (Allen et al. 1998) table 12; what lies between the two, table 18, from memory", Status: Published, Unit: "-",
			Expected: (low + high) / 2, Got: coefficient + (least+most)/2, Tolerance: (high-low)/2 + (most-least)/2 + lastDigit,
			Why: "what is listed; the basal coefficient is 0.05 to 0.10 less, as the ground is seldom or often wetted, and half a digit"})
	}
	return checks, nil
}

const (
	july      = 196   // day of the year
	lastDigit = 0.005 // half of two decimals
)

// among is the range of a quantity over rows, from a column of least values to one of
// greatest.
func among(rows map[string]row, names []string, lowest, highest string) (low, high float64, err error) {
	for i, name := range names {
		a, _, err := rows[name].span(lowest)
		if err != nil {
			return 0, 0, err
		}
		_, b, err := rows[name].span(highest)
		if err != nil {
			return 0, 0, err
		}
		if i == 0 {
			low, high = a, b
		}
		low, high = min(low, a), max(high, b)
	}
	return low, high, nil
}
