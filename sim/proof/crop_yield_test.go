package proof

import "testing"

func TestCropYield(t *testing.T) { runGroup(t, cropYield) }
