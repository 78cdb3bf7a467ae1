package run

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"

	"steelyard/units/matrix"
)

const (
	mostStarts = 4000       // tried for the parameters that are not found by elimination
	mostTried  = 200        // of the points, at each start
	startOps   = 20_000_000 // instructions that all starts together may take, about
	keptStarts = 12         // from which a descent goes on
	// ofScale is how far from its natural scale a start may be, in powers of ten.
	ofScale = 3
	// sameSquares is how near two ends of descents are that fit alike.
	sameSquares = 1e-7
)

// search finds start values: of the parameters that what is left is linear in by
// elimination, of the others by many tries about their natural scales, which are given.
// Tries are the same each time. The best few are followed to their ends. It tells
// whether there was anything to try.
//
// A descent ends in the hollow that it starts in, and a model with a sine or an exponential
// in it has many. Parameters that the model is linear in have one hollow alone, so that they
// are worked out for each try and not tried themselves: a sine with an amplitude, a
// frequency and a phase is searched over two of its three.
func (m *modelFit) search(scales []float64) (p []float64, searched, ok bool) {
	few := m.few()
	linear, others := few.linear(scales)
	r := rand.New(rand.NewPCG(14, uint64(len(scales))))
	type start struct {
		p       []float64
		squares float64
	}
	var kept []start
	tries := 1
	if len(others) > 0 {
		each := int64(len(few.weights)) * int64(len(linear)+2) * max(m.w.p.Funcs[m.Model].Cost, 1)
		tries = int(max(50, min(mostStarts, startOps/each)))
	}
	for try := 0; try < tries && !m.w.stopped(); try++ {
		p := slices.Clone(scales)
		for _, k := range others {
			p[k] = scales[k] * math.Pow(10, ofScale*(2*r.Float64()-1))
			// Parameters are above 0 far more often: three tries of four look there alone.
			if try%4 == 3 && r.IntN(2) == 0 {
				p[k] = -p[k]
			}
		}
		squares, ok := few.eliminate(p, linear)
		if !ok {
			continue
		}
		// The best stay in order; a try that fits as well as one before it comes before that.
		at, _ := slices.BinarySearchFunc(kept, squares, func(s start, v float64) int { return cmp.Or(cmp.Compare(s.squares, v), 1) })
		if at < keptStarts {
			kept = slices.Insert(kept, at, start{p, squares})
			kept = kept[:min(len(kept), keptStarts)]
		}
	}
	var best []float64
	least := math.Inf(1)
	for _, s := range kept {
		squares, ok := m.descend(s.p)
		if ok && (squares < least*(1-sameSquares) || squares <= least*(1+sameSquares) && simpler(s.p, best)) {
			best, least = s.p, squares
		}
	}
	return best, len(others) > 0, best != nil
}

// simpler tells whether parameters that fit as well are nearer to what people write: fewer
// of them are below 0, or they are smaller.
//
// A·sin(ωt + φ) fits as well with -A and a phase of half a turn more, or with any whole
// turns more: of these people write the one with the small numbers.
func simpler(p, q []float64) bool {
	below := func(of []float64) (n int, size float64) {
		for _, v := range of {
			if v < 0 {
				n++
			}
			size += math.Log(1 + math.Abs(v))
		}
		return n, size
	}
	pn, ps := below(p)
	qn, qs := below(q)
	return pn < qn || pn == qn && ps < qs
}

// few is the same fit of fewer points, evenly spread.
//
// Which hollow is the deepest is seen from two hundred points as from ten thousand, and the
// descents that follow take all of them.
func (m *modelFit) few() *modelFit {
	n := len(m.weights)
	if n <= mostTried {
		return m
	}
	columns := make([][]float64, len(m.x))
	for i := range mostTried {
		at := i * (n - 1) / (mostTried - 1)
		for c := range columns {
			columns[c] = append(columns[c], m.x[c][at])
		}
	}
	return newModelFit(m.w, m.Fit, columns)
}

// linear finds parameters that what is left is linear in, the others being given: their
// slopes stay where they change.
//
// Slopes that stay where everything is moved, by chance numbers and to the other side of 0, are
// constant: this is no proof, and what it costs to be wrong is a start that is worse.
func (m *modelFit) linear(scales []float64) (linear, others []int) {
	r := rand.New(rand.NewPCG(1, 4))
	same := func(of []int) bool {
		for range 3 {
			p := slices.Clone(scales)
			for k := range p {
				p[k] *= 0.5 + r.Float64()
			}
			before, ok := m.slopes(p, of)
			// A place without a value, the logarithm of a number below 0, tells nothing.
			if !ok {
				continue
			}
			for _, k := range of {
				p[k] *= -3 * r.Float64()
			}
			after, ok := m.slopes(p, of)
			if !ok {
				return false
			}
			for c := range before {
				for i, v := range before[c] {
					if math.Abs(v-after[c][i]) > 1e-9*(math.Abs(v)+math.Abs(after[c][i])) {
						return false
					}
				}
			}
		}
		return true
	}
	for k := range scales {
		if with := append(slices.Clone(linear), k); same(with) {
			linear = with
		} else {
			others = append(others, k)
		}
	}
	return linear, others
}

// eliminate finds the parameters that what is left is linear in, for some values of the
// others.
//
// With those parameters at 0, what is left is a sum of their slopes with the signs turned
// round, and least squares says how much of each.
func (m *modelFit) eliminate(p []float64, linear []int) (squares float64, ok bool) {
	left := make([]float64, len(m.weights))
	for _, k := range linear {
		p[k] = 0
	}
	if squares, ok = m.left(p, left); !ok || len(linear) == 0 {
		return squares, ok
	}
	slopes, ok := m.slopes(p, linear)
	if !ok {
		return 0, false
	}
	step, _, ok := matrix.LeastSquares(slopes, slices.Clone(left))
	if !ok {
		return 0, false
	}
	for c, k := range linear {
		p[k] = -step[c]
	}
	return m.left(p, left)
}
