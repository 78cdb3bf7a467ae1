package solve

import (
	"steelyard/lang/algebra"
	"steelyard/lang/finding"
	"steelyard/lang/run"
)

// cancels tells whether linear equations leave no single solution, and says so:
// they contradict each other, one follows from the others, or an unknown cancels.
func (v *solving) cancels() bool {
	if v.absent {
		return false
	}
	rank := v.Planner.Program.Rank(&v.State, v.rule)
	if rank != run.Contradictory && rank != run.Dependent {
		return false
	}
	v.cancelled(rank, "")
	return true
}

// cancelled says that equations leave no value or any, in words; of one equation,
// where any is left, for which.
func (v *solving) cancelled(rank run.Rank, which string) {
	names, at := list(v.unknowns), v.s.Unknowns[0].NameAt
	if rank == run.Contradictory {
		message, hint := "These equations contradict each other: no "+names+" solve all of them.", "Check whether one is a multiple of another, but for a number."
		if v.single() {
			message, hint = names+" cancels out, and what is left is not equal: no "+names+" solves it.", "Check the terms with "+names+"."
		}
		v.Find(finding.New(finding.NoSolution, at, message, hint))
		return
	}
	message, hint := "One of these equations follows from the others, so infinitely many values solve them.", "You need one more equation that says something new."
	if v.single() {
		message, hint = names+" cancels out of this equation: every "+names+which+" solves it.", "Check the terms with "+names+"."
	}
	v.Find(finding.New(finding.NotSolved, at, message, hint))
}

// leads looks at a root that has no value since what was divided by is 0: it tells
// whether what is left then, without the unknown, adds no solution.
func (v *solving) leads(r algebra.Root) bool {
	if r.Lead == nil {
		return false
	}
	lead, rest := v.Try(r.Lead), v.Try(r.Rest)
	return lead.OK && lead.Value == 0 && rest.OK && rest.Value != 0
}

// leftOver looks at what is left of an equation where the unknown cancels: one that
// is 0 leaves any value, and one that is not adds no solution. It tells whether that
// was all there is to say; sure is false where what is left has no value, or says
// nothing.
func (v *solving) leftOver() (said, sure bool) {
	rests := v.rearranged.Rests
	for _, x := range rests {
		if got := v.Try(x); !got.OK || got.Static.Absent || got.Value == 0 && v.rearranged.Widened {
			return false, false
		} else if got.Value == 0 {
			if !v.cancels() {
				v.cancelled(run.Dependent, " for which both sides have a value")
			}
			return true, true
		}
	}
	if len(rests) > 0 && len(v.rearranged.Roots) == 0 {
		v.cancelled(run.Contradictory, "")
		return true, true
	}
	return false, true
}
