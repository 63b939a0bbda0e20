package worth

import (
	"errors"
	"fmt"

	"mottle/sim/crop"
	"mottle/sim/salt"
)

// Yield is what a season leaves of the best yield, by cause.
type Yield struct {
	Share float64     // of the best yield
	Kept  crop.Shares // what each cause leaves; they multiply
	Lost  crop.Shares // the loss parted among the causes; adds up to 1 - Share
	// Without names the losses for which the crop has no published relation: they
	// count as none, and the yield is so much too high.
	Without []string
	// Beyond says where a relation was used past its end.
	Beyond []string
}

// wetLine chooses among the published lines of yield over excess water, which
// disagree; a crop with fewer has its last.
type wetLine int

const (
	defaultLine wetLine = iota
	otherLine
)

// yieldOf applies the published relations to a season. Each day of stress counts
// once: wet days in the stress-day index, thirst from dryness alone, lateness in the
// planting date, salt in the season's mean ECe.
func yieldOf(s *Season, kind crop.Kind, choice wetLine) (Yield, error) {
	y := Yield{Kept: crop.Shares{1, 1, 1, 1}}
	missing := func(err error) error {
		var none *crop.NoRelation
		if errors.As(err, &none) {
			y.Without = append(y.Without, none.Loss)
			return nil
		}
		return err
	}
	switch {
	case s.Planted == 0 && s.Drowned > 0:
		y.Kept[crop.Wet] = 0
	case s.Planted == 0 && !kind.Perennial:
		y.Kept[crop.Late] = 0 // never planted
	default:
		if err := missing(lateness(&y, s, kind)); err != nil {
			return y, err
		}
		if lines := crop.WetLines(kind.Name); len(lines) > 0 {
			line := lines[min(int(choice), len(lines)-1)]
			y.Kept[crop.Wet] = line.Yield(line.Index(s.Excess))
		} else if _, err := crop.WetLineOf(kind.Name, ""); missing(err) != nil {
			return y, err
		}
		ky, err := crop.KyOf(kind.Name)
		if err == nil {
			ratio := s.Thirst.Season()
			y.Kept[crop.Dry] = ky.SeasonYield(ratio)
			if ratio < 0.5 {
				y.Beyond = append(y.Beyond, fmt.Sprintf("drought: %.0f %% of the water asked for, the relation holds to 50 %%", 100*ratio))
			}
		}
		if err := missing(err); err != nil {
			return y, err
		}
		tolerance, err := salt.ToleranceOf(kind.Name)
		if err != nil {
			return y, err
		}
		y.Kept[crop.Salt] = tolerance.Yield(s.ECe)
	}
	var err error
	y.Share, y.Lost, err = crop.Attribute(y.Kept)
	return y, err
}

// lateness is the loss from planting late. A crop that was sown the autumn before,
// or that stands for years, has none.
func lateness(y *Yield, s *Season, kind crop.Kind) error {
	if kind.Perennial || kind.Autumn {
		return nil
	}
	table, err := crop.PlantingTableOf(kind.Name, "")
	if err != nil {
		return err
	}
	share, reach := table.Share(s.Planted)
	switch reach {
	case crop.RunOn, crop.Held:
		y.Beyond = append(y.Beyond, fmt.Sprintf("planting date: day %d lies past the table's end", s.Planted))
	case crop.Unknown:
		return nil
	}
	y.Kept[crop.Late] = share
	return nil
}
