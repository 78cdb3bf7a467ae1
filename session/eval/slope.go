package eval

import (
	"steelyard/lang/finding"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/lang/typeset"
	"steelyard/units"
)

// noSlope says what the curve does at the place where a slope of the line has no
// value; false where the line does not show that curve.
//
// A corner, a jump and an upright tangent are told apart by values beside the place (lang/run
// BendAt).
func (l *Line) noSlope(f run.Failure) (finding.Finding, bool) {
	main := &l.Planner.Program.Main
	in := main.Instrs[f.Slot]
	s := l.slopeOver(main.Span(f.Slot))
	if f.Func != nil || f.Slot < l.Start || s == nil || in.C != 1 {
		return finding.Finding{}, false
	}
	fn, at := int(in.A), main.Args[in.B]
	x, st := l.State.At(at), l.Planner.Static(at)
	unit := l.UnitWithin(s.Place, st)
	if unit == nil {
		unit = units.Preferred(st.Dim, st.Tag)
	}
	curve, place := typeset.Text(s.X), s.Var.Name+" = "+l.ShownIn(x, unit)
	if l.Planner.Program.Beyond(&l.State, fn, x) {
		return finding.New(finding.OutOfRange, s.X.Span(), "The curve or its slope is too large at "+place+": numbers here go from 10^-308 to 10^308.", "Choose another place, or another unit."), true
	}
	if _, ok := l.Planner.Program.Single(&l.State, fn)(x); !ok {
		return finding.New(finding.NoRealValue, s.X.Span(), curve+" has no value at "+place+", so it has no slope.", "Use another place."), true
	}
	says := ""
	switch bend, left, right := l.Planner.Program.BendAt(&l.State, fn, x, l.Planner.Program.NaturalScale(&l.State, []int{fn}, st.Dim)); bend {
	case run.Smooth:
		return finding.Finding{}, false
	case run.Jump:
		says = curve + " jumps at " + place + ", so it has no slope there."
	case run.Vertical:
		says = "The slope of " + curve + " grows without limit near " + place + ", so it has no slope there."
	default:
		u := units.Preferred(l.Planner.Static(f.Slot).Dim, units.None)
		says = curve + " has a corner at " + place + ": its slope is " + l.ShownIn(left, u) + " just before and " + l.ShownIn(right, u) + " just after."
	}
	return finding.New(finding.NoSlope, s.X.Span(), says, "Choose a place next to it."), true
}

// slopeOver finds the slope in the line whose curve a span covers.
func (l *Line) slopeOver(at syntax.Span) *syntax.SlopeOf {
	for s := range syntax.Each[*syntax.SlopeOf](l.Entry.Stmt.Exprs()...) {
		if s.X.Span() == at {
			return s
		}
	}
	return nil
}

// UnitWithin is the unit of that dimension in which a part of an expression is
// written, or the one of a name in it; nil if there is none.
func (p *Page) UnitWithin(x syntax.Expr, st run.Static) *units.Unit {
	return p.unitWithin(x, func(u *units.Unit) bool { return u.Dim() == st.Dim && !u.Affine() })
}

// unitWithin is the first such unit that is written in an expression, or that a name in it
// has by its line; nil if there is none.
func (p *Page) unitWithin(x syntax.Expr, such func(*units.Unit) bool) *units.Unit {
	for x := range syntax.Nodes(x) {
		if u := p.PartUnit(x); u != nil && such(u) {
			return u
		}
	}
	return nil
}
