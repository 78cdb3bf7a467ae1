// Package vary works an expression out again with givens replaced, and says how one
// quantity grows with another.
package vary

import (
	"strconv"

	"steelyard/lang/algebra"
	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/eval"
	"steelyard/units"
)

// With works an expression out again with givens replaced: the plan of the
// worksheet so far runs once more with other numbers in their slots.
func With(l *eval.Line, s *syntax.With) {
	d := &plan.Def{Kind: plan.Quantity, Slot: run.NoSlot}
	c := l.Eval(s.X, eval.Want{})
	if !c.OK {
		l.Fail(d, c.Root)
		return
	}
	replaced := map[run.Slot]float64{}
	for _, b := range s.By {
		slot, v, ok := replacement(l, b)
		if !ok {
			l.Fail(d, nil)
			return
		}
		replaced[slot] = v
	}
	unit, ok := l.ReportedIn("", s.X, s.In, &c.Compiled)
	if !ok {
		l.Fail(d, nil)
		return
	}
	if c.Static.Absent {
		withSymbols(l, s)
		return
	}
	again := l.Rerun(replaced)
	now, ok := again.Value(c.Slot)
	if !ok {
		l.Find(finding.New(finding.NoRealValue, s.X.Span(), "There is no value with these givens.", "Look at what they make of roots and quotients."))
		l.Fail(d, nil)
		return
	}
	// The new value stands in a slot of its own, for the lines below.
	slot := l.Planner.Emit(run.Instr{Op: ops.Const, K: now}, l.Planner.Static(c.Slot))
	l.CatchUp()
	c.Slot, d.Slot, d.Unit = slot, slot, unit
	v, ok := l.NewValue("", s.X, c.Slot, unit)
	if !ok {
		l.Fail(d, nil)
		return
	}
	r := l.Entry.Give(v)
	r.Shows, r.Records = true, true
	if was := c.Value; was != 0 && now != was {
		r.Notes = []string{times(now/was, l.Set.Rounding) + " times " + syntax.ScreenExpr(s.X) + " as it was"}
	}
	for _, b := range s.By {
		if by, ok := l.Planner.Find(&syntax.Name{Name: b.Name}); ok {
			r.Notes = append(r.Notes, free(by)...)
		}
	}
	l.Settle(d)
}

// withSymbols works an expression out again where symbols have no value: by what
// factor it grows, if that does not depend on them, else what becomes of it.
func withSymbols(l *eval.Line, s *syntax.With) {
	x, ok := l.WrittenOut(s.X, l.Entry.Line, nil)
	if !ok {
		l.Find(finding.New(finding.NotWorkedOut, s.X.Span(), "There is no value yet, and no one expression of the symbols.", "Give the symbols values in lines above."))
		return
	}
	by := map[string]syntax.Expr{}
	for _, b := range s.By {
		by[b.Name] = b.X
	}
	again := algebra.Substitute(x, by)
	if r, fixed := algebra.Ratio(again, x); fixed {
		l.Entry.Outcome = entry.Lines{times(r, l.Set.Rounding) + " times " + syntax.ScreenExpr(s.X) + " as it was, whatever the symbols are"}
		return
	}
	if short, ok := algebra.OneFraction(again); ok {
		again = short
	}
	l.Entry.Outcome = entry.Lines{syntax.ScreenExpr(s.X) + " becomes " + syntax.ScreenExpr(again)}
}

func times(r float64, rule units.Rounding) string {
	return units.FormatNumber(r, units.Figures{}, rule, units.Screen)
}

// replacement works out what stands in the place of a given.
func replacement(l *eval.Line, b syntax.Binding) (run.Slot, float64, bool) {
	n := &syntax.Name{At: b.NameAt, Name: b.Name}
	d, ok := l.Planner.Find(n)
	if !ok || d.Failed() || d.Kind != plan.Quantity && d.Kind != plan.Symbol {
		l.Find(l.Planner.Unknown(n, l.Entry.Text)...)
		return run.NoSlot, 0, false
	}
	c := l.Eval(b.X, eval.Want{})
	l.Uses([]*plan.Def{d}, b.NameAt)
	if !c.OK {
		return run.NoSlot, 0, false
	}
	want := l.Planner.Static(d.Slot)
	if st := l.Planner.SettleTo(c.Slot, want.Dim); st.Dim != want.Dim && want.Open == 0 {
		var readings []string
		if n, bare := b.X.(*syntax.Number); bare && d.Unit != nil {
			readings = []string{n.Value.Text + " " + d.Unit.Text()}
		}
		l.Find(finding.New(finding.UnlikeDimensions, b.X.Span(), b.Name+" is "+plan.Words(want)+"; what replaces it is "+plan.Words(st)+".",
			"Give it in a unit of the same kind.", readings...))
		return run.NoSlot, 0, false
	}
	return d.Slot, c.Value, true
}

// free says of a quantity that is worked out that it is varied by itself.
func free(by *plan.Def) []string {
	if by.Given || by.Kind == plan.Symbol {
		return nil
	}
	return []string{by.Name + " (line " + strconv.Itoa(by.Line) + ") is worked out; here it is taken as free."}
}
