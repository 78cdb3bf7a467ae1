package run

import (
	"math"
	"slices"
	"sort"

	"steelyard/lang/ops"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// Near is how close, as a part of the larger of a bound and the size of an
// unknown, a root counts as on the bound.
const Near = 1e-9

// Condition is what a root must satisfy.
type Condition struct {
	Difference int // the number of left - right, a function of the unknowns
	Op         syntax.Comparison
	// OfUnknown tells that both sides have the unknown's dimension, so that its
	// size counts too.
	OfUnknown bool
}

// Solve is the work of one ops.Solve: equations planned as functions of their
// unknowns, and the rule that picks a root. Candidates stand in the arguments
// of the instruction; without any, they are searched for.
type Solve struct {
	Differences []int // left - right of each equation; functions of all unknowns
	Dims        []units.Dim
	Unknown     int // which of the unknowns the instruction gives
	Conditions  []Condition
	// Choice says which root is taken: the smallest, the greatest, or the only one or only
	// positive one. With Of above 0 it is number Nth of exactly so many, the smallest first.
	Choice  syntax.Choice
	Nth, Of int
	// Sizes are those of what each candidate is added up from, in coherent SI
	// units: one that is smaller than that by Near is a rounding remainder.
	Sizes []float64
	// Searched tells that there are no candidates; the arguments are then the
	// bounds that conditions set, from below and from above.
	Searched bool
	// Below and Above tell which bounds there are.
	Below, Above bool
	// Level tells that the difference of one equation is the same wherever it goes on
	// without a jump.
	Level bool
}

// On is the same work with other functions in the places of its own.
func (s *Solve) On(instead func(fn int) int) *Solve {
	out := *s
	out.Differences, out.Conditions = slices.Clone(s.Differences), slices.Clone(s.Conditions)
	for i, fn := range out.Differences {
		out.Differences[i] = instead(fn)
	}
	for i := range out.Conditions {
		out.Conditions[i].Difference = instead(out.Conditions[i].Difference)
	}
	return &out
}

// chosen finds the roots of a solve that satisfy it, and takes one by its rule.
// X holds the candidates or the bounds of the search; has tells which have a
// value.
func (w *floatWalker) chosen(s *Solve, x []float64, has []bool) (float64, ops.Fault) {
	var linear Linear
	if len(s.Dims) > 1 {
		linear = w.linear(s)
	}
	var roots []Candidate
	switch {
	case linear.Rank == Dependent || linear.Rank == Contradictory:
		return 0, ops.NoRoot
	case !s.Searched:
		roots = w.candidates(s, x, has)
	case linear.Rank == OneSolution:
		roots = []Candidate{{X: linear.X}}
	case len(s.Dims) > 1:
		for _, x := range w.newton(s) {
			roots = append(roots, Candidate{X: x})
		}
	default:
		var endless bool
		if roots, endless = w.searched(s, x); endless {
			return 0, ops.ManyRoots
		}
	}
	order := w.allowedRoots(s, roots)
	kept := make([][]float64, len(order))
	for i, k := range order {
		kept[i] = roots[k].X
	}
	chosen := s.Choose(kept)
	switch {
	case chosen >= 0:
		return kept[chosen][s.Unknown], ops.NoFault
	case w.stopped():
		return 0, ops.Stopped
	case len(kept) == 0:
		return 0, ops.NoRoot
	}
	return 0, ops.ManyRoots
}

// Candidate is a value for each unknown.
type Candidate struct {
	X []float64
	// Size is that of what the value of a single unknown is added up from, or 0.
	Size float64
}

// off is how far the value of a single unknown may be off, with some room.
func (c Candidate) off() float64 { return 4 * exact * c.Size }

// candidates are the roots among numbers that hold one value after the other
// for each unknown.
func (w *floatWalker) candidates(s *Solve, all []float64, has []bool) []Candidate {
	var out []Candidate
	n := len(s.Dims)
	for i := range len(all) / n {
		one := Candidate{X: all[i*n : (i+1)*n : (i+1)*n]}
		if i < len(s.Sizes) {
			one.Size = s.Sizes[i]
		}
		if !slices.Contains(has[i*n:(i+1)*n], false) && w.satisfies(s, one) {
			out = append(out, one)
		}
	}
	return out
}

// searched are the roots between the bounds that conditions set; endless tells that
// all numbers of some stretch are.
func (w *floatWalker) searched(s *Solve, bounds []float64) (roots []Candidate, endless bool) {
	lo, hi := math.Inf(-1), math.Inf(1)
	for k, bound := range bounds {
		if k == 0 && s.Below {
			lo = bound
		} else {
			hi = bound
		}
	}
	got := w.findRoots(s, w.scale(s.Differences, s.Dims[0]), lo, hi)
	for _, v := range got.Found {
		roots = append(roots, Candidate{X: []float64{v}, Size: math.Abs(v)})
	}
	return roots, len(got.Stretches) > 0
}

// PutBack tells whether values of the unknowns satisfy the equations, and else
// whether that is because a side has no value there.
func (p *Program) PutBack(st *State, s *Solve, one Candidate) (good, lacks bool) {
	return p.floats(st).putBack(s, one)
}

// Allowed returns which of some roots the conditions allow, none twice, in the
// rising order of the first unknown.
func (p *Program) Allowed(st *State, s *Solve, roots []Candidate) []int {
	return p.floats(st).allowedRoots(s, roots)
}

func (w *floatWalker) allowedRoots(s *Solve, roots []Candidate) []int {
	var kept []int
	for i, x := range roots {
		twice := slices.ContainsFunc(kept, func(k int) bool { return sameRoot(roots[k], x) })
		if !twice && w.allowed(s, x) {
			kept = append(kept, i)
		}
	}
	sort.SliceStable(kept, func(i, j int) bool { return roots[kept[i]].X[0] < roots[kept[j]].X[0] })
	return kept
}

// sameRoot tells whether two roots differ by rounding alone: by what they are added up from,
// where that is known.
func sameRoot(a, b Candidate) bool {
	sized := a.Size > 0 && b.Size > 0
	for k := range a.X {
		off := float64(Near * max(math.Abs(a.X[k]), math.Abs(b.X[k])))
		if sized {
			off = a.off() + b.off()
		}
		if math.Abs(a.X[k]-b.X[k]) > off {
			return false
		}
	}
	return true
}

// Choose returns which of the roots, in rising order, the rule takes; -1 if
// none.
func (s *Solve) Choose(all [][]float64) int {
	switch {
	case len(all) == 0:
		return -1
	case s.Of > 0:
		if len(all) != s.Of {
			return -1
		}
		return s.Nth
	case s.Choice == syntax.LeastRoot, len(all) == 1:
		return 0
	case s.Choice == syntax.GreatestRoot:
		return len(all) - 1
	}
	return onlyPositive(all)
}

// onlyPositive returns the only one of some roots of which all unknowns are
// positive; -1 if there are none or more than one.
func onlyPositive(all [][]float64) int {
	chosen := -1
	for i, x := range all {
		switch {
		case slices.ContainsFunc(x, func(v float64) bool { return !(v > 0) }):
		case chosen >= 0:
			return -1
		default:
			chosen = i
		}
	}
	return chosen
}

// satisfies puts a root back into the equations. It counts where the equation
// vanishes within its own error: that of a root that is off by Near, and of
// rounding along the way. An error without a bound says nothing.
func (w *floatWalker) satisfies(s *Solve, one Candidate) bool {
	good, _ := w.putBack(s, one)
	return good
}

// putBack tells whether a root satisfies the equations, and else whether that is
// because a side has no value there.
func (w *floatWalker) putBack(s *Solve, one Candidate) (good, lacks bool) {
	own := w.bounds(16 * exact)
	for _, fn := range s.Differences {
		rest, ok := own.boundAt(fn, one.X, Near, one.off()/Near)
		if !ok {
			return false, own.why == ops.DivZero || own.why == ops.NoReal || own.why == ops.NoInterval
		}
		if !(math.Abs(rest.v) <= rest.e) || math.IsInf(rest.e, 1) {
			return false, false
		}
	}
	return true, false
}

// onBound makes of the size that a root is added up from the one by which it is
// judged whether it is on a bound: Near of that is a thousand roundings. More would
// put an angle that is known to half its figures, as one at a turning point is, on a
// bound some degrees away.
const onBound = 1000 * exact / Near

// allowed tells whether a root satisfies the conditions. Whatever they are of may
// be off by Near.
func (w *floatWalker) allowed(s *Solve, one Candidate) bool {
	if len(s.Conditions) == 0 {
		return true
	}
	own := w.bounds(Near)
	for _, c := range s.Conditions {
		least := 0.0
		if c.OfUnknown {
			least = one.off() / Near
			if math.Abs(one.X[0]) <= one.off() {
				least = one.Size * onBound // a residue
			}
		}
		if d, ok := own.boundAt(c.Difference, one.X, Near, least); !ok || !c.Op.Holds(d.v, 0, d.e, d.e) {
			return false
		}
	}
	return true
}
