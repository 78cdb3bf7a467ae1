package run

import "math"

// Bend is what a curve does at a point.
type Bend uint8

// The bends.
const (
	Smooth Bend = iota
	Corner      // the slope jumps
	Jump        // the value jumps
)

// BendAt tells whether a curve has a corner or a jump at a point, from both
// sides of it: what stays when the two places come a thousand times closer. The
// slopes on the left and on the right are returned.
func (p *Program) BendAt(st *State, fn int, x, scale float64) (b Bend, left, right float64) {
	return p.floats(st).bend(fn, scale, x)
}

func (w *floatWalker) bend(fn int, scale, x float64, still ...float64) (b Bend, left, right float64) {
	h := 1e-6 * math.Max(math.Abs(x), scale)
	v1, s1, ok1 := w.slope(fn, x-h, still...)
	v2, s2, ok2 := w.slope(fn, x+h, still...)
	h /= 1000
	v3, s3, ok3 := w.slope(fn, x-h, still...)
	v4, s4, ok4 := w.slope(fn, x+h, still...)
	if !ok1 || !ok2 || !ok3 || !ok4 {
		return Smooth, 0, 0
	}
	if far, near := math.Abs(v2-v1), math.Abs(v4-v3); near > far/2 && near > 1e-9*(math.Abs(v3)+math.Abs(v4)) {
		return Jump, s3, s4
	}
	if far, near := math.Abs(s2-s1), math.Abs(s4-s3); near > far/2 && near > 1e-9*(math.Abs(s3)+math.Abs(s4)) {
		return Corner, s3, s4
	}
	return Smooth, s3, s4
}
