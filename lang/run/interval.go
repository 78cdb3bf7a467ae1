package run

import "math"

// Interval is all the numbers from Lo to Hi. Every operation rounds outward, so
// that the result holds all values that the operation can give.
type Interval struct{ Lo, Hi float64 }

var everything = Interval{math.Inf(-1), math.Inf(1)}

// outward widens bounds by a rounding step.
func outward(lo, hi float64) Interval {
	if math.IsNaN(lo) || math.IsNaN(hi) {
		return everything
	}
	return Interval{math.Nextafter(lo, math.Inf(-1)), math.Nextafter(hi, math.Inf(1))}
}

// loose widens bounds by the few rounding steps that library functions may be
// off.
func loose(lo, hi float64) Interval {
	const part = 4e-16
	return outward(lo-math.Abs(lo)*part, hi+math.Abs(hi)*part)
}

func point(v float64) Interval { return Interval{v, v} }

// holdsZero tells whether 0 lies in the interval.
func (a Interval) holdsZero() bool { return a.Lo <= 0 && a.Hi >= 0 }

func (a Interval) add(b Interval) Interval { return outward(a.Lo+b.Lo, a.Hi+b.Hi) }
func (a Interval) sub(b Interval) Interval { return outward(a.Lo-b.Hi, a.Hi-b.Lo) }
func (a Interval) neg() Interval           { return Interval{-a.Hi, -a.Lo} }

// mul multiplies; 0 times anything is 0 here, as it is for every number in an
// unbounded interval.
func (a Interval) mul(b Interval) Interval {
	if a == point(0) || b == point(0) {
		return point(0)
	}
	product := func(x, y float64) float64 {
		if x == 0 || y == 0 {
			return 0
		}
		return x * y
	}
	p, q, r, s := product(a.Lo, b.Lo), product(a.Lo, b.Hi), product(a.Hi, b.Lo), product(a.Hi, b.Hi)
	return outward(min(p, q, r, s), max(p, q, r, s))
}

// inv is one over the interval; all numbers if that holds 0.
func (a Interval) inv() Interval {
	if a.holdsZero() {
		return everything
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

// whole is a power with a whole exponent.
func (a Interval) whole(n int) Interval {
	if n < 0 {
		return a.whole(-n).inv()
	}
	if n%2 == 0 {
		b := a.abs()
		return loose(math.Pow(b.Lo, float64(n)), math.Pow(b.Hi, float64(n)))
	}
	return loose(math.Pow(a.Lo, float64(n)), math.Pow(a.Hi, float64(n)))
}

// rising applies a function that rises throughout.
func (a Interval) rising(f func(float64) float64) Interval { return loose(f(a.Lo), f(a.Hi)) }

// sine encloses the sine: its turning points within the interval count.
func (a Interval) sine() Interval {
	if math.IsInf(a.Lo, 0) || math.IsInf(a.Hi, 0) || a.Hi-a.Lo >= 2*math.Pi || max(-a.Lo, a.Hi) > 1e8 {
		return Interval{-1, 1}
	}
	out := loose(min(math.Sin(a.Lo), math.Sin(a.Hi)), max(math.Sin(a.Lo), math.Sin(a.Hi)))
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
	return Interval{max(out.Lo, -1), min(out.Hi, 1)}
}

func (a Interval) cosine() Interval { return a.add(outward(math.Pi/2, math.Pi/2)).sine() }
