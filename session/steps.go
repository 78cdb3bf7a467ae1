package session

import (
	"steelyard/lang/algebra"
	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/plan"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// steps shows the worked lines of a result, or of every result.
func (w *work) steps(s *syntax.Steps) {
	if s.Name == "" {
		w.e.Told = []string{"Working"}
		for _, e := range w.entries {
			if lines := w.working(e, ""); len(lines) > 0 {
				w.e.Told = append(w.e.Told, "line "+itoa(e.Line))
				w.e.Told = append(w.e.Told, indent(WrittenWork(lines))...)
			}
		}
		if len(w.e.Told) == 1 {
			w.e.Told = []string{"There is no result to show the working of."}
		}
		return
	}
	n := &syntax.Name{At: s.NameAt, Name: s.Name}
	d, ok := w.planner.Find(n)
	if !ok || d.Line == 0 {
		w.find(w.planner.Unknown(n, w.e.Text)...)
		return
	}
	w.e.Uses = append(w.e.Uses, d.Line)
	e := w.entryAt(d.Line)
	if e == nil {
		return
	}
	lines := w.working(e, s.Name)
	if len(lines) == 0 {
		if d.Failed() {
			w.find(finding.New(finding.NotWorkedOut, s.NameAt, "not worked out: needs "+s.Name+" (line "+itoa(d.Line)+")", ""))
			return
		}
		w.e.Told = []string{s.Name + " is not worked out from other lines: it stands in line " + itoa(d.Line) + "."}
		return
	}
	w.e.Told = append([]string{"Working"}, indent(WrittenWork(lines))...)
}

func indent(lines []string) []string {
	out := make([]string, len(lines))
	for i, l := range lines {
		out[i] = "  " + l
	}
	return out
}

// Working is the worked lines of a result: the equation, its rearrangement, the
// substitution with units and the value.
func (p *Pad) Working(e *Entry) []WorkLine {
	w := &work{Pad: p, e: e}
	return w.working(e, "")
}

// working is the worked lines of one entry; of the values of a solve, only those
// of one name, if that is given.
func (w *work) working(e *Entry, name string) []WorkLine {
	if len(e.Values) == 0 || !e.Records {
		if _, solved := e.Stmt.(*syntax.Solve); solved && len(e.Roots) > 0 {
			if s := e.Stmt.(*syntax.Solve); len(s.Equations) > 1 {
				return stepLines(e.Solution.Steps)
			}
			steps, _ := rearranged(e, 0)
			return stepLines(steps) // without numbers
		}
		if s, defined := e.Stmt.(*syntax.Define); defined && !e.Failed() && !isWritten(s.X) {
			return []WorkLine{{Left: &syntax.Name{Name: s.Name}, Right: s.X}}
		}
		return nil
	}
	switch s := e.Stmt.(type) {
	case *syntax.Define:
		return w.lines(s.Name, s.X, e, 0)
	case *syntax.Value:
		return w.lines("", s.X, e, 0)
	case *syntax.Slope:
		return w.slopeLines(s, e)
	case *syntax.Area:
		return w.areaLines(s, e)
	case *syntax.Solve:
		return w.solveLines(s, e, name)
	}
	return nil
}

// solveLines are the rearrangements of a solve, and the values put in.
func (w *work) solveLines(s *syntax.Solve, e *Entry, name string) []WorkLine {
	var out []WorkLine
	if len(s.Equations) > 1 {
		out = stepLines(e.Solution.Steps)
		for i, v := range e.Values {
			if name != "" && name != v.Name {
				continue
			}
			if e.searched() {
				out = append(out, WorkLine{Name: v.Name, Shown: &e.Values[i], Reason: "found step by step"})
				continue
			}
			lines := w.lines(v.Name, e.Roots[i].X, e, i)
			if last := out[len(out)-1]; last.Left != nil && algebra.Display(last.Left) == v.Name && algebra.Display(last.Right) == algebra.Display(lines[0].Right) {
				lines = lines[1:] // the last step has said it
			}
			out = append(out, lines...)
		}
		return out
	}
	for i, v := range e.Values {
		if name != "" && name != v.Name {
			continue
		}
		steps, x := rearranged(e, i)
		out = append(out, stepLines(steps)...)
		if e.searched() {
			out = append(out, WorkLine{Name: v.Name, Shown: &e.Values[i], Reason: "found by search"})
			continue
		}
		out = append(out, w.lines(e.solves, x, e, i)[1:]...)
		if v.Name != e.solves { // t1 is the first t
			out[len(out)-1].Name = v.Name
		}
	}
	return out
}

// slopeLines are the lines of a slope: the derivative, where a rule gives it, and
// its value at the place.
func (w *work) slopeLines(s *syntax.Slope, e *Entry) []WorkLine {
	out := []WorkLine{{Name: s.Name, Words: "slope of " + algebra.Display(s.X) + " at " + s.Var + " = " + w.putIn(s.At, e.Line)}}
	if d, ok := algebra.Derivative(w.openedAt(s.X, e.Line, 0), s.Var); ok {
		out = append(out, WorkLine{Right: d, Reason: "differentiate"})
		out = w.putLine(out, algebra.Substitute(d, map[string]syntax.Expr{s.Var: s.At}), d, e)
	}
	return append(out, WorkLine{Shown: &e.Values[0]})
}

// areaLines are the lines of an area: the antiderivative at both ends, where a
// rule gives it.
func (w *work) areaLines(s *syntax.Area, e *Entry) []WorkLine {
	name := s.Var
	if call, ok := s.X.(*syntax.Call); ok && name == "" && len(call.Args) == 1 {
		if n, ok := call.Args[0].X.(*syntax.Name); ok {
			name = n.Name
		}
	}
	out := []WorkLine{{Name: s.Name, Words: "area under " + algebra.Display(s.X) + " from " + w.putIn(s.From, e.Line) + " to " + w.putIn(s.To, e.Line)}}
	if f, ok := algebra.Antiderivative(w.openedAt(s.X, e.Line, 0), name); ok {
		at := func(x syntax.Expr) syntax.Expr { return algebra.Substitute(f, map[string]syntax.Expr{name: x}) }
		x := at(s.To)
		if !writtenZero(s.From) || !algebra.ZeroAt(f, name) {
			x = &syntax.Binary{Op: syntax.Sub, X: at(s.To), Y: &syntax.Paren{X: at(s.From)}}
		}
		out = append(out, WorkLine{Right: x, Reason: "integrate: " + algebra.Display(f)})
		out = w.putLine(out, x, x, e)
	}
	return append(out, WorkLine{Shown: &e.Values[0]})
}

// writtenZero tells whether an expression is a written 0.
func writtenZero(x syntax.Expr) bool {
	switch x := x.(type) {
	case *syntax.Number:
		return x.Value.Float() == 0
	case *syntax.Quantity:
		return x.Value.Float() == 0
	}
	return false
}

// putLine adds an expression with its values put in, if that is another than the
// line above.
func (w *work) putLine(out []WorkLine, x, above syntax.Expr, e *Entry) []WorkLine {
	put := w.withValues(x, e.Line)
	if algebra.Display(put) == algebra.Display(above) {
		return out
	}
	return append(out, WorkLine{Right: put})
}

// putIn is an expression with its values put in.
func (w *work) putIn(x syntax.Expr, line int) string {
	return algebra.Display(w.withValues(x, line))
}

// rearranged are the steps from the equation of an entry to one of its roots,
// and the root, with the factors in the order of the equation.
func rearranged(e *Entry, i int) ([]algebra.Step, syntax.Expr) {
	first := e.Solution.Steps[0]
	one := &algebra.Solution{Steps: e.Solution.Steps, Roots: e.Roots[i : i+1]}
	steps := algebra.StepsTo(first.Left, first.Right, e.solves, one, 0)
	if n, ok := steps[len(steps)-1].Left.(*syntax.Name); ok && n.Name == e.solves && len(steps) > 1 {
		return steps, steps[len(steps)-1].Right
	}
	return steps, e.Roots[i].X
}

// stepLines makes lines of rearrangements.
func stepLines(steps []algebra.Step) []WorkLine {
	out := make([]WorkLine, len(steps))
	for i, s := range steps {
		out[i] = WorkLine{Left: s.Left, Right: s.Right, Reason: s.Reason, By: s.By}
	}
	return out
}

// lines is an expression in symbols, with its values put in, and its result.
func (w *work) lines(name string, x syntax.Expr, e *Entry, value int) []WorkLine {
	first := WorkLine{Right: x}
	if name != "" {
		first.Left = &syntax.Name{Name: name}
	}
	out := []WorkLine{first}
	if f, ok := w.formulaOf(x); ok {
		lead := WorkLine{Lead: f.Name, Left: f.Left, Right: f.Right}
		x = algebra.Substitute(f.Right, arguments(x.(*syntax.Call), f))
		first.Right = x
		out = []WorkLine{lead, first}
		if left, ok := f.Left.(*syntax.Name); ok && left.Name == name && algebra.Display(x) == algebra.Display(f.Right) {
			out = out[:1]
		}
	}
	put := w.withValues(x, e.Line)
	if text := algebra.Display(put); text != algebra.Display(x) && text != algebra.Display(w.shownExpr(e.Values[value])) {
		out = append(out, WorkLine{Right: put})
	}
	return append(out, WorkLine{Shown: &e.Values[value], Units: w.cancelled(x, e, value)})
}

// formulaOf is the formula that an expression calls, if it is one call.
func (w *work) formulaOf(x syntax.Expr) (*syntax.FormulaDef, bool) {
	c, ok := x.(*syntax.Call)
	if !ok || ops.IsFunction(c.Func) {
		return nil, false
	}
	return w.Formula(c.Func)
}

// arguments pairs the symbols of a formula with the arguments of its call.
func arguments(c *syntax.Call, f *syntax.FormulaDef) map[string]syntax.Expr {
	by := map[string]syntax.Expr{}
	left, _ := f.Left.(*syntax.Name)
	next := 0
	for _, s := range f.Symbols {
		if left != nil && s.Name == left.Name || s.Name == "g" {
			continue
		}
		if next < len(c.Args) && c.Args[next].Name == "" {
			by[s.Name] = c.Args[next].X
			next++
		} else if s.Default != nil {
			by[s.Name] = s.Default
		}
	}
	for _, a := range c.Args {
		if a.Name != "" {
			by[a.Name] = a.X
		}
	}
	return by
}

// valuesIn are the quantities that the names of an expression stand for above a
// line, as they were given or are shown.
func (w *work) valuesIn(x syntax.Expr, line int) map[string]syntax.Expr {
	by := map[string]syntax.Expr{}
	syntax.Walk(x, func(x syntax.Expr) bool {
		n, ok := x.(*syntax.Name)
		if !ok || n.Line != 0 {
			return true
		}
		if d := w.above(n.Name, line); d != nil && d.Slot != plan.NoSlot && !w.planner.Static(d.Slot).Absent {
			if q, ok := w.asQuantity(d); ok {
				by[n.Name] = q
			}
		}
		return true
	})
	return by
}

// shownExpr is a value as it is shown, as an expression.
func (w *work) shownExpr(v Value) syntax.Expr {
	x, fs := syntax.ParseExpr(v.Shown(units.File))
	if len(fs) > 0 {
		return &syntax.Name{}
	}
	return x
}

// withValues is an expression with the values of its names put in.
func (w *work) withValues(x syntax.Expr, line int) syntax.Expr {
	x = algebra.Substitute(x, w.valuesIn(x, line))
	return syntax.Rewrite(x, func(x syntax.Expr) (syntax.Expr, bool) {
		n, ok := x.(*syntax.Name)
		if !ok || n.Line == 0 {
			return nil, false
		}
		d, ok := w.planner.Find(n)
		if !ok || d.Slot == plan.NoSlot || w.planner.Static(d.Slot).Absent {
			return nil, false
		}
		q, ok := w.asQuantity(d)
		if !ok {
			return nil, false
		}
		return &syntax.Paren{X: q}, true
	})
}

// above is the definition that a name had for a line.
func (w *work) above(name string, line int) *plan.Def {
	found := w.planner.Names.Above(name, line)
	if found == nil && name == "g" {
		found, _ = w.planner.Find(&syntax.Name{Name: "g"})
	}
	return found
}

// asQuantity is a definition's value as a written quantity.
func (w *work) asQuantity(d *plan.Def) (syntax.Expr, bool) {
	text := w.shownAs(d)
	x, fs := syntax.ParseExpr(text)
	return x, len(fs) == 0 && text != ""
}

// shownAs is a definition's value in the file form.
func (w *work) shownAs(d *plan.Def) string {
	if d.Unit == nil {
		return ""
	}
	if e := w.entryAt(d.Line); e != nil && d.Line > 0 {
		for _, v := range e.Values {
			if v.Name == d.Name {
				return v.Shown(units.File)
			}
		}
	}
	return units.FormatQuantity(d.Unit.FromSI(w.state.Vals[d.Slot]), d.Unit, units.Figures{}, w.set.rounding, units.File)
}

// searched tells whether the values of a solve were searched for.
func (e *Entry) searched() bool {
	for _, f := range e.Findings {
		if f.ID == finding.Searched {
			return true
		}
	}
	return false
}
