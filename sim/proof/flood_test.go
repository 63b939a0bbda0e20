package proof

import "testing"

// F1, F2, F5, F7 11 and 2 of the peaks; F3, F4 4 and 4 of the curve; 13 of factors; F8 to
// F13 20; P 3+8+3+3; Q 2+7+2+2+6; B 5+4.
func TestFloods(t *testing.T) { holds(t, floods, 13+8+13+20+17+19+9) }
