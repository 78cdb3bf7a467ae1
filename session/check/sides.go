package check

import (
	"math/big"
	"strconv"

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
	if !ok {
		return false
	}
	fifteen, ok := new(big.Rat).SetString(strconv.FormatFloat(u.FromSI(si), 'e', 14, 64))
	if !ok {
		return false
	}
	step := tenTo(int(d.LastPlace))
	steps := roundRat(fifteen.Quo(fifteen, step), l.Set.Rounding)
	want := new(big.Rat).Quo(d.Rat(), step)
	return want.Cmp(new(big.Rat).SetInt(steps)) == 0
}

func tenTo(n int) *big.Rat {
	p := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(max(n, -n))), nil)
	if n < 0 {
		return new(big.Rat).SetFrac(big.NewInt(1), p)
	}
	return new(big.Rat).SetInt(p)
}

// roundRat rounds to a whole number by the rule in force.
func roundRat(r *big.Rat, rule units.Rounding) *big.Int {
	num, den := new(big.Int).Abs(r.Num()), r.Denom()
	q, rest := new(big.Int).QuoRem(num, den, new(big.Int))
	half := rest.Lsh(rest, 1).Cmp(den)
	if half > 0 || half == 0 && (rule == units.HalfAway || q.Bit(0) == 1) {
		q.Add(q, big.NewInt(1))
	}
	if r.Sign() < 0 {
		q.Neg(q)
	}
	return q
}
