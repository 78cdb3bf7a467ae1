package units

import "strconv"

const (
	// maxExponent is the greatest exponent that a unit or a dimension may have, and maxFraction
	// the greatest numerator or denominator of one, once reduced: V^1.667 has the exponent
	// 5001/1000 of a length.
	maxExponent = 99
	maxFraction = 30_000
)

// Exp is an exact rational exponent. Its zero value is 0, and equal exponents
// compare equal with ==. An exponent beyond the range is lost, as is what is worked out
// with it: whoever takes a result asks whether there is one.
type Exp struct {
	num  int16
	less int16 // denominator less one, so that the zero value is 0/1; -1 if lost
}

// NewExp returns num/den in lowest terms. It is lost where den is zero or where it is beyond
// maxExponent, or either part beyond maxFraction, after reduction.
func NewExp(num, den int) Exp {
	if den < 0 {
		num, den = -num, -den
	}
	if g := gcd(num, den); g > 1 {
		num, den = num/g, den/g
	}
	if den < 1 || !held(num, den) {
		return LostExp()
	}
	return Exp{int16(num), int16(den - 1)}
}

// held tells whether an exponent in lowest terms is in range.
func held(num, den int) bool {
	return den <= maxFraction && max(num, -num) <= min(maxExponent*den, maxFraction)
}

// LostExp is the exponent that is none.
func LostExp() Exp { return Exp{less: -1} }

// Lost tells whether an exponent is none: out of range, or over 0.
func (e Exp) Lost() bool { return e.less < 0 }

// gcd is the greatest common divisor, by Euclid's algorithm: exponents are small.
func gcd(a, b int) int {
	for b != 0 {
		a, b = b, a%b
	}
	return max(a, -a)
}

// whole is a whole exponent. What is kept is the denominator less 1, so that the zero value of
// an exponent is 0.
func whole(n int8) Exp { return Exp{num: int16(n)} }

// Num returns the numerator, which carries the sign.
func (e Exp) Num() int { return int(e.num) }

// Den returns the denominator, at least 1; 0 if the exponent is lost.
func (e Exp) Den() int { return int(e.less) + 1 }

// Float returns the exponent as the nearest float64.
func (e Exp) Float() float64 { return float64(e.num) / float64(e.Den()) }

// IsInt tells whether the exponent is a whole number.
func (e Exp) IsInt() bool { return e.less == 0 }

// IsZero tells whether the exponent is 0.
func (e Exp) IsZero() bool { return e == Exp{} }

// String returns "2" or "-1/2".
func (e Exp) String() string {
	s := strconv.Itoa(e.Num())
	if e.IsInt() {
		return s
	}
	return s + "/" + strconv.Itoa(e.Den())
}

// Mul returns the product.
func (e Exp) Mul(o Exp) Exp { return NewExp(e.Num()*o.Num(), e.Den()*o.Den()) }

// Common returns the greatest exponent of which both are whole multiples, lost where it is
// out of range. Any is one of 0.
func (e Exp) Common(o Exp) Exp {
	return NewExp(gcd(e.Num()*o.Den(), o.Num()*e.Den()), e.Den()*o.Den())
}

// Add returns the sum.
func (e Exp) Add(o Exp) Exp {
	if e.less == 0 && o.less == 0 {
		return NewExp(e.Num()+o.Num(), 1)
	}
	return NewExp(e.Num()*o.Den()+o.Num()*e.Den(), e.Den()*o.Den())
}

// Neg returns -e.
func (e Exp) Neg() Exp { return Exp{-e.num, e.less} }

// Inv returns 1/e, which is lost for 0.
func (e Exp) Inv() Exp { return NewExp(e.Den(), e.Num()) }
