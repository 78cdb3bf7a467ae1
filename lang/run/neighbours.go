package run

import (
	"math"

	"steelyard/lang/ops"
)

// neighbours settles what is too narrow to be halved: a root is at an end toward
// which the function goes down to 0. Whether there is another one between the ends, as
// where ln(x - 3) comes from below every number, can't be told, unless it can't reach 0.
func (s *rootSearch) neighbours(x ops.Interval, n enclosed) {
	if width(x) < tiniest { // at 0, which alone is a number that people mean
		if v, some := s.w.plain().at(s.fn, []float64{0}); some && v == 0 {
			s.found(0, x)
		} else if !s.turnsAway(x, n) && !s.stillAt0(x, n) {
			s.unsettled(x)
		}
		return
	}
	before, after := s.w.goesTo0(s.fn, x.Lo, -1), s.w.goesTo0(s.fn, x.Hi, 1)
	switch {
	case before:
		s.found(x.Lo, ops.Everything())
	case after:
		s.found(x.Hi, ops.Everything())
	case !s.turnsAway(x, n):
		s.unsettled(x)
	}
}

// turnsAway tells whether a function that jumps once in a piece, or has values in a part of
// it alone, reaches 0 from neither end before it does: where it rises or falls throughout,
// away from 0, or too little.
func (s *rootSearch) turnsAway(x ops.Interval, n enclosed) bool {
	moves := n.d.Mul(ops.Between(0, width(x)))
	if s.level {
		moves = ops.Point(0)
	}
	away := func(end, way float64) bool {
		at, some := s.w.over(s.fn, ops.Point(end))
		return !some || side(moves.Mul(ops.Point(way)).Add(at.v)) != 0
	}
	return n.partly && away(x.Lo, 1) && away(x.Hi, -1)
}

// closes tells whether a function goes down to 0 toward a narrow piece, from all sides that
// it has values on, but has none at the place itself, as 1/tan(x) at a right angle.
func (s *rootSearch) closes(x ops.Interval) bool {
	closed := func(end, way float64) bool {
		_, some := s.w.plain().at(s.fn, []float64{end})
		return !some || s.w.fades(s.fn, end, way)
	}
	_, hole := s.atEnd(written(x))
	return hole && closed(x.Lo, -1) && closed(x.Hi, 1)
}

// fades tells whether a function goes down to 0 at a place as a power of the distance does:
// it is far less there than a little farther off, and there than farther still. A logarithm,
// which goes beyond every number, does not.
func (w *intervalWalker) fades(fn int, x, side float64) bool {
	own, last := w.plain(), math.Inf(1)
	for _, off := range []float64{1e-6, 1e-9, 0} {
		v, some := own.at(fn, []float64{x + side*off*math.Abs(x)})
		if !some || math.Abs(v) > last/4 {
			return false
		}
		last = math.Abs(v)
	}
	return true
}

// closeTo0 is a place beside 0 from which a function is watched down to the least number.
const closeTo0 = 1e-100

// stillAt0 tells whether a function does not reach 0 beside 0, where numbers end, as far as
// can be told: it has no values there, is nearly the same all the way and bounded, or fades.
func (s *rootSearch) stillAt0(x ops.Interval, n enclosed) bool {
	for _, end := range []float64{x.Lo, x.Hi} {
		at := func(size float64) float64 {
			if v, some := s.w.plain().at(s.fn, []float64{math.Copysign(size, end)}); some {
				return v
			}
			return math.NaN()
		}
		near, far := at(math.SmallestNonzeroFloat64), at(closeTo0)
		bounded := near > 0 && !math.IsInf(n.v.Lo, 0) || near < 0 && !math.IsInf(n.v.Hi, 0)
		switch {
		case end == 0, near != near && far != far:
		case math.Abs(near) <= exact*math.Abs(far):
		case bounded && math.Abs(near-far) <= narrowest*math.Abs(near):
		default:
			return false
		}
	}
	return true
}
