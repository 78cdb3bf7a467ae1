package run

import (
	"math"

	"steelyard/lang/ops"
)

// besideEnd is how many numbers beside a root may be the end of an interval that it is at.
const besideEnd = 4

// atEnd tells whether a root is the end of an interval that does not belong to it: its
// neighbours among the numbers have values, and are as good a root as rounding lets them
// be, but at the end itself there is none, or one that is not 0. It tells else whether there
// is a hole beside it, where the function has no value whatever rounding did.
func (s *rootSearch) atEnd(x float64) (excluded, hole bool) {
	strict := false
	w := newWalker[bounded](s.w.p, s.w.st, s.w.depth, bounds{16 * exact, s.w.st.bounds(s.w.p), &strict})
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
