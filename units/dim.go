package units

import "strings"

// Base is one of the seven base quantities, in the order in which base units
// are written.
type Base int

// The base quantities, named for their SI units.
const (
	Kilogram Base = iota
	Metre
	Second
	Ampere
	Kelvin
	Mole
	Candela
	bases = 7
)

var baseSymbols = [bases]string{"kg", "m", "s", "A", "K", "mol", "cd"}

// Dim is the dimension of a quantity: the exponents of the seven base
// quantities. Its zero value is dimension one; equal dimensions compare equal
// with ==.
// A dimension one of whose exponents is out of range is lost, and so is all that is worked
// out with it; there is one such, which is the dimension of nothing.
// Exponents are fractions and no float64: the square root of a square root of a length,
// to the fourth power, must be that length again, and the comparison of two dimensions
// decides whether a line means anything. They have one denominator together, so that a
// dimension takes 16 bytes: every instruction of a plan holds one, and most rules compare two.
type Dim struct {
	num  [bases]int16
	less int16 // the denominator less one, in lowest terms with all numerators; -1 if lost
}

// newDim is the dimension of exponents over a denominator above 0.
func newDim(num [bases]int, den int) Dim {
	if den > 1 {
		g := den
		for _, n := range num {
			g = gcd(g, n)
		}
		for i := range num {
			num[i] /= g
		}
		den /= g
	}
	var d Dim
	for i, n := range num {
		if !held(n, den) {
			return lostDim()
		}
		d.num[i] = int16(n)
	}
	d.less = int16(den - 1)
	return d
}

// lostDim is the dimension whose exponents are lost.
func lostDim() Dim { return Dim{less: LostExp().less} }

// BaseDim returns the dimension of a base quantity.
func BaseDim(b Base) Dim {
	var d Dim
	if b >= 0 && b < bases {
		d.num[b] = 1
	}
	return d
}

// Lost tells whether an exponent was out of range.
// An exponent that large is a slip, such as a power of a power, and never a quantity. It
// is refused where it arises, since a wrapped exponent would be another dimension.
func (d Dim) Lost() bool { return d.less < 0 }

// Mul returns the dimension of a product.
func (d Dim) Mul(o Dim) Dim { return d.with(o, 1) }

// with is the dimension of a product with another to a whole power.
func (d Dim) with(o Dim, power int) Dim {
	if d.Lost() || o.Lost() {
		return lostDim()
	}
	var num [bases]int
	dens := [2]int{int(d.less) + 1, int(o.less) + 1}
	for i := range num {
		num[i] = int(d.num[i])*dens[1] + power*int(o.num[i])*dens[0]
	}
	return newDim(num, dens[0]*dens[1])
}

// Div returns the dimension of a quotient.
func (d Dim) Div(o Dim) Dim { return d.with(o, -1) }

// Pow returns the dimension of a power.
func (d Dim) Pow(e Exp) Dim {
	if d.Lost() || e.Lost() {
		return lostDim()
	}
	var num [bases]int
	for i, n := range d.num {
		num[i] = int(n) * e.Num()
	}
	return newDim(num, (int(d.less)+1)*e.Den())
}

// HasHalves tells whether an exponent is a half, as that of √(1 m).
func (d Dim) HasHalves() bool { return d.less == 1 }

// IsOne tells whether the dimension is that of a pure number.
func (d Dim) IsOne() bool { return d == Dim{} }

// Exp returns the exponent of a base quantity.
func (d Dim) Exp(i int) Exp {
	if i < 0 || i >= bases {
		return Exp{}
	}
	return NewExp(int(d.num[i]), int(d.less)+1)
}

// String returns base units with their exponents: "kg s^-2", or "1".
func (d Dim) String() string {
	var b strings.Builder
	for i := range d.num {
		e := d.Exp(i)
		if e.IsZero() {
			continue
		}
		if b.Len() > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(baseSymbols[i])
		b.WriteString(exponentText(e))
	}
	if b.Len() == 0 {
		return "1"
	}
	return b.String()
}

// exponentText returns "", "^2", "^-1" or "^(1/2)".
func exponentText(e Exp) string {
	switch {
	case e == whole(1):
		return ""
	case e.IsInt():
		return "^" + e.String()
	}
	return "^(" + e.String() + ")"
}
