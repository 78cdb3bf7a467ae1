package run

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/stat"
)

// TestLinesAgree holds random lines against gonum's regression, with and without weights.
func TestLinesAgree(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 300 {
		n := 3 + r.IntN(30)
		x, y, u, w := make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n)
		for i := range x {
			x[i], y[i], u[i] = 10*r.NormFloat64()+100, r.NormFloat64(), 0.1+r.Float64()
			y[i] += 3 - 0.2*x[i]
			w[i] = 1 / (u[i] * u[i])
		}
		for _, through := range []bool{false, true} {
			for _, weights := range [][]float64{nil, w} {
				f := &Fit{Params: 2, Model: -1}
				if through {
					f.Params = 1
				}
				if weights != nil {
					f.UY = u
				}
				got, ok := (&lineFit{Fit: f, x: x, y: y}).best()
				intercept, slope := stat.LinearRegression(x, y, weights, through)
				if !ok || math.Abs(got.Values[0]-slope) > 1e-9*math.Abs(slope) || !through && math.Abs(got.Values[1]-intercept) > 1e-8*(1+math.Abs(intercept)) {
					t.Errorf("%v, not %v and %v", got.Values, slope, intercept)
				}
			}
		}
	}
}

// TestLineScatters draws readings about a line again and again, with uncertainties in both
// and parts of them shared: the lines scatter as their covariances say, and χ² is what is
// expected.
func TestLineScatters(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	const n, draws = 12, 4000
	f := &Fit{Params: 2, Model: -1, UY: make([]float64, n), UX: make([]float64, n), UXY: make([]float64, n)}
	for i := range n {
		f.UX[i], f.UY[i], f.UXY[i] = 0.05, 0.08+0.01*float64(i), 0.05*0.03
	}
	var sum, squares, said [2]float64
	chi := 0.0
	for range draws {
		x, y := make([]float64, n), make([]float64, n)
		for i := range n {
			a, b := r.NormFloat64(), r.NormFloat64()
			x[i] = float64(i) + 0.05*a
			y[i] = 1 + 2*float64(i) + 0.03*a + math.Sqrt(f.UY[i]*f.UY[i]-0.03*0.03)*b
		}
		got, ok := (&lineFit{Fit: f, x: x, y: y}).best()
		if !ok {
			t.Fatal("no line")
		}
		for k, v := range got.Values {
			d := v - [2]float64{2, 1}[k]
			sum[k] += d
			squares[k] += d * d
			said[k] += got.Covariance[k][k]
		}
		chi += got.Squares
	}
	for k := range sum {
		if math.Abs(sum[k])/draws > 5*math.Sqrt(said[k]/draws/draws) || math.Abs(squares[k]/said[k]-1) > 0.1 {
			t.Errorf("parameter %d: mean %v off, variance %v, said %v", k, sum[k]/draws, squares[k]/draws, said[k]/draws)
		}
	}
	if chi /= draws * (n - 2); math.Abs(chi-1) > 0.03 {
		t.Errorf("χ² per degree of freedom: %v", chi)
	}
}

// BenchmarkLine fits a line to a hundred thousand readings, with uncertainties in both.
func BenchmarkFitLine(b *testing.B) {
	const n = 100_000
	r := rand.New(rand.NewPCG(5, 6))
	x, y := make([]float64, n), make([]float64, n)
	f := &Fit{Params: 2, Model: -1, UY: make([]float64, n), UX: make([]float64, n), UXY: make([]float64, n)}
	for i := range n {
		f.UX[i], f.UY[i] = 0.1, 0.1
		x[i] = float64(i) + 0.1*r.NormFloat64()
		y[i] = 2*x[i] + 0.1*r.NormFloat64()
	}
	for b.Loop() {
		if _, ok := (&lineFit{Fit: f, x: x, y: y}).best(); !ok {
			b.Fatal("no line")
		}
	}
}
