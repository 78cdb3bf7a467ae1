package units

import "math"

// pair is a number kept as the unevaluated sum of two float64, about 31
// decimal digits. The algorithms are those of Dekker (1971) with a fused
// multiply-add for the exact product.
type pair struct{ hi, lo float64 }

// pi is π to 32 digits.
var pi = pair{3.141592653589793, 1.2246467991473532e-16}

// quickSum is a sum with what its rounding lost, where a is not smaller than b.
func quickSum(a, b float64) pair {
	s := a + b
	return pair{s, b - (s - a)}
}

// twoSum is quickSum whichever is larger (Knuth).
func twoSum(a, b float64) pair {
	s := a + b
	bb := s - a
	return pair{s, (a - (s - bb)) + (b - bb)}
}

// twoProduct is a product with what its rounding lost. The conversion keeps the compiler
// from fusing the product with a sum, which some machines would do and others not: all
// must give the same bits.
func twoProduct(a, b float64) pair {
	p := float64(a * b)
	return pair{p, math.FMA(a, b, -p)}
}

// float is the nearest float64, since lo is no more than half a last place of hi.
func (x pair) float() float64 { return x.hi + x.lo }

// neg changes the sign of both halves, as the small one is a correction of the large.
func (x pair) neg() pair { return pair{-x.hi, -x.lo} }

// add keeps what each of its sums loses, and mul the cross terms that still count; what is
// left out is below the last bit of lo.
func (x pair) add(y pair) pair {
	s, t := twoSum(x.hi, y.hi), twoSum(x.lo, y.lo)
	s = quickSum(s.hi, s.lo+t.hi)
	return quickSum(s.hi, s.lo+t.lo)
}

func (x pair) mul(y pair) pair {
	p := twoProduct(x.hi, y.hi)
	// What is left over of an infinite product is no number, and would make the sum none.
	if math.IsInf(p.hi, 0) || p.hi == 0 {
		return pair{p.hi, 0}
	}
	cross := float64(x.hi*y.lo) + float64(x.lo*y.hi)
	return quickSum(p.hi, p.lo+cross)
}

// div is long division with float64 for digits: each quotient is of what the ones before
// have left.
func (x pair) div(y pair) pair {
	q1 := x.hi / y.hi
	if math.IsInf(q1, 0) || q1 == 0 || math.IsNaN(q1) {
		return pair{q1, 0}
	}
	r := x.add(y.mul(pair{q1, 0}).neg())
	q2 := r.hi / y.hi
	r = r.add(y.mul(pair{q2, 0}).neg())
	q3 := r.hi / y.hi
	s := quickSum(q1, q2)
	return s.add(pair{q3, 0})
}

// pow returns x to a whole power.
func (x pair) pow(n int) pair {
	if n < 0 {
		return pair{1, 0}.div(x.pow(-n))
	}
	out := pair{1, 0}
	for ; n > 0; n >>= 1 {
		if n&1 == 1 {
			out = out.mul(x)
		}
		if n > 1 {
			x = x.mul(x)
		}
	}
	return out
}

// root returns the nth root of a positive x.
func (x pair) root(n int) pair {
	if n == 1 {
		return x
	}
	guess := math.Pow(x.hi, 1/float64(n))
	y := pair{guess, 0}
	for range 2 { // Newton: each step doubles the digits
		over := y.pow(n).add(x.neg())
		slope := y.pow(n - 1).mul(pair{float64(n), 0})
		y = y.add(over.div(slope).neg())
	}
	return y
}

// power returns x to a rational power, the root taken first.
func (x pair) power(e Exp) pair { return x.root(e.Den()).pow(e.Num()) }

// timesTen returns x × 10^n; 0 and infinity where that is out of range.
func (x pair) timesTen(n int) pair {
	switch {
	case n == 0:
		return x
	case n < -600:
		return pair{}
	case n < 0:
		return x.div(tenTo(-n))
	}
	return x.mul(tenTo(min(n, 600)))
}

// tenTo returns a power of ten; up to 10⁴⁴ it is exact.
func tenTo(n int) pair {
	if n < 0 {
		return pair{1, 0}.div(tenTo(-n))
	}
	if n <= 22 {
		return pair{exactTens[n], 0}
	}
	if n <= 44 {
		return twoProduct(1e22, exactTens[n-22])
	}
	return tenTo(44).mul(tenTo(n - 44))
}

var exactTens = [...]float64{
	1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11,
	1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22,
}
