package session

import (
	"steelyard/lang/algebra"
	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/units"
)

// steps shows the worked lines of a result, or of every result.
func (w *work) steps(s *syntax.Steps) {
	if s.Of.Name == "" {
		w.everyStep()
		return
	}
	n := &syntax.Name{At: s.Of.NameAt, Name: s.Of.Name}
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
	switch lines := e.By.Working(e, s.Of.Name); {
	case len(lines) > 0:
		w.e.Outcome = &entry.Works{Of: []entry.Work{{Line: d.Line, Lines: lines}}}
	case d.Failed():
		w.find(finding.New(finding.NotWorkedOut, s.Of.NameAt, "not worked out: needs "+s.Of.Name+" (line "+itoa(d.Line)+")", ""))
	default:
		w.e.Outcome = entry.Lines{s.Of.Name + " is not worked out from other lines: it stands in line " + itoa(d.Line) + "."}
	}
}

// everyStep shows the worked lines of every result.
func (w *work) everyStep() {
	all := &entry.Works{Every: true}
	for _, e := range w.entries {
		if lines := e.Working(); len(lines) > 0 {
			all.Of = append(all.Of, entry.Work{Line: e.Line, Lines: lines})
		}
	}
	if len(all.Of) == 0 {
		w.e.Outcome = entry.Lines{"There is no result to show the working of."}
		return
	}
	w.e.Outcome = all
}

// Working returns the worked lines of a result: the equation, the substitution
// with units and the value.
func (p *Pad) Working(e *entry.Entry, _ string) []entry.WorkLine {
	w := &work{Pad: p, e: e}
	if !e.Records() {
		if s, defined := e.Stmt.(*syntax.Define); defined && e.Result() == nil && !e.Failed() && !isWritten(s.X) {
			return []entry.WorkLine{{Left: &syntax.Name{Name: s.Name}, Right: s.X}}
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
	}
	return nil
}

// slopeLines are the lines of a slope: the derivative, where a rule gives it, and
// its value at the place.
func (w *work) slopeLines(s *syntax.Slope, e *entry.Entry) []entry.WorkLine {
	out := []entry.WorkLine{{Name: s.Named.Name, Words: "slope of " + algebra.Display(s.X) + " at " + s.Var.Name + " = " + w.putIn(s.At, e.Line)}}
	if d, ok := algebra.Derivative(w.openedAt(s.X, e.Line, 0), s.Var.Name); ok {
		out = append(out, entry.WorkLine{Right: d, Reason: "differentiate"})
		out = w.putLine(out, algebra.Substitute(d, map[string]syntax.Expr{s.Var.Name: s.At}), d, e)
	}
	return append(out, entry.WorkLine{Shown: &e.Values()[0]})
}

// areaLines are the lines of an area: the antiderivative at both ends, where a
// rule gives it.
func (w *work) areaLines(s *syntax.Area, e *entry.Entry) []entry.WorkLine {
	name := s.Var.Name
	if call, ok := s.X.(*syntax.Call); ok && name == "" && len(call.Args) == 1 {
		if n, ok := call.Args[0].X.(*syntax.Name); ok {
			name = n.Name
		}
	}
	out := []entry.WorkLine{{Name: s.Named.Name, Words: "area under " + algebra.Display(s.X) + " from " + w.putIn(s.From, e.Line) + " to " + w.putIn(s.To, e.Line)}}
	if f, ok := algebra.Antiderivative(w.openedAt(s.X, e.Line, 0), name); ok {
		at := func(x syntax.Expr) syntax.Expr { return algebra.Substitute(f, map[string]syntax.Expr{name: x}) }
		x := at(s.To)
		if !writtenZero(s.From) || !algebra.ZeroAt(f, name) {
			x = &syntax.Binary{Op: syntax.Sub, X: at(s.To), Y: &syntax.Paren{X: at(s.From)}}
		}
		out = append(out, entry.WorkLine{Right: x, Reason: "integrate: " + algebra.Display(f)})
		out = w.putLine(out, x, x, e)
	}
	return append(out, entry.WorkLine{Shown: &e.Values()[0]})
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
func (w *work) putLine(out []entry.WorkLine, x, above syntax.Expr, e *entry.Entry) []entry.WorkLine {
	put := w.withValues(x, e.Line)
	if algebra.Display(put) == algebra.Display(above) {
		return out
	}
	return append(out, entry.WorkLine{Right: put})
}

// putIn is an expression with its values put in.
func (w *work) putIn(x syntax.Expr, line int) string {
	return algebra.Display(w.withValues(x, line))
}

// stepLines makes lines of rearrangements.
func stepLines(steps []algebra.Step) []entry.WorkLine {
	out := make([]entry.WorkLine, len(steps))
	for i, s := range steps {
		out[i] = entry.WorkLine{Left: s.Left, Right: s.Right, Reason: string(s.Reason), By: s.By}
	}
	return out
}

// lines is an expression in symbols, with its values put in, and its result.
func (w *work) lines(name string, x syntax.Expr, e *entry.Entry, value int) []entry.WorkLine {
	first := entry.WorkLine{Right: x}
	if name != "" {
		first.Left = &syntax.Name{Name: name}
	}
	out := []entry.WorkLine{first}
	if f, ok := w.formulaOf(x); ok {
		lead := entry.WorkLine{Lead: f.Name, Left: f.Left, Right: f.Right}
		x = algebra.Substitute(f.Right, arguments(x.(*syntax.Call), f))
		first.Right = x
		out = []entry.WorkLine{lead, first}
		if left, ok := f.Left.(*syntax.Name); ok && left.Name == name && algebra.Display(x) == algebra.Display(f.Right) {
			out = out[:1]
		}
	}
	put := w.withValues(x, e.Line)
	if text := algebra.Display(put); text != algebra.Display(x) && text != algebra.Display(w.shownExpr(e.Values()[value])) {
		out = append(out, entry.WorkLine{Right: put})
	}
	return append(out, entry.WorkLine{Shown: &e.Values()[value], Units: w.cancelled(x, e, value)})
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
		if d := w.above(n.Name, line); d != nil && d.Slot != run.NoSlot && !w.planner.Static(d.Slot).Absent {
			if q, ok := w.asQuantity(d); ok {
				by[n.Name] = q
			}
		}
		return true
	})
	return by
}

// shownExpr is a value as it is shown, as an expression.
func (w *work) shownExpr(v entry.Value) syntax.Expr {
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
		if !ok || d.Slot == run.NoSlot || w.planner.Static(d.Slot).Absent {
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
		for _, v := range e.Values() {
			if v.Name == d.Name {
				return v.Shown(units.File)
			}
		}
	}
	return units.FormatQuantity(d.Unit.FromSI(w.state.Vals[d.Slot]), d.Unit, units.Figures{}, w.set.rounding, units.File)
}
