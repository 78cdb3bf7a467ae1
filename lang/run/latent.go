package run

import "math"

// factor is how much one of a number of independent things, each with a standard deviation
// of 1, moves a source.
type factor struct {
	of int
	by float64
}

// latent are the factors of sources: each has one of its own, and those that were worked out
// from the same readings share those of the ones before them, as the factor of Cholesky of
// their covariance has it.
//
// Two means of columns of one table are not drawn each for itself: where a row was read with
// a long period it was read so in both. The covariance of the means is known from the
// rows. Its factor L, with L·Lᵀ = covariance, turns independent draws into draws that go
// together as the rows do (G. H. Golub and C. F. Van Loan, Matrix Computations, 4th ed.,
// 4.2; from memory). A mean that follows from those before it has no factor of its own: the
// root of a rounding remainder would be noise.
func latent(sources []Part) [][]factor {
	out := make([][]factor, len(sources))
	for i, p := range sources {
		left := p.U * p.U
		if p.Rows != nil {
			by := make([]float64, i)
			for j, q := range sources[:i] {
				own := out[j][len(out[j])-1]
				if own.of != j { // it depends on those before it alone
					continue
				}
				rest := covariance(p, q)
				for _, f := range out[j][:len(out[j])-1] {
					rest -= float64(f.by * by[f.of])
				}
				if by[j] = rest / own.by; by[j] != 0 {
					out[i], left = append(out[i], factor{j, by[j]}), left-float64(by[j]*by[j])
				}
			}
		}
		if left > 1e-12*p.U*p.U {
			out[i] = append(out[i], factor{i, math.Sqrt(left)})
		}
	}
	return out
}
