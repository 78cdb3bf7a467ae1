package session

import (
	"steelyard/lang/algebra"
	"steelyard/lang/finding"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
)

// solved is how the equations of a statement were rearranged, and the roots that
// its values were worked out from. It knows the working of the statement.
type solved struct {
	pad      *Pad
	solution *algebra.Solution
	// unknown is what a single equation was rearranged for.
	unknown string
	roots   []algebra.Root
}

// Working returns the rearrangements of a solve, and the values put in; without
// numbers where a symbol has none.
func (s *solved) Working(e *entry.Entry, name string) []entry.WorkLine {
	stmt := e.Stmt.(*syntax.Solve)
	switch {
	case len(stmt.Equations) > 1:
		return s.system(e, name)
	case e.Result() == nil:
		steps, _ := s.rearranged(0)
		return stepLines(steps)
	}
	w := &work{Pad: s.pad, e: e}
	var out []entry.WorkLine
	values := e.Values()
	for i := range values {
		v := &values[i]
		if name != "" && name != v.Name {
			continue
		}
		steps, x := s.rearranged(i)
		out = append(out, stepLines(steps)...)
		if searched(e) {
			out = append(out, entry.WorkLine{Name: v.Name, Shown: v, Reason: "found by search"})
			continue
		}
		out = append(out, w.lines(s.unknown, x, e, i)[1:]...)
		if v.Name != s.unknown { // t1 is the first t
			out[len(out)-1].Name = v.Name
		}
	}
	return out
}

// system is the working of several equations.
func (s *solved) system(e *entry.Entry, name string) []entry.WorkLine {
	w := &work{Pad: s.pad, e: e}
	out := stepLines(s.solution.Steps)
	values := e.Values()
	for i := range values {
		v := &values[i]
		if name != "" && name != v.Name {
			continue
		}
		if searched(e) {
			out = append(out, entry.WorkLine{Name: v.Name, Shown: v, Reason: "found step by step"})
			continue
		}
		lines := w.lines(v.Name, s.roots[i].X, e, i)
		if last := out[len(out)-1]; last.Left != nil && algebra.Display(last.Left) == v.Name && algebra.Display(last.Right) == algebra.Display(lines[0].Right) {
			lines = lines[1:] // the last step has said it
		}
		out = append(out, lines...)
	}
	return out
}

// rearranged are the steps from the equation to one of its roots, and the root,
// with the factors in the order of the equation.
func (s *solved) rearranged(i int) ([]algebra.Step, syntax.Expr) {
	first := s.solution.Steps[0]
	one := &algebra.Solution{Steps: s.solution.Steps, Roots: s.roots[i : i+1]}
	steps := algebra.StepsTo(first.Left, first.Right, s.unknown, one, 0)
	if n, ok := steps[len(steps)-1].Left.(*syntax.Name); ok && n.Name == s.unknown && len(steps) > 1 {
		return steps, steps[len(steps)-1].Right
	}
	return steps, s.roots[i].X
}

// searched tells whether the values of a solve were searched for.
func searched(e *entry.Entry) bool {
	for _, f := range e.Findings {
		if f.ID == finding.Searched {
			return true
		}
	}
	return false
}
