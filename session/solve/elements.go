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

// listsOf are the lists that the equations and conditions of a solve have by name.
//
// A list within mean or max is one number there, and leaves the equation one of numbers.
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
	byValue(s, func(x syntax.Expr) {
		if n, ok := x.(*syntax.Name); ok {
			note(n)
		}
	})
	for _, e := range s.Equations {
		if n, ok := e.Left.(*syntax.Name); ok && e.Right == nil {
			if f, ok := l.Formula(n.Name); ok {
				for _, symbol := range f.Names() {
					note(&syntax.Name{Name: symbol})
				}
			}
		}
	}
	return slices.DeleteFunc(out, func(d *plan.Def) bool {
		return s.Asks(d.Name)
	})
}

// listWritten refuses a list that is written in an equation, or worked out there: the way to
// the result has its name for all of its values.
//
// solve v^2 = 2*[1, 2] m/s^2*s for v could be solved too; but its working names the list for
// all of its values, and a list in brackets has no name.
func listWritten(l *eval.Line, s *syntax.Solve) bool {
	var list syntax.Expr
	byValue(s, func(x syntax.Expr) {
		of, written := x.(*syntax.List)
		c, called := x.(*syntax.Call)
		if list == nil && (written && !of.Vector || called && together(c) && l.IsList(c)) {
			list = x
		}
	})
	if list == nil {
		return false
	}
	name, taken := "L", true
	for taken {
		if _, taken = l.Planner.Names.Lookup(name); taken {
			name += "1"
		}
	}
	l.Find(finding.New(finding.NotSolved, list.Span(), "A list in an equation needs a name.", "Write `"+name+" = "+syntax.PrintExpr(list)+"` in a line above, and "+name+" in the equation."))
	for _, u := range s.Unknowns {
		l.Fail(&plan.Def{Name: u.Name, Kind: plan.Quantity, Slot: run.NoSlot}, nil)
	}
	return true
}

// byValue visits what a solve is worked out of value by value: all but the lists that a function
// puts together, as mean does.
//
// mean(T) in an equation is one number whatever T is, so what is within it is not looked at.
func byValue(s *syntax.Solve, visit func(x syntax.Expr)) {
	for _, x := range s.Exprs() {
		syntax.Walk(x, func(x syntax.Expr) bool {
			visit(x)
			c, ok := x.(*syntax.Call)
			return !ok || !together(c)
		})
	}
}

// together tells whether a call puts the values of a list together.
func together(c *syntax.Call) bool {
	f, _ := ops.Named(c.Func)
	return f.Together(len(c.Args))
}

// byElements solves for each element of lists of one length.
//
// The working that is kept is that of the first element: the others differ in their numbers
// alone.
func byElements(l *eval.Line, s *syntax.Solve, of []*plan.Def, strict bool) []*plan.Def {
	defs := make([]*plan.Def, len(s.Unknowns))
	all, ok := eachElement(l, s, of, strict)
	for i, u := range s.Unknowns {
		d := &plan.Def{Name: u.Name, Kind: plan.Quantity, Slot: run.NoSlot}
		if defs[i] = d; !ok {
			l.Fail(d, nil)
			continue
		}
		d.Slot, d.Unit = l.Planner.Listed(column(all, i)), all[0].defs[i].Unit
		l.CatchUp()
		v, ok := l.NewValue(d.Name, &syntax.Name{Name: d.Name}, d.Slot, d.Unit)
		if !ok {
			l.Fail(d, nil)
			continue
		}
		r := l.Entry.Give(v)
		r.Shows, r.Records = true, true
	}
	if ok {
		l.Entry.By = all[0].entry.By
	}
	return defs
}

// whole is the name of a list, of a component that of its vectors.
func whole(d *plan.Def) string {
	if d.Vector != nil {
		return d.Vector.Name
	}
	return d.Name
}

// elementSolved is what became of a solve for one element.
type elementSolved struct {
	defs  []*plan.Def
	entry *entry.Entry
}

// eachElement solves for one element after the other. What is found for the first
// without a solution is said of the line, as is what is found for all alike.
//
// For each element the names of the lists mean that element, and the equations are solved as if
// they had been written with it. A finding that is the same for every element is told once; one
// of a later element says which it is of. The first element without a solution ends it: half a
// list would be read as a whole one.
func eachElement(l *eval.Line, s *syntax.Solve, of []*plan.Def, strict bool) ([]elementSolved, bool) {
	width := l.Planner.Static(of[0].Slot).Width
	for _, d := range of[1:] {
		if n := l.Planner.Static(d.Slot).Width; n != width {
			l.Find(plan.UnequalLists(s.Equations[0].Left.Span(), whole(of[0]), int(width), whole(d), int(n)))
			return nil, false
		}
	}
	if width > limit.Solved {
		l.Find(finding.New(finding.TooLong, s.Equations[0].Left.Span(), "An equation is solved for lists of at most "+strconv.Itoa(limit.Solved)+" values; "+of[0].Name+" has "+strconv.Itoa(int(width))+".",
			"Rearrange it by hand: a formula works for lists of any length."))
		return nil, false
	}
	var all []elementSolved
	said := map[finding.ID]bool{}
	for i := range int(width) {
		m := l.Planner.Mark()
		for _, d := range of {
			one := *d
			one.Slot, one.Exponent, one.Vector = l.Planner.Picked(d.Slot, i), nil, nil
			l.Planner.Define(&one)
			one.Line, one.Part = d.Line, d.Part
		}
		e := &entry.Entry{Line: l.Entry.Line, Text: l.Entry.Text, Stmt: s, By: l.Entry.By}
		inner := &eval.Line{Page: l.Page, Entry: e, Start: l.Planner.Size()}
		got := elementSolved{solved(inner, s, strict), e}
		l.Planner.Lift(m, 0, 0)
		l.Entry.Uses = e.Uses
		failed := len(got.defs) == 0 || slices.ContainsFunc(got.defs, func(d *plan.Def) bool { return d.Slot == run.NoSlot })
		for _, f := range e.Findings {
			if failed && !f.Severity.Fails() {
				continue
			}
			if failed || i > 0 {
				f.Message = "For value " + strconv.Itoa(i+1) + " of " + whole(of[0]) + ": " + f.Message
			}
			if !said[f.ID] { // the others are of the same kind
				l.Find(f)
			}
		}
		for _, f := range e.Findings {
			said[f.ID] = true
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
