package run

import (
	"math"
	"slices"
	"strconv"

	"steelyard/lang/ops"
)

// Stretch is numbers beside each other that all satisfy an equation. An infinite
// end tells that it goes on without one.
//
// abs(x) + x = 0 has every number up to 0 for a solution. A list of roots can't say that, and a
// search that took each for one root would never end.
type Stretch struct {
	Lo, Hi float64
	// WithLo and WithHi tell whether the ends satisfy it too, Loose that this is not
	// known of one: it is at a jump, and no number with few figures.
	WithLo, WithHi, Loose bool
}

// mostWritten is how many figures people write, and edge the width, as a part of its
// place, up to which an unsettled piece is but the end of a stretch.
const (
	mostWritten = 10
	edge        = 1e-7
)

// constant settles a piece on which the function is one number: 0, if it may be that
// where every number written may be off by a rounding.
//
// That the function is constant over the piece is proved by its slope, so that one place tells
// for all.
func (s *rootSearch) constant(x ops.Interval) bool {
	at := []float64{inside(x)}
	v, some := s.w.plain().at(s.fn, at)
	zero := v == 0
	if n, _ := s.w.plain().bounds(exact).boundAt(s.fn, at, 0, 0); !zero && math.Abs(v) <= n.e {
		// Beside a jump, what numbers are off by might lead across it: the error does
		// not grow with that then.
		twice, _ := s.w.plain().bounds(2*exact).boundAt(s.fn, at, 0, 0)
		zero = s.level || twice.e > 1.01*n.e
	}
	if some && zero {
		s.flat(x)
	}
	return some
}

// inside is a number of a piece that is not at its ends, where a function may jump,
// and near 0, where rounding is least.
//
// An eighth of the piece is far from a jump at its end.
func inside(x ops.Interval) float64 {
	if x.Hi <= 0 {
		return -inside(ops.Between(-x.Hi, -x.Lo))
	}
	by := (x.Hi - x.Lo) / 8
	if x.Lo > 0 {
		by = min(by, x.Lo/8)
	}
	return x.Lo + by
}

// stretches joins the pieces on which the function is 0 throughout, and takes them
// and what surrounds their ends out of what is not settled.
//
// Halving cuts one stretch into many pieces that touch, with bits left open at the outermost
// ends. First pieces are joined, then the bits beside them are dropped, and last the roots that
// were listed at an end.
func (s *rootSearch) stretches() []Stretch {
	// Beside a pole rounding leaves nothing of what is not 0.
	pieces := slices.DeleteFunc(joined(s.zero, 0), func(x ops.Interval) bool { return width(x) <= edge*math.Abs(x.Middle()) })
	var left []ops.Interval // beside the pieces
	for _, u := range s.out.Unsettled {
		for _, x := range pieces {
			if x.Lo < u.Hi && u.Lo < x.Hi {
				left = append(left, ops.Between(u.Lo, x.Lo))
				u.Lo = x.Hi
			}
		}
		left = append(left, u)
	}
	var out []Stretch
	for _, x := range pieces {
		var next Stretch
		var known1, known2 bool
		next.Lo, next.WithLo, known1 = s.end(x.Lo, x, left)
		next.Hi, next.WithHi, known2 = s.end(x.Hi, x, left)
		next.Loose = !known1 || !known2
		if n := len(out); n > 0 && next.WithLo && out[n-1].WithHi && near(ops.Point(out[n-1].Hi), ops.Point(next.Lo)) {
			out[n-1].Hi, out[n-1].WithHi, out[n-1].Loose = next.Hi, next.WithHi, out[n-1].Loose || next.Loose
		} else {
			out = append(out, next)
		}
	}
	if len(out) > 0 {
		s.out.Unsettled = slices.DeleteFunc(left, func(u ops.Interval) bool { return u.Lo >= u.Hi || isEdge(u, pieces...) })
		s.out.Found = slices.DeleteFunc(s.out.Found, func(at float64) bool {
			return slices.ContainsFunc(pieces, func(x ops.Interval) bool { return near(ops.Point(at), x) })
		})
	}
	return out
}

// end is where a stretch ends whose last piece does at x, and whether the function
// is 0 there too, if that is known: in what is left unsettled beside it, or at a jump.
//
// Where the curve goes on without a jump, it is 0 at the end too, within its error. At a jump,
// its value at the written number decides, and where a rounding would decide otherwise the end
// is loose.
func (s *rootSearch) end(x float64, piece ops.Interval, left []ops.Interval) (at float64, with, known bool) {
	if math.Abs(x) > math.MaxFloat64/2 {
		return math.Copysign(math.Inf(1), x), false, true
	}
	place := ops.Point(x)
	for _, u := range left {
		if isEdge(u, piece) && near(u, place) {
			place = place.Hull(u)
		}
	}
	x = written(place)
	more := max(4*tiniest, narrowest*math.Abs(x))
	if around, _ := s.w.over(s.fn, ops.Between(place.Lo-more, place.Hi+more)); !around.partly {
		return x, s.vanishes(x), true
	}
	same, _ := s.w.plain().at(s.fn, []float64{inside(piece)})
	is := func(x float64) bool {
		v, some := s.w.plain().at(s.fn, []float64{x})
		return some && v == same
	}
	// Rounding may have put a place on the other side of the jump.
	off := 8 * exact * x
	few, _ := strconv.ParseFloat(strconv.FormatFloat(x, 'g', mostWritten, 64), 64)
	return x, is(x), few == x || is(x-off) == is(x+off)
}

// near tells whether two pieces touch but for what tells numbers apart.
//
// Two ends that differ in their last digits are one place that was come to from both sides.
func near(x, y ops.Interval) bool {
	more := max(4*tiniest, edge*max(math.Abs(x.Lo), math.Abs(x.Hi)))
	return x.Lo <= y.Hi+more && y.Lo <= x.Hi+more
}

// isEdge tells whether a piece is but the surroundings of one place, or the end of a
// stretch.
func isEdge(x ops.Interval, of ...ops.Interval) bool {
	room := max(4*tiniest, edge*max(math.Abs(x.Lo), math.Abs(x.Hi)))
	for _, piece := range of {
		if w := width(piece); near(x, piece) && w-w == 0 {
			room = max(room, narrowest*w)
		}
	}
	return width(x) <= room
}

// written is the number of a narrow piece, or close to it, that takes few figures,
// as people write them, or its middle.
// A bound that the page gives as 0.30000000000000004 m was 0.3 m in the line.
func written(x ops.Interval) float64 {
	mid := x.Middle()
	more := max(4*tiniest, narrowest*math.Abs(mid))
	if x.Lo-more <= 0 && 0 <= x.Hi+more {
		return 0
	}
	for figures := range mostWritten {
		v, err := strconv.ParseFloat(strconv.FormatFloat(mid, 'g', figures+1, 64), 64)
		if err == nil && x.Lo-more <= v && v <= x.Hi+more {
			return v
		}
	}
	return mid
}

// vanishes tells whether the function is 0 within its own error at a place that may
// be off a little.
func (s *rootSearch) vanishes(x float64) bool {
	n, some := s.w.plain().bounds(16*exact).boundAt(s.fn, []float64{x}, Near, 0)
	return some && n.zero()
}
