package session

import (
	"steelyard/lang/algebra"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// choiceOf is the rule that a statement asks for.
var choiceOf = map[syntax.Choice]run.Choice{
	syntax.AnyRoot: run.OnlyRoot, syntax.GreatestRoot: run.GreatestRoot, syntax.LeastRoot: run.LeastRoot,
}

// orderOf is how a condition compares.
var orderOf = map[syntax.Comparison]run.Order{
	syntax.Less: run.Below, syntax.Greater: run.Above, syntax.AtMost: run.NotAbove, syntax.AtLeast: run.NotBelow,
}

// newRule plans what a root must satisfy, so that it can be chosen again where a
// given is replaced.
func (w *work) newRule(s *syntax.Solve, eq plan.Planned) *run.Solve {
	return &run.Solve{
		Differences: []int{eq.Difference}, Sizes: []int{eq.Size}, Dims: []units.Dim{eq.Unknown.Dim},
		Conditions: w.conditions(s, []string{w.found.unknown}, []run.Static{eq.Unknown}),
	}
}

// conditions plans the conditions as functions of the unknowns. One that can't
// be planned has been reported where the roots were looked at.
func (w *work) conditions(s *syntax.Solve, unknowns []string, statics []run.Static) []run.Condition {
	by := map[string]syntax.Expr{}
	if len(unknowns) == 1 {
		for _, u := range s.Unknowns {
			by[u.Name] = &syntax.Name{Name: unknowns[0]}
		}
	}
	var out []run.Condition
	for _, c := range s.Where {
		got := w.planner.CompileFor(algebra.Substitute(c.Left, by), algebra.Substitute(c.Right, by), w.e.Text, unknowns, statics)
		if len(unknowns) > 1 {
			w.find(got.Findings...)
		}
		op, known := orderOf[c.Op]
		if !got.OK || got.Absent || !known {
			continue
		}
		out = append(out, run.Condition{Difference: got.Difference, Size: got.Size, Op: op, OfUnknown: len(unknowns) == 1})
	}
	return out
}

// keepRule gives a root that was chosen among several a slot in which it is
// chosen again whenever the plan runs with other numbers.
func (w *work) keepRule(c *candidate, choice run.Choice, nth, of int) {
	if w.rule == nil {
		return
	}
	rule := *w.rule
	rule.Choice, rule.Nth, rule.Of = choice, nth, of
	args := w.rooted
	if rule.Searched {
		args = w.bounds
	}
	st := w.planner.Static(c.slot)
	slot := w.planner.EmitSolve(&rule, args, st)
	w.CatchUp()
	if v, ok := w.state.Value(slot); ok && v == c.value {
		c.slot, c.form.Slot = slot, slot
	}
}
