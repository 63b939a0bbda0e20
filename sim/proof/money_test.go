package proof

import "testing"

func TestMoney(t *testing.T) { runGroup(t, moneyChecks) }
