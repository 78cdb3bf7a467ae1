package curve

import (
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/eval"
	"steelyard/units"
)

// What is said where an end of a range, or a curve, has no value yet.
const (
	noEndYet   = "This end of the range has no value yet."
	endHint    = "Give its symbols values in lines above."
	noCurveYet = "A symbol here has no value yet."
)

// interval works out two ends of a range, as slots, and the unit that it is shown
// in.
func interval(l *eval.Line, from, to syntax.Expr) (a, b run.Slot, st run.Static, unit *units.Unit, ok bool) {
	a, ok1 := end(l, from)
	b, ok2 := end(l, to)
	if !ok1 || !ok2 {
		return a, b, st, nil, false
	}
	sa, sb := l.Planner.Static(a), l.Planner.Static(b)
	if f, found := plan.ZeroOfScale(from, to, sa, sb); found {
		l.Find(f)
		return a, b, st, nil, false
	}
	if sa.Open != 0 && sb.Open == 0 {
		sa = l.Planner.SettleTo(a, sb.Dim)
	} else if sb.Open != 0 && sa.Open == 0 {
		sb = l.Planner.SettleTo(b, sa.Dim)
	}
	if sa.Dim != sb.Dim {
		l.Find(plan.UnlikeEnds(to, sa, sb))
		return a, b, st, nil, false
	}
	st = sb
	if st.Tag == units.None {
		st.Tag = sa.Tag
	}
	if unit = l.UnitWithin(to, st); unit == nil {
		unit = l.UnitWithin(from, st)
	}
	if unit == nil {
		unit = units.Preferred(st.Dim, st.Tag)
	}
	return a, b, run.Static{Dim: st.Dim, Tag: st.Tag, Width: 1}, unit, true
}

// end works out one end of a range.
func end(l *eval.Line, x syntax.Expr) (run.Slot, bool) {
	c := l.Eval(x, eval.Want{Lacking: noEndYet, Hint: endHint})
	return c.Slot, c.OK
}

// supports is how many figures an end of the range supports, 0 for any number: one that is
// written in the line itself is where the person chose to end.
func (p *plot) supports(x syntax.Expr, s run.Slot) int {
	if of := p.FiguresOf(s, p.unit); of.Givens && !syntax.IsWritten(x) {
		return of.N
	}
	return 0
}

// fewest is the smaller of two numbers of figures, of which 0 is any number.
func fewest(a, b int) int {
	if a == 0 || b != 0 && b < a {
		return b
	}
	return a
}
