package syntax

import (
	"math"

	"steelyard/units"
)

// Rational returns the value of an expression of written numbers; lost where it is no
// rational number small enough for an exponent.
//
// Exponents are rational, for the unit of a power must be exact: of 1/2, 0.5 and
// 1/3*3 they are 1/2, 1/2 and 1. Lost are a power, 2^2, a name, a quantity, and
// 1e9.
func Rational(x Expr) units.Exp {
	n, ok := ratio(x)
	if !ok {
		return units.LostExp()
	}
	return units.NewExp(n.over, n.under)
}

// fraction is a number with a divisor above 0.
type fraction struct{ over, under int }

// mostPart bounds both numbers of a fraction while it is worked out: the 100 of 100/167 is no
// exponent, the fraction is one.
const mostPart = 1 << 30

// ratio works out an expression of written numbers.
//
// A power is none: nobody writes one in an exponent, and it may be no rational number.
func ratio(x Expr) (f fraction, ok bool) {
	switch x := x.(type) {
	case *Number:
		return decimalRatio(x.Value)
	case *Paren:
		return ratio(x.X)
	case *Unary:
		f, ok = ratio(x.X)
		if x.Op == Sub {
			f.over = -f.over
		}
		return f, ok
	case *Binary:
		if f, ok = ratio(x.X); !ok {
			return f, false
		}
		by, ok := ratio(x.Y)
		return f.with(x.Op, by, ok)
	}
	return f, false
}

// with works out an operator on two fractions; false where the second is none.
func (f fraction) with(op Op, by fraction, ok bool) (fraction, bool) {
	switch op {
	case Add, Sub:
		if op == Sub {
			by.over = -by.over
		}
		f = fraction{f.over*by.under + by.over*f.under, f.under * by.under}
	case Div:
		if by.over < 0 {
			by = fraction{-by.over, -by.under}
		}
		f = fraction{f.over * by.under, f.under * by.over}
	case Mul:
		f = fraction{f.over * by.over, f.under * by.under}
	default:
		ok = false
	}
	return f, ok && f.under > 0 && f.under < mostPart && max(f.over, -f.over) < mostPart
}

// decimalRatio is a written decimal as an exact fraction.
//
// Beyond 1000 no power of a quantity makes sense, and its unit could not be held.
func decimalRatio(d units.Decimal) (f fraction, ok bool) {
	v := d.Float()
	if v > 1000 || v < -1000 || len(d.Text) > 16 {
		return f, false
	}
	if d.Lo == 0 && v == math.Trunc(v) {
		return fraction{int(v), 1}, true // nearly every exponent
	}
	r := d.Rat()
	if !r.Num().IsInt64() || !r.Denom().IsInt64() {
		return f, false
	}
	f = fraction{int(r.Num().Int64()), int(r.Denom().Int64())}
	return f, f.under < mostPart && max(f.over, -f.over) < mostPart
}
