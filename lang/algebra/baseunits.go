package algebra

import (
	"math/big"

	"steelyard/lang/syntax"
	"steelyard/units"
)

// InBaseUnits is the equation with its written quantities in powers of one of each base
// unit; false if it has none in other units.
func (eq Equation) InBaseUnits() (out Equation, changed bool) {
	out = Equation{inBaseUnits(eq.Left), inBaseUnits(eq.Right)}
	return out, syntax.PrintExpr(out.Left) != syntax.PrintExpr(eq.Left) || syntax.PrintExpr(out.Right) != syntax.PrintExpr(eq.Right)
}

// inBaseUnits is an expression with its written quantities in powers of one of each base
// unit: 9 m^2 is 9·(1 m)², and so the square of 3 m. Temperatures on a scale, angles and
// the worksheet's own units stay as they are.
func inBaseUnits(x syntax.Expr) syntax.Expr {
	return syntax.Rewrite(x, func(x syntax.Expr) (syntax.Expr, bool) {
		q, ok := x.(*syntax.Quantity)
		if !ok {
			return nil, false
		}
		u, bad := units.NewTable().Parse(q.Unit.Text, units.AloneInPlace)
		if bad != nil || u.Affine() || u.Tag() != units.None || u.PiPower() != 0 {
			return nil, false
		}
		out := term{coef: new(big.Rat).Mul(q.Value.Rat(), u.Factor())}
		for b := units.Kilogram; b <= units.Candela; b++ {
			if e := u.Dim().Exp(int(b)); !e.IsZero() {
				one, _ := syntax.ParseExpr("1 " + units.BaseDim(b).String())
				out.factors = append(out.factors, factor{syntax.PrintExpr(one), one, e})
			}
		}
		return termExpr(out), true
	})
}
