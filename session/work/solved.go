package work

import (
	"slices"

	"steelyard/lang/algebra"
	"steelyard/lang/plan"
	"steelyard/lang/syntax"
	"steelyard/lang/typeset"
	"steelyard/session/entry"
	"steelyard/session/eval"
)

// solved are the rearrangements of a solve, and the values put in; without numbers
// where a symbol has none. Several equations share their steps, one has its own
// to each root.
func solved(p *eval.Page, e *entry.Entry, s *eval.Solved, name string) []entry.WorkLine {
	single := len(e.Stmt.(*syntax.Solve).Equations) == 1
	var out []entry.WorkLine
	if !single {
		out = stepLines(s.Roots[0].From.Working())
	}
	if single && e.Result() == nil {
		steps, _ := rearranged(s, 0)
		return stepLines(steps)
	}
	values := e.Values()
	var told []string // what the steps say
	for i := range values {
		v := &values[i]
		if name != "" && name != v.Name {
			continue
		}
		unknown, x := v.Name, s.Roots[i].X
		if single {
			var steps []algebra.Step
			unknown = s.Unknown
			steps, x = rearranged(s, i)
			out = slices.Grow(out, len(steps)+3) // and what is said beside them
			for _, s := range steps {
				// The roots of one equation have the same way to them.
				l := stepLine(s)
				if says := l.LeftBox().Text() + " = " + l.RightBox().Text(); !slices.Contains(told, says) {
					out, told = append(out, l), append(told, says)
				}
			}
		}
		if s.How != "" {
			out = append(out, entry.WorkLine{Left: named(v.Name), Shown: v, Reason: entry.Words(s.How)})
			continue
		}
		from := len(out)
		out = lines(p, out, unknown, x, e, i)
		if single || saidAbove(out[:from], out[from]) {
			out = slices.Delete(out, from, from+1)
			if !single && !said(out[from-1], entry.WorkLine{Left: named(unknown), Right: x}) {
				out[from].Left = named(unknown)
			}
		}
		if v.Name != unknown { // t1 is the first t
			out[len(out)-1].Left = named(v.Name)
		}
	}
	return out
}

// apart puts the lines on the components along each axis together as a column; they stay as they
// are where a line is on two axes, or on an unknown that is no component.
func apart(all []entry.WorkLine, unknowns []syntax.Unknown) []entry.WorkLine {
	columns, on := make([][]entry.WorkLine, len(syntax.Axes)), -1
	for _, l := range all {
		if l.Left != nil {
			on = -1
			for _, u := range unknowns {
				if !syntax.Holds(l.Left, u.Name) && (l.Right == nil || !syntax.Holds(l.Right, u.Name)) {
					continue
				}
				_, axis, part := plan.AxisOf(u.Name)
				if !part || on >= 0 && on != axis {
					return all
				}
				on = axis
			}
		}
		if on < 0 {
			return all
		}
		l.Column = int8(on + 1)
		columns[on] = append(columns[on], l)
	}
	return slices.Concat(columns...)
}

// onceEach leaves out lines that say what one above has said, unless the next goes on from
// them and that one is further up.
func onceEach(all []entry.WorkLine) []entry.WorkLine {
	var out []entry.WorkLine
	for i, l := range all {
		goesOn := i+1 < len(all) && all[i+1].Left == nil
		if n := len(out); n > 0 && saidAbove(out, l) && (!goesOn || said(out[n-1], l)) {
			continue
		} else if n > 0 && l.Reason == nil && l.Left != nil && out[n-1].Left != nil && typeset.Text(l.Left) == typeset.Text(out[n-1].Left) {
			l.Left = nil
		}
		out = append(out, l)
	}
	return out
}

// said tells whether a line says the same as the one above it.
func said(above, l entry.WorkLine) bool {
	return above.Left != nil && l.Left != nil && typeset.Text(above.Left) == typeset.Text(l.Left) && typeset.Text(above.Right) == typeset.Text(l.Right)
}

// saidAbove tells whether one of the lines above says the same.
func saidAbove(above []entry.WorkLine, l entry.WorkLine) bool {
	return slices.ContainsFunc(above, func(a entry.WorkLine) bool { return said(a, l) })
}

// rearranged are the steps from the equation to one of its roots, and the root,
// as the last step has it.
func rearranged(s *eval.Solved, i int) ([]algebra.Step, syntax.Expr) {
	steps := s.Roots[i].From.Working()
	if n, ok := steps[len(steps)-1].Left.(*syntax.Name); ok && n.Name == s.Unknown && len(steps) > 1 {
		return steps, steps[len(steps)-1].Right
	}
	return steps, s.Roots[i].X
}

// byComponents are the equations of the components of vectors, how those are solved, and the
// vectors that they make. The equations along each axis are a column, with the way to the
// unknowns below where each axis has its own.
func byComponents(p *eval.Page, e *entry.Entry, by *eval.ByComponents) []entry.WorkLine {
	s := by.Of.Stmt.(*syntax.Solve)
	var out []entry.WorkLine
	for i, eq := range s.Equations {
		out = append(out, entry.WorkLine{Left: eq.Left, Right: eq.Right, Column: by.Axes[i]})
	}
	slices.SortStableFunc(out, func(a, b entry.WorkLine) int { return int(a.Column - b.Column) })
	for i := range out {
		if k := out[i].Column; k > 0 && (i == 0 || out[i-1].Column != k) {
			out[i].Reason = entry.Words("along " + syntax.Axes[k-1:k])
		}
	}
	if inner, ok := by.Of.By.(*eval.Solved); ok {
		out = append(out, solved(p, by.Of, inner, "")...)
	}
	out = onceEach(apart(out, s.Unknowns))
	values := e.Values()
	for i := range values {
		if len(values[i].Vectors()) > 0 {
			out = append(out, entry.WorkLine{Left: values[i].Letter(), Shown: &values[i]})
		}
	}
	return out
}
