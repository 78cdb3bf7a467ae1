package session

import (
	"math"

	"steelyard/lang/algebra"
	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// system solves several equations for as many unknowns.
func (w *work) system(s *syntax.Solve, defs []*plan.Def) *plan.Def {
	at := s.Unknowns[0].NameAt
	if len(s.Equations) != len(s.Unknowns) {
		w.find(w.unevenSystem(s))
		return nil
	}
	eqs := make([]algebra.Equation, len(s.Equations))
	for i, e := range s.Equations {
		one := syntax.Solve{Equations: []syntax.Equation{e}, Unknowns: s.Unknowns}
		left, right, ok := w.equation(&one)
		if !ok {
			return nil
		}
		eqs[i] = algebra.Equation{Left: w.opened(left, 0), Right: w.opened(right, 0)}
	}
	names := make([]string, len(s.Unknowns))
	for i, u := range s.Unknowns {
		names[i] = u.Name
		if !inAny(eqs, u.Name) {
			w.find(finding.New(finding.NotSolved, u.NameAt, u.Name+" stands in none of the equations.", "Solve for names that stand in them."))
			return nil
		}
	}
	statics, ok := w.planSystem(s, names)
	if !ok {
		return nil
	}
	roots, ok := algebra.System(eqs, names)
	if !ok && w.rule != nil && w.newton(s, eqs, statics, defs) {
		return nil
	}
	if !ok {
		w.find(finding.New(finding.NotSolved, at, "These equations can't be solved for "+list(names)+": they depend on each other, contradict each other, or can't be rearranged here.",
			"Look whether one of them follows from the others."))
		return nil
	}
	return w.systemRoots(s, eqs, roots, statics, defs)
}

func list(names []string) string {
	out := names[0]
	for i, n := range names[1:] {
		if i == len(names)-2 {
			out += " and " + n
		} else {
			out += ", " + n
		}
	}
	return out
}

func inAny(eqs []algebra.Equation, name string) bool {
	for _, e := range eqs {
		if usesName(e.Left, name) || usesName(e.Right, name) {
			return true
		}
	}
	return false
}

// planSystem plans the equations together, which gives the unknowns their
// dimensions, and what a solution must satisfy; there is no rule if a symbol has
// no value yet, or a dimension stays open.
func (w *work) planSystem(s *syntax.Solve, names []string) ([]run.Static, bool) {
	statics := w.planner.Unknowns(len(names))
	rule := &run.Solve{}
	good, absent := true, false
	for _, e := range s.Equations {
		left, right, ok := w.equation(&syntax.Solve{Equations: []syntax.Equation{e}, Unknowns: s.Unknowns, With: s.With})
		if !ok {
			return nil, false
		}
		got := w.planner.CompileFor(left, right, w.e.Text, names, statics)
		w.uses(got.Uses, e.Left.Span())
		for _, f := range got.Findings {
			if f.At.To == 0 { // within a formula that is written elsewhere
				f.At = e.Left.Span()
			}
			w.find(f)
		}
		good, absent = good && got.OK, absent || got.Absent
		rule.Differences, rule.Sizes = append(rule.Differences, got.Difference), append(rule.Sizes, got.Size)
	}
	for i, st := range statics {
		statics[i] = w.planner.Settled(st)
		absent = absent || statics[i].Open != 0
		rule.Dims = append(rule.Dims, statics[i].Dim)
	}
	if !good || !w.unknownUnits(s, func(i int) run.Static { return statics[i] }) {
		return nil, false
	}
	before := len(w.e.Findings)
	rule.Conditions = w.conditions(s, names, statics)
	w.CatchUp()
	if len(w.e.Findings) > before {
		return nil, false
	}
	if !absent {
		w.rule = rule
	}
	return statics, true
}

// unknownUnits checks the units that unknowns are reported in against what the
// equations say of them; false if one can't be read.
func (w *work) unknownUnits(s *syntax.Solve, static func(i int) run.Static) bool {
	good := true
	for i, u := range s.Unknowns {
		if !u.In.Present() {
			continue
		}
		st := static(i)
		unit, bad := w.planner.Unit(u.In, units.AloneInPlace)
		if bad != nil {
			w.find(w.planner.UnitFinding(u.In, bad))
			good = false
		} else if st.Open == 0 && unit.Dim() != st.Dim {
			t := plan.MismatchText(u.Name, st, unit)
			w.find(finding.New(finding.UnitMismatch, u.In.At, t.Message, t.Hint))
		}
	}
	return good
}

// systemRoots works out the solutions, puts them back and chooses one.
func (w *work) systemRoots(s *syntax.Solve, eqs []algebra.Equation, roots []algebra.SystemRoot, statics []run.Static, defs []*plan.Def) *plan.Def {
	var good [][]candidate
	var steps [][]algebra.Step
	if w.rule == nil && w.systemWithoutNumbers(s, roots[0], statics, defs) {
		return nil
	}
	for _, r := range roots {
		all, root, ok := w.systemCandidate(r, statics)
		if root != nil {
			return root
		}
		if worst, some := finding.Worst(w.e.Findings); some && worst == finding.Error {
			return nil
		}
		if ok && w.systemHolds(eqs, s, r.X) && w.systemAllowed(all) {
			good, steps = append(good, all), append(steps, r.Steps)
		}
	}
	if len(good) == 0 {
		w.find(finding.New(finding.NoSolution, s.Unknowns[0].NameAt, "No real values satisfy these equations"+within(s)+".", "Look at the signs of the givens."))
		return nil
	}
	chosen := w.pickSystem(s, good)
	if chosen < 0 {
		return nil
	}
	w.found.solution = &algebra.Solution{Steps: steps[chosen]}
	w.takeSystem(s, good[chosen], len(roots) > 1 || len(s.Where) > 0, defs)
	return nil
}

func within(s *syntax.Solve) string {
	if len(s.Where) > 0 {
		return " and the conditions"
	}
	return ""
}

// systemAllowed tells whether a solution satisfies the conditions.
func (w *work) systemAllowed(all []candidate) bool {
	return w.rule == nil || w.planner.Program.Allowed(&w.state, w.rule, valuesOf(all))
}

func valuesOf(all []candidate) []float64 {
	x := make([]float64, len(all))
	for i, c := range all {
		x[i] = c.value
	}
	return x
}

// takeSystem makes the values of one solution those of the unknowns. Where it
// was chosen among several, it is chosen again if the plan runs with other
// numbers.
func (w *work) takeSystem(s *syntax.Solve, all []candidate, again bool, defs []*plan.Def) {
	for i, u := range s.Unknowns {
		c := all[i]
		if again && w.rule != nil {
			own := *w.rule
			own.Unknown = i
			slot := w.planner.EmitSolve(&own, w.rooted, c.form.Static)
			w.CatchUp()
			if v, ok := w.state.Value(slot); ok && v == c.value {
				c.slot, c.form.Slot = slot, slot
			}
		}
		w.take(u, c, defs[i])
	}
}

// systemCandidate works out one solution of several equations.
func (w *work) systemCandidate(r algebra.SystemRoot, statics []run.Static) ([]candidate, *plan.Def, bool) {
	var all []candidate
	for i, x := range r.X {
		c := w.Eval(x, Want{Silent: true}).Compiled
		if c.Slot == run.NoSlot {
			if len(w.e.Findings) == 0 {
				w.find(c.Findings...)
			}
			return nil, c.Root, false
		}
		w.uses(c.Uses, syntax.Span{})
		if statics[i].Open == 0 {
			c.Static = w.planner.SettleTo(c.Slot, statics[i].Dim)
		}
		w.rooted = append(w.rooted, c.Slot)
		v, ok := w.state.Value(c.Slot)
		if !ok {
			w.rooted = w.rooted[:len(w.rooted)-len(all)-1]
			return nil, nil, false
		}
		if w.rule != nil {
			w.rule.Scale = math.Max(w.rule.Scale, w.planner.Program.AddedUp(&w.state, c.Slot, w.mark.plan.Start()))
		}
		all = append(all, candidate{root: algebra.Root{X: x}, slot: c.Slot, value: v, form: c})
	}
	return all, nil, true
}

// systemHolds puts a solution back into every equation.
func (w *work) systemHolds(eqs []algebra.Equation, s *syntax.Solve, xs []syntax.Expr) bool {
	by := map[string]syntax.Expr{}
	for i, u := range s.Unknowns {
		by[u.Name] = xs[i]
	}
	for _, e := range eqs {
		x := &syntax.Binary{Op: syntax.Sub, X: algebra.Substitute(e.Left, by), Y: &syntax.Paren{X: algebra.Substitute(e.Right, by)}}
		c := w.Eval(x, Want{Silent: true}).Compiled
		if c.Slot == run.NoSlot {
			if len(w.e.Findings) == 0 {
				w.find(c.Findings...)
			}
			return false
		}
		v, ok := w.state.Value(c.Slot)
		if !ok || math.Abs(v) > remainder*w.largestTerm(c) {
			return false
		}
	}
	return true
}

// pickSystem chooses the only solution, or the only one in which every unknown is
// positive, and says that there are others; -1 if there is none such.
func (w *work) pickSystem(s *syntax.Solve, good [][]candidate) int {
	if len(good) == 1 {
		return 0
	}
	var all [][]float64
	for _, g := range good {
		all = append(all, valuesOf(g))
	}
	at := s.Unknowns[0].NameAt
	chosen := run.OnlyPositive(all)
	if chosen < 0 {
		w.find(finding.New(finding.WhichRoot, at, "Several values satisfy these equations: "+w.listSystem(s, good, -1)+".",
			"Say which, as in where "+s.Unknowns[len(s.Unknowns)-1].Name+" > …."))
		return -1
	}
	w.find(finding.New(finding.OtherRoot, at, "The solution without a negative value is taken; these satisfy the equations too: "+w.listSystem(s, good, chosen)+".", ""))
	return chosen
}

// maxListedSystems is how many solutions of several equations are named.
const maxListedSystems = 3

// listSystem names solutions of several equations but one.
func (w *work) listSystem(s *syntax.Solve, good [][]candidate, but int) string {
	text, n := "", 0
	for i, all := range good {
		if i == but {
			continue
		}
		if n++; n > maxListedSystems {
			return text + "; and more"
		}
		if n > 1 {
			text += "; or "
		}
		for k := range all {
			if k > 0 {
				text += ", "
			}
			one := syntax.Solve{Unknowns: s.Unknowns[k : k+1]}
			text += s.Unknowns[k].Name + " = " + w.list(&one, all[k:k+1])
		}
	}
	return text
}
