package solve

import (
	"slices"
	"strconv"

	"steelyard/lang/algebra"
	"steelyard/lang/finding"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/units/writing"
)

// cancels tells whether linear equations leave no single solution, and says so:
// some contradict each other, one follows from others, or an unknown cancels.
//
// Elimination of linear equations is exact in the decimals as they are written, so that 0.1*x +
// 0.2*y and 0.3*x + 0.6*y are found to say the same.
func (v *solving) cancels() bool {
	v.linear = v.eliminated()
	v.beyond = v.beyond || v.linear.Beyond
	singular := v.linear.Rank == run.Contradictory || v.linear.Rank == run.Dependent
	switch {
	case !singular:
	case v.single():
		v.cancelled(v.linear.Rank, "")
	default:
		v.Find(v.notIndependent())
	}
	return singular
}

// eliminated is what elimination makes of the equations if they are linear. With
// symbols that have no value it is what it makes of them for several numbers in
// their place, where that is the same.
//
// With symbols the coefficients are not known, so that elimination is tried with several sets
// of numbers; what all of them say holds for nearly every value.
func (v *solving) eliminated() run.Linear {
	p := v.Planner.Program
	if !v.absent {
		return p.Linear(&v.State, v.rule)
	}
	if v.single() {
		return run.Linear{}
	}
	first := p.Linear(v.standIn(0), v.rule)
	for i := 1; i < standIns && first.Rank != run.NotLinear; i++ {
		if next := p.Linear(v.standIn(i), v.rule); next.Rank != first.Rank || !slices.Equal(next.Among, first.Among) {
			return run.Linear{}
		}
	}
	return first
}

// cancelled says that equations leave no value or any, in words; of one equation,
// where any is left, for which.
func (v *solving) cancelled(rank run.Rank, which string) {
	names, at := writing.List(v.unknowns, "and"), v.s.Unknowns[0].NameAt
	if rank == run.Contradictory {
		message, hint := "These equations contradict each other: no "+names+" solve all of them.", "Check the numbers in them: apart from those, one may be a multiple of another."
		if v.single() {
			message, hint = "Rearranged, "+names+" drops out, and the sides that are left differ: no "+names+" solves it.", "Check the terms with "+names+"."
		}
		v.Find(finding.New(finding.NoSolution, at, message, hint))
		return
	}
	message, hint := "These equations don't say enough: infinitely many values solve them.", "You need one more equation that says something new."
	if v.single() {
		message, hint = names+" cancels out of this equation: every "+names+which+" solves it.", "Check the terms with "+names+"."
	}
	v.Find(finding.New(finding.NotSolved, at, message, hint))
}

// notIndependent names the equations that contradict each other, or follow from
// each other. The last of them is where the finding is.
//
// A reader can mend the equations that disagree only if he is told which they are: they are
// named by their place in the line, and the finding points at the last of them.
func (v *solving) notIndependent() finding.Finding {
	among := v.linear.Among
	rest, last := among[:len(among)-1], among[len(among)-1]
	at := v.s.Equations[last].Left.Span()
	if right := v.s.Equations[last].Right; right != nil {
		at.To = right.Span().To
	}
	one := "quation " + numbered(among[len(among)-1:])
	if v.linear.Rank == run.Dependent {
		message := "The unknowns cancel out of e" + one + ", and any values solve it."
		if len(rest) > 0 {
			from := "equation "
			if len(rest) > 1 {
				from = "equations "
			}
			message = "E" + one + " follows from " + from + numbered(rest) + ", so infinitely many values solve them."
		}
		return finding.New(finding.NotSolved, at, message, "You need one more equation that says something new.")
	}
	but, all, sum := "", "both", "one is a multiple of the other"
	if v.absent {
		but = ", unless the symbols have special values"
	}
	if len(rest) == 0 {
		return finding.New(finding.NoSolution, at, "The unknowns cancel out of e"+one+", and then its sides differ"+but+".", "Check its terms with unknowns.")
	}
	if len(rest) > 1 {
		all, sum = "all of them", "one is a sum of the others"
	}
	return finding.New(finding.NoSolution, at, "Equations "+numbered(among)+" contradict each other"+but+": no values solve "+all+".",
		"Check the numbers in them: apart from those, "+sum+".")
}

// numbered are equations as they are counted: 2, 3 and 5.
func numbered(equations []int) string {
	words := make([]string, len(equations))
	for i, e := range equations {
		words[i] = strconv.Itoa(e + 1)
	}
	return writing.List(words, "and")
}

// leads looks at a root that has no value since what was divided by is 0: it tells
// whether what is left then, without the unknown, adds no solution.
//
// Of a*x^2 + b*x + c = 0 with a = 0 the quadratic formula divides by 0. What is left without
// the unknown, c, is then not 0 or adds a root by itself.
func (v *solving) leads(r algebra.Root) bool {
	if r.Lead == nil || r.Rest == nil {
		return false
	}
	lead, rest := v.Try(r.Lead), v.Try(r.Rest)
	return lead.OK && lead.Value == 0 && rest.OK && rest.Value != 0
}

// anyNumber tells whether every number is a root: what was divided by on the way to it is
// 0, and so is what is left then.
func (v *solving) anyNumber(r algebra.Root) bool {
	zero := func(x syntax.Expr) bool {
		got := v.Try(x)
		return got.OK && !got.Static.Absent && got.Value == 0
	}
	return r.Lead != nil && zero(r.Lead) && (r.Rest != nil && zero(r.Rest) || slices.ContainsFunc(r.Flat, v.anyNumber))
}

// leftOver looks at what is left of an equation where the unknown cancels: one that
// is 0 leaves any value, and one that is not adds no solution. It tells whether that
// was all there is to say; sure is false where what is left has no value, or says
// nothing.
//
// m*g*h = 1/2*m*v^2 solved for m leaves g*h = v^2/2: true for every m, or for none. Where both
// sides were squared or multiplied on the way, a rest of 0 proves nothing, and a search
// decides.
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
	if !v.rearranged.Widened && slices.ContainsFunc(v.rearranged.Roots, v.anyNumber) {
		if !v.cancels() {
			v.cancelled(run.Dependent, " for which both sides have a value")
		}
		return true, true
	}
	switch {
	case len(v.rearranged.Roots) > 0 || len(rests) == 0:
	case v.rearranged.Repeats: // other turns may leave something
		return false, false
	default:
		v.cancelled(run.Contradictory, "")
		return true, true
	}
	return false, true
}
