package ops

import "math"

// Interval is all the numbers from Lo to Hi. Every operation rounds outward, so
// that the result holds all values that the operation can have, both the true
// ones and those that a run works out.
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

// Add adds.
func (a Interval) Add(b Interval) Interval { return outward(a.Lo+b.Lo, a.Hi+b.Hi) }

func (a Interval) sub(b Interval) Interval { return outward(a.Lo-b.Hi, a.Hi-b.Lo) }
func (a Interval) neg() Interval           { return Interval{-a.Hi, -a.Lo} }

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
	const room = 1e-7
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
