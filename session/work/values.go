package work

import (
	"steelyard/lang/algebra"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/eval"
	"steelyard/units"
)

// valuesIn are the quantities that the names of an expression stand for above a
// line, as they were given or are shown.
func valuesIn(p *eval.Page, x syntax.Expr, line int) map[string]syntax.Expr {
	by := map[string]syntax.Expr{}
	for n := range syntax.Each[*syntax.Name](x) {
		if n.Line != 0 {
			continue
		}
		if d := p.Above(n.Name, line); d != nil && d.Slot != run.NoSlot && !p.Planner.Static(d.Slot).Absent {
			if q, ok := p.AsQuantity(d); ok {
				by[n.Name] = q
			}
		}
	}
	return by
}

// shownExpr is a value as it is shown, as an expression.
func shownExpr(v entry.Value) syntax.Expr {
	x, fs := syntax.ParseExpr(v.Shown(units.File))
	if len(fs) > 0 {
		return &syntax.Name{}
	}
	return x
}

// withValues is an expression with the values of its names put in.
func withValues(p *eval.Page, x syntax.Expr, line int) syntax.Expr {
	x = algebra.Substitute(x, valuesIn(p, x, line))
	return kelvins(p, syntax.Rewrite(x, func(x syntax.Expr) (syntax.Expr, bool) {
		n, ok := x.(*syntax.Name)
		if !ok || n.Line == 0 {
			return nil, false
		}
		d, ok := p.Planner.Find(n)
		if !ok || d.Slot == run.NoSlot || p.Planner.Static(d.Slot).Absent {
			return nil, false
		}
		q, ok := p.AsQuantity(d)
		if !ok {
			return nil, false
		}
		return &syntax.Paren{X: q}, true
	}))
}

// kelvins is an expression with the temperatures that are factors in it in kelvin, as they
// are worked out: (87 °C)/(27 °C) is not 87/27.
func kelvins(p *eval.Page, x syntax.Expr) syntax.Expr {
	factors := map[syntax.Expr]bool{}
	for x := range syntax.Nodes(x) {
		switch x := x.(type) {
		case *syntax.Binary:
			product := x.Op == syntax.Mul || x.Op == syntax.Div || x.Op == syntax.Pow
			factors[syntax.Unbracket(x.X)], factors[syntax.Unbracket(x.Y)] = product, product
		case *syntax.Root:
			factors[syntax.Unbracket(x.X)] = true
		}
	}
	return syntax.Rewrite(x, func(x syntax.Expr) (syntax.Expr, bool) {
		q, ok := x.(*syntax.Quantity)
		if !ok || !factors[q] || q.Value.Off != nil {
			return nil, false
		}
		u, bad := p.Planner.Unit(q.Unit, units.AfterNumber)
		if bad != nil || !u.Affine() {
			return nil, false
		}
		k, fs := syntax.ParseExpr(units.FormatNumber(u.ToSI(q.Value), units.Figures{N: 15}, units.HalfAway, units.File) + " K")
		return k, len(fs) == 0
	})
}
