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

// BendAt tells whether a curve has a corner, a jump or a vertical tangent at a
// point, from both sides of it. The slopes on the left and on the right are
// returned.
func (p *Program) BendAt(st *State, fn int, x, scale float64) (b Bend, left, right float64) {
	w := p.floats(st)
	a, ok := w.around(fn, scale, x)
	if !ok {
		return Smooth, 0, 0
	}
	near := a.s[len(nearer)-1]
	return w.bend(fn, a, x), near[0], near[1]
}

// slopeAt is the slope of a function at a place where it does not bend; false if
// it has none. Rules of differentiation that fail at the place itself, as those of
// |x|·x at 0 do, leave the slopes on both sides of it.
func (w *floatWalker) slopeAt(fn int, x float64, still ...float64) (float64, bool) {
	around, both := w.around(fn, w.placeScale(fn), x, still...)
	_, slope, ok := w.slope(fn, x, still...)
	if !both {
		return slope, ok // at the end of what the function takes
	}
	if !ok {
		if slope, ok = w.onlySlope(fn, x, still...); !ok && !around.vanish() {
			return 0, false
		}
	}
	return slope, w.bend(fn, around, x, still...) == Smooth
}

// onlySlope is the enclosure of the slope at a place, if it is but one number.
func (w *floatWalker) onlySlope(fn int, x float64, still ...float64) (float64, bool) {
	given := []enclosed{{v: ops.Point(x), d: ops.Point(1)}}
	for _, v := range still {
		given = append(given, enclosed{v: ops.Point(v), d: ops.Point(0)})
	}
	out, ok := w.intervals().at(fn, given)
	if mid := out.d.Lo + (out.d.Hi-out.d.Lo)/2; ok && width(out.d) <= faint*math.Abs(mid) {
		return mid, true
	}
	return 0, false
}

// around is a curve on both sides of a place, ever closer: at h the values and the
// slopes on the left and on the right.
type around struct {
	h    [len(nearer)]float64
	v, s [len(nearer)][2]float64
}

// around looks at a function on both sides of a place; false if it has no value or
// no slope on one of them.
func (w *floatWalker) around(fn int, scale, x float64, still ...float64) (a around, ok bool) {
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
	near, most := a.s[len(nearer)-1], 0.0
	grows := false
	for side := range 2 {
		// A curve that is steep at the place itself has a slope there.
		grows = grows || a.powers(side, func(far, near float64) bool { return near > far*byPower }) &&
			(!ok || math.Abs(near[side]-here) > math.Abs(near[side])/2)
		for i := range nearer {
			most = math.Max(most, math.Abs(a.s[i][side]))
		}
	}
	switch {
	case stays(a.v) && !a.steady() && w.apart(fn, a.h[len(nearer)-1], x, still...):
		return Jump
	case grows:
		return Vertical
	case stays(a.s) && math.Abs(near[1]-near[0]) > faint*most:
		return Corner
	}
	return Smooth
}

// byPower is by how much a slope that goes like a power of the distance changes at
// least from one distance to the next: it tells a power of 0.1 from none.
const byPower = 1.9

// powers tells whether the sizes of the slopes on one side go on from each
// distance to the next as a rule says.
func (a *around) powers(side int, rule func(far, near float64) bool) bool {
	for i := range nearer[1:] {
		if !rule(math.Abs(a.s[i][side]), math.Abs(a.s[i+1][side])) {
			return false
		}
	}
	return true
}

// vanish tells whether the slopes on both sides go to 0.
func (a *around) vanish() bool {
	shrinks := func(far, near float64) bool { return near*byPower <= far }
	return a.powers(0, shrinks) && a.powers(1, shrinks)
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

// steady tells that the slopes account for what lies between the two sides where
// they are closest, as on both sides of a corner.
func (a *around) steady() bool {
	last := len(nearer) - 1
	v, s := a.v[last], a.s[last]
	return math.Abs(v[1]-v[0]) <= a.h[last]*(math.Abs(s[0])+math.Abs(s[1]))
}

// apart tells whether the values at a distance on both sides of a place differ by
// more than rounding. What the numbers given may be off by moves both sides alike.
func (w *floatWalker) apart(fn int, h, x float64, still ...float64) bool {
	own := w.bounds(0)
	before, ok1 := own.boundAt(fn, append([]float64{x - h}, still...), 0, 0)
	after, ok2 := own.boundAt(fn, append([]float64{x + h}, still...), 0, 0)
	return ok1 && ok2 && math.Abs(after.v-before.v) > 2*(before.e+after.e)
}
