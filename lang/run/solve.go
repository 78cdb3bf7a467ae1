package run

import (
	"math"
	"slices"
	"sort"

	"steelyard/lang/ops"
	"steelyard/units"
)

// Choice is the rule by which one of several roots is taken.
type Choice uint8

// The rules.
const (
	OnlyRoot     Choice = iota // the only one, or the only positive one
	LeastRoot                  // the smallest
	GreatestRoot               // the greatest
	NthRoot                    // number Nth of exactly Of, the smallest first
)

// Near is how close, as a part of the larger of a bound and the size of an
// unknown, a root counts as on the bound.
const Near = 1e-9

// Condition is what a root must satisfy: the number of a function of the
// unknowns, left - right, and of the one that gives its greatest term.
type Condition struct {
	Difference, Size int
	Op               Order
	// OfUnknown tells that both sides have the unknown's dimension, so that its
	// size counts too.
	OfUnknown bool
}

// Order is how two sides of a condition compare.
type Order uint8

// The orders.
const (
	Below Order = iota
	Above
	NotAbove
	NotBelow
)

// Solve is the work of one ops.Solve: equations planned as functions of their
// unknowns, and the rule that picks a root. Candidates stand in the arguments
// of the instruction; without any, they are searched for.
type Solve struct {
	Differences, Sizes []int // per equation; functions of all unknowns
	Dims               []units.Dim
	Unknown            int // which of the unknowns the instruction gives
	Conditions         []Condition
	Choice             Choice
	Nth, Of            int
	// Scale is the size of what the root is added up from, in coherent SI
	// units: a root that is smaller by Near is a rounding remainder.
	Scale float64
	// Searched tells that there are no candidates; the arguments are then the
	// bounds that conditions set, from below and from above.
	Searched bool
	// Below and Above tell which bounds there are.
	Below, Above bool
}

// Functions lists the functions that a solve runs.
func (s *Solve) Functions() []int {
	out := append(append([]int{}, s.Differences...), s.Sizes...)
	for _, c := range s.Conditions {
		out = append(out, c.Difference, c.Size)
	}
	return out
}

// solve runs one ops.Solve, with a runner of its own so that none other is kept.
func (r *runner) solve(in *Instr, code *Code, fn *Func, i Slot, vals []float64, causes []int32) (float64, int32) {
	own := *r
	v, cause := own.chosen(in, code, fn, i, vals, causes)
	r.halted, r.left = own.halted, own.left
	return v, cause
}

// chosen finds the roots of a solve that satisfy it, and takes one by its rule.
func (r *runner) chosen(in *Instr, code *Code, fn *Func, i Slot, vals []float64, causes []int32) (float64, int32) {
	s := r.p.Solves[in.A]
	args := code.Args[in.B : in.B+in.C]
	var roots [][]float64
	switch {
	case !s.Searched:
		roots = r.candidates(s, args, vals, causes)
	case len(s.Dims) > 1:
		roots = r.newton(s)
	default:
		lo, hi := math.Inf(-1), math.Inf(1)
		for k, a := range args {
			if causes[a] != 0 {
				return 0, causes[a]
			}
			if k == 0 && s.Below {
				lo = vals[a]
			} else {
				hi = vals[a]
			}
		}
		scale := r.scale(s.Differences, s.Dims[0])
		for _, v := range r.findRoots(s.Differences[0], SearchPieces(scale, lo, hi)).Found {
			if x := []float64{v}; r.satisfies(s, x) {
				roots = append(roots, x)
			}
		}
	}
	order := r.allowedRoots(s, roots)
	kept := make([][]float64, len(order))
	for i, k := range order {
		kept[i] = roots[k]
	}
	chosen := s.Choose(kept)
	switch {
	case chosen >= 0:
		return kept[chosen][s.Unknown], 0
	case r.halted:
		return 0, r.fail(ops.Stopped, fn, i)
	case len(kept) == 0:
		return 0, r.fail(ops.NoRoot, fn, i)
	}
	return 0, r.fail(ops.ManyRoots, fn, i)
}

// candidates are the roots among the arguments, which hold one value after the
// other for each unknown.
func (r *runner) candidates(s *Solve, args []Slot, vals []float64, causes []int32) [][]float64 {
	var out [][]float64
	for n := len(s.Dims); len(args) >= n; args = args[n:] {
		x := make([]float64, n)
		good := true
		for k, a := range args[:n] {
			x[k], good = vals[a], good && causes[a] == 0
		}
		if good && r.satisfies(s, x) {
			out = append(out, x)
		}
	}
	return out
}

// Satisfies tells whether values of the unknowns satisfy the equations.
func (p *Program) Satisfies(st *State, s *Solve, x []float64) bool {
	r := runner{p: p, st: st, left: runEvery}
	return r.satisfies(s, x)
}

// Allowed returns which of some roots the conditions allow, none twice, in the
// rising order of the first unknown.
func (p *Program) Allowed(st *State, s *Solve, roots [][]float64) []int {
	r := runner{p: p, st: st, left: runEvery}
	return r.allowedRoots(s, roots)
}

func (r *runner) allowedRoots(s *Solve, roots [][]float64) []int {
	var kept []int
	for i, x := range roots {
		twice := slices.ContainsFunc(kept, func(k int) bool { return sameRoot(roots[k], x) })
		if !twice && r.allowed(s, x) {
			kept = append(kept, i)
		}
	}
	sort.SliceStable(kept, func(i, j int) bool { return roots[kept[i]][0] < roots[kept[j]][0] })
	return kept
}

// sameRoot tells whether two roots differ by rounding alone.
func sameRoot(a, b []float64) bool {
	for k := range a {
		if math.Abs(a[k]-b[k]) > Near*math.Max(math.Abs(a[k]), math.Abs(b[k])) {
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
	case s.Choice == NthRoot:
		if len(all) != s.Of {
			return -1
		}
		return s.Nth
	case s.Choice == LeastRoot, len(all) == 1:
		return 0
	case s.Choice == GreatestRoot:
		return len(all) - 1
	}
	return onlyPositive(all)
}

// onlyPositive returns the only one of some roots of which all unknowns are
// positive; -1 if there are none or more than one.
func onlyPositive(all [][]float64) int {
	chosen := -1
	for i, x := range all {
		good := true
		for _, v := range x {
			good = good && v > 0
		}
		switch {
		case !good:
		case chosen >= 0:
			return -1
		default:
			chosen = i
		}
	}
	return chosen
}

// satisfies puts a root back into the equations.
func (r *runner) satisfies(s *Solve, x []float64) bool {
	for k := range s.Differences {
		rest, ok1 := r.at(s.Differences[k], x)
		most, ok2 := r.at(s.Sizes[k], x)
		if !ok1 || !ok2 || math.Abs(rest) > Near*most {
			return false
		}
	}
	return true
}

// allowed tells whether a root satisfies the conditions.
func (r *runner) allowed(s *Solve, x []float64) bool {
	for _, c := range s.Conditions {
		d, ok1 := r.at(c.Difference, x)
		most, ok2 := r.at(c.Size, x)
		if !ok1 || !ok2 {
			return false
		}
		if c.OfUnknown {
			most = math.Max(most, s.Scale)
		}
		margin := Near * most
		good := false
		switch c.Op {
		case Below:
			good = d < -margin
		case Above:
			good = d > margin
		case NotAbove:
			good = d <= margin
		case NotBelow:
			good = d >= -margin
		}
		if !good {
			return false
		}
	}
	return true
}

// at runs a function of some numbers on its own, and tells whether it has a
// value there.
func (r *runner) at(fn int, x []float64) (float64, bool) {
	f := r.p.Funcs[fn]
	n := len(f.Code.Instrs)
	base, before := r.top, len(r.st.failures)
	if base+n > len(r.st.stack) {
		r.st.stack = make([]float64, 2*(base+n)+64)
		r.st.marks = make([]int32, len(r.st.stack))
	}
	v, c := r.st.stack[base:base+n], r.st.marks[base:base+n]
	main := r.main
	r.top, r.depth = base+n, r.depth+1
	r.exec(&f.Code, f, v, c, 0, Slot(n), frameArgs{unknownSlots[:len(x)], x, noCauses[:len(x)]})
	r.top, r.depth, r.main = base, r.depth-1, main
	ok := c[f.Result] == 0
	r.st.failures = r.st.failures[:before]
	return v[f.Result], ok
}

// maxUnknowns is the most unknowns of one solve.
const maxUnknowns = 16

var (
	unknownSlots = func() (s [maxUnknowns]Slot) {
		for i := range s {
			s[i] = Slot(i)
		}
		return s
	}()
	noCauses [maxUnknowns]int32
)
