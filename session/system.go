package session

import (
	"math"

	"steelyard/lang/algebra"
	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/syntax"
)

// system solves several equations for as many unknowns.
func (w *work) system(s *syntax.Solve, defs []*plan.Def) *plan.Def {
	at := s.Unknowns[0].NameAt
	if len(s.Equations) != len(s.Unknowns) {
		word := "fewer"
		if len(s.Equations) > len(s.Unknowns) {
			word = "more"
		}
		w.find(finding.New(finding.NotSolved, at, "There are "+word+" equations ("+itoa(len(s.Equations))+") than unknowns ("+itoa(len(s.Unknowns))+").",
			"As many equations are needed as there are unknowns."))
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
	roots, ok := algebra.System(eqs, names)
	if !ok {
		w.find(finding.New(finding.NotSolved, at, "These equations can't be solved for "+list(names)+": they depend on each other, contradict each other, or can't be rearranged here.",
			"Look whether one of them follows from the others."))
		return nil
	}
	return w.systemRoots(s, eqs, roots, defs)
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

// systemRoots works out the solutions, puts them back and chooses one.
func (w *work) systemRoots(s *syntax.Solve, eqs []algebra.Equation, roots []algebra.SystemRoot, defs []*plan.Def) *plan.Def {
	var good [][]candidate
	var steps [][]algebra.Step
	for _, r := range roots {
		all, root, ok := w.systemCandidate(r)
		if root != nil {
			return root
		}
		if worst, some := finding.Worst(w.e.Findings); some && worst.Fails() {
			return nil
		}
		w.solving = map[string]candidate{}
		for i := range all {
			w.solving[s.Unknowns[i].Name] = all[i]
		}
		if ok && w.systemHolds(eqs, s, r.X) && len(w.within(s, all)) == len(all) {
			good, steps = append(good, all), append(steps, r.Steps)
		}
	}
	at := s.Unknowns[0].NameAt
	chosen := w.positiveSystem(good)
	switch {
	case len(good) == 0:
		w.find(finding.New(finding.NoSolution, at, "No real values satisfy these equations.", "Look at the signs of the givens."))
		return nil
	case chosen < 0:
		w.find(finding.New(finding.WhichRoot, at, "Several values satisfy these equations.", "Say which, as in where "+s.Unknowns[0].Name+" > …."))
		return nil
	}
	w.e.Solution = &algebra.Solution{Steps: steps[chosen]}
	for i, u := range s.Unknowns {
		c := good[chosen][i]
		if u.In.Present() {
			if _, ok := w.reportedIn(u.Name, c.root.X, u.In, &c.form); !ok {
				return nil
			}
		}
		w.take(u, c, defs[i])
	}
	return nil
}

// systemCandidate works out one solution of several equations.
func (w *work) systemCandidate(r algebra.SystemRoot) ([]candidate, *plan.Def, bool) {
	var all []candidate
	for _, x := range r.X {
		c := w.planner.Compile(x, w.e.Text, "")
		if c.Slot == plan.NoSlot {
			if len(w.e.Findings) == 0 {
				w.find(c.Findings...)
			}
			return nil, c.Root, false
		}
		w.uses(c.Uses, syntax.Span{})
		w.run(plan.NoSlot, plan.Static{})
		v, ok := w.state.Value(c.Slot)
		if !ok {
			return nil, nil, false
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
		c := w.planner.Compile(x, w.e.Text, "")
		if c.Slot == plan.NoSlot {
			if len(w.e.Findings) == 0 {
				w.find(c.Findings...)
			}
			return false
		}
		w.run(plan.NoSlot, plan.Static{})
		v, ok := w.state.Value(c.Slot)
		if !ok || math.Abs(v) > remainder*w.largestTerm(c) {
			return false
		}
	}
	return true
}

// positiveSystem chooses the only solution, or the only one without a negative
// value; -1 if there is none such.
func (w *work) positiveSystem(good [][]candidate) int {
	if len(good) == 1 {
		return 0
	}
	chosen := -1
	for i, all := range good {
		negative := false
		for _, c := range all {
			negative = negative || c.value < 0
		}
		if negative {
			continue
		}
		if chosen >= 0 {
			return -1
		}
		chosen = i
	}
	return chosen
}
