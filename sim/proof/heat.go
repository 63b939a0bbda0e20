package proof

import "context"

// heatGroup holds the conduction of heat in the soil, the freezing of its water and
// what ice leaves of its conductivity to water.
func heatGroup(ctx context.Context) ([]Check, error) {
	var checks []Check
	for _, part := range []func() ([]Check, error){thermal, neumann, frostDepths, berggren, annualWave, dampedWaves, iceImpedance} {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		more, err := part()
		if err != nil {
			return nil, err
		}
		checks = append(checks, more...)
	}
	return checks, nil
}
