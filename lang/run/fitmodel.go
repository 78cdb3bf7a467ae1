package run

import (
	"math"
	"slices"

	"steelyard/lang/ops"
	"steelyard/units/matrix"
)

// modelFit is a model while it is fitted: what is left of each point is a function of the
// parameters and of the point's readings.
type modelFit struct {
	*Fit
	w       *floatWalker
	duals   walker[dual, duals]
	x       [][]float64 // the columns
	weights []float64   // the roots of how much each point counts
	across  [][]float64 // how what is left of each point changes with each column
	given   []dual
}

// Without uncertainties every point counts alike.
func newModelFit(w *floatWalker, f *Fit, columns [][]float64) *modelFit {
	m := &modelFit{Fit: f, w: w, x: columns, duals: newWalker[dual](w.p, w.st, w.depth, duals{})}
	m.given = make([]dual, f.Params+len(columns))
	m.weights = make([]float64, len(columns[0]))
	for i := range m.weights {
		m.weights[i] = 1
	}
	return m
}

// at is what is left of point i and how that changes with argument k; below 0 for none.
//
// Slopes are exact, by duals. Differences would end a descent where their noise begins,
// some eight digits before the least squares are found.
func (m *modelFit) at(p []float64, i, k int) (dual, bool) {
	for j, v := range p {
		m.given[j] = dual{v: v, still: true}
	}
	for j, col := range m.x {
		m.given[len(p)+j] = dual{v: col[i], still: true}
	}
	if k >= 0 {
		m.given[k].d, m.given[k].still = 1, false
	}
	out, ok := m.duals.at(m.Model, m.given)
	return out, ok && out.v-out.v == 0 && out.d-out.d == 0
}

// left is what the model leaves of each point, by its weight, and the sum of the squares;
// false where some point has no value, or what is left would overflow.
//
// The readings belong to the model here, as arguments of the function: what is left of a point
// is one call.
func (m *modelFit) left(p, out []float64) (squares float64, ok bool) {
	for i := range out {
		at, has := m.at(p, i, -1)
		if !has {
			return 0, false
		}
		out[i] = m.weights[i] * at.v
		squares += square(out[i])
	}
	return squares, squares-squares == 0
}

// slopes are the columns of how what is left changes with some of the parameters.
func (m *modelFit) slopes(p []float64, of []int) ([][]float64, bool) {
	out := make([][]float64, len(of))
	for c, k := range of {
		out[c] = make([]float64, len(m.weights))
		for i := range out[c] {
			at, ok := m.at(p, i, k)
			if !ok {
				return nil, false
			}
			out[c][i] = m.weights[i] * at.d
		}
	}
	return out, true
}

// weigh says how much each point counts with some parameters: by what its readings may be
// off, each times how it moves what is left (the method of effective variance; J. Orear,
// American Journal of Physics 50, 1982, p. 912, from memory).
//
// A reading of x that is off moves the model by its slope there, which changes with the
// parameters.
func (m *modelFit) weigh(p []float64) bool {
	if m.Moves == nil {
		return true
	}
	m.across = m.across[:0]
	for i := range m.weights {
		variance := 0.0
		by := make([]float64, len(m.x))
		for c := range by {
			at, ok := m.at(p, i, len(p)+c)
			if !ok {
				return false
			}
			by[c] = at.d
		}
		m.across = append(m.across, by)
		for _, s := range m.Moves[i] {
			moved := 0.0
			for c, off := range s.by {
				moved += float64(by[c] * off)
			}
			variance += square(moved)
		}
		if m.weights[i] = 1 / math.Sqrt(variance); !allFinite(m.weights[i]) {
			return false
		}
	}
	return true
}

const (
	// A descent that has not settled by then goes along a valley that hardly falls: the
	// readings don't tell the parameters from each other.
	mostDescents = 400   // steps of one descent
	sameParam    = 1e-13 // a step that changes each parameter by less, as a part of it, is none
	mostWeighed  = 30    // times that weights are settled
)

// descend goes from some parameters to those that leave least of the readings, by the
// method of Levenberg and Marquardt with Moré's scales (J. J. Moré, Lecture Notes in
// Mathematics 630, 1978, p. 105; from memory). It is false where there is no value at the
// start, or no end of the way.
func (m *modelFit) descend(p []float64) (squares float64, ok bool) {
	n := len(m.weights)
	left, tried := make([]float64, n), make([]float64, n)
	if squares, ok = m.left(p, left); !ok {
		return 0, false
	}
	scale, damp := make([]float64, len(p)), 1e-3
	for range mostDescents {
		if m.w.stopped() {
			return squares, false
		}
		slopes, ok := m.slopes(p, allOf(len(p)))
		if !ok {
			return squares, false
		}
		for k, col := range slopes {
			scale[k] = max(scale[k], matrix.Norm(col))
		}
		settled, still := false, roundings*mostMoved(p, slopes)
		for {
			step, ok := damped(slopes, left, scale, damp)
			next := make([]float64, len(p))
			settled = ok
			for k := range p {
				next[k] = p[k]
				if ok {
					next[k] -= step[k]
					settled = settled && (math.Abs(step[k]) <= sameParam*math.Abs(next[k]) || math.Abs(step[k])*matrix.Norm(slopes[k]) <= still)
				}
			}
			now, has := 0.0, false
			if ok {
				now, has = m.left(next, tried)
			}
			if has && now <= squares {
				copy(p, next)
				left, tried = tried, left
				squares, damp = now, max(damp/8, 1e-15)
				break
			}
			if settled || damp > 1e16 {
				return m.polish(p, squares), true
			}
			damp = max(damp, 1e-12) * 8
		}
		if settled || squares == 0 {
			return m.polish(p, squares), true
		}
	}
	return squares, false
}

// mostMoved is how much of the readings the parameter makes up that makes up most.
//
// A parameter that is to be 0 is never the same to thirteen digits: what it moves, beside the
// rest, tells that a step was none.
func mostMoved(p []float64, slopes [][]float64) (most float64) {
	for k, col := range slopes {
		most = max(most, math.Abs(p[k])*matrix.Norm(col))
	}
	return most
}

// sameSum is how much greater a sum of squares may be that is the same but for rounding.
const sameSum = 1e-13

// polish takes one step of Gauss at the end of a descent. Near the least sum of squares that
// hardly changes, so that who goes by it alone stops at half of the figures; the step goes by
// its slopes, and has them all where a model is linear in its parameters.
func (m *modelFit) polish(p []float64, squares float64) float64 {
	left := make([]float64, len(m.weights))
	_, has := m.left(p, left)
	slopes, ok := m.slopes(p, allOf(len(p)))
	if !ok || !has {
		return squares
	}
	step, _, ok := matrix.LeastSquares(slopes, left)
	if !ok {
		return squares
	}
	next := slices.Clone(p)
	for k := range next {
		next[k] -= step[k]
	}
	now, has := m.left(next, left)
	if !has || now > squares+float64(sameSum*squares) {
		return squares
	}
	copy(p, next)
	return now
}

// damped is a step that makes what is left less, and is itself kept short.
//
// Each parameter gets one more equation, that its step be 0, with a weight by its scale. The
// more those weigh, the shorter is the step and the nearer its direction to the steepest way
// down; without them it is Gauss's step. Solving for both at once as least squares never
// multiplies the slopes with each other, as normal equations would.
func damped(slopes [][]float64, left, scale []float64, damp float64) ([]float64, bool) {
	n, k := len(left), len(slopes)
	a, b := make([][]float64, k), make([]float64, n+k)
	copy(b, left)
	for j := range a {
		a[j] = make([]float64, n+k)
		copy(a[j], slopes[j])
		a[j][n+j] = math.Sqrt(damp) * scale[j]
	}
	step, _, ok := matrix.LeastSquares(a, b)
	return step, ok
}

func allOf(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	return out
}

// settle finds the parameters from a start, with weights that depend on them.
//
// How much a point counts depends on the slope of what is fitted there, if x has an
// uncertainty: weights and parameters are found in turns until neither changes.
func (m *modelFit) settle(p []float64) (squares float64, ok bool) {
	if !m.weigh(p) {
		return 0, false
	}
	for range mostWeighed {
		was := slices.Clone(p)
		if squares, ok = m.descend(p); !ok || m.Moves == nil {
			return squares, ok
		}
		same := true
		for k := range p {
			same = same && math.Abs(p[k]-was[k]) <= 1e-10*math.Abs(p[k])
		}
		if same || !m.weigh(p) {
			return squares, same
		}
	}
	return squares, true
}

// best fits a model from its start values, or from those that a search finds where there
// are none.
//
// Gain says how each parameter changes with each reading, and Lever how far a reading pulls the
// curve to itself; both come from the same slopes and are needed for the uncertainties.
func (m *modelFit) best(start []float64) (Fitted, ops.Fault) {
	p, searched, ok := slices.Clone(start), false, true
	if m.Search {
		if p, searched, ok = m.search(start); !ok {
			return Fitted{}, m.fault()
		}
	}
	if _, ok := m.settle(p); !ok {
		return Fitted{}, m.fault()
	}
	n := len(m.weights)
	out := Fitted{Values: p, Left: make([]float64, n), Weight: make([]float64, n), Lever: make([]float64, n), Searched: searched}
	slopes, ok := m.slopes(p, allOf(len(p)))
	if !ok {
		return Fitted{}, m.fault()
	}
	plain, whole := make([][]float64, len(slopes)), mostMoved(p, slopes)
	for k := range plain {
		plain[k] = slices.Clone(slopes[k])
		if by := matrix.Norm(slopes[k]); by > 0 {
			p[k] = unlessRounding(p[k], whole/by)
		}
	}
	_, r, ok := matrix.LeastSquares(slopes, make([]float64, n))
	if !ok {
		return Fitted{}, ops.NoFit
	}
	// The least squares are found anew only for R: the inverse of its square is the covariance,
	// but for how much a point scatters.
	out.Covariance, out.Across = matrix.InverseSquare(r), m.across
	out.Gain = make([][]float64, len(p))
	for i := range out.Left {
		at, _ := m.at(p, i, -1)
		size := 0.0
		for k, v := range p {
			size += math.Abs(v*plain[k][i]) / m.weights[i]
		}
		out.Left[i], out.Weight[i] = unlessRounding(at.v, size), square(m.weights[i])
		out.Squares += float64(out.Weight[i] * square(out.Left[i]))
		for a := range plain {
			gain := 0.0
			for b := range plain {
				gain -= float64(out.Covariance[a][b] * plain[b][i])
				out.Lever[i] += float64(plain[a][i]*plain[b][i]) * out.Covariance[a][b]
			}
			out.Gain[a] = append(out.Gain[a], float64(gain*m.weights[i]))
		}
	}
	return out, ops.NoFault
}

func (m *modelFit) fault() ops.Fault {
	if m.w.stopped() {
		return ops.Stopped
	}
	return ops.NoFit
}
