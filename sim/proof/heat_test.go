package proof

import "testing"

func TestSnow(t *testing.T) { holds(t, snowfall, 4+5) }

// 9 rows H01-H04; 21 fronts and 126 temperatures; 6 depths of frost; 90 shares of
// Stefan's; 64 and 4 of waves; 3 of ice.
func TestHeat(t *testing.T) { holds(t, heatGroup, 9+21+126+6+90+64+4+3) }
