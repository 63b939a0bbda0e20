package proof

import "testing"

func TestSalt(t *testing.T) { runGroup(t, saltGroup) }
