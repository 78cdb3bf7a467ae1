package matrix

import (
	"math"
	"testing"
)

func TestLeastSquares(t *testing.T) {
	tests := []struct {
		name string
		a    [][]float64 // by columns
		b    []float64
		want []float64 // nil where the columns do not tell the unknowns apart
	}{
		{"one solution", [][]float64{{2, 1}, {1, 3}}, []float64{5, 10}, []float64{1, 3}},
		{"a line through points on it", [][]float64{{1, 1, 1}, {0, 1, 2}}, []float64{1, 3, 5}, []float64{1, 2}},
		{"a line near points", [][]float64{{1, 1, 1, 1}, {0, 1, 2, 3}}, []float64{1, 3, 2, 4}, []float64{1.3, 0.8}},
		{"columns of very unlike size", [][]float64{{1e-9, 1e-9}, {1e9, -1e9}}, []float64{3, -1}, []float64{1e9, 2e-9}},
		{"two columns alike", [][]float64{{1, 2}, {2, 4}}, []float64{1, 2}, nil},
		{"a column of nothing", [][]float64{{0, 0}, {2, 4}}, []float64{1, 2}, nil},
		{"more unknowns than equations", [][]float64{{1}, {2}}, []float64{1}, nil},
		{"no number", [][]float64{{math.NaN(), 1}, {2, 4}}, []float64{1, 2}, nil},
	}
	for _, tt := range tests {
		var a [][]float64
		for _, col := range tt.a {
			a = append(a, append([]float64(nil), col...))
		}
		got, r, ok := LeastSquares(a, append([]float64(nil), tt.b...))
		if ok != (tt.want != nil) {
			t.Errorf("%s: %v, %t", tt.name, got, ok)
			continue
		}
		for i, want := range tt.want {
			if math.Abs(got[i]-want) > 1e-14*math.Abs(want) {
				t.Errorf("%s: %v, want %v", tt.name, got, tt.want)
			}
		}
		if !ok {
			continue
		}
		// The inverse of RᵀR times AᵀA leaves 1 on the diagonal, and 0 beside it.
		inverse := InverseSquare(r)
		for i := range inverse {
			for j := range inverse {
				sum, size := 0.0, 0.0
				for k := range inverse {
					for row := range tt.b {
						part := inverse[i][k] * tt.a[k][row] * tt.a[j][row]
						sum, size = sum+part, max(size, math.Abs(part))
					}
				}
				want := map[bool]float64{true: 1, false: 0}[i == j]
				if math.Abs(sum-want) > 1e-13*max(size, 1) {
					t.Errorf("%s: %d, %d is %g, want %g", tt.name, i, j, sum, want)
				}
			}
		}
	}
}
