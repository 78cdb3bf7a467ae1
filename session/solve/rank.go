package solve

import (
	"steelyard/lang/finding"
	"steelyard/lang/run"
)

// cancels tells whether linear equations leave no single solution, and says so:
// they contradict each other, one follows from the others, or an unknown cancels.
func (v *solving) cancels() bool {
	if v.absent {
		return false
	}
	names, at := list(v.unknowns), v.s.Unknowns[0].NameAt
	switch v.Planner.Program.Rank(&v.State, v.rule) {
	case run.Contradictory:
		message, hint := "These equations contradict each other: no "+names+" satisfy all of them.", "Look whether one of them is a multiple of another but for a number."
		if v.single() {
			message, hint = names+" cancels out of this equation, and what is left is not equal: no "+names+" satisfies it.", "Look at the terms with "+names+"."
		}
		v.Find(finding.New(finding.NoSolution, at, message, hint))
	case run.Dependent:
		message, hint := "One of these equations follows from the others, so that any number of values satisfy them.", "As many equations are needed that say something new as there are unknowns."
		if v.single() {
			message, hint = names+" cancels out of this equation: every "+names+" satisfies it.", "Look at the terms with "+names+"."
		}
		v.Find(finding.New(finding.NotSolved, at, message, hint))
	default:
		return false
	}
	return true
}
