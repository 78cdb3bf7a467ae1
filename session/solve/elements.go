package solve

import (
	"slices"
	"strconv"

	"steelyard/lang/finding"
	"steelyard/lang/limit"
	"steelyard/lang/ops"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/eval"
)

// An equation with lists in it is one for each of their elements. It is solved once for
// each, with the names of the lists standing for one element, and the solutions are put
// together as a list again.

// listsOf are the lists that the equations and conditions of a solve have by name, but
// for those that a function puts together, as mean does.
func listsOf(l *eval.Line, s *syntax.Solve) []*plan.Def {
	if !l.Planner.Program.Main.Wide() {
		return nil
	}
	var out []*plan.Def
	note := func(n *syntax.Name) {
		d, ok := l.Planner.Find(n)
		if ok && d.Kind == plan.Quantity && !d.Failed() && n.Line == 0 && l.Planner.Static(d.Slot).Shape == run.List && !slices.Contains(out, d) {
			out = append(out, d)
		}
	}
	for _, x := range s.Exprs() {
		syntax.Walk(x, func(x syntax.Expr) bool {
			switch x := x.(type) {
			case *syntax.Name:
				note(x)
			case *syntax.Call:
				f, _ := ops.Named(x.Func)
				return !f.Together(len(x.Args))
			}
			return true
		})
	}
	for _, e := range s.Equations {
		if n, ok := e.Left.(*syntax.Name); ok && e.Right == nil {
			f, _ := l.Formula(n.Name)
			for _, sym := range symbols(f) {
				note(&syntax.Name{Name: sym})
			}
		}
	}
	return slices.DeleteFunc(out, func(d *plan.Def) bool {
		return slices.ContainsFunc(s.Unknowns, func(u syntax.Unknown) bool { return u.Name == d.Name })
	})
}

// symbols are the names of a formula.
func symbols(f *syntax.FormulaDef) (names []string) {
	if f != nil {
		for _, sym := range f.Symbols {
			names = append(names, sym.Name)
		}
	}
	return names
}

// byElements solves for each element of lists of one length.
func byElements(l *eval.Line, s *syntax.Solve, of []*plan.Def) {
	defs := make([]*plan.Def, len(s.Unknowns))
	for i, u := range s.Unknowns {
		defs[i] = &plan.Def{Name: u.Name, Kind: plan.Quantity, Slot: run.NoSlot}
	}
	all, ok := eachElement(l, s, of)
	if !ok {
		for _, d := range defs {
			l.Fail(d, nil)
		}
		return
	}
	first := all[0]
	for i, d := range defs {
		d.Slot, d.Unit = l.Planner.Listed(column(all, i)), first.defs[i].Unit
		l.CatchUp()
		v, ok := l.NewValue(d.Name, &syntax.Name{Name: d.Name}, d.Slot, d.Unit)
		if !ok {
			l.Fail(d, nil)
			continue
		}
		r := l.Entry.Give(v)
		r.Shows, r.Records = true, true
		l.GivenAgain(d.Name, s.Unknowns[i].NameAt)
		l.Settle(d)
	}
	l.Entry.By = first.entry.By
}

// elementSolved is what became of a solve for one element.
type elementSolved struct {
	defs  []*plan.Def
	entry *entry.Entry
}

// eachElement solves for one element after the other. What is found for the first
// without a solution is said of the line, as is what is found for all alike.
func eachElement(l *eval.Line, s *syntax.Solve, of []*plan.Def) ([]elementSolved, bool) {
	width := l.Planner.Static(of[0].Slot).Width
	for _, d := range of[1:] {
		if n := l.Planner.Static(d.Slot).Width; n != width {
			l.Find(plan.UnequalLists(s.Equations[0].Left.Span(), of[0].Name, int(width), d.Name, int(n)))
			return nil, false
		}
	}
	if width > limit.Solved {
		l.Find(finding.New(finding.TooLong, s.Equations[0].Left.Span(), "An equation is solved for "+strconv.Itoa(limit.Solved)+" elements of a list at most; "+of[0].Name+" has "+strconv.Itoa(int(width))+".",
			"Rearrange it by hand: a formula is worked out for lists of any length."))
		return nil, false
	}
	var all []elementSolved
	for i := range int(width) {
		m := l.Planner.Mark()
		for _, d := range of {
			one := *d
			one.Slot, one.Exponent = l.Planner.Picked(d.Slot, i), nil
			l.Planner.Define(&one)
			one.Line, one.Part = d.Line, d.Part
		}
		e := &entry.Entry{Line: l.Entry.Line, Text: l.Entry.Text, Stmt: s, By: l.Entry.By}
		inner := &eval.Line{Page: l.Page, Entry: e, Start: l.Planner.Size()}
		got := elementSolved{solved(inner, s), e}
		l.Planner.Lift(m, 0, 0)
		l.Entry.Uses = e.Uses
		failed := len(got.defs) == 0 || slices.ContainsFunc(got.defs, func(d *plan.Def) bool { return d.Slot == run.NoSlot })
		for _, f := range e.Findings {
			if failed && !f.Severity.Fails() {
				continue
			}
			if failed {
				f.Message = "For value " + strconv.Itoa(i+1) + " of " + of[0].Name + ": " + f.Message
			}
			if failed || i == 0 {
				l.Find(f)
			}
		}
		if failed {
			return nil, false
		}
		all = append(all, got)
	}
	return all, true
}

// column is the slots of one unknown, element by element.
func column(all []elementSolved, unknown int) []run.Slot {
	out := make([]run.Slot, len(all))
	for i, one := range all {
		out[i] = one.defs[unknown].Slot
	}
	return out
}
