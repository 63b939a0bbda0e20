package proof

import "context"

// heatGroup holds the conduction of heat in the soil, the freezing of its water and
// what ice leaves of its conductivity to water.
func heatGroup(ctx context.Context) ([]Check, error) {
	return inTurn(ctx, thermal, neumann, frostDepths, berggren, annualWave, dampedWaves, iceImpedance)
}
