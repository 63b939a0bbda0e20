package proof

import (
	"fmt"
	"strconv"
	"strings"

	"mottle/sim/crop"
)

// cropFlood counts the days under water that a stand lives through.
func cropFlood() ([]Check, error) {
	const cool, mild = 18.0, 24.0 // C
	fahrenheit := func(f float64) float64 { return (f - 32) / degree }
	var checks []Check
	for _, r := range table("crop-flood-tolerance.csv") {
		var name, stage, column string
		var share, mean float64
		var least bool
		switch r["crop"] + ", " + r["stage"] {
		case "corn, before V6, under water":
			name, stage, column, share, mean = "corn", "young, cool", "days_max", 0.1, cool
		case "corn, small, warm (over 70 F) / cool":
			name, stage, column, share, mean = "corn", "young, warm", "days_min", 0.1, mild
		case "corn, V7-V10, under water":
			name, stage, column, share, mean = "corn", "seven to ten leaves", "days_max", 0.2, fahrenheit(r.num("temperature_max_F"))
		case "corn, VT-R1":
			name, stage, column, share, mean, least = "corn", "pollination, before harm", "days_min", 0.49, mild, true
		case "soybean, any":
			name, stage, column, share, mean, least = "soybean", "in flower, before loss", "days_max", 0.6, mild, true
		case "soybean, vegetative":
			if r["days_max"] == "" {
				continue // possible loss from six days: no limit
			}
			name, stage, column, share, mean, least = "soybean", "vegetative, before the stand is in doubt", "days_max", 0.2, mild, true
		case "wheat, small grains, flooded / saturated":
			name, stage, column, share, mean, least = "winter wheat", "often withstood", "days_min", 0.5, mild, true
		default:
			continue // loss of yield, crops that are not grown here, or from memory
		}
		kind, err := crop.Named(name)
		if err != nil {
			return nil, err
		}
		status := Published
		if strings.Contains(r["source"], "second hand") {
			status = Memory
		}
		checks = append(checks, Check{ID: "crop-flood-tolerance.csv:" + r["crop"] + ", " + r["stage"], What: fmt.Sprintf("%s: days under water, %s", name, stage),
			Source: strings.TrimPrefix(r["source"], "READ: ") + " (extension bulletins)", Status: status, Unit: "d",
			Expected: r.num(column), Got: float64(livesUnder(&kind, share, mean, least)), Tolerance: 0.5, Why: "whole days"})
	}
	return checks, nil
}

// livesUnder counts the days before a stand is lost, or in doubt.
func livesUnder(k *crop.Kind, share, mean float64, doubt bool) int {
	var s crop.Spell
	for s.Days < 60 {
		s.Day(k, true, share, mean)
		if f := s.Fate(); f == crop.Lost || doubt && f == crop.Doubtful {
			return s.Days - 1
		}
	}
	return s.Days
}

// cropFloodLoss is soybean's loss for each day of a flood.
func cropFloodLoss() ([]Check, error) {
	var checks []Check
	for _, r := range table("crop-flood-tolerance.csv") {
		stage := r["stage"]
		if r["crop"] != "soybean" || !strings.HasPrefix(stage, "V4") {
			continue
		}
		_, metric, _ := strings.Cut(r["note"], "(")
		metric, _, _ = strings.Cut(metric, " ")
		want, err := strconv.ParseFloat(metric, 64)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", stage, err)
		}
		clay := strings.Contains(stage, "clay")
		checks = append(checks, Check{ID: "crop-flood-tolerance.csv:soybean, " + stage, What: "soybean: yield lost to a further day of flood", Source: "Scott et al. 1989 via extension", Status: Published, Unit: "kg/ha",
			Expected: want, Got: crop.SoybeanFloodLoss(6, false, clay) - crop.SoybeanFloodLoss(5, false, clay), Tolerance: 0.5, Why: "printed to whole kg/ha"})
	}
	return checks, nil
}
