package eval

import (
	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// inGravities finds an acceleration that is reported in g, as if the gram were
// a multiple of gravity.
//
// `a in g` of a lift shows how unlike two meanings of g are: the unit is a mass.
func (l *Line) inGravities(x syntax.Expr, in syntax.UnitText, message string, st run.Static) (finding.Finding, bool) {
	k, ok := units.KindOf(st.Dim, units.None)
	if in.Text != "g" || !ok || k.Name != "acceleration" {
		return finding.Finding{}, false
	}
	at := x.Span()
	text := l.Entry.Text[at.From:at.To]
	switch b := x.(type) {
	case *syntax.Unary:
		text = "(" + text + ")"
	case *syntax.Binary:
		if b.Op == syntax.Add || b.Op == syntax.Sub {
			text = "(" + text + ")"
		}
	}
	return finding.New(finding.UnitMismatch, at.Join(in.At), message,
		"g after `in` is the gram. For a multiple of g, divide: `"+text+"/g`. Or report it in m/s².", text+"/g"), true
}

// mismatchHint says what to do where a value comes out in another dimension than the
// unit it is reported in, the likeliest slip first: if the name goes with the value,
// the unit is wrong; else the formula, or a given whose unit explains the dimension. The
// slip has its line where one is named.
//
// If the name says the dimension that came out, the unit is the slip, and the formula is left
// alone: k = 2*W/x^2 in N has a k that is right.
func (l *Line) mismatchHint(name string, x syntax.Expr, in syntax.UnitText, st run.Static, u *units.Unit, report, given string) Slip {
	if n, ok := x.(*syntax.Number); ok && u.Dim() == units.BaseDim(units.Metre) {
		inches := n.Value.Text + " inch"
		return Slip{"`in` comes before the unit of a result. The inch is written `inch`: " + inches + ".", []string{l.With(x.Span().Join(in.At), inches)}}
	}
	if name != "" && units.Customary(name, st.Dim) && !units.Customary(name, u.Dim()) || syntax.IsPlain(x) {
		return Slip{Hint: report}
	}
	_, kind := units.KindOf(st.Dim, units.None)
	likely := l.LikelySlip(x, u, name != "" && given == "")
	switch {
	case likely.Hint != "" && kind:
		likely.Hint += " Or report it in " + units.Preferred(st.Dim, st.Tag).Screen() + "."
	case likely.Hint != "":
	case given != "":
		likely.Hint = given + " Or check the formula."
	case !kind:
		likely.Hint = "Check the formula."
	default:
		likely.Hint = report
	}
	return likely
}

// mismatch says that a value is reported in a unit of another dimension.
//
// The kelvin and °C come first: a C after in is the coulomb by the rules, and never meant where
// a temperature comes out.
func (l *Line) mismatch(name string, x syntax.Expr, in syntax.UnitText, st run.Static, u *units.Unit) {
	t := plan.MismatchText(name, st, u)
	if st.Dim == units.BaseDim(units.Kelvin) && (in.Text == "C" || in.Text == "F") {
		l.Find(finding.New(finding.UnitMismatch, in.At, t.Message, "Degrees need their sign.", "°"+in.Text))
		return
	}
	if f, ok := l.inGravities(x, in, t.Message, st); ok {
		l.Find(f)
		return
	}
	given := l.Planner.GivenHint(x, l.Entry.Text, st, u.Dim())
	slip := l.mismatchHint(name, x, in, st, u, t.Hint, given)
	if more := plan.Degrees(x); more != "" && u.Dim() == units.BaseDim(units.Kelvin) {
		slip.Hint = more
	}
	f := finding.New(finding.UnitMismatch, in.At, t.Message, "")
	slip.Put(&f)
	l.Find(f)
}
