package proof

import "testing"

// U 19, and 3 and 3 of the tables of shapes; L 8+8+1+20+1; M 3+3+2+5+2, and 3 of the
// tables; E 8.
func TestRouting(t *testing.T) { holds(t, routing, 19+6+38+15+3+8) }
