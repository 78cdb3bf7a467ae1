package solve

import (
	"math"

	"steelyard/lang/algebra"
	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/units"
	"steelyard/units/each"
	"steelyard/units/writing"
)

// maxUnsettled is how many places are named in which a search has not settled
// whether there is a solution.
const maxUnsettled = 3

// search looks for numbers where the equations can't be rearranged.
//
// One equation is searched by intervals, which can prove that a range has no root. For several
// there is no such proof here: linear ones are eliminated, and others are approached step by
// step, so that what is found is checked and whether there are others stays open.
func (v *solving) search() {
	v.again, v.rule.Searched = true, true
	v.Doing("searching for "+writing.List(v.unknowns, "and"), v.s.Unknowns[0].NameAt)
	switch {
	case v.linear.Beyond:
		v.Find(v.outOfRange())
		return
	case v.absent || v.open && !v.single():
	case v.single():
		if !v.periodic() && v.bounds().ok {
			v.choose(v.byIntervals())
		}
		return
	case v.linear.Rank == run.OneSolution:
		v.choose(v.byElimination())
		return
	default:
		if all := v.stepByStep(); len(all) > 0 {
			v.choose(all)
			return
		}
		if v.alone() {
			v.noSolution()
			return
		}
	}
	u := v.s.Unknowns[0]
	if v.cutShort {
		v.Find(finding.New(finding.TooLong, u.NameAt, "Solving for "+writing.List(v.unknowns, "and")+" takes too many steps, and a search found nothing.",
			"Solve for fewer unknowns at a time."))
		return
	}
	if v.single() {
		v.Find(finding.New(finding.NotSolved, u.NameAt, "This version can't solve this equation for "+v.unknowns[0]+".",
			"Rearrange it by hand as far as you can."))
		return
	}
	v.Find(finding.New(finding.NotSolved, u.NameAt, "These equations can't be solved for "+writing.List(v.unknowns, "and")+": they contradict each other, say the same, or are too hard here.",
		"Check whether one of them follows from the others."))
}

// byIntervals looks for roots of one equation: every piece of the range is proved
// empty, proved to hold one root, or named as not settled. Why it was searched
// for is said first.
//
// What is said is true of the whole range: a root that was not found is named as a place that
// was not settled (lang/run/roots.go).
func (v *solving) byIntervals() []solution {
	return v.allowed(v.named(v.piecewise(), entry.Say("The equation can't be rearranged for …, so …", entry.Name(v.unknowns[0]), entry.Name(v.unknowns[0]))))
}

// hidden finds solutions that rounding, or a division by 0, keeps from those in
// symbols. That there is none is proved then, or said not to be settled: by the search,
// or since each of those in symbols is proved to be none.
//
// A root that is a small difference of large terms is rounded away as it is worked out, and one
// at which the rearranged equation divides by 0 has no value there.
func (v *solving) hidden() []solution {
	if !v.single() {
		if v.open || v.linear.Beyond {
			return nil
		}
		v.again, v.rule.Searched, v.args = true, true, nil
		if v.linear.Rank == run.OneSolution {
			return v.byElimination()
		}
		return v.stepByStep()
	}
	got := v.piecewise()
	if len(got.Found) == 0 && (len(got.Unsettled) == 0 || v.beyond || v.missed && !v.doubtful) {
		if v.rearranged = nil; len(got.Unsettled) > 0 {
			v.within = nil
		}
		return nil
	}
	v.again, v.rule.Searched, v.rearranged = true, true, nil
	why := "Rearranged, the equation loses too many digits; …"
	if v.undefined {
		why = "Rearranged, the equation has no value here; …"
	}
	return v.allowed(v.named(got, entry.Say(why, entry.Name(v.unknowns[0]))))
}

// contradicted are the solutions that a search finds where those in symbols say that there
// is none, or may not be all. A discriminant below 0 needs no such witness, nor does an angle
// without a sine.
//
// Two ways to one answer: a root that is lost on the way, where both sides were squared or
// multiplied, must not become "no solution". A discriminant below 0 is proof enough, and saves
// the search.
func (v *solving) contradicted(known []solution) (all []solution) {
	rooted := v.rooted()
	d, ok := v.discriminant()
	if ok && d.Value < 0 && !rooted || v.rearranged == nil || v.rearranged.Repeats || v.cancels() || v.single() && !v.bounds().ok {
		return known
	}
	more := false
	args, rule, within, budget := v.args, *v.rule, v.within, v.State.Budget
	v.State.Budget = budget.Part(rearranging)
	if v.single() {
		got := v.piecewise()
		open := len(got.Unsettled) > 0 && (rooted || len(known) > 0)
		if more = len(got.Stretches) > 0 || open && len(known) > 0; more || open || len(got.Found) > len(known) {
			all = v.named(got, entry.Say("Rearranged, the equation may lose solutions; …", entry.Name(v.unknowns[0])))
		}
	} else {
		v.args = nil
		all = v.stepByStep()
		v.doubtful, more = rooted, len(all) > 0
	}
	budget.Join(v.State.Budget)
	v.State.Budget = budget
	if all = v.allowed(all); more || len(all) > len(known) {
		v.again, v.rule.Searched, v.rearranged = true, true, nil
		return all
	}
	v.args, *v.rule, v.within = args, rule, within
	return known
}

// piecewise searches the range that the conditions leave, or that the givens
// suggest.
//
// Where no bound is given, the range comes from the size of the givens (NaturalScale): an
// equation in metres is searched over lengths as they occur in it, and far beyond.
func (v *solving) piecewise() run.Searched {
	bounds := v.bounds()
	p := v.Planner.Program
	v.args = bounds.slots
	v.rule.Below, v.rule.Above = !math.IsInf(bounds.lo, 0), !math.IsInf(bounds.hi, 0)
	v.rule.Level = v.opened[0].Level(v.unknowns[0])
	scale := p.NaturalScale(&v.State, v.rule.Differences, v.statics[0].Dim)
	out := p.FindRoots(&v.State, v.rule, scale, bounds.lo, bounds.hi)
	v.within = &out
	return out
}

// named says what was searched and what was not settled, and lists the solutions.
//
// What is not settled is named by its place, at most a few times; the last one takes in all
// that is left, so that the list never hides a piece.
func (v *solving) named(got run.Searched, lead entry.Said) []solution {
	v.how = "found by search"
	if len(got.Found) == 0 && len(got.Unsettled) > 0 && len(got.Stretches) == 0 && v.agrees() {
		return nil
	}
	u := v.solutionUnit(0, v.statics[0])
	others := ". There is no other solution there."
	switch {
	case len(got.Unsettled) > 0:
		others = ". There is no other solution there, except where a line below says so."
	case got.Touched:
		others = ". There is no other solution there, unless two are too near to be told apart."
	}
	v.aside(finding.Searched, lead.And(" was searched for from … to …"+others, v.ValueIn(got.Lo, u).Said(), v.ValueIn(got.Hi, u).Said()), "")
	for i, x := range got.Unsettled {
		if i == maxUnsettled {
			break
		}
		if i == maxUnsettled-1 { // with all that lies beyond
			for _, more := range got.Unsettled[i:] {
				x = x.Hull(more)
			}
		}
		v.Find(v.notSettled(x))
	}
	var all []solution
	for _, x := range got.Found {
		all = append(all, v.searched([]float64{x}))
	}
	return all
}

// agrees tells whether both sides of an equation are the same at every number that is
// tried, as those of exp(x)*3 = exp(x + ln(3)), and says so: none can be told from others.
//
// Samples prove nothing, so it is not said that every x solves the equation, only that every
// one that was tried does.
func (v *solving) agrees() bool {
	if !v.single() || !v.bounds().ok {
		return false
	}
	p, bounds, name := v.Planner.Program, v.bounds(), v.unknowns[0]
	scale := p.NaturalScale(&v.State, v.rule.Differences, v.statics[0].Dim)
	if !p.Agree(&v.State, v.rule, scale, bounds.lo, bounds.hi) {
		return false
	}
	v.Find(finding.New(finding.NotSolved, v.s.Unknowns[0].NameAt, "Both sides are the same at every "+name+" that I tried, as far as numbers tell: every "+name+" may solve the equation.",
		"Check the terms with "+name+"."))
	return true
}

// notSettled says of a piece of the range that it was too hard.
//
// A piece too narrow for numbers to part any more is near something: more digits would tell. A
// wide one needs a smaller range, or a look at its graph.
func (v *solving) notSettled(x ops.Interval) finding.Finding {
	u, at := v.solutionUnit(0, v.statics[0]), v.s.Unknowns[0].NameAt
	lo, hi := v.ShownIn(x.Lo, u), v.ShownIn(x.Hi, u)
	switch few := 0x1p-46 * math.Abs(x.Lo); {
	case x.Hi-x.Lo <= few:
		return finding.New(finding.NotSettled, at, "Near "+lo+" I couldn't tell whether there is a solution: numbers here have some sixteen figures, and it would need more.",
			"Solve for what is left of it, such as the difference.")
	case lo == hi:
		lo = "Near " + lo
	default:
		lo = "Between " + lo + " and " + hi
	}
	return finding.New(finding.NotSettled, at, lo+" I couldn't tell whether there is a solution.", "Use `where` to make the range smaller, or look at a graph there.")
}

// stepByStep looks for values that satisfy equations which elimination can't
// solve.
//
// Newton's method from several starting places (lang/run/newton.go). It finds roots and proves
// nothing of others, which the note says.
func (v *solving) stepByStep() []solution {
	v.how = "found step by step"
	all := v.allowed(each.Of(v.Planner.Program.Newton(&v.State, v.rule), v.searched))
	if len(all) > 0 {
		v.aside(finding.Searched, entry.Say("The equations can't be rearranged for …; the values were found step by step, and put back into every equation.", entry.Listed(entry.Names(v.unknowns))),
			"There may be others.")
	}
	return all
}

// searched gives the numbers of a solution slots of their own.
//
// Each number becomes a constant of the program, so that the rule that chooses, and what is
// shown, need not know whether a root came from symbols or from a search.
func (v *solving) searched(x []float64) solution {
	one := solution{values: x}
	if v.single() {
		one.size = math.Abs(x[0])
	}
	for _, e := range v.equations {
		one.root.Steps = append(one.root.Steps, algebra.Step{Left: e.Left, Right: e.Right})
	}
	for i, value := range x {
		one.slots = append(one.slots, v.Planner.Emit(run.Instr{Op: ops.Const, K: value}, v.statics[i]))
		one.root.X = append(one.root.X, asNumber(value, v.statics[i], 15))
	}
	v.CatchUp()
	return one
}

// asNumber is a value as a written quantity in its SI unit.
func asNumber(v float64, st run.Static, figures int) syntax.Expr {
	text := units.FormatQuantity(v, units.Preferred(st.Dim, st.Tag), units.Figures{N: figures}, units.HalfAway, units.File)
	x, fs := syntax.ParseExpr(text)
	if len(fs) > 0 {
		d, _ := units.ParseDecimal("0")
		return &syntax.Number{Value: d}
	}
	return x
}
