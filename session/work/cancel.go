package work

import (
	"slices"
	"strconv"
	"strings"

	"steelyard/lang/algebra"
	"steelyard/lang/ops"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/eval"
	"steelyard/units"
	"steelyard/units/writing"
)

// cancelled shows how the units of a product cancel to that of its value, in SI
// units: J/m² = (kg·m²/s²)/m² = kg/s² = N/m. There are no sides where nothing is to be
// learned from it: for sums, and where the unit is plain.
func cancelled(p *eval.Page, x syntax.Expr, e *entry.Entry, value int) []entry.UnitSide {
	factors, ok := algebra.Factors(x)
	if !ok {
		return nil
	}
	var with, based []unitPower
	for _, f := range factors {
		u, ok := unitOf(p, f.X, e.Line)
		if !ok {
			return nil
		}
		if u.Dim().IsOne() {
			continue
		}
		with = append(with, unitPower{u.Coherent().Screen(), f.Exp})
		based = append(based, unitPower{units.BaseUnits(u.Dim()).Screen(), f.Exp})
	}
	v := e.Values()[value]
	if v.Dim.IsOne() || len(with) == 0 || len(with) == 1 && with[0].exp.Num() == 1 && with[0].exp.Den() == 1 {
		return nil
	}
	chain := []entry.UnitSide{productOfUnits(with), productOfUnits(based), {Product: units.BaseUnits(v.Dim).Screen()}, {Product: finalUnit(v)}}
	out := chain[:1]
	for _, s := range chain[1:] {
		if s != out[len(out)-1] {
			out = append(out, s)
		}
	}
	if len(out) < 2 || out[0] == out[len(out)-1] {
		return nil
	}
	return out
}

// finalUnit is the unit of a value without a prefix.
func finalUnit(v entry.Value) string {
	switch {
	case v.Unit.ToSIFloat(1) == 1 && !v.Unit.Affine():
		return v.Unit.Screen()
	case v.Tag != units.None:
		return units.Preferred(v.Dim, v.Tag).Screen()
	}
	return v.Unit.Coherent().Screen()
}

// unitOf is the unit of a factor, if it is known: a name, a written quantity or a number.
func unitOf(p *eval.Page, x syntax.Expr, line int) (*units.Unit, bool) {
	switch x := x.(type) {
	case *syntax.Pi, *syntax.Number:
		return units.One, true
	case *syntax.Paren:
		return unitOf(p, x.X, line)
	case *syntax.Quantity:
		u, bad := p.Planner.Unit(x.Unit, units.AfterNumber)
		return u, bad == nil
	case *syntax.Call:
		f, ok := ops.Named(x.Func)
		return units.One, ok && (f.Takes == ops.PureToPure || f.Takes == ops.AngleToPure || f.Takes == ops.PureToAngle)
	case *syntax.Name:
		if d := p.Above(x.Name, line); d != nil && d.Kind == plan.Quantity && d.Slot != run.NoSlot {
			st := p.Planner.Static(d.Slot)
			if d.Unit != nil && d.Unit.Dim() == st.Dim {
				return d.Unit, st.Open == 0
			}
			return units.Preferred(st.Dim, units.None), st.Open == 0
		}
	}
	return nil, false
}

// unitPower is a unit to a power.
type unitPower struct {
	unit string
	exp  units.Exp
}

// productOfUnits writes powers of units as one fraction; where all are roots of one
// degree, under one root.
func productOfUnits(all []unitPower) entry.UnitSide {
	root := all[0].exp.Den()
	if slices.ContainsFunc(all, func(p unitPower) bool { return p.exp.Den() != root }) {
		root = 1
	}
	var up, down []string
	for _, p := range all {
		n, d := p.exp.Num(), p.exp.Den()/root
		part := &up
		if n < 0 {
			part, n = &down, -n
		}
		text, powered, many := p.unit, n != 1 || d != 1, strings.ContainsAny(p.unit, "·/")
		if powered && strings.ContainsAny(text, "·/^⁻¹²³⁴⁵⁶⁷⁸⁹") || part == &down && many || len(all) > 1 && strings.Contains(text, "/") {
			text = "(" + text + ")"
		}
		switch {
		case d != 1:
			text += "^(" + strconv.Itoa(n) + "/" + strconv.Itoa(d) + ")"
		case n != 1:
			text += writing.Raised(strconv.Itoa(n))
		}
		*part = append(*part, text)
	}
	out := strings.Join(up, "·")
	if out == "" {
		out = "1"
	}
	switch len(down) {
	case 0:
	case 1:
		out += "/" + down[0]
	default:
		out += "/(" + strings.Join(down, "·") + ")"
	}
	if root == 1 {
		return entry.UnitSide{Product: out}
	}
	return entry.UnitSide{Product: out, Root: root}
}
