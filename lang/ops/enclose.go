package ops

import (
	"math"

	"steelyard/units/rounding"
)

// Extent tells for how many of the numbers of an interval an operation has a
// value that follows its slope.
type Extent uint8

// The extents.
const (
	Whole  Extent = iota // for all
	Partly               // some have no value, or the value jumps: nothing follows from the slope
	None                 // for no number
)

// How many roundings the value of an operation may be off.
const (
	// sumOff: IEEE 754 rounds sums, products, quotients and roots once.
	sumOff = 1
	// functionOff: the library's functions are off by two units of the last
	// place, its hyperbolic ones by three.
	functionOff = 8
	// powerOff: the library takes a power with an exponent that is not whole by
	// way of the logarithm. Near 1 it was seen to be off by 46 units of the last
	// place; offPower adds what a great logarithm loses.
	powerOff = 128
)

// Over encloses the values of an arithmetic operation over intervals of its
// operands.
func (op Op) Over(a, b Interval, k float64) (Interval, Extent) { return table[op].over(a, b, k) }

// whole encloses an operation that has a value for all numbers.
//
// A sum, a product, a size: no operand is without a value, and none is jumped over.
func whole(f func(a, b Interval) Interval) func(a, b Interval, k float64) (Interval, Extent) {
	return func(a, b Interval, _ float64) (Interval, Extent) { return f(a, b), Whole }
}

// rising encloses a function of one number that rises throughout.
//
// The values at the ends enclose all between, so that two calls are enough: exp over [0, 1] is
// [1, e], widened.
func rising(f func(float64) float64) func(a, b Interval, k float64) (Interval, Extent) {
	return func(a, _ Interval, _ float64) (Interval, Extent) {
		return loose(f(a.Lo), f(a.Hi), functionOff), Whole
	}
}

// within cuts an interval to the numbers that an operation takes.
func (a Interval) within(lo, hi float64) (Interval, Extent) {
	switch {
	case a.Hi < lo || a.Lo > hi:
		return a, None
	case a.Lo >= lo && a.Hi <= hi:
		return a, Whole
	}
	return Interval{max(a.Lo, lo), min(a.Hi, hi)}, Partly
}

// By an interval that holds 0 the quotient is all numbers beyond some size, on one side or on
// both; what lies between is told by apart.
func overDiv(a, b Interval, _ float64) (Interval, Extent) {
	switch {
	case b == Point(0):
		return Everything(), None
	case b.HoldsZero():
		return a.Mul(b.inv()), Partly
	}
	p, q, r, s := a.Lo/b.Lo, a.Lo/b.Hi, a.Hi/b.Lo, a.Hi/b.Hi
	return outward(min(p, q, r, s), max(p, q, r, s)), Whole
}

// overPow encloses a power with a written exponent.
func overPow(a, _ Interval, k float64) (Interval, Extent) {
	switch k {
	case 0:
		return Point(1), Whole
	case 1:
		return a, Whole
	}
	return a.power(k, offOfPower(0, k))
}

// offOfPower is how many roundings a power is off: few for the exponents that
// the run multiplies and takes square roots for.
//
// power multiplies for these (power.go), which costs a rounding each and no logarithm.
func offOfPower(_, k float64) float64 {
	switch k {
	case 0, 1:
		return 0
	case 2, 3, 4, -1, -2, 0.5, -0.5, 1.5:
		return 4
	}
	return powerOff
}

// power encloses a power that is off by some roundings.
func (a Interval) power(k, off float64) (Interval, Extent) {
	ext := Whole
	if k != math.Trunc(k) {
		if a, ext = a.within(0, inf); ext == None {
			return Everything(), None
		}
	}
	if k < 0 {
		if a == Point(0) {
			return Everything(), None
		}
		if a.HoldsZero() {
			ext = Partly
		}
		out, _ := a.power(-k, off)
		return out.inv(), ext
	}
	if math.Mod(k, 2) == 0 {
		a = a.abs()
	}
	if off == powerOff {
		off = max(offPower(a.Lo), offPower(a.Hi))
	}
	out := loose(power(a.Lo, k), power(a.Hi, k), off)
	if a.Lo >= 0 {
		out.Lo = max(out.Lo, 0)
	}
	return out, ext
}

// offPower is how many roundings a power of a may be off.
func offPower(a float64) float64 {
	const most = 745 // the greatest logarithm of a float64 or of its inverse
	return powerOff + float64(2*min(math.Abs(math.Log(math.Abs(a))), most))
}

// overPowVar encloses a power with an exponent that varies. What is raised to it and lies
// below 0 has values for whole exponents alone, of either sign.
//
// (-2)^x is 4 for x = 2 and -8 for 3, and nothing between: over such an interval the power
// jumps from sign to sign, and its slope says nothing.
func overPowVar(a, b Interval, _ float64) (Interval, Extent) {
	first, last := math.Ceil(b.Lo), math.Floor(b.Hi) // of the whole exponents
	switch {
	case b.IsPoint():
		return overPow(a, a, b.Lo)
	case a.Lo > 0:
		return a.powerSizes(b), Whole
	case a == Point(0) && b.Lo > 0:
		return a, Whole
	case a == Point(0) && b.Hi < 0:
		return Everything(), None
	case a.Lo == 0, a.Hi >= 0 && first > last:
		return Interval{0, a.Hi}.powerSizes(b), Partly
	case first > last:
		return Everything(), None
	}
	below := Interval{a.Lo, min(a.Hi, 0)}
	out, _ := overPow(below, below, first)
	if first < last {
		size := below.neg().powerSizes(b)
		out = Interval{-size.Hi, size.Hi}
	}
	if a.Hi >= 0 {
		out = out.Hull(Interval{0, a.Hi}.powerSizes(b))
	}
	return out, Partly
}

// powerSizes encloses powers of numbers that are not below 0: the extremes lie at the
// corners.
//
// a^b rises or falls along each side of the rectangle, so that nothing inside it is beyond a
// corner.
func (a Interval) powerSizes(b Interval) Interval {
	a = a.abs()
	p, q, r, s := power(a.Lo, b.Lo), power(a.Lo, b.Hi), power(a.Hi, b.Lo), power(a.Hi, b.Hi)
	out := loose(min(p, q, r, s), max(p, q, r, s), max(offPower(a.Lo), offPower(a.Hi)))
	return Interval{max(out.Lo, 0), out.Hi}
}

func overSqrt(a, _ Interval, _ float64) (Interval, Extent) { return overPow(a, a, 0.5) }

func overRoot(a, _ Interval, k float64) (Interval, Extent) {
	ext := Whole
	if math.Mod(k, 2) == 0 {
		if a, ext = a.within(0, inf); ext == None {
			return Everything(), None
		}
	}
	out := loose(root(a.Lo, k), root(a.Hi, k), max(offPower(a.Lo), offPower(a.Hi)))
	if a.Lo >= 0 {
		out.Lo = max(out.Lo, 0)
	}
	return out, ext
}

func overSgn(a, _ Interval, _ float64) (Interval, Extent) {
	out := Interval{sign(a.Lo), sign(a.Hi)}
	return out, jumping(out)
}

// jumping is the extent of what has a few values only, and jumps between them.
func jumping(out Interval) Extent {
	if out.IsPoint() {
		return Whole
	}
	return Partly
}

// Where the cosine may be 0 there is a pole, and the values on both sides of it are all
// numbers.
func overTan(a, _ Interval, _ float64) (Interval, Extent) {
	if a.cosine().HoldsZero() {
		return Everything(), Partly // a pole
	}
	return loose(math.Tan(a.Lo), math.Tan(a.Hi), functionOff).around(a.angleOff()), Whole
}

// arcOff is how far the library's arcsine is off, near x: it takes 1 - x² with
// one rounding, which tells where the root of that is small.
func arcOff(x float64) float64 { return 8 * unit / max(math.Sqrt(max(1-float64(x*x), 0)), 0x1p-14) }

func overAsin(a, _ Interval, _ float64) (Interval, Extent) {
	a, ext := a.within(-1, 1)
	if ext == None {
		return Everything(), None
	}
	return Interval{math.Asin(a.Lo), math.Asin(a.Hi)}.around(max(arcOff(a.Lo), arcOff(a.Hi))), ext
}

func overAcos(a, _ Interval, _ float64) (Interval, Extent) {
	a, ext := a.within(-1, 1)
	if ext == None {
		return Everything(), None
	}
	return Interval{math.Acos(a.Hi), math.Acos(a.Lo)}.around(max(arcOff(a.Lo), arcOff(a.Hi))), ext
}

// overAtan2 encloses the angle of a point in a rectangle. Its extremes lie at
// the corners, unless the rectangle holds the origin or the negative axis,
// where the angle jumps by a turn.
func overAtan2(a, b Interval, _ float64) (Interval, Extent) {
	if a.HoldsZero() && (b.HoldsZero() || b.Lo < 0 && a.Lo < 0) {
		return outward(-math.Pi, math.Pi), Partly
	}
	p, q, r, s := angle(a.Lo, b.Lo), angle(a.Lo, b.Hi), angle(a.Hi, b.Lo), angle(a.Hi, b.Hi)
	return loose(min(p, q, r, s), max(p, q, r, s), functionOff), Whole
}

// It falls up to 0 and rises behind it, so that the size of the operand says all; it is never
// below 1.
func overCosh(a, _ Interval, _ float64) (Interval, Extent) {
	a = a.abs()
	out := loose(math.Cosh(a.Lo), math.Cosh(a.Hi), functionOff)
	return Interval{max(out.Lo, 1), out.Hi}, Whole
}

// logarithm encloses one, which may be off by an amount of its own near 1.
func logarithm(f func(float64) float64, by float64) func(a, b Interval, k float64) (Interval, Extent) {
	return func(a, _ Interval, _ float64) (Interval, Extent) {
		if a.Hi <= 0 {
			return Everything(), None
		}
		ext := Whole
		if a.Lo <= 0 {
			a.Lo, ext = 0, Partly
		}
		return loose(f(a.Lo), f(a.Hi), functionOff).around(by), ext
	}
}

// By the sizes of both it rises: the corners nearest to 0 and farthest from it are the
// extremes.
func overHypot(a, b Interval) Interval {
	a, b = a.abs(), b.abs()
	out := loose(math.Hypot(a.Lo, b.Lo), math.Hypot(a.Hi, b.Hi), functionOff)
	return Interval{max(out.Lo, 0), out.Hi}
}

// mostSteps is how many steps a number may have for each to be told from the next
// where the step may be off a little.
const mostSteps = 1 << 40

// tieOff is by how many roundings a number may be off a half and count as one: it is rounded
// from fifteen digits.
const tieOff = 128

// A number is rounded to a step that is known to one place, and the result is one of a few
// multiples. With a step that varies only the error of rounding can be told.
func overRound(a, b Interval, k float64) (Interval, Extent) {
	switch {
	case b == Point(0):
		return Everything(), None
	case b.IsPoint():
		out := Interval{round(a.Lo, b.Lo, k), round(a.Hi, b.Lo, k)}
		return out, jumping(out)
	case !b.HoldsZero():
		if n := a.Over(b); n.abs().Hi < mostSteps {
			n = loose(n.Lo, n.Hi, tieOff)
			n = Interval{math.Ceil(n.Lo - 0.5), math.Floor(n.Hi + 0.5)}
			return n.Mul(b), jumping(n)
		}
	}
	// Half a step, what counts as a tie, and the roundings of the quotient and of
	// its multiple, which are worth steps where those are small.
	return a.around(float64(0.6*b.abs().Hi) + float64(tieOff*unit*a.abs().Hi)), Partly
}

// overLastFigure: the greater a number, the more its last figure is worth.
func overLastFigure(a, _ Interval, k float64) (Interval, Extent) {
	place := func(v float64) float64 {
		if v == 0 {
			return 0
		}
		return rounding.LastPlace(v, int(k))
	}
	a = a.abs()
	out := Interval{place(a.Lo), place(a.Hi)}
	if a.Lo == 0 { // 0 itself has a place of 1
		out.Hi = max(out.Hi, 1)
	}
	return out, jumping(out)
}

// decided encloses a comparison by what is known of it: that it is true, that
// it is false.
//
// A comparison over intervals may be true for some numbers and false for others: what hangs on
// it has then either value.
func decided(yes, no bool) (Interval, Extent) {
	switch {
	case yes:
		return Point(1), Whole
	case no:
		return Point(0), Whole
	}
	return Interval{0, 1}, Partly
}

func overLess(a, b Interval, _ float64) (Interval, Extent) {
	return decided(a.Hi < b.Lo, a.Lo >= b.Hi)
}

func overAtMost(a, b Interval, _ float64) (Interval, Extent) {
	return decided(a.Hi <= b.Lo, a.Lo > b.Hi)
}

func overBoth(a, b Interval, _ float64) (Interval, Extent) {
	out := Interval{a.Lo * b.Lo, a.Hi * b.Hi}
	return out, jumping(out)
}
