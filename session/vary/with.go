// Package vary works an expression out again with givens replaced, and says how one
// quantity grows with another.
package vary

import (
	"slices"
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

// With works an expression out again with values replaced, and says how it
// compares with what it was.
func With(l *eval.Line, d *plan.Def, s *syntax.With, in syntax.UnitText) {
	was := l.Eval(s.X, eval.Want{Silent: true})
	got := l.Eval(s, eval.Want{Self: d.Name, Shown: true, Name: d.Name, In: in, Lists: true})
	if !got.OK {
		l.Fail(d, got.Root)
		return
	}
	// What replaces a value must have one, even where nothing depends on it.
	for _, b := range s.By {
		if by := l.Eval(b.X, eval.Want{Silent: true}); by.Slot == run.NoSlot || !l.HasValue(by.Slot) {
			l.Fail(d, nil)
			return
		}
	}
	d.Slot, d.Unit = got.Slot, got.Unit
	if was.Static.Absent && got.Static.Absent {
		withSymbols(l, s)
		if d.Name != "" {
			l.Settle(d)
		}
		return
	}
	r := l.Answer(d, d.Name, s.X, got)
	if r == nil {
		return
	}
	r.Shows, r.Records = true, true
	factor, held := ops.Ratio(got.Value, was.Value)
	var also []entry.Said // what a person may have taken for fixed
	direct := false
	for _, b := range s.By {
		if by, ok := l.Planner.Find(&syntax.Name{Name: b.Name, Line: b.Line}); ok {
			also = append(also, along(l, s.X, by)...)
			direct = direct || slices.Contains(usedBy(l, s.X), by.Line)
		}
	}
	switch {
	case !was.OK, was.Static.Absent, got.Static.Shape != run.Scalar:
	case got.Value == was.Value:
		r.Notes = append([]entry.Said{entry.Say("… stays as it was", entry.Math(s.X))}, also...)
	case held:
		r.Notes = []entry.Said{entry.Say("… times … as it was", times(l, factor, got.Slot, was.Slot), entry.Math(s.X))}
		if direct {
			r.Notes = append(r.Notes, also...)
		}
	}
	for _, b := range s.By {
		if by, ok := l.Planner.Find(&syntax.Name{Name: b.Name, Line: b.Line}); ok {
			r.Notes = append(r.Notes, free(by)...)
		}
	}
}

// withSymbols works an expression out again where symbols have no value: by what
// factor it grows, if that does not depend on them, else what becomes of it.
func withSymbols(l *eval.Line, s *syntax.With) {
	x, ok := l.WrittenOut(s.X, l.Entry.Line, nil)
	if !ok {
		l.Find(finding.New(finding.NotWorkedOut, s.X.Span(), "There is no value yet, and no single formula in the symbols.", "Give the symbols values in lines above."))
		return
	}
	by := map[string]syntax.Expr{}
	for _, b := range s.By {
		by[b.Name] = b.X
	}
	again := algebra.Substitute(x, by)
	if r, fixed := algebra.Ratio(again, x); fixed {
		l.Entry.Outcome = entry.Lines{entry.Say("… times … as it was, whatever the symbols are", times(l, r), entry.Math(s.X))}
		return
	}
	if short, ok := algebra.OneFraction(again); ok {
		again = short
	}
	l.Entry.Outcome = entry.Lines{entry.Say("… becomes …", entry.Maths(s.X, again)...)}
}

// leastOfFactor is to how many figures a factor is told at least. Two values that are known to
// one figure are 3 times each other in what is shown; that 3.35 is the factor is known from how
// the one follows from the other.
const leastOfFactor = 3

// times is a factor, with the figures in force or, of values, with those of the one that has
// the fewest; zeros at its end are dropped, since most are exact.
func times(l *eval.Line, r float64, of ...run.Slot) entry.Said {
	figures := units.Figures{N: l.Set.Figures.N}
	for _, s := range of {
		st := l.Planner.Static(s)
		if n := l.FiguresOf(s, units.Preferred(st.Dim, st.Tag)); n.Givens && (figures.N == 0 || n.N < figures.N) {
			figures.N = max(n.N, leastOfFactor)
		}
	}
	return l.Told(figures, r, units.One)
}

// along says which results that a quantity is worked out from change with another one, which may
// be why it stays as it was: 2π√(L/g), where L was found from g.
func along(l *eval.Line, x syntax.Expr, by *plan.Def) (out []entry.Said) {
	for _, line := range usedBy(l, x) {
		if e := l.EntryAt(line); line != by.Line && e != nil && len(e.Gives()) == 1 {
			of := &syntax.Name{Name: e.Gives()[0], Line: line}
			if written, ok := l.WrittenOut(of, l.Entry.Line, by); ok && syntax.Holds(written, by.Name) {
				out = append(out, entry.Say("… changes with … too.", entry.Name(of.Name), entry.Name(by.Name)))
			}
		}
	}
	return out
}

// usedBy are the lines that an expression uses; of a name of the page, those that its line does.
func usedBy(l *eval.Line, x syntax.Expr) (lines []int) {
	if n, ok := x.(*syntax.Name); ok {
		if d, ok := l.Planner.Find(n); ok && l.EntryAt(d.Line) != nil {
			return l.EntryAt(d.Line).Uses
		}
		return nil
	}
	for n := range syntax.Each[*syntax.Name](x) {
		if d, ok := l.Planner.Find(n); ok && !slices.Contains(lines, d.Line) {
			lines = append(lines, d.Line)
		}
	}
	return lines
}

// free says of a quantity that is worked out that it is varied by itself.
func free(by *plan.Def) []entry.Said {
	if by.Given || by.Kind == plan.Symbol {
		return nil
	}
	return []entry.Said{entry.Say("… (line "+strconv.Itoa(by.Line)+") is a result; here it is changed by itself.", entry.Name(by.Name))}
}
