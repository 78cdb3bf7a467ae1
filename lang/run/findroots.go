package run

import (
	"math"
	"slices"

	"steelyard/lang/ops"
)

// Searched is what a search for roots found between two bounds. What is neither near
// a root, nor in a stretch or an unsettled piece, is proved to hold none.
type Searched struct {
	Roots
	Stretches []Stretch // in rising order; none of it is in Roots
	// Lo and Hi bound what was searched. Whole tells that what lies beyond was
	// searched too, as far as the bounds reach, with nothing left open.
	Lo, Hi float64
	Whole  bool
}

// farEnclosures and farSteps bound the work of a search beyond the range that the givens
// suggest, and nearSteps that within it: a whole line ends after limit.Steps, and says
// nothing of what it found.
const (
	farEnclosures = 2000
	farSteps      = 20_000_000
	nearSteps     = 50_000_000
)

// FindRoots looks for the numbers between two bounds that solve one equation.
// Where a bound is infinite, it looks within the range that the scale of the givens
// suggests, and then beyond that.
func (p *Program) FindRoots(st *State, s *Solve, scale, lo, hi float64) Searched {
	return p.floats(st).findRoots(s, scale, lo, hi)
}

// findRoots keeps what it found: the instruction for a solution looks for it once more.
func (w *floatWalker) findRoots(s *Solve, scale, lo, hi float64) Searched {
	now := answered[Searched]{question: w.question(s.Differences, scale, lo, hi)}
	if known := w.st.searched; known.same(now.question) {
		return known.answer
	}
	if now.answer = w.intervals().searched(s, scale, lo, hi); !w.stopped() {
		w.st.searched = now
	}
	return now.answer
}

// searched looks where roots are likely first, with a share of the enclosures for each
// piece, so that one in which nothing can be settled leaves the others theirs. Only with
// nothing left open there is it of use to know what lies beyond: then "no other solution"
// may be said without a range.
//
// A line of mechanics has its root near the numbers that it is given, so that most of the work
// is spent there. A proof far away is cheap where the curve only rises or falls, and hopeless
// where it swings.
func (w *intervalWalker) searched(of *Solve, scale, lo, hi float64) Searched {
	fn := of.Differences[0]
	s, pieces := w.rootSearch(fn, maxEnclosures), searchPieces(scale, lo, hi)
	s.level = of.Level
	whole := pieces[0]
	for _, x := range pieces {
		whole = whole.Hull(x)
	}
	w.lift(fn, whole)
	out := Searched{Lo: whole.Lo, Hi: whole.Hi}
	share, endless := s.left/len(pieces), math.IsInf(lo, 0) || math.IsInf(hi, 0)
	s.left = 0
	steps := int64(nearSteps) // a piece may take a quarter of what is left: most need next to nothing
	for _, x := range pieces {
		s.left = max(s.left, 0) + share
		// Without bounds nobody asked for these very pieces, so one that takes long must leave
		// time for the others. Where bounds were asked for, all that the line has may be spent
		// on them.
		if endless {
			before := w.budget.Left()
			w.within(max(steps/4, nearSteps/int64(len(pieces))), func() { s.look(x) })
			steps -= before - w.budget.Left()
		} else {
			s.look(x)
		}
	}
	s.done()
	// What lies beyond is only looked at where nothing is left open within.
	if !slices.ContainsFunc(s.out.Unsettled, s.open) {
		far := w.rootSearch(fn, farEnclosures)
		far.level = of.Level
		w.within(farSteps, func() {
			if math.IsInf(lo, 0) {
				far.look(ops.Between(-math.MaxFloat64, out.Lo))
			}
			if math.IsInf(hi, 0) {
				far.look(ops.Between(out.Hi, math.MaxFloat64))
			}
			far.done()
		})
		// Roots far away count only if it is known that they are all. Else there would be
		// solutions in a list that says nothing of its end.
		if out.Whole = !slices.ContainsFunc(far.out.Unsettled, far.open); out.Whole {
			for _, r := range far.roots {
				s.found(r.x, r.alone)
			}
			s.listed()
			s.out.Touched = s.out.Touched || far.out.Touched
			for _, x := range far.zero {
				s.flat(x)
			}
		}
	}
	out.Stretches = s.stretches()
	out.Roots = s.out
	out.Whole = out.Whole && len(out.Unsettled) == 0
	return out
}

// open tells whether a piece that is not settled is more than a stretch of zeros and
// what surrounds its ends.
//
// The end of a stretch is never proved to the last digit, since the curve leaves 0 as slowly as
// it likes. What is left open about such an end is no place for another root.
func (s *rootSearch) open(u ops.Interval) bool {
	return !isEdge(u, s.out.Flat...) && !slices.ContainsFunc(s.out.Flat, func(f ops.Interval) bool {
		return f.Lo <= u.Hi && u.Lo <= f.Hi && isEdge(ops.Between(u.Lo, max(u.Lo, f.Lo)), f) && isEdge(ops.Between(min(u.Hi, f.Hi), u.Hi), f)
	})
}

// Misses tells whether the equation of a solve has no solution among the numbers that
// are as near to a candidate as that may be off: none but itself where it has no size.
//
// A candidate was worked out by a formula, with rounding; the equation was not. If the curve,
// enclosed over all that the candidate may be, keeps off 0, the formula was for another branch.
func (p *Program) Misses(st *State, of *Solve, one Candidate) bool {
	n, some := p.beside(st, of, one)
	return some && !n.holdsZero()
}

// Begins tells whether the values of the equation begin, or it has a pole, as near to a
// candidate as that may be off, and both sides may be equal there: as beside 3 in
// ln(x - 3) = -50.
func (p *Program) Begins(st *State, of *Solve, one Candidate) bool {
	n, some := p.beside(st, of, one)
	return some && (n.partly || width(n.v) == math.Inf(1)) && n.holdsZero()
}

// agreeAt are places at which both sides of an equation are compared, as parts of a range, and
// agreeBy as multiples of the scale of the givens.
var (
	agreeAt = [...]float64{0.13, 0.29, 0.47, 0.61, 0.83}
	agreeBy = [...]float64{-3.1, -0.53, -0.017, 0.017, 0.53, 3.1}
)

// Agree tells whether both sides of the equation of a solve are the same but for rounding
// wherever they have a value, of some numbers between two bounds; and of two numbers at least.
// An exponential too small to hold is not taken for 0.
//
// Two sides that are the same in symbols are seen by algebra. This finds those that algebra
// can't simplify: that they agree at some places to the last digits is no proof, and the page
// says how far it goes. Far out the terms that differ may be less than what rounding leaves of
// those that cancel, so that a place as large as the givens is tried as well, wherever the
// bounds are.
func (p *Program) Agree(st *State, of *Solve, scale, lo, hi float64) bool {
	switch lower, upper := !math.IsInf(lo, 0), !math.IsInf(hi, 0); {
	case lower && !upper:
		hi = lo + 3*scale
	case !lower && upper:
		lo = hi - 3*scale
	case !lower:
		lo, hi = -3*scale, 3*scale
	}
	var places []float64
	for _, part := range agreeAt {
		places = append(places, lo+float64(part*(hi-lo)))
	}
	for _, by := range agreeBy {
		places = append(places, by*scale)
	}
	same, own := 0, p.floats(st).bounds(exact)
	for _, x := range places {
		n, ok := own.boundAt(of.Differences[0], []float64{x}, exact, 0)
		switch {
		case !ok || n.v == 0 && n.e < tiniest:
		case !n.zero():
			return false
		default:
			same++
		}
	}
	return same > 1
}

// beside encloses what the equation leaves of 0 as near to a candidate as that may be off.
func (p *Program) beside(st *State, of *Solve, one Candidate) (enclosed, bool) {
	return p.intervals(st).over(of.Differences[0], one.around())
}

// around are the numbers that are as near to a candidate as that may be off: none but
// itself where it has no size.
func (c Candidate) around() ops.Interval {
	if c.Size == 0 {
		return ops.Point(c.X[0])
	}
	by := c.off() + Near*math.Abs(c.X[0])
	return ops.Between(c.X[0]-by, c.X[0]+by)
}
