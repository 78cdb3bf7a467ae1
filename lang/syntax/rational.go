package syntax

import "steelyard/units"

// Rational returns the value of an expression of written numbers, if it is a
// rational number small enough for an exponent.
func Rational(x Expr) (units.Exp, bool) {
	switch x := x.(type) {
	case *Number:
		return decimalExponent(x.Value)
	case *Paren:
		return Rational(x.X)
	case *Unary:
		e, ok := Rational(x.X)
		if x.Op == Sub {
			e = e.Neg()
		}
		return e, ok
	case *Binary:
		a, ok := Rational(x.X)
		if !ok {
			return a, false
		}
		b, ok := Rational(x.Y)
		if !ok {
			return b, false
		}
		return rationalOp(x.Op, a, b)
	}
	return units.Exp{}, false
}

// rationalOp works out an operator on exponents.
func rationalOp(op Op, a, b units.Exp) (units.Exp, bool) {
	switch op {
	case Add:
		return a.Add(b)
	case Sub:
		return a.Add(b.Neg())
	case Mul:
		return a.Mul(b)
	case Div:
		inv, ok := b.Inv()
		if !ok {
			return b, false
		}
		return a.Mul(inv)
	}
	return a, false
}

// decimalExponent returns a written decimal as an exact rational exponent.
func decimalExponent(d units.Decimal) (units.Exp, bool) {
	v := d.Float()
	if v > 1000 || v < -1000 || len(d.Text) > 16 {
		return units.Exp{}, false
	}
	r := d.Rat()
	if !r.Num().IsInt64() || !r.Denom().IsInt64() {
		return units.Exp{}, false
	}
	return units.NewExp(int(r.Num().Int64()), int(r.Denom().Int64()))
}
