package syntax

import (
	"math"
	"math/big"

	"steelyard/units"
)

// Rational returns the value of an expression of written numbers; lost where it is no
// rational number small enough for an exponent.
//
// Exponents are rational, for the unit of a power must be exact: of 1/2, 0.5 and
// 1/3*3 they are 1/2, 1/2 and 1. Lost are a power, 2^2, a name, a quantity, and
// 1e9.
func Rational(x Expr) units.Exp {
	if n, ok := x.(*Number); ok && n.Value.Lo == 0 && n.Value.Hi == math.Trunc(n.Value.Hi) && math.Abs(n.Value.Hi) <= mostExponent {
		return units.NewExp(int(n.Value.Hi), 1) // nearly every exponent
	}
	r := ratio(x)
	if r == nil || !r.Num().IsInt64() || !r.Denom().IsInt64() {
		return units.LostExp()
	}
	return units.NewExp(int(r.Num().Int64()), int(r.Denom().Int64()))
}

// Beyond mostExponent no power of a quantity makes sense, and its unit could not be held; nor
// could that of a number with more than mostDigits.
const (
	mostExponent = 1000
	mostDigits   = 16
)

// ratio works out an expression of written numbers; nil for another.
//
// A power is none: nobody writes one in an exponent, and it may be no rational number.
func ratio(x Expr) *big.Rat {
	switch x := Unbracket(x).(type) {
	case *Number:
		if math.Abs(x.Value.Float()) <= mostExponent && len(x.Value.Text) <= mostDigits {
			return x.Value.Rat()
		}
	case *Unary:
		r := ratio(x.X)
		if r != nil && x.Op == Sub {
			r.Neg(r)
		}
		return r
	case *Binary:
		a, b := ratio(x.X), ratio(x.Y)
		switch {
		case a == nil || b == nil:
		case x.Op == Add:
			return a.Add(a, b)
		case x.Op == Sub:
			return a.Sub(a, b)
		case x.Op == Mul:
			return a.Mul(a, b)
		case x.Op == Div && b.Sign() != 0:
			return a.Quo(a, b)
		}
	}
	return nil
}
