package curve

import (
	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/eval"
	"steelyard/units"
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
	if sa.Open != 0 && sb.Open == 0 {
		sa = l.Planner.SettleTo(a, sb.Dim)
	} else if sb.Open != 0 && sa.Open == 0 {
		sb = l.Planner.SettleTo(b, sa.Dim)
	}
	if sa.Dim != sb.Dim {
		l.Find(finding.New(finding.UnlikeDimensions, to.Span(), "The range goes from "+plan.Words(sa)+" to "+plan.Words(sb)+".", "Use units of the same kind for both ends."))
		return a, b, st, nil, false
	}
	st = sb
	if st.Tag == units.None {
		st.Tag = sa.Tag
	}
	if unit = rangeUnit(l, to, st); unit == nil {
		unit = rangeUnit(l, from, st)
	}
	if unit == nil {
		unit = units.Preferred(st.Dim, st.Tag)
	}
	return a, b, run.Static{Dim: st.Dim, Tag: st.Tag, Width: 1}, unit, true
}

// end works out one end of a range.
func end(l *eval.Line, x syntax.Expr) (run.Slot, bool) {
	c := l.Eval(x, eval.Want{Lacking: "This end of the range has no value yet.", Hint: "Define its symbols in lines above."})
	return c.Slot, c.OK
}

// rangeUnit is the unit that an end of a range was written in, or its name's.
func rangeUnit(l *eval.Line, x syntax.Expr, st run.Static) *units.Unit {
	var found *units.Unit
	syntax.Walk(x, func(x syntax.Expr) bool {
		if found != nil {
			return false
		}
		u := l.RememberedUnit(x)
		if u == nil {
			u = l.WrittenUnit(x)
		}
		if u != nil && u.Dim() == st.Dim && !u.Affine() {
			found = u
		}
		return found == nil
	})
	return found
}
