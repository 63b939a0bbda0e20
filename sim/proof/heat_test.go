package proof

import "testing"

// 5 rows of S; 4 of conduction, 2 of settling, 3 of rain, 8 ranges.
func TestSnow(t *testing.T) { holds(t, snowfall, 5+4+2+3+8) }

// 9 rows H01-H04, 2 of ice and 3 of the handbook's soil; 21 fronts and 126
// temperatures; 7 depths of frost; 90 shares of Stefan's; 64 and 4 of waves; 4 of ice.
func TestHeat(t *testing.T) { holds(t, heatGroup, 14+21+126+7+90+64+4+4) }
