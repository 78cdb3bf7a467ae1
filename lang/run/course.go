package run

import (
	"math"
	"slices"

	"steelyard/lang/ops"
)

const (
	// zeroEnclosures bounds the search for the zeros of a curve that is drawn,
	// riseEnclosures the proof that it rises, and emptyPieces that it has no value.
	zeroEnclosures = 6000
	riseEnclosures = 1500
	emptyPieces    = 64
	// besideZero is which part of half a range lies between an end at which a curve is 0
	// and a place at which it is not.
	besideZero = 500
	// invisible is the width of a piece, as a part of the range, of which the ends say
	// enough.
	invisible = 1e-12
	// hiddenDepth is how often a cell between two places is halved.
	hiddenDepth = 6
)

// Zeros looks for the zeros of a function over a range, as FindRoots does and with
// less work. They are in rising order.
//
// A zero at an end of the range is looked for by itself, as rounding may put it outside. What
// is 0 along a stretch too short to be seen is a zero.
func (p *Program) Zeros(st *State, fn int, over ops.Interval) Roots {
	s := p.intervals(st).rootSearch(fn, zeroEnclosures)
	s.nothing = underflow
	s.w.lift(fn, over)
	s.look(over)
	for _, end := range [2]float64{over.Lo, over.Hi} {
		near := func(r zero) bool { return math.Abs(r.x-end) <= 1e-9*width(over) }
		flat := slices.ContainsFunc(s.out.Flat, func(f ops.Interval) bool { return near(zero{x: f.Lo}) || near(zero{x: f.Hi}) })
		l := s.w.liftedAt(fn, ops.Point(end))
		switch inward := end + (over.Middle()-end)/besideZero; {
		case flat, !s.w.zeroAt(fn, end), l != nil && l.noValue(end):
		case s.w.zeroAt(fn, inward): // as beside it: 1 - tanh(x) is too small far out, and never 0
			s.unsettled(ops.Point(end).Hull(ops.Point(inward)))
		default: // it may have been passed by a rounding
			s.roots = append(slices.DeleteFunc(s.roots, near), zero{x: end, alone: ops.Everything()})
		}
	}
	out := s.done()
	wide := out.Flat[:0]
	for _, f := range out.Flat {
		if width(f) > 1e-9*width(over) {
			wide = append(wide, f)
			continue
		}
		out.Found = append(out.Found, f.Middle())
		out.Unsettled = slices.DeleteFunc(out.Unsettled, func(u ops.Interval) bool { return u == f })
	}
	out.Flat = wide
	slices.Sort(out.Found)
	return out
}

// Rises tells whether a function is proved to rise over a range, where by is 1, or to
// fall, where it is -1. What rounding takes away again does not count.
//
// It is proved piece by piece: by the slopes over the piece, or as it is too flat to be told
// from level. A piece that is neither is halved, if its ends at least rise.
func (p *Program) Rises(st *State, fn int, over ops.Interval, by float64) bool {
	w := p.intervals(st)
	w.lift(fn, over)
	rise := func(x ops.Interval) float64 {
		lo, some1 := w.over(fn, ops.Point(x.Lo))
		hi, some2 := w.over(fn, ops.Point(x.Hi))
		if !some1 || !some2 {
			return math.NaN()
		}
		return by * (hi.v.Middle() - lo.v.Middle())
	}
	slack := 1e-12 * rise(over) / width(over)
	todo, left := pieces{over}, riseEnclosures
	for x, more := todo.next(); more; x, more = todo.next() {
		n, some := w.over(fn, x)
		if d := n.d.Mul(ops.Point(by)); some && !n.partly && (d.Lo >= -slack || width(n.v) <= 16*exact*max(-n.v.Lo, n.v.Hi)+underflow) {
			continue
		}
		if left -= 3; left < 0 || w.stopped() || !(rise(x) >= -slack*width(x)) {
			return false
		}
		if width(x) > invisible*width(over) {
			todo.halve(x)
		}
	}
	return true
}

// Empty tells whether a function is proved to have no value within a range.
//
// A log of what is below 0 is so throughout.
func (p *Program) Empty(st *State, fn int, over ops.Interval) bool {
	w := p.intervals(st)
	todo, left := pieces{over}, emptyPieces
	for x, more := todo.next(); more; x, more = todo.next() {
		if _, some := w.over(fn, x); some {
			if left--; left < 0 || !todo.halve(x) {
				return false
			}
		}
	}
	return true
}

// Hides tells whether a function does something between places, at which it has the
// values y, that those don't show: whether it is anywhere farther from the values on
// both sides than slack and the bend of the curve there. Where nothing is known of
// the function but its values, as where an area is part of it, this is false.
func (p *Program) Hides(st *State, fn int, x, y []float64, slack float64) bool {
	w := p.intervals(st)
	w.lift(fn, ops.Between(x[0], x[len(x)-1]))
	bend := func(i int) float64 {
		if i == 0 || i == len(y)-1 {
			return 0
		}
		return math.Abs(y[i-1] - 2*y[i] + y[i+1])
	}
	for i := range x[1:] {
		room := slack + bend(i) + bend(i+1)
		if within := ops.Between(min(y[i], y[i+1])-room, max(y[i], y[i+1])+room); w.strays(fn, ops.Between(x[i], x[i+1]), within, hiddenDepth) {
			return true
		}
	}
	return false
}

// strays tells whether the values of a function over an interval are known to leave
// some bounds, or may leave them though they are bounded themselves.
//
// An enclosure that is too wide proves nothing: it is halved until it is inside, or the value
// in the middle is seen outside.
func (w *intervalWalker) strays(fn int, x, within ops.Interval, depth int) bool {
	n, some := w.over(fn, x)
	at, someAt := w.over(fn, ops.Point(x.Middle()))
	if !some || !someAt {
		return false
	}
	inside := func(v ops.Interval) bool { return v.Lo >= within.Lo && v.Hi <= within.Hi }
	switch v := tight(x, n, at); {
	case inside(v):
		return false
	case !inside(at.v) && width(at.v) < math.Inf(1):
		return true
	case depth == 0:
		return width(v) < math.Inf(1)
	}
	mid := x.Middle()
	return w.strays(fn, ops.Between(x.Lo, mid), within, depth-1) || w.strays(fn, ops.Between(mid, x.Hi), within, depth-1)
}
