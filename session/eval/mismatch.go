package eval

import (
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// inGravities finds an acceleration that is reported in g, as if the gram were
// a multiple of gravity.
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

// formulaHint says what the formula of a line lacks, or has too many of, if the
// unit that the line is reported in is the right one.
func formulaHint(st run.Static, u *units.Unit) string {
	what := units.Missing(u.Dim(), st.Dim)
	if what == "" {
		return ""
	}
	square := " (a square left out?)."
	if strings.HasSuffix(what, "too many") {
		square = " (a square too many?)."
	}
	return " Or, if " + u.Screen() + " is right, look at the formula: " + what + square
}

// mismatch says that a value is reported in a unit of another dimension.
func (l *Line) mismatch(name string, x syntax.Expr, in syntax.UnitText, st run.Static, u *units.Unit) {
	t := plan.MismatchText(name, st, u)
	hint := t.Hint
	if st.Dim == units.BaseDim(units.Kelvin) && (in.Text == "C" || in.Text == "F") {
		hint = "Degrees need their sign."
		l.Find(finding.New(finding.UnitMismatch, in.At, t.Message, hint, "°"+in.Text))
		return
	}
	if f, ok := l.inGravities(x, in, t.Message, st); ok {
		l.Find(f)
		return
	}
	if name != "" && !units.Customary(name, st.Dim) {
		hint += formulaHint(st, u)
	}
	if more := plan.Degrees(x); more != "" && u.Dim() == units.BaseDim(units.Kelvin) {
		hint += " " + more
	} else if more := l.Planner.GivenHint(x, l.Entry.Text, st, u.Dim()); more != "" {
		hint += " " + more
	}
	l.Find(finding.New(finding.UnitMismatch, in.At, t.Message, hint))
}
