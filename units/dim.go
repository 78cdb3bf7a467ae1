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
// decides whether a line means anything.
type Dim struct{ e [bases]Exp }

// BaseDim returns the dimension of a base quantity.
func BaseDim(b Base) Dim {
	var d Dim
	if b >= 0 && b < bases {
		d.e[b] = whole(1)
	}
	return d
}

// Lost tells whether an exponent was out of range.
// An exponent that large is a slip, such as a power of a power, and never a quantity. It
// is refused where it arises, since a wrapped exponent would be another dimension.
func (d Dim) Lost() bool { return d.e[0].Lost() }

// lostDim is the dimension whose exponents are all lost.
func lostDim() (d Dim) {
	for i := range d.e {
		d.e[i] = LostExp()
	}
	return d
}

// Mul returns the dimension of a product.
func (d Dim) Mul(o Dim) Dim {
	for i := range d.e {
		if d.e[i] = d.e[i].Add(o.e[i]); d.e[i].Lost() {
			return lostDim()
		}
	}
	return d
}

// Div returns the dimension of a quotient.
func (d Dim) Div(o Dim) Dim {
	for i := range o.e {
		o.e[i] = o.e[i].Neg()
	}
	return d.Mul(o)
}

// Pow returns the dimension of a power.
func (d Dim) Pow(e Exp) Dim {
	for i := range d.e {
		if d.e[i] = d.e[i].Mul(e); d.e[i].Lost() {
			return lostDim()
		}
	}
	return d
}

// IsOne tells whether the dimension is that of a pure number.
func (d Dim) IsOne() bool { return d == Dim{} }

// Exp returns the exponent of a base quantity.
func (d Dim) Exp(i int) Exp {
	if i < 0 || i >= bases {
		return Exp{}
	}
	return d.e[i]
}

// String returns base units with their exponents: "kg s^-2", or "1".
func (d Dim) String() string {
	var b strings.Builder
	for i, e := range d.e {
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
