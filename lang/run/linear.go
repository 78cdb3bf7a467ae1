package run

import (
	"math"

	"steelyard/lang/ops"
)

// Rank is what the coefficients of linear equations say of their solutions.
type Rank uint8

// The ranks.
const (
	NotLinear     Rank = iota // or not known to be
	OneSolution               // the equations leave one value for each unknown
	Dependent                 // some equation follows from the others
	Contradictory             // no values satisfy all
)

// Rank tells of equations that are linear in their unknowns whether they leave
// one solution. A pivot that lies within its own error is 0.
func (p *Program) Rank(st *State, s *Solve) Rank { return p.floats(st).rank(s) }

func (w *floatWalker) rank(s *Solve) Rank {
	m, ok := w.coefficients(s)
	if !ok {
		return NotLinear
	}
	pivots := reduce(m)
	n := len(s.Dims)
	for _, row := range m[pivots:] {
		if !row[n].HoldsZero() {
			return Contradictory
		}
	}
	if pivots < n {
		return Dependent
	}
	return OneSolution
}

// coefficients encloses the coefficients of linear equations, and in a last
// column what they are to come to; false if an equation is not linear: its slopes
// by the unknowns are then not the same everywhere.
func (w *floatWalker) coefficients(s *Solve) ([][]ops.Interval, bool) {
	own := &intervalWalker{newWalker[enclosed](w.p, w.st, w.depth, intervals{exact})}
	n := len(s.Dims)
	m := make([][]ops.Interval, len(s.Differences))
	for j, fn := range s.Differences {
		m[j] = make([]ops.Interval, n+1)
		for k := range n {
			here, ok1 := own.at(fn, unknownsAt(n, k, ops.Point(0)))
			anywhere, ok2 := own.at(fn, unknownsAt(n, k, ops.Everything()))
			if !ok1 || !ok2 || here.partly || anywhere.partly || !(width(anywhere.d) <= 4*width(here.d)) {
				return nil, false
			}
			m[j][k], m[j][n] = anywhere.d, here.v
		}
	}
	return m, true
}

// unknownsAt are the unknowns, each at a place, and moving along one of them.
func unknownsAt(n, k int, at ops.Interval) []enclosed {
	x := make([]enclosed, n)
	for i := range x {
		x[i] = enclosed{v: at, d: ops.Point(0)}
	}
	x[k].d = ops.Point(1)
	return x
}

func width(x ops.Interval) float64 { return x.Hi - x.Lo }

// reduce brings equations into steps and returns how many pivots they have. The
// surest pivot is taken: the one that is farthest from 0, counted in its error.
func reduce(m [][]ops.Interval) int {
	n, row := len(m[0])-1, 0
	for col := 0; col < n && row < len(m); col++ {
		best, sure := row, 1.0
		for i := row; i < len(m); i++ {
			if c := certainty(m[i][col]); c > sure {
				best, sure = i, c
			}
		}
		if sure <= 1 {
			continue
		}
		m[row], m[best] = m[best], m[row]
		for i := row + 1; i < len(m); i++ {
			f := m[i][col].Over(m[row][col])
			for k := col; k <= n; k++ {
				m[i][k] = m[i][k].Sub(f.Mul(m[row][k]))
			}
			m[i][col] = ops.Point(0)
		}
		row++
	}
	return row
}

// certainty is how many times its error a number is away from 0; at most 1 if it
// may be 0.
func certainty(x ops.Interval) float64 {
	if x.HoldsZero() || x.Lo != x.Lo {
		return 0
	}
	return 1 + math.Abs(x.Lo+x.Hi)/(width(x)+math.SmallestNonzeroFloat64)
}
