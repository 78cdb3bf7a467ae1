package run

import "math"

// factor is how much one of a number of independent things, each with a standard deviation
// of 1, moves a source.
type factor struct {
	of int
	by float64
}

// latent are the factors of sources: each has one of its own, and means of readings that go
// together share those of the means before them, as the factor of Cholesky of their
// covariance has it.
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
		if p.Readings == nil || firstOf(sources, i) == i {
			out[i] = []factor{{i, p.U}}
			continue
		}
		left := p.U * p.U
		for j := firstOf(sources, i); j < i; j++ {
			q := sources[j]
			if q.Readings == nil || firstOf(sources, j) != firstOf(sources, i) {
				continue
			}
			own := out[j][len(out[j])-1]
			if own.of != j { // it depends on those before it alone
				continue
			}
			rest := covariance(p.Readings, q.Readings)
			for _, f := range out[i] {
				for _, g := range out[j] {
					if f.of == g.of {
						rest -= float64(f.by * g.by)
					}
				}
			}
			by := rest / own.by
			out[i], left = append(out[i], factor{j, by}), left-float64(by*by)
		}
		if left > 1e-12*p.U*p.U {
			out[i] = append(out[i], factor{i, math.Sqrt(left)})
		}
	}
	return out
}

// covariance is that of two means of readings that go together.
func covariance(a, b *Readings) float64 {
	sum := 0.0
	for row, off := range a.Off {
		sum += float64(off * b.Off[row])
	}
	return sum
}
