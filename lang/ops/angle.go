package ops

import "math"

// Degrees and multiples of π are rounded in binary, and so the sine of 180° comes
// out as 1.2×10⁻¹⁶. An angle that differs from such a multiple by no more than it
// was rounded by is taken for the multiple itself.
const (
	// angleOff is by how great a part of itself an angle may be off: by the
	// rounding of what was written, of π, and of a sum or two.
	angleOff = 4 * unit
	// mostSnapped bounds how far a value is moved: what angles of many turns
	// lose is their own loss.
	mostSnapped = 1e-9
)

// residue tells whether a sine or cosine of an angle is 0 but for the rounding
// of the angle.
func residue(v, a float64) bool {
	return math.Float64bits(v)<<1 < math.Float64bits(mostSnapped)<<1 && math.Abs(v) < angleOff*math.Abs(a)
}

// UnlessResidue makes the sine or cosine of an angle exactly 0 where it is so but for the
// rounding of the angle.
func UnlessResidue(v, a float64) float64 {
	if residue(v, a) {
		return 0
	}
	return v
}

// Tangent is the tangent of an angle in radians, exactly 0 for multiples of 180°
// and infinite for the other multiples of 90°, where there is none.
func Tangent(a float64) float64 {
	v := math.Tan(a)
	switch {
	case residue(v, a):
		return 0
	case residue(1/v, a):
		return inf
	}
	return v
}
