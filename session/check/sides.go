package check

import (
	"steelyard/lang/syntax"
	"steelyard/session/eval"
	"steelyard/units"
)

// isPercentage tells whether a margin is written with % or ppm.
func isPercentage(x syntax.Expr) bool {
	q, ok := x.(*syntax.Quantity)
	return ok && (q.Unit.Text == "%" || q.Unit.Text == "ppm" || q.Unit.Text == "percent")
}

// writtenQuantity returns the number and the unit of a written side.
func writtenQuantity(l *eval.Line, x syntax.Expr) (units.Decimal, *units.Unit, bool) {
	switch x := x.(type) {
	case *syntax.Number:
		return x.Value, units.One, true
	case *syntax.Quantity:
		u, bad := l.Planner.Unit(x.Unit, units.AfterNumber)
		return x.Value, u, bad == nil
	case *syntax.Paren:
		return writtenQuantity(l, x.X)
	case *syntax.Unary:
		d, u, ok := writtenQuantity(l, x.X)
		if x.Op == syntax.Sub {
			d = d.Neg()
		}
		return d, u, ok
	}
	return units.Decimal{}, nil, false
}

// roundsTo tells whether a value, rounded at the last digit that is written,
// is the quantity as written, zeros included.
func roundsTo(l *eval.Line, si float64, written syntax.Expr) bool {
	d, u, ok := writtenQuantity(l, written)
	return ok && d.IsRounded(u.FromSI(si), l.Set.Rounding)
}
