package units

import "strconv"

// maxExponent is the greatest numerator or denominator that an exponent of a
// unit or a dimension may have, once reduced.
const maxExponent = 99

// Exp is an exact rational exponent. Its zero value is 0, and equal exponents
// compare equal with ==.
// With a byte for each side, a dimension takes 14 bytes: every instruction of a plan
// holds one, and most rules compare two.
type Exp struct {
	num  int8
	less int8 // denominator less one, so that the zero value is 0/1
}

// NewExp returns num/den in lowest terms. It reports false where den is zero or
// where either part is beyond maxExponent after reduction.
func NewExp(num, den int) (Exp, bool) {
	if den == 0 {
		return Exp{}, false
	}
	if den < 0 {
		num, den = -num, -den
	}
	if g := gcd(num, den); g > 1 {
		num, den = num/g, den/g
	}
	if num > maxExponent || num < -maxExponent || den > maxExponent || den < 1 {
		return Exp{}, false
	}
	return Exp{int8(num), int8(den - 1)}, true
}

func gcd(a, b int) int {
	if a < 0 {
		a = -a
	}
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

func whole(n int8) Exp { return Exp{num: n} }

// Num returns the numerator, which carries the sign.
func (e Exp) Num() int { return int(e.num) }

// Den returns the denominator, at least 1.
func (e Exp) Den() int { return int(e.less) + 1 }

// Float returns the exponent as the nearest float64.
func (e Exp) Float() float64 { return float64(e.num) / float64(e.Den()) }

// IsInt tells whether the exponent is a whole number.
func (e Exp) IsInt() bool { return e.less == 0 }

// IsZero tells whether the exponent is 0.
func (e Exp) IsZero() bool { return e.num == 0 }

// String returns "2" or "-1/2".
func (e Exp) String() string {
	s := strconv.Itoa(e.Num())
	if e.IsInt() {
		return s
	}
	return s + "/" + strconv.Itoa(e.Den())
}

// Mul returns the product, or false beyond maxExponent.
func (e Exp) Mul(o Exp) (Exp, bool) { return NewExp(e.Num()*o.Num(), e.Den()*o.Den()) }

// Add returns the sum, or false beyond maxExponent.
func (e Exp) Add(o Exp) (Exp, bool) {
	if e.less == 0 && o.less == 0 {
		n := int(e.num) + int(o.num)
		if n > maxExponent || n < -maxExponent {
			return Exp{}, false
		}
		return Exp{num: int8(n)}, true
	}
	return NewExp(e.Num()*o.Den()+o.Num()*e.Den(), e.Den()*o.Den())
}

// Neg returns -e.
func (e Exp) Neg() Exp { return Exp{-e.num, e.less} }

// Inv returns 1/e, or false for 0.
func (e Exp) Inv() (Exp, bool) { return NewExp(e.Den(), e.Num()) }
