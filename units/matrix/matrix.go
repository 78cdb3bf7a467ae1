// Package matrix has the linear algebra of small matrices of plain numbers.
package matrix

import (
	"math"
	"slices"
)

// LeastSquares finds the x that makes the sum of the squares of a·x - b least, for a matrix
// by columns, and the factor R of which a is the orthogonal times that. It changes both
// arguments. It is false where the columns do not tell the unknowns from each other.
//
// It is Householder's method on columns of one size each (G. H. Golub and C. F. Van Loan,
// Matrix Computations, 4th ed., algorithm 5.2.1; from memory): the squares of the columns
// are never multiplied with each other, so that no more figures are lost than there must
// be.
func LeastSquares(a [][]float64, b []float64) (x []float64, r [][]float64, ok bool) {
	n, m := len(a), len(b)
	size := make([]float64, n)
	for k, col := range a {
		if size[k] = Norm(col); size[k] == 0 || size[k]-size[k] != 0 {
			return nil, nil, false
		}
		for i := range col {
			col[i] /= size[k]
		}
	}
	for k, col := range a {
		if k >= m {
			return nil, nil, false
		}
		alpha := Norm(col[k:])
		// What is left of a column is what the columns before can't make: with nothing left,
		// any amount of it can be traded for theirs.
		if alpha < lostColumn {
			return nil, nil, false
		}
		// With the other sign, the two would nearly cancel in the next line.
		if col[k] > 0 {
			alpha = -alpha
		}
		// The reflection is kept in the column, its diagonal in v.
		v := append([]float64(nil), col[k:]...)
		v[0] -= alpha
		half := float64(alpha * -v[0])
		for _, other := range a[k+1:] {
			mirror(other[k:], v, half)
		}
		mirror(b[k:], v, half)
		col[k] = alpha
	}
	// R is a triangle, so that the last unknown stands alone, and the others follow from below.
	x, r = make([]float64, n), make([][]float64, n)
	for k := n - 1; k >= 0; k-- {
		left := b[k]
		for j := k + 1; j < n; j++ {
			left -= float64(a[j][k] * x[j])
		}
		x[k] = left / a[k][k]
	}
	for k := range r {
		r[k] = make([]float64, n)
		for j := k; j < n; j++ {
			r[k][j] = float64(a[j][k] * size[j])
		}
		x[k] /= size[k]
	}
	return x, r, !slices.ContainsFunc(x, func(v float64) bool { return v-v != 0 })
}

// lostColumn is what is left of a column of size 1 that is a sum of others.
const lostColumn = 1e-14

// mirror mirrors numbers at the plane that a vector stands on; half is half its square.
//
// A reflection changes no distances, so the sum of the squares stays what it is.
func mirror(of, v []float64, half float64) {
	by := 0.0
	for i, w := range v {
		by += float64(w * of[i])
	}
	by /= half
	for i, w := range v {
		of[i] -= float64(by * w)
	}
}

// Norm is the root of the sum of the squares.
func Norm(of []float64) float64 {
	most := 0.0
	for _, v := range of {
		most = max(most, math.Abs(v))
	}
	if most == 0 || most-most != 0 {
		return most
	}
	sum := 0.0
	for _, v := range of {
		part := v / most
		sum += float64(part * part)
	}
	return most * math.Sqrt(sum)
}

// InverseSquare is the inverse of the product of a triangle turned over and itself: the
// covariance of what it was the factor of.
func InverseSquare(r [][]float64) [][]float64 {
	n := len(r)
	inverse := make([][]float64, n) // of the triangle, by rows
	for k := range inverse {
		inverse[k] = make([]float64, n)
	}
	for j := range n {
		for i := j; i >= 0; i-- {
			left := 0.0
			if i == j {
				left = 1
			}
			for k := i + 1; k <= j; k++ {
				left -= float64(r[i][k] * inverse[k][j])
			}
			inverse[i][j] = left / r[i][i]
		}
	}
	out := make([][]float64, n)
	for i := range out {
		out[i] = make([]float64, n)
		for j := range out[i] {
			for k := max(i, j); k < n; k++ {
				out[i][j] += float64(inverse[i][k] * inverse[j][k])
			}
		}
	}
	return out
}
