package run

import (
	"math"

	"steelyard/lang/ops"
)

// Bend is what a curve does at a point.
type Bend uint8

// The bends.
const (
	Smooth   Bend = iota
	Corner        // the slope jumps
	Jump          // the value jumps
	Vertical      // the slope grows without bound
)

// nearer are the distances, as parts of the size of a place, at which a curve is
// looked at from both sides: what stays from one to the next is there at the place.
var nearer = [...]float64{1e-6, 1e-9, 1e-12}

// faint is the part of the slopes around a point below which a difference of
// slopes may be rounding.
const faint = 1e-9

// goesOn is the part of a step of the slopes that the next must be for them to come to
// no end: that of ln|x| is all of it, that of |x|^0.001 less.
const goesOn = 0.995

// BendAt tells whether a curve has a corner, a jump or a vertical tangent at a
// point, from both sides of it. What the slopes come to on the left and on the right
// is returned.
func (p *Program) BendAt(st *State, fn int, x, scale float64) (b Bend, left, right float64) {
	w := p.floats(st)
	a, ok := w.around(fn, scale, x)
	if !ok {
		return Smooth, 0, 0
	}
	left, _ = a.limit(0)
	right, _ = a.limit(1)
	return w.bend(fn, a, x), left, right
}

// Beyond tells whether the value of a function at a place, or its slope all around it, is beyond
// the range of numbers: 1/x has both at 10⁻¹⁶⁰, but no number is the slope.
func (p *Program) Beyond(st *State, fn int, x float64) bool {
	w := p.floats(st)
	if _, ok := w.at(fn, []float64{x}); !ok {
		return w.why == ops.OutOfRange || w.why == ops.Grown
	}
	around := ops.Between(x-nearer[1]*math.Abs(x), x+nearer[1]*math.Abs(x))
	n, ok := w.intervals().at(fn, []enclosed{{v: around, d: ops.Point(1)}})
	return ok && x != 0 && max(n.d.Lo, -n.d.Hi) > 1/ops.Least/1e9
}

// slopeAt is the slope of a function at a place where it does not bend; false if
// it has none. Rules of differentiation that fail at the place itself, as those of
// |x|·x at 0 do, leave what the slopes on both sides come to.
func (w *floatWalker) slopeAt(fn int, x float64, still ...float64) (float64, bool) {
	if _, ok := w.at(fn, append([]float64{x}, still...)); !ok {
		return 0, false
	}
	around, both := w.around(fn, w.placeScale(fn), x, still...)
	v, slope, ok := w.slope(fn, x, still...)
	if slope != 0 && math.Abs(slope*x) <= unsettled*math.Abs(v) {
		if d, some := w.slopeWithin(fn, x, still...); some && d.HoldsZero() && width(d) <= unsettled*math.Abs(v/x) {
			slope = 0 // all that is left is rounding
		}
	}
	if !both {
		return slope, ok // at the end of what the function takes
	}
	if !ok {
		left, ends1 := around.limit(0)
		right, ends2 := around.limit(1)
		beside := left + (right-left)/2
		slope, ok = w.onlySlope(fn, x, still...)
		switch ends := ends1 && ends2; {
		case !ok && !ends:
			return 0, false
		case ends && (!ok || math.Abs(slope-beside) > alongside*max(around.most(0), around.most(1))):
			slope = beside // that of max(x, 1) + min(x, 1) is 1, though both bend at 1
		}
	}
	return slope, w.bend(fn, around, x, still...) == Smooth
}

// onlySlope is the enclosure of the slope at a place, if it is but one number.
func (w *floatWalker) onlySlope(fn int, x float64, still ...float64) (float64, bool) {
	d, ok := w.slopeWithin(fn, x, still...)
	if mid := d.Lo + (d.Hi-d.Lo)/2; ok && width(d) <= faint*math.Abs(mid) {
		return mid, true
	}
	return 0, false
}

// slopeWithin encloses the slope at a place; false where nothing is known of it.
func (w *floatWalker) slopeWithin(fn int, x float64, still ...float64) (ops.Interval, bool) {
	given := []enclosed{{v: ops.Point(x), d: ops.Point(1)}}
	for _, v := range still {
		given = append(given, enclosed{v: ops.Point(v), d: ops.Point(0)})
	}
	out, ok := w.intervals().at(fn, given)
	return out.d, ok
}

// around is a curve on both sides of a place, ever closer: at h the values and the
// slopes on the left and on the right.
type around struct {
	x    float64
	h    [len(nearer)]float64
	v, s [len(nearer)][2]float64
}

// around looks at a function on both sides of a place; false if it has no value or
// no slope on one of them.
func (w *floatWalker) around(fn int, scale, x float64, still ...float64) (a around, ok bool) {
	a.x = x
	for i, part := range nearer {
		h := part * math.Max(math.Abs(x), scale)
		a.h[i] = h
		for side, h := range [2]float64{-h, h} {
			if a.v[i][side], a.s[i][side], ok = w.slope(fn, x+h, still...); !ok {
				return a, false
			}
		}
	}
	return a, true
}

func (w *floatWalker) bend(fn int, a around, x float64, still ...float64) Bend {
	_, here, ok := w.slope(fn, x, still...)
	near := a.s[len(nearer)-1]
	grows := false
	for side := range 2 {
		// A curve that is steep at the place itself has a slope there.
		grows = grows || a.grows(side) && (!ok || math.Abs(near[side]-here) > math.Abs(near[side])/2)
	}
	left, _ := a.limit(0)
	right, _ := a.limit(1)
	switch {
	case stays(a.v) && w.apart(fn, a.h[len(nearer)-1], x, 8*exact*math.Abs(x)*(math.Abs(near[0])+math.Abs(near[1])), still...):
		return Jump
	case grows:
		return Vertical
	case stays(a.s) && math.Abs(right-left) > max(faint*max(a.most(0), a.most(1)), w.wobble(fn, a.h[len(nearer)-1], x, still...)):
		return Corner
	}
	return Smooth
}

// wobble is how far rounding alone may move the slopes beside a place: x/x rises nowhere,
// but the parts of its slope are rounded.
func (w *floatWalker) wobble(fn int, h, x float64, still ...float64) float64 {
	most := 0.0
	for _, at := range [2]float64{x - h, x + h} {
		if d, ok := w.slopeWithin(fn, at, still...); ok {
			most = max(most, width(d))
		}
	}
	return most
}

// most is the size of the greatest slope on one side.
func (a *around) most(side int) (most float64) {
	for _, s := range a.s {
		most = max(most, math.Abs(s[side]))
	}
	return most
}

// limit is what the slopes on one side come to, if they do. Where they go like a power
// of the distance, each step between them is the same part of the one before, and so
// are all that would follow: A. C. Aitken, Proceedings of the Royal Society of
// Edinburgh 46 (1926), 289-305.
func (a *around) limit(side int) (slope float64, ends bool) {
	first, last := a.s[1][side]-a.s[0][side], a.s[2][side]-a.s[1][side]
	slope = a.s[2][side]
	switch rounding := 32 * exact * a.most(side); {
	case math.Abs(last) <= rounding:
		return slope, true
	case math.Abs(last) < goesOn*math.Abs(first):
		// The nearest distance is known to what rounding leaves of it beside the place.
		off := max(faint*math.Abs(a.s[0][side]), 8*exact*math.Abs(a.x/a.h[2]*slope))
		if slope += last * last / (first - last); math.Abs(slope) <= off {
			return 0, true
		}
		return slope, true
	}
	return slope, math.Abs(last) <= faint*a.most(side)
}

// grows tells whether the slopes on one side grow without bound.
func (a *around) grows(side int) bool {
	_, ends := a.limit(side)
	return !ends && math.Abs(a.s[2][side]) > math.Abs(a.s[1][side]) && math.Abs(a.s[1][side]) > math.Abs(a.s[0][side])
}

// stays tells whether what lies between the two sides is still there where they
// come closer.
func stays(sides [len(nearer)][2]float64) bool {
	for i, side := range sides[1:] {
		if !(math.Abs(side[1]-side[0]) > math.Abs(sides[i][1]-sides[i][0])/2) {
			return false
		}
	}
	return true
}

// apart tells whether the values at a distance on both sides of a place differ by
// more than rounding, and by more than what the rounded places make, which is given.
// What other numbers may be off by moves both sides alike.
func (w *floatWalker) apart(fn int, h, x, by float64, still ...float64) bool {
	own := w.bounds(0)
	before, ok1 := own.boundAt(fn, append([]float64{x - h}, still...), 0, 0)
	after, ok2 := own.boundAt(fn, append([]float64{x + h}, still...), 0, 0)
	return ok1 && ok2 && math.Abs(after.v-before.v) > 2*(before.e+after.e)+by
}
