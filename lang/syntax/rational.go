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
	switch x := x.(type) {
	case *Number:
		return decimalExponent(x.Value)
	case *Paren:
		return Rational(x.X)
	case *Unary:
		e := Rational(x.X)
		if x.Op == Sub {
			e = e.Neg()
		}
		return e
	case *Binary:
		if a := Rational(x.X); !a.Lost() {
			return rationalOp(x.Op, a, Rational(x.Y))
		}
	}
	return units.LostExp()
}

// rationalOp works out an operator on exponents.
//
// A power is lost: nobody writes one in an exponent, and it may be no rational
// number.
func rationalOp(op Op, a, b units.Exp) units.Exp {
	switch op {
	case Add:
		return a.Add(b)
	case Sub:
		return a.Add(b.Neg())
	case Mul:
		return a.Mul(b)
	case Div:
		return a.Mul(b.Inv())
	}
	return units.LostExp()
}

// decimalExponent returns a written decimal as an exact rational exponent.
//
// Beyond 1000 no power of a quantity makes sense, and its unit could not be held.
func decimalExponent(d units.Decimal) units.Exp {
	v := d.Float()
	if v > 1000 || v < -1000 || len(d.Text) > 16 {
		return units.LostExp()
	}
	if d.Lo == 0 && v == math.Trunc(v) {
		return units.NewExp(int(v), 1) // nearly every exponent
	}
	r := d.Rat()
	if !r.Num().IsInt64() || !r.Denom().IsInt64() {
		return units.LostExp()
	}
	return units.NewExp(int(r.Num().Int64()), int(r.Denom().Int64()))
}
