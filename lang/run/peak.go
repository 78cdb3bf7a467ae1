package run

import (
	"cmp"
	"math"
	"slices"

	"steelyard/lang/limit"
	"steelyard/lang/ops"
)

const (
	// peakEnclosures bounds the work of finding the greatest value of a curve, and
	// peakStart is how many pieces the range is cut into at first.
	peakEnclosures = 4000
	peakStart      = 16
	// peakNear is how close to the greatest value that was seen the true one is
	// proved to be, as a part of the height of the curve, peakFigures as a part of
	// itself, and peakSame how close values are that are the same but for rounding.
	peakNear    = 1e-9
	peakFigures = 1e-7
	peakSame    = 64 * exact
	// stretch is how wide a stretch is at least, as a part of the range.
	stretch = 1e-3
)

// Peak is the greatest value of a curve over a range, or the least.
type Peak struct {
	Y float64
	// At is where, in rising order: places, and stretches along which the value is the
	// same but for rounding.
	At []ops.Interval
	// Endless tells that there is no such value: beside the place At the curve grows
	// without bound.
	Endless bool
}

// Peak finds the greatest value of a function over a range, where by is 1, or the
// least, where it is -1. Pieces whose enclosures say that no value in them is greater
// than one that was seen are left out, and others halved. It returns false where
// that comes to no end.
//
// It is the branching and bounding of R. E. Moore (Interval Analysis, 1966) and S. Skelboe
// (BIT 14, 1974, 87-95; both from memory). So the value is proved, where samples would
// only be likely: no peak between two of them is missed, however narrow.
func (p *Program) Peak(st *State, fn int, over ops.Interval, by float64) (Peak, bool) {
	s := &peakSearch{w: p.intervals(st), fn: fn, by: by, best: math.Inf(-1), worst: math.Inf(1), narrow: 4 * exact * width(over), left: peakEnclosures}
	s.w.lift(fn, over)
	var parts []peakPart
	for i := range peakStart {
		wide := float64(width(over) / peakStart)
		x := ops.Between(over.Lo+float64(wide*float64(i)), over.Lo+float64(wide*float64(i+1)))
		if i == peakStart-1 {
			x.Hi = over.Hi
		}
		parts = s.add(parts, x)
	}
	for {
		next, halved := s.halved(parts)
		if s.left < 0 || s.w.stopped() {
			return Peak{}, false
		}
		if parts = next; !halved {
			return s.peak(parts, over)
		}
	}
}

// peakSearch is the search for the greatest value, by times the curve.
type peakSearch struct {
	w           *intervalWalker
	fn          int
	by          float64
	best, worst float64 // of those that were seen
	noise       float64 // how far rounding leaves the best open
	narrow      float64 // the width of a piece without bounds that is as good as one number
	left        int     // enclosures
}

// peakPart is a piece of the range with bounds of the values over it; last tells
// that it is not to be halved.
type peakPart struct {
	x           ops.Interval
	top, bottom float64
	last        bool
}

// near is how far a value may be below the best one that was seen: a part of the
// height of the curve, and less where that would leave figures of the value open,
// but for rounding.
func (s *peakSearch) near() float64 {
	height := s.best - s.worst
	fine := min(peakNear*height, peakFigures*math.Abs(s.best))
	return max(fine, min(4*s.noise, peakFigures*height), 16*exact*math.Abs(s.best), underflow)
}

// add adds a piece, if there is a value in it.
//
// Each enclosure is made with the one at its middle, which bounds it more closely and
// shows one more value: the better the best that was seen, the more pieces are left out.
func (s *peakSearch) add(parts []peakPart, x ops.Interval) []peakPart {
	s.left -= 2
	n, some := s.w.over(s.fn, x)
	if !some {
		return parts
	}
	mid := middle(x)
	p := peakPart{x: x, last: mid <= x.Lo || mid >= x.Hi || width(x) < tiniest}
	v := n.v
	if at, some := s.w.over(s.fn, ops.Point(x.Middle())); some && !p.last {
		s.saw(at.v)
		v = tight(x, n, at)
	}
	if at, some := s.w.over(s.fn, ops.Point(0)); some && x.HoldsZero() { // to which halving comes by chance
		s.saw(at.v)
	}
	p.top, p.bottom = max(s.by*v.Lo, s.by*v.Hi), min(s.by*v.Lo, s.by*v.Hi)
	if p.last && p.top < math.Inf(1) { // values between neighbouring numbers are theirs
		p.top = math.Inf(-1)
		for _, end := range [2]float64{x.Lo, x.Hi} {
			if at, some := s.w.over(s.fn, ops.Point(end)); some {
				s.saw(at.v)
				p.top = max(p.top, s.by*at.v.Lo, s.by*at.v.Hi)
			}
		}
	}
	p.last = p.last || (math.IsInf(p.top, 1) || p.top <= s.best+s.near()) && width(x) < s.narrow
	return append(parts, p)
}

// saw takes note of the value at a place.
//
// The least value is kept for the height of the curve alone: what is near is told by that.
func (s *peakSearch) saw(v ops.Interval) {
	y := s.by * v.Middle()
	if y-y != 0 {
		return
	}
	if s.worst = min(s.worst, y); y > s.best {
		s.best, s.noise = y, v.Radius()
	}
}

// halved is the pieces that may hold the greatest value, halved where they may hold
// one that is far greater than what was seen, or far smaller ones as well.
//
// A wide piece all of whose values are as great as the best is a stretch, and not halved to its
// end.
func (s *peakSearch) halved(parts []peakPart) (next []peakPart, some bool) {
	near := s.near()
	for _, p := range parts {
		switch {
		case p.top < s.best-near:
		case p.last || p.top <= s.best+near && p.bottom >= s.best-4*near:
			next = append(next, p)
		case s.left < 0:
			return nil, true
		default:
			mid := middle(p.x)
			next = s.add(s.add(next, ops.Between(p.x.Lo, mid)), ops.Between(mid, p.x.Hi))
			some = true
		}
	}
	return next, some
}

// peak is what is known in the end: the places where the value is greatest, one in
// each run of pieces.
//
// Several runs are several places, as for a cosine over two turns. They are of one height
// if they are so but for rounding; of one that is known to few figures only, as beside a
// pole, nothing is said.
func (s *peakSearch) peak(parts []peakPart, over ops.Interval) (Peak, bool) {
	slices.SortFunc(parts, func(a, b peakPart) int { return cmp.Compare(a.x.Lo, b.x.Lo) })
	out, offBest := Peak{Y: math.Inf(-1)}, 0.0
	for len(parts) > 0 {
		n := 1
		for n < len(parts) && parts[n].x.Lo <= parts[n-1].x.Hi {
			n++
		}
		if slices.ContainsFunc(parts[:n], func(p peakPart) bool { return math.IsInf(p.top, 1) }) {
			return s.endless(ops.Between(parts[0].x.Lo, parts[n-1].x.Hi), over)
		}
		at, y, ok := s.place(parts[:n], stretch*width(over))
		off, zero := s.off(at.Lo)
		if ok && zero && math.Abs(y) <= max(s.near(), peakNear*(s.best-s.worst)) {
			y = 0
		}
		switch same := max(peakSame*math.Abs(y), off, offBest) + underflow; {
		case !ok || y < out.Y-same:
		case y > out.Y+same:
			out.Y, out.At, offBest = y, []ops.Interval{at}, off
		default:
			out.Y, out.At, offBest = max(out.Y, y), append(out.At, at), max(off, offBest)
		}
		parts = parts[n:]
	}
	figures := out.Y == 0 || 4*s.noise <= 10*peakFigures*math.Abs(out.Y)
	if !figures || len(out.At) == 0 || len(out.At) > limit.Extremes {
		return out, false
	}
	out.Y *= s.by
	return out, true
}

// off is how far the value at the place of a peak may be off, as the place is known but for
// some roundings, which counts at a corner; and whether the curve is 0 there. cos²(x) has its
// least value where its slope is 0, as far as that can be told.
func (s *peakSearch) off(x float64) (by float64, zero bool) {
	if s.w.liftedAt(s.fn, ops.Point(x)) != nil {
		return 0, s.w.zeroAt(s.fn, x)
	}
	n, some := s.w.plain().bounds(exact).boundAt(s.fn, []float64{x}, fewRoundings, 0)
	if !some || !(n.e <= peakNear*(s.best-s.worst)) {
		return 0, some && n.zero()
	}
	return n.e, n.zero()
}

// place is the place of the greatest value in a run of pieces: where the slope changes
// its sign, or an end. Where it is the greatest at ends that are so far apart, it is a
// stretch. About its peak a curve is flat, so that its values show half the figures of
// the place, and its slope all.
//
// A narrow run has one place, of the few that were tried the best; its written form is tried
// too, as a peak at 0.3 is mostly meant there.
func (s *peakSearch) place(run []peakPart, far float64) (at ops.Interval, y float64, ok bool) {
	rises := func(x float64) int {
		n, _ := s.w.over(s.fn, ops.Point(x))
		return side(n.d.Mul(ops.Point(s.by)))
	}
	var all []float64
	for _, p := range run {
		all = append(all, p.x.Lo, p.x.Hi)
	}
	x := ops.Between(all[0], all[len(all)-1])
	if rises(x.Lo) > 0 && rises(x.Hi) < 0 {
		all = append(all, turn(x, 1, rises))
	}
	if at := written(x); at >= x.Lo && at <= x.Hi {
		all = append(all, at)
	}
	values := make([]float64, len(all))
	y = math.Inf(-1)
	for i, x := range all {
		v, some := s.value(x)
		if values[i] = s.by * v; !some {
			values[i] = math.Inf(-1)
		} else if values[i] > y {
			at, y, ok = ops.Point(x), values[i], true
		}
	}
	same := ops.Between(at.Lo, at.Lo)
	for i, x := range all {
		if values[i] >= y-peakSame*math.Abs(y)-underflow {
			same = same.Hull(ops.Point(x))
		}
	}
	_, at0 := s.value(0)
	switch {
	case width(same) > far:
		at = same
	case !at0 && x.HoldsZero(): // beside which no other place is printed
		at = ops.Point(0)
	}
	return at, y, ok
}

// value is the curve at a place: 0, or what it comes near to, where a number is too
// large on the way.
func (s *peakSearch) value(x float64) (float64, bool) {
	if l := s.w.liftedAt(s.fn, ops.Point(x)); l != nil {
		return l.over(ops.Point(x), 0).Middle(), true
	}
	if v, some := s.w.plain().at(s.fn, []float64{x}); some {
		return v, true
	}
	n, some := s.w.over(s.fn, ops.Point(x))
	if n.v.HoldsZero() {
		return 0, some && !n.partly
	}
	return n.v.Middle(), some && !n.partly
}

// endless tells whether a curve grows without bound in a piece that is as good as one
// number: each step nearer adds as much as the one before, if not more.
//
// 1/x^2 grows more with each step and ln(1/x) as much: what grows less comes to an end, as √x
// does.
func (s *peakSearch) endless(x, over ops.Interval) (Peak, bool) {
	for _, from := range [2]struct{ at, side float64 }{{x.Lo, -1}, {x.Hi, 1}} {
		var y [len(nearer)]float64
		good := true
		for i, part := range nearer {
			at := from.at + float64(from.side*part*width(over))
			n, some := s.w.over(s.fn, ops.Point(at))
			y[i] = s.by * n.v.Middle()
			good = good && some && at >= over.Lo && at <= over.Hi
		}
		first, last := y[1]-y[0], y[2]-y[1]
		if good && first > 0 && last > first*0.9 {
			return Peak{At: []ops.Interval{ops.Point(x.Middle())}, Endless: true}, true
		}
	}
	return Peak{}, false
}
