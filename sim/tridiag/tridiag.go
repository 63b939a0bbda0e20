// Package tridiag solves the tridiagonal systems of the column solvers.
package tridiag

// Solve solves lower[i] x[i-1] + diag[i] x[i] + upper[i] x[i+1] = x[i] in
// place: x holds the right side and becomes the solution. The elimination
// (Thomas' algorithm, no pivoting) runs from both ends to the middle at once: two
// chains of divisions that do not wait for each other take little more time than
// one. scratch is overwritten. All slices have the length of diag, at least 2;
// lower[0] and upper[n-1] are not read. The matrix must be diagonally dominant.
func Solve(lower, diag, upper, x, scratch []float64) {
	n := len(diag)
	lower, upper, x, scratch = lower[:n], upper[:n], x[:n], scratch[:n]
	i, j := 0, n-1
	down, up := 1/diag[i], 1/diag[j] // of the pivots
	x[i] *= down
	x[j] *= up
	scratch[i], scratch[j] = upper[i]*down, lower[j]*up
	for j-i > 2 {
		i++
		j--
		down = 1 / (diag[i] - lower[i]*scratch[i-1])
		up = 1 / (diag[j] - upper[j]*scratch[j+1])
		x[i] = (x[i] - lower[i]*x[i-1]) * down
		x[j] = (x[j] - upper[j]*x[j+1]) * up
		scratch[i], scratch[j] = upper[i]*down, lower[j]*up
	}
	if j-i == 2 { // an odd row between the two
		i++
		x[i] = (x[i] - lower[i]*x[i-1] - upper[i]*x[j]) / (diag[i] - lower[i]*scratch[i-1] - upper[i]*scratch[j])
		x[j] -= scratch[j] * x[i]
	} else { // rows i and j meet
		x[j] = (x[j] - scratch[j]*x[i]) / (1 - scratch[j]*scratch[i])
		x[i] -= scratch[i] * x[j]
	}
	for i > 0 || j < n-1 {
		if i > 0 {
			i--
			x[i] -= scratch[i] * x[i+1]
		}
		if j < n-1 {
			j++
			x[j] -= scratch[j] * x[j-1]
		}
	}
}
