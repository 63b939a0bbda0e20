package proof

import "testing"

func TestDrain(t *testing.T) { runGroup(t, drainGroup) }
