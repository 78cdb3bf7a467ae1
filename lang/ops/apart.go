package ops

import "math"

// Apart is the values of an operation over intervals as two intervals, the lower
// one first, where the operation jumps from one to the other or leads through a
// pole: none of its values lie between. It returns false where nothing is known to
// be left out.
func (op Op) Apart(a, b Interval, k float64) (lower, upper Interval, ok bool) {
	if f := table[op].apart; f != nil {
		lower, upper, ok = f(a, b, k)
	}
	if lower.Lo > upper.Lo {
		lower, upper = upper, lower
	}
	return lower, upper, ok && lower.Hi < upper.Lo
}

// ofDivisor cuts a divisor at 0.
func ofDivisor(a, b Interval, _ float64) (lower, upper Interval, ok bool) {
	if !(b.Lo < 0 && 0 < b.Hi) {
		return lower, upper, false
	}
	return a.Mul(Interval{b.Lo, 0}.inv()), a.Mul(Interval{0, b.Hi}.inv()), true
}

// ofPole cuts what is raised to a negative whole power at 0.
func ofPole(a, _ Interval, k float64) (lower, upper Interval, ok bool) {
	if !(k < 0 && a.Lo < 0 && 0 < a.Hi) {
		return lower, upper, false
	}
	lower, _ = overPow(Interval{a.Lo, 0}, a, k)
	upper, _ = overPow(Interval{0, a.Hi}, a, k)
	return lower, upper, true
}

// ofSigns is powers of what lies below 0, which are above or below 0 for exponents that
// are even or odd.
func ofSigns(a, b Interval, _ float64) (lower, upper Interval, ok bool) {
	if a.Hi > 0 || a.Lo == 0 || b.IsPoint() {
		return lower, upper, false
	}
	upper = a.neg().powerSizes(b)
	return upper.neg(), upper, true
}

// ofTangent is a tangent on both sides of its only pole in an interval.
func ofTangent(a, _ Interval, _ float64) (lower, upper Interval, ok bool) {
	if !(a.Hi-a.Lo < 3) || !a.cosine().HoldsZero() {
		return lower, upper, false
	}
	lo, hi := math.Tan(a.Lo), math.Tan(a.Hi)
	by := a.angleOff() * (1 + max(lo*lo, hi*hi))
	lower, upper = Interval{-inf, loose(hi, hi, functionOff).around(by).Hi}, Interval{loose(lo, lo, functionOff).around(by).Lo, inf}
	return lower, upper, true
}

// ofSteps cuts what has a few values only: one step apart, there is nothing between
// them.
func ofSteps(over func(a, b Interval, k float64) (Interval, Extent), step func(b float64) float64) func(a, b Interval, k float64) (lower, upper Interval, ok bool) {
	return func(a, b Interval, k float64) (lower, upper Interval, ok bool) {
		out, _ := over(a, b, k)
		return Point(out.Lo), Point(out.Hi), b.IsPoint() && out.Hi-out.Lo <= 1.5*step(b.Lo)
	}
}

// one is the step of what is true or false, or a sign.
func one(float64) float64 { return 1 }
