package run

import (
	"math"

	"steelyard/lang/ops"
)

// over encloses a function of one number over an interval: its values and its
// slopes. It is false where no number of the interval has a value.
func (w *intervalWalker) over(fn int, x ops.Interval) (enclosed, bool) {
	if l := w.liftedAt(fn, x); l != nil {
		return enclosed{v: l.over(x, 0), d: l.over(x, 1)}, true
	}
	return w.at(fn, []enclosed{{v: x, d: ops.Point(1)}})
}

// tight encloses the values of a function over an interval more closely than n, by
// the mean value theorem: no value is farther from that at the middle than the slopes
// allow. What is known of the middle is at.
func tight(x ops.Interval, n, at enclosed) ops.Interval {
	if n.partly || at.partly || n.d.Lo-n.d.Lo != 0 || n.d.Hi-n.d.Hi != 0 {
		return n.v
	}
	v := at.v.Add(n.d.Mul(x.Sub(ops.Point(x.Middle()))))
	return ops.Between(max(v.Lo, n.v.Lo), min(v.Hi, n.v.Hi))
}

// powers encloses the derivatives of a function over an interval; false where nothing
// is known of them.
func (w *intervalWalker) powers(fn int, x ops.Interval) (*series, bool) {
	if l := w.liftedAt(fn, x); l != nil {
		s := &series{v: l.over(x, 0), top: liftOrder - 1}
		for k := range liftOrder - 1 {
			s.c = append(s.c, l.over(x, k+1))
		}
		return s, true
	}
	s, some := w.series().at(fn, []*series{along(x)})
	return s, some && !s.lost
}

// zeroAt tells whether a function is 0 at a number but for its error, or would be where
// a pole is lifted.
func (w *intervalWalker) zeroAt(fn int, x float64) bool {
	if l := w.liftedAt(fn, ops.Point(x)); l != nil {
		return l.over(ops.Point(x), 0).HoldsZero()
	}
	n, some := w.plain().bounds(exact).boundAt(fn, []float64{x}, exact, 0)
	return some && n.zero()
}

// goesTo0 tells whether a function comes down to 0 at a number, from one side of it:
// what is left there is what a few roundings of the number make, and is far less
// than a little farther off. At a pole it is far more, and at a jump as much.
func (w *intervalWalker) goesTo0(fn int, x, side float64) bool {
	own := w.plain()
	here, ok := own.bounds(0).boundAt(fn, []float64{x}, 0, 0)
	if ok {
		_, ok = own.bounds(0).boundAt(fn, []float64{x}, fewRoundings, 0)
	}
	if !ok || here.v == 0 {
		return ok
	}
	_, slope, _ := own.slope(fn, x)
	off, okOff := own.at(fn, []float64{x + side*max(1e-9*math.Abs(x), tiniest)})
	return okOff && math.Abs(here.v) < math.Abs(off)/4 && math.Abs(here.v) <= here.e+8*exact*math.Abs(x*slope)
}
