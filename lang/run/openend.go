package run

import (
	"math"

	"steelyard/lang/ops"
)

// ends is the domain of values with a bound of their error that go by one branch alone,
// and notes a place that is the bound of a strict condition, as 3 is of x < 3.
type ends struct {
	bounds
	strict *bool
}

// A strict condition is 0 or 1 on both sides of its bound, so that the comparison alone shows
// that a place is one.
func (d ends) apply(op ops.Op, a, b bounded, k float64) (bounded, ops.Fault) {
	*d.strict = *d.strict || op == ops.Less && a.v == b.v
	return d.bounds.apply(op, a, b, k)
}

func (ends) branch(condition bounded) (yes, no bool) { return condition.v == 1, condition.v != 1 }

// besideEnd is how many numbers beside a root may be the end of an interval that it is at.
const besideEnd = 4

// atEnd tells whether a root is the end of an interval that does not belong to it: its
// neighbours among the numbers have values, and are as good a root as rounding lets them
// be, but at the end itself there is none, or one that is not 0. It tells else whether there
// is a hole beside it, where the function has no value whatever rounding did.
func (s *rootSearch) atEnd(x float64) (excluded, hole bool) {
	strict := false
	w := newWalker[bounded](s.w.p, s.w.st, s.w.depth, ends{bounds{16 * exact, newMainBounds(s.w.p, s.w.st)}, &strict})
	for _, way := range [2]float64{-1, 1} {
		end := x
		for range besideEnd {
			strict = false
			n, has := w.at(s.fn, []bounded{{end, exact * math.Abs(end)}})
			if strict && (has && !n.zero() || !has && w.why == ops.NoInterval) {
				return true, false
			}
			hole = hole || !has && (w.why == ops.NoReal || w.why == ops.DivZero)
			end = math.Nextafter(end, way*math.Inf(1))
		}
	}
	return false, hole
}
