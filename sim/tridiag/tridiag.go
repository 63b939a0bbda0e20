// Package tridiag solves the tridiagonal systems of the column solvers.
package tridiag

// Solve solves lower[i] x[i-1] + diag[i] x[i] + upper[i] x[i+1] = x[i] in
// place (Thomas' algorithm, no pivoting): x holds the right side and becomes
// the solution. scratch is overwritten. All slices have the length of diag;
// lower[0] and upper[n-1] are not read. The matrix must be diagonally dominant.
func Solve(lower, diag, upper, x, scratch []float64) {
	n := len(diag)
	lower, upper, x, scratch = lower[:n], upper[:n], x[:n], scratch[:n]
	inv := 1 / diag[0]
	x[0] *= inv
	for i := 1; i < n; i++ {
		s := upper[i-1] * inv
		scratch[i] = s
		inv = 1 / (diag[i] - lower[i]*s)
		x[i] = (x[i] - lower[i]*x[i-1]) * inv
	}
	for i := n - 2; i >= 0; i-- {
		x[i] -= scratch[i+1] * x[i+1]
	}
}
