package ops

import (
	"math"

	"steelyard/units/rounding"
)

// power raises a to the power k. Small whole powers are multiplications, so
// that x^2 is x·x to the last bit.
func power(a, k float64) float64 {
	switch k {
	case 0:
		return 1
	case 1:
		return a
	case 2:
		return a * a
	case 3:
		return float64(a*a) * a
	case 4:
		s := a * a
		return s * s
	case -1:
		return 1 / a
	case -2:
		return 1 / float64(a*a)
	case 0.5:
		return math.Sqrt(a)
	case -0.5:
		return 1 / math.Sqrt(a)
	case 1.5:
		return a * math.Sqrt(a)
	}
	return math.Pow(a, k)
}

// powerFault says why a power is not finite.
//
// 0^-1 divides, (-8)^0.5 has no real value, and 10^400 is one that no number here holds: three
// things for a reader to look at.
func powerFault(a, k float64) Fault {
	switch {
	case a == 0 && k < 0:
		return DivZero
	case a < 0 && k != math.Trunc(k):
		return NoReal
	}
	return OutOfRange
}

// exponentFault says why a power with an exponent that varies is not finite.
func exponentFault(a, b, _ float64) Fault {
	if why := powerFault(a, b); why != OutOfRange {
		return why
	}
	return Grown
}

// root is the root of a of degree n, a whole number from 2 on. An odd root of
// a negative number is negative; an even one is not a number.
//
// The cube root of -8 is -2, though (-8)^(1/3) has no real value: with 1/3 as a number nobody
// can tell that it is a third.
func root(a, n float64) float64 {
	switch n {
	case 2:
		return math.Sqrt(a)
	case 3:
		return math.Cbrt(a)
	}
	if a < 0 {
		if math.Mod(n, 2) == 0 {
			return math.NaN()
		}
		return -root(-a, n)
	}
	r := math.Pow(a, 1/n)
	// 1/n is rounded; a root that is a whole number should still come out whole.
	if w := math.Round(r); w != r && math.Pow(w, n) == a {
		return w
	}
	return r
}

// How ops.Round goes about it, added up in its K.
const (
	HalfToEven = 1 // a half goes to the even multiple, and not away from zero
	FromDigits = 2 // what is rounded is written with fifteen digits first, as in print
)

// round rounds a to a whole multiple of step. So 0.285 in steps of 0.01 is a half, though
// neither number is exact in binary. A quotient so great that its last bits are worth a step
// is taken as it is.
func round(a, step, how float64) float64 {
	q := a / step
	if step == 0 {
		return math.NaN()
	}
	if math.Abs(q) >= 1<<52 {
		return a
	}
	even := math.Mod(how, 2) == HalfToEven
	w := rounding.Steps(q, even)
	if how >= FromDigits {
		w = rounding.Whole(q, even)
	}
	if inv := math.Round(1 / step); inv != 0 && float64(inv*step) == 1 {
		return w / inv
	}
	return w * step
}

// sign is -1, 0 or 1.
func sign(a float64) float64 {
	switch {
	case a > 0:
		return 1
	case a < 0:
		return -1
	}
	return a
}

// angle is the angle of the point (b, a). -0 is taken as 0: there is one angle
// on the negative axis. Where the quotient of the two is too small to hold, the
// library takes the point for one on that axis, whatever the sign of a.
func angle(a, b float64) float64 {
	v := math.Atan2(a+0, b+0)
	if a < 0 && v > 0 {
		return -v
	}
	return v
}

// truth is 1 for true, else 0.
func truth(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

// The nearest numbers that a root and an arcsine take.
func atLeast0(a float64) float64 { return max(a, 0) }
func unitEnd(a float64) float64  { return math.Copysign(1, a) }

// What makes a value of 0 one that is too small to hold.
func never(_, _ float64) bool     { return false }
func ofNonZero(a, _ float64) bool { return a != 0 }

// ofNoNumber: an exponential too small to hold is 0, that of what is too large to
// hold is none.
func ofNoNumber(a, _ float64) bool { return a-a != 0 }
func ofNonZeros(a, b float64) bool {
	return a != 0 && b != 0
}

// noValue is the row of an operation that needs more than numbers.
func noValue(_, _, _ float64) float64 { return math.NaN() }

// Where slopes jump: at 0, and where two operands meet.
func atZero(a, _ float64) bool { return a == 0 }
func meet(a, b float64) bool   { return a == b }
