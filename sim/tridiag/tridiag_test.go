package tridiag

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"
)

// Against the pivoting LAPACK solve of a general-purpose library.
func TestSolve(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 1))
	for _, n := range []int{2, 3, 4, 5, 40, 101} {
		lower, diag, upper, x := make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n)
		for i := range n {
			lower[i], upper[i], x[i] = rng.NormFloat64(), rng.NormFloat64(), rng.NormFloat64()
			diag[i] = 3 + math.Abs(lower[i]) + math.Abs(upper[i])
		}
		m := mat.NewTridiag(n, lower[1:], diag, upper[:n-1])
		var want mat.VecDense
		if err := m.SolveVecTo(&want, false, mat.NewVecDense(n, append([]float64(nil), x...))); err != nil {
			t.Fatal(err)
		}
		Solve(lower, diag, upper, x, make([]float64, n))
		for i := range n {
			if math.Abs(x[i]-want.AtVec(i)) > 1e-12 { // a few roundings of numbers near one
				t.Errorf("n %d, row %d: %g, library %g", n, i, x[i], want.AtVec(i))
			}
		}
	}
}
