package work

import (
	"steelyard/lang/algebra"
	"steelyard/lang/finding"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/eval"
)

// solved are the rearrangements of a solve, and the values put in; without numbers
// where a symbol has none.
func solved(p *eval.Page, e *entry.Entry, s *eval.Solved, name string) []entry.WorkLine {
	stmt := e.Stmt.(*syntax.Solve)
	switch {
	case len(stmt.Equations) > 1:
		return system(p, e, s, name)
	case e.Result() == nil:
		steps, _ := rearranged(s, 0)
		return stepLines(steps)
	}
	var out []entry.WorkLine
	values := e.Values()
	for i := range values {
		v := &values[i]
		if name != "" && name != v.Name {
			continue
		}
		steps, x := rearranged(s, i)
		out = append(out, stepLines(steps)...)
		if searched(e) {
			out = append(out, entry.WorkLine{Left: named(v.Name), Shown: v, Reason: "found by search"})
			continue
		}
		out = append(out, lines(p, s.Unknown, x, e, i)[1:]...)
		if v.Name != s.Unknown { // t1 is the first t
			out[len(out)-1].Left = named(v.Name)
		}
	}
	return out
}

// system is the working of several equations.
func system(p *eval.Page, e *entry.Entry, s *eval.Solved, name string) []entry.WorkLine {
	out := stepLines(s.Roots[0].Steps)
	values := e.Values()
	for i := range values {
		v := &values[i]
		if name != "" && name != v.Name {
			continue
		}
		if searched(e) {
			out = append(out, entry.WorkLine{Left: named(v.Name), Shown: v, Reason: "found step by step"})
			continue
		}
		lines := lines(p, v.Name, s.Roots[i].X, e, i)
		if last := out[len(out)-1]; last.Left != nil && syntax.ScreenExpr(last.Left) == v.Name && syntax.ScreenExpr(last.Right) == syntax.ScreenExpr(lines[0].Right) {
			lines = lines[1:] // the last step has said it
		}
		out = append(out, lines...)
	}
	return out
}

// rearranged are the steps from the equation to one of its roots, and the root,
// as the last step has it.
func rearranged(s *eval.Solved, i int) ([]algebra.Step, syntax.Expr) {
	steps := s.Roots[i].Steps
	if n, ok := steps[len(steps)-1].Left.(*syntax.Name); ok && n.Name == s.Unknown && len(steps) > 1 {
		return steps, steps[len(steps)-1].Right
	}
	return steps, s.Roots[i].X
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
