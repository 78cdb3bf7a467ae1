package session

import (
	"sort"

	"steelyard/lang/algebra"
	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
)

// newton looks for values that satisfy equations which elimination can't solve,
// and tells whether there were any.
func (w *work) newton(s *syntax.Solve, eqs []algebra.Equation, statics []run.Static, defs []*plan.Def) bool {
	w.rule.Searched = true
	found := w.planner.Program.Newton(&w.state, w.rule)
	sort.SliceStable(found, func(i, j int) bool { return found[i][0] < found[j][0] })
	var good [][]candidate
	for _, x := range found {
		if all := w.newtonCandidates(x, statics); w.systemAllowed(all) {
			good = append(good, all)
		}
	}
	if len(good) == 0 {
		return false
	}
	w.found.solution = &algebra.Solution{}
	for _, e := range eqs {
		w.found.solution.Steps = append(w.found.solution.Steps, algebra.Step{Left: e.Left, Right: e.Right})
	}
	w.find(finding.New(finding.Searched, s.Unknowns[0].NameAt, "No rearrangement leads to "+andList(s)+
		"; values were found step by step from the sizes of the givens, and put back into every equation.",
		"It is not proved that there are no others."))
	if chosen := w.pickSystem(s, good); chosen >= 0 {
		w.takeSystem(s, good[chosen], true, defs)
	}
	return true
}

// newtonCandidates gives the values of one solution slots of their own.
func (w *work) newtonCandidates(x []float64, statics []run.Static) []candidate {
	all := make([]candidate, len(x))
	for i, v := range x {
		slot := w.planner.Emit(run.Instr{Op: ops.Const, K: v}, statics[i])
		all[i] = candidate{root: algebra.Root{X: w.asNumber(v, statics[i])}, slot: slot, value: v, form: plan.Compiled{Slot: slot, Static: statics[i]}}
	}
	w.CatchUp()
	return all
}

// andList names the unknowns.
func andList(s *syntax.Solve) string {
	var names []string
	for _, u := range s.Unknowns {
		names = append(names, u.Name)
	}
	return list(names)
}
