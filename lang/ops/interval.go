package ops

import "math"

// Interval is all the numbers from Lo to Hi. Every operation rounds outward, so
// that the result holds all values that the operation can have, both the true
// ones and those that a run works out.
//
// [0.1, 0.1] is a number that no float64 is, enclosed; the sum of ten of them holds 1. Interval
// arithmetic so rounded proves: a range whose values do not hold 0 has no root (IEEE 1788 has
// the same rules).
type Interval struct{ Lo, Hi float64 }

// Between is all the numbers from lo to hi.
func Between(lo, hi float64) Interval { return Interval{lo, hi} }

// Everything is all numbers.
func Everything() Interval { return Interval{-inf, inf} }

// Point is one number.
func Point(v float64) Interval { return Interval{v, v} }

// HoldsZero tells whether 0 lies in the interval.
func (a Interval) HoldsZero() bool { return a.Lo <= 0 && a.Hi >= 0 }

// Hull is the smallest interval that holds both.
func (a Interval) Hull(b Interval) Interval { return Interval{min(a.Lo, b.Lo), max(a.Hi, b.Hi)} }

// IsPoint tells whether the interval is one number.
func (a Interval) IsPoint() bool { return a.Lo == a.Hi }

// outward widens bounds by a rounding step.
func outward(lo, hi float64) Interval {
	if math.IsNaN(lo) || math.IsNaN(hi) {
		return Everything()
	}
	return Interval{math.Nextafter(lo, -inf), math.Nextafter(hi, inf)}
}

// unit is half the distance between 1 and the next number: one correct rounding
// is off by no more than this part of the value.
const unit = 0x1p-53

// loose widens bounds by some roundings, as a library function may be off.
func loose(lo, hi, units float64) Interval {
	part := units * unit
	if !math.IsInf(lo, 0) {
		lo -= float64(math.Abs(lo) * part)
	}
	if !math.IsInf(hi, 0) {
		hi += float64(math.Abs(hi) * part)
	}
	return outward(lo, hi)
}

// around widens an interval by the same amount on both sides.
func (a Interval) around(by float64) Interval { return outward(a.Lo-by, a.Hi+by) }

// Add adds. A sum of two numbers is widened to the side on which rounding has left
// the true one: O. Møller, "Quasi double-precision in floating point addition",
// BIT 5 (1965), 37–50.
func (a Interval) Add(b Interval) Interval {
	if a.IsPoint() && b.IsPoint() {
		s := a.Lo + b.Lo
		t := s - a.Lo
		return sided(s, (a.Lo-(s-t))+(b.Lo-t))
	}
	return outward(a.Lo+b.Lo, a.Hi+b.Hi)
}

// Sub subtracts.
func (a Interval) Sub(b Interval) Interval { return a.Add(b.neg()) }

// sided encloses a number that is v plus a little more or less.
func sided(v, more float64) Interval {
	switch {
	case more == 0:
		return Point(v)
	case more > 0:
		return Interval{v, math.Nextafter(v, inf)}
	case more < 0:
		return Interval{math.Nextafter(v, -inf), v}
	}
	return outward(v, v)
}

// Over divides; by what holds 0 it is everything.
func (a Interval) Over(b Interval) Interval {
	out, _ := overDiv(a, b, 0)
	return out
}

func (a Interval) neg() Interval { return Interval{-a.Hi, -a.Lo} }

// Middle is the number halfway, and Radius how far the ends lie from it at most.
func (a Interval) Middle() float64 {
	if a.Lo == -a.Hi {
		return 0
	}
	return a.Lo + (a.Hi-a.Lo)/2
}

// Radius is how far a number of the interval may lie from its middle.
func (a Interval) Radius() float64 {
	if a.IsPoint() {
		return 0
	}
	m := a.Middle()
	return math.Nextafter(max(a.Hi-m, m-a.Lo), inf)
}

// Mul multiplies; 0 times anything is 0 here, as it is for every number in an
// unbounded interval.
func (a Interval) Mul(b Interval) Interval {
	if a == Point(0) || b == Point(0) {
		return Point(0)
	}
	if a == Point(1) {
		return b
	}
	if b == Point(1) {
		return a
	}
	if a.IsPoint() && b.IsPoint() {
		// Below this, what is left of a product may be too small to hold.
		if v := a.Lo * b.Lo; math.Abs(v) > 1e-280 {
			return sided(v, math.FMA(a.Lo, b.Lo, -v))
		}
	}
	p, q, r, s := product(a.Lo, b.Lo), product(a.Lo, b.Hi), product(a.Hi, b.Lo), product(a.Hi, b.Hi)
	return outward(min(p, q, r, s), max(p, q, r, s))
}

func product(x, y float64) float64 {
	if x == 0 || y == 0 {
		return 0
	}
	return x * y
}

// inv is one over the interval; all numbers if that holds 0 within.
func (a Interval) inv() Interval {
	switch {
	case a.Lo == 0 && a.Hi > 0:
		return Interval{outward(1/a.Hi, inf).Lo, inf}
	case a.Hi == 0 && a.Lo < 0:
		return Interval{-inf, outward(-inf, 1/a.Lo).Hi}
	case a.HoldsZero():
		return Everything()
	}
	return outward(1/a.Hi, 1/a.Lo)
}

// abs is the size of the numbers.
func (a Interval) abs() Interval {
	switch {
	case a.Lo >= 0:
		return a
	case a.Hi <= 0:
		return a.neg()
	}
	return Interval{0, max(-a.Lo, a.Hi)}
}

// angleOff is how far the sine of an angle may be moved: the run takes for 0 what
// rounding has left of it.
func (a Interval) angleOff() float64 { return min(angleOff*max(-a.Lo, a.Hi), mostSnapped) }

// sine encloses the sine: its turning points within the interval count.
func (a Interval) sine() Interval {
	if math.IsInf(a.Lo, 0) || math.IsInf(a.Hi, 0) || a.Hi-a.Lo >= 2*math.Pi || max(-a.Lo, a.Hi) > 1e8 {
		return Interval{-1, 1}
	}
	lo, hi := math.Sin(a.Lo), math.Sin(a.Hi)
	out := loose(min(lo, hi), max(lo, hi), functionOff)
	// Turning points lie at π/2 + nπ; a little room is left for rounding.
	room := 1e-15 * (2 + max(-a.Lo, a.Hi))
	first := math.Ceil((a.Lo-math.Pi/2)/math.Pi - room)
	for n := first; n <= (a.Hi-math.Pi/2)/math.Pi+room; n++ {
		if math.Mod(n, 2) == 0 {
			out.Hi = 1
		} else {
			out.Lo = -1
		}
	}
	out = out.around(a.angleOff())
	return Interval{max(out.Lo, -1), min(out.Hi, 1)}
}

func (a Interval) cosine() Interval { return a.Add(outward(math.Pi/2, math.Pi/2)).sine() }
