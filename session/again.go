package session

import (
	"context"
	"math"
	"slices"
	"strings"

	"steelyard/lang/algebra"
	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/units"
)

// with works an expression out again with givens replaced: the plan of the
// worksheet so far runs once more with other numbers in their slots.
func (w *work) with(s *syntax.With) {
	d := &plan.Def{Kind: plan.Quantity, Slot: run.NoSlot}
	c := w.Eval(s.X, Want{})
	if !c.OK {
		w.fail(d, c.Root)
		return
	}
	replaced := map[run.Slot]float64{}
	for _, b := range s.By {
		slot, v, ok := w.replacement(b)
		if !ok {
			w.fail(d, nil)
			return
		}
		replaced[slot] = v
	}
	unit, ok := w.reportedIn("", s.X, s.In, &c.Compiled)
	if !ok {
		w.fail(d, nil)
		return
	}
	if c.Static.Absent {
		w.withSymbols(s)
		return
	}
	again := w.rerun(replaced)
	now, ok := again.Value(c.Slot)
	if !ok {
		w.find(finding.New(finding.NoRealValue, s.X.Span(), "There is no value with these givens.", "Look at what they make of roots and quotients."))
		w.fail(d, nil)
		return
	}
	// The new value stands in a slot of its own, for the lines below.
	slot := w.planner.Emit(run.Instr{Op: ops.Const, K: now}, w.planner.Static(c.Slot))
	w.CatchUp()
	c.Slot, d.Slot, d.Unit = slot, slot, unit
	v, ok := w.newValue("", s.X, c.Compiled, unit)
	if !ok {
		w.fail(d, nil)
		return
	}
	r := w.e.Give(v)
	r.Shows, r.Records = true, true
	if was := c.Value; was != 0 && now != was {
		r.Notes = []string{times(now/was, w.set.rounding) + " times " + algebra.Display(s.X) + " as it was"}
	}
	for _, b := range s.By {
		if by, ok := w.planner.Find(&syntax.Name{Name: b.Name}); ok {
			r.Notes = append(r.Notes, free(by)...)
		}
	}
	w.settleDef(d)
}

// withSymbols works an expression out again where symbols have no value: by what
// factor it grows, if that does not depend on them, else what becomes of it.
func (w *work) withSymbols(s *syntax.With) {
	x, ok := w.writtenExpr(s.X, w.e.Line, nil, 0)
	if !ok {
		w.find(finding.New(finding.NotWorkedOut, s.X.Span(), "There is no value yet, and no one expression of the symbols.", "Give the symbols values in lines above."))
		return
	}
	by := map[string]syntax.Expr{}
	for _, b := range s.By {
		by[b.Name] = b.X
	}
	again := algebra.Substitute(x, by)
	if r, fixed := algebra.Ratio(again, x); fixed {
		w.e.Outcome = entry.Lines{times(r, w.set.rounding) + " times " + algebra.Display(s.X) + " as it was, whatever the symbols are"}
		return
	}
	if short, ok := algebra.OneFraction(again); ok {
		again = short
	}
	w.e.Outcome = entry.Lines{algebra.Display(s.X) + " becomes " + algebra.Display(again)}
}

func times(r float64, rule units.Rounding) string {
	return units.FormatNumber(r, units.Figures{}, rule, units.Screen)
}

// replacement works out what stands in the place of a given.
func (w *work) replacement(b syntax.Binding) (run.Slot, float64, bool) {
	n := &syntax.Name{At: b.NameAt, Name: b.Name}
	d, ok := w.planner.Find(n)
	if !ok || d.Failed() || d.Kind != plan.Quantity && d.Kind != plan.Symbol {
		w.find(w.planner.Unknown(n, w.e.Text)...)
		return run.NoSlot, 0, false
	}
	c := w.Eval(b.X, Want{})
	w.uses([]*plan.Def{d}, b.NameAt)
	if !c.OK {
		return run.NoSlot, 0, false
	}
	want := w.planner.Static(d.Slot)
	if st := w.planner.SettleTo(c.Slot, want.Dim); st.Dim != want.Dim && want.Open == 0 {
		var readings []string
		if n, bare := b.X.(*syntax.Number); bare && d.Unit != nil {
			readings = []string{n.Value.Text + " " + d.Unit.Text()}
		}
		w.find(finding.New(finding.UnlikeDimensions, b.X.Span(), b.Name+" is "+plan.Words(want)+"; what replaces it is "+plan.Words(st)+".",
			"Give it in a unit of the same kind.", readings...))
		return run.NoSlot, 0, false
	}
	return d.Slot, c.Value, true
}

// rerun runs the plan of the whole worksheet with other numbers in some slots.
func (w *work) rerun(replaced map[run.Slot]float64) *run.State {
	p := w.planner.Program
	p.Main.Instrs = slices.Clone(p.Main.Instrs)
	for slot, v := range replaced {
		p.Main.Instrs[slot] = run.Instr{Op: ops.Const, K: v}
	}
	st := &run.State{}
	p.Run(context.WithoutCancel(w.ctx), st, 0, run.Slot(len(p.Main.Instrs)))
	return st
}

// scaling says how one quantity grows with another.
func (w *work) scaling(s *syntax.Scaling) {
	of, ok1 := w.scaledExpr(s.X)
	by, ok2 := w.scaled(s.Against.Name, s.Against.NameAt)
	if !ok1 || !ok2 {
		return
	}
	w.uses([]*plan.Def{by}, s.Against.NameAt)
	if x, ok := w.writtenExpr(s.X, w.e.Line, by, 0); ok {
		if e, exact := algebra.Exponent(x, s.Against.Name); exact {
			w.e.Outcome = append(entry.Lines{w.power(s, x, e)}, free(by)...)
			return
		}
	}
	if w.planner.Static(of).Absent || w.planner.Static(by.Slot).Absent {
		w.find(finding.New(finding.NotWorkedOut, s.X.Span(), algebra.Display(s.X)+" is no power of "+s.Against.Name+"; how it grows depends on values that are not given yet.",
			"Give the symbols values in lines above."))
		return
	}
	if rows := append(w.localScaling(s, of, by), free(by)...); len(rows) > 0 {
		w.e.Outcome = rows
	}
}

// power tells an exact power.
func (w *work) power(s *syntax.Scaling, x syntax.Expr, e units.Exp) string {
	of := algebra.Display(s.X)
	if e.IsZero() {
		return of + " does not depend on " + s.Against.Name + "."
	}
	return w.goesAs(s, e) + w.fixed(x, s.Against.Name) + ": doubling " + s.Against.Name + " multiplies " + of + " by " +
		times(math.Pow(2, e.Float()), w.set.rounding) + "."
}

// free says of a quantity that is worked out that it is varied by itself.
func free(by *plan.Def) []string {
	if by.Given || by.Kind == plan.Symbol {
		return nil
	}
	return []string{by.Name + " (line " + itoa(by.Line) + ") is worked out; here it is taken as free."}
}

// scaledExpr finds the slot of what is to grow.
func (w *work) scaledExpr(x syntax.Expr) (run.Slot, bool) {
	if n, ok := x.(*syntax.Name); ok && n.Line == 0 {
		if d, ok := w.scaled(n.Name, n.At); ok {
			w.uses([]*plan.Def{d}, n.At)
			return d.Slot, true
		}
		return run.NoSlot, false
	}
	c := w.Eval(x, Want{})
	return c.Slot, c.OK
}

// scaled finds a quantity with a value.
func (w *work) scaled(name string, at syntax.Span) (*plan.Def, bool) {
	n := &syntax.Name{At: at, Name: name}
	d, ok := w.planner.Find(n)
	if !ok || d.Kind != plan.Quantity && d.Kind != plan.Symbol {
		w.find(w.planner.Unknown(n, w.e.Text)...)
		return nil, false
	}
	if d.Failed() {
		f := finding.New(finding.NotWorkedOut, at, "not worked out: needs "+name+" (line "+itoa(d.Root.Line)+")", "")
		f.Cause = d.Root.Line
		w.find(f)
		return nil, false
	}
	return d, true
}

// maxWritten bounds how many results are put into each other.
const maxWritten = 20

// written is the expression of a definition in which the results that it is
// worked out from are written out, as far as they hold the given.
func (w *work) written(d, by *plan.Def, depth int) (syntax.Expr, bool) {
	e := w.entryAt(d.Line)
	if e == nil || depth > maxWritten {
		return nil, false
	}
	var x syntax.Expr
	switch s := e.Stmt.(type) {
	case *syntax.Define:
		x = s.X
	case *syntax.Solve:
		by, _ := e.By.(*solved)
		for i, u := range s.Unknowns {
			if by != nil && u.Name == d.Name && i < len(by.roots) {
				x = by.roots[i].X
			}
		}
	}
	if x == nil {
		return nil, false
	}
	return w.writtenExpr(x, d.Line, by, depth)
}

// writtenExpr is written for an expression of a line.
func (w *work) writtenExpr(x syntax.Expr, line int, by *plan.Def, depth int) (syntax.Expr, bool) {
	good := true
	put := map[string]syntax.Expr{}
	syntax.Walk(x, func(x syntax.Expr) bool {
		n, ok := x.(*syntax.Name)
		if !ok || put[n.Name] != nil {
			return good
		}
		from := w.above(n.Name, line)
		if from != nil && from != by && !from.Given && from.Kind != plan.Symbol && from.Line > 0 {
			inner, ok := w.written(from, by, depth+1)
			good = good && ok
			put[n.Name] = inner
		}
		return good
	})
	if !good {
		return nil, false
	}
	return w.openedAt(algebra.Substitute(x, put), line, 0), true
}

// goesAs names a power: T goes as √L.
func (w *work) goesAs(s *syntax.Scaling, e units.Exp) string {
	of := algebra.Display(s.X)
	if e.Num() < 0 {
		return of + " goes as 1/" + algebra.Power(s.Against.Name, e.Neg())
	}
	return of + " goes as " + algebra.Power(s.Against.Name, e)
}

// fixed lists what is held fixed.
func (w *work) fixed(x syntax.Expr, against string) string {
	var names []string
	syntax.Walk(x, func(x syntax.Expr) bool {
		if n, ok := x.(*syntax.Name); ok && n.Name != against && !slices.Contains(names, n.Name) {
			names = append(names, n.Name)
		}
		return true
	})
	if len(names) == 0 {
		return ""
	}
	return " (" + strings.Join(names, ", ") + " fixed)"
}

// localScaling finds the power with which one quantity grows with another near
// the given values; it says nothing where there is no power, which is a finding.
func (w *work) localScaling(s *syntax.Scaling, of run.Slot, by *plan.Def) entry.Lines {
	const step = 1e-4
	name := algebra.Display(s.X)
	x0, y0 := w.state.Vals[by.Slot], w.state.Vals[of]
	up, ok1 := w.rerun(map[run.Slot]float64{by.Slot: x0 * (1 + step)}).Value(of)
	down, ok2 := w.rerun(map[run.Slot]float64{by.Slot: x0 * (1 - step)}).Value(of)
	twice, ok3 := w.rerun(map[run.Slot]float64{by.Slot: 2 * x0}).Value(of)
	if !ok1 || !ok2 || x0 == 0 || y0 == 0 || up/down <= 0 {
		w.find(finding.New(finding.NoRealValue, s.X.Span(), "There is no power at these values: "+name+" or "+s.Against.Name+" is 0, or has no value nearby.", ""))
		return nil
	}
	power := (math.Log(up) - math.Log(down)) / (math.Log1p(step) - math.Log1p(-step))
	if up < 0 {
		power = (math.Log(-up) - math.Log(-down)) / (math.Log1p(step) - math.Log1p(-step))
	}
	line := name + " is no power of " + s.Against.Name + "; near these values it goes as " + s.Against.Name + " to the power " +
		units.FormatNumber(power, units.Figures{N: 4}, w.set.rounding, units.Screen)
	if ok3 {
		line += "; doubling " + s.Against.Name + " multiplies " + name + " by " + times(twice/y0, w.set.rounding)
	}
	return entry.Lines{line + "."}
}
