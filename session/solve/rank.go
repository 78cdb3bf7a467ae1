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
		message, hint := "These equations contradict each other: no "+names+" solve all of them.", "Check whether one is a multiple of another, but for a number."
		if v.single() {
			message, hint = names+" cancels out, and what is left is not equal: no "+names+" solves it.", "Check the terms with "+names+"."
		}
		v.Find(finding.New(finding.NoSolution, at, message, hint))
	case run.Dependent:
		message, hint := "One of these equations follows from the others, so infinitely many values solve them.", "You need one more equation that says something new."
		if v.single() {
			message, hint = names+" cancels out of this equation: every "+names+" solves it.", "Check the terms with "+names+"."
		}
		v.Find(finding.New(finding.NotSolved, at, message, hint))
	default:
		return false
	}
	return true
}
