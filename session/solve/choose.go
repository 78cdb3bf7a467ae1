package solve

import (
	"cmp"
	"math"
	"slices"

	"steelyard/lang/algebra"
	"steelyard/lang/finding"
	"steelyard/lang/limit"
	"steelyard/lang/ops"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/eval"
	"steelyard/units"
	"steelyard/units/writing"
)

// choose takes one of the solutions, or as many roots of one equation as there
// are names, by the rule that is kept for when the worksheet runs with other
// numbers.
//
// The rule is kept with the instruction: when a given is varied, or the worksheet is printed
// with other numbers, the same rule picks again, among other roots.
func (v *solving) choose(all []solution) {
	switch {
	case v.within != nil && len(v.within.Stretches) > 0:
		v.Find(v.wholeStretches(all))
	case len(all) == 0:
		v.noSolution()
	case v.beyond && len(v.s.Where) == 0: // another may be the one that is meant
		v.Find(v.outOfRange())
	case v.single() && len(v.s.Unknowns) > 1:
		v.chooseEach(all)
	default:
		v.chooseOne(all)
	}
}

// chooseEach gives each name a root, in rising order.
//
// For t1, t2 of a quadratic the two roots go to the two names, the smaller first. With another
// number of roots no one can say which name means which, so it is asked.
func (v *solving) chooseEach(all []solution) {
	v.rule.Of = len(v.s.Unknowns)
	if v.rule.Choose(valuesOf(all)) < 0 {
		within := "The equation"
		if len(v.s.Where) > 0 {
			within = "Within the conditions the equation"
		}
		v.Find(finding.New(finding.WhichRoot, v.s.Unknowns[0].NameAt, within+" has "+writing.Count(len(all), "solution")+": "+v.list(all).String()+".", "Write "+writing.Count(len(all), "name")+" after `for`."))
		return
	}
	for i := range v.s.Unknowns {
		v.rule.Nth = i
		v.take(i, all[i], 0)
	}
}

// chooseOne gives the unknowns the values of one solution, and says which others
// there are.
//
// One positive root among others is taken, with a note of the others: a time, a length or a
// mass below 0 is hardly ever asked for. Of several positive ones none is taken. What was
// chosen by words, the greater, is not noted again: the line says it.
func (v *solving) chooseOne(all []solution) {
	first := v.s.Unknowns[0]
	if v.single() {
		v.rule.Choice = first.Which
	} else if v.choosesInSystem(all) {
		return
	}
	if v.strict {
		v.rule.Of = 1
	}
	chosen := v.rule.Choose(valuesOf(all))
	switch {
	case v.families != nil && !v.limited() && first.Which != syntax.AnyRoot && (!math.IsInf(v.bounds().lo, 0) || !math.IsInf(v.bounds().hi, 0)):
		v.Find(v.infinitelyMany()) // there is no later one of all beyond 100°
		return
	case chosen < 0:
		v.Find(v.whichRoot(all))
		return
	case v.outdone(all[chosen].values[0]):
		v.Find(finding.New(finding.WhichRoot, first.NameAt, "I couldn't tell whether there is one beyond "+v.list(all[chosen:chosen+1]).String()+", so none was chosen.",
			"Use `where` to make the range smaller."))
		return
	}
	for i := range v.s.Unknowns {
		v.take(i, all[chosen], i)
	}
	others := append(all[:chosen:chosen], all[chosen+1:]...)
	var note entry.Said
	switch also := all[chosen].root.Also; {
	case v.families != nil && !v.limited():
		taken, greater, smaller := v.list(all[chosen:chosen+1]), "greater", "smaller"
		if len(others) > 1 {
			greater, smaller = "greatest", "smallest"
		}
		switch {
		case len(others) == 0:
		case v.rule.Choice == syntax.GreatestRoot:
			taken = entry.Say("The "+greater+" of …", v.list(all))
		case v.rule.Choice == syntax.LeastRoot:
			taken = entry.Say("The "+smaller+" of …", v.list(all))
		default:
			taken = entry.Words("The positive solution")
		}
		note = entry.Say("… is taken; infinitely many values solve the equation: ….", taken, v.families.shown(v))
	case len(others) > 0 && v.rule.Choice == syntax.AnyRoot:
		note = v.otherNote(others).And(v.turnsAdd())
	case v.turnsAdd() != "":
		note = entry.Say("… is taken….", v.list(all[chosen:chosen+1]), v.alsoText(also, all[chosen].values[0])).And(v.turnsAdd())
	}
	if note != nil {
		v.aside(finding.OtherRoot, note, "")
	}
}

// choosesInSystem refuses the greater or smaller of several solutions of several equations: which
// is greater depends on the unknown.
//
// In a system, for the greater x may belong to the smaller y; only a condition says which pair
// is meant.
func (v *solving) choosesInSystem(all []solution) bool {
	i := slices.IndexFunc(v.s.Unknowns, func(u syntax.Unknown) bool { return u.Which != syntax.AnyRoot })
	if i < 0 || len(all) < 2 {
		return false
	}
	u := &v.s.Unknowns[i]
	v.Find(finding.New(finding.WhichRoot, u.NameAt, "Several values solve these equations: "+v.listSystem(all).String()+".",
		"Say which by a condition, as in where "+u.Name+" > …. Words such as greater work for one equation only."))
	return true
}

// outdone tells whether a search has left open that there is a greater root than
// the one taken for the greatest, or a smaller one than the least.
//
// For the greater root is answered only when nothing beyond it is open: a wrong greatest root
// is a false claim, and asking for a smaller range is none.
func (v *solving) outdone(root float64) bool {
	if v.within == nil {
		return false
	}
	near := run.Near * math.Abs(root)
	return slices.ContainsFunc(v.within.Unsettled, func(x ops.Interval) bool {
		return v.rule.Choice == syntax.GreatestRoot && x.Hi > root+near || v.rule.Choice == syntax.LeastRoot && x.Lo < root-near
	})
}

// whichRoot says that it must be said which solution is meant.
//
// For one unknown the words that choose are offered, the greater t, the smaller t, t1, t2, each
// of which can be typed in the place of the name; a system is chosen from by a condition.
func (v *solving) whichRoot(all []solution) finding.Finding {
	first, last := v.s.Unknowns[0], v.s.Unknowns[len(v.s.Unknowns)-1]
	if v.families != nil && !v.limited() {
		return v.infinitelyMany()
	}
	if v.single() {
		name := first.Name
		if len(v.s.Unknowns) == 1 && first.Which == syntax.AnyRoot && len(v.s.Where) == 0 && len(all) == 2 {
			return finding.New(finding.WhichRoot, first.NameAt, "Several values of "+name+" solve the equation: "+v.list(all).String()+"."+v.turnsAdd(),
				"Say which one you want.", "the greater "+name, "the smaller "+name, name+"1, "+name+"2")
		}
		return finding.New(finding.WhichRoot, first.NameAt, "Several values of "+name+" solve the equation: "+v.list(all).String()+"."+v.turnsAdd(),
			"Say which: for the greater "+name+", for the smaller "+name+", or a range after `where`.")
	}
	bound := "…"
	if i := len(v.s.Unknowns) - 1; len(all) == 2 && all[0].values[i]*all[1].values[i] < 0 {
		bound = "0"
	}
	return finding.New(finding.WhichRoot, first.NameAt, "Several values solve these equations: "+v.listSystem(all).String()+".",
		"Say which, as in where "+last.Name+" > "+bound+".")
}

// otherNote names the solutions beside the only one without a negative value.
//
// The note belongs to the value: a reader who wanted the other root finds it there.
func (v *solving) otherNote(others []solution) entry.Said {
	if v.single() {
		solve := " solves the equation too."
		if len(others) > 1 {
			solve = " solve the equation too."
		}
		return entry.Say("The positive solution is taken; …"+solve, v.list(others))
	}
	return entry.Say("The solution without a negative value is taken; these solve the equations too: ….", v.listSystem(others))
}

// alsoText names the solution that the principal value of an angle leaves out, if it
// is another one.
//
// It is put back into the equation first: 180° less an angle need not solve one that was
// squared on the way.
func (v *solving) alsoText(also *algebra.Root, taken float64) entry.Said {
	if also == nil {
		return nil
	}
	one := v.Try(also.X[0])
	good, _ := v.Planner.Program.PutBack(&v.State, v.rule, run.Candidate{X: []float64{one.Value}, Size: math.Abs(one.Value)})
	if !one.OK || !good || math.Abs(one.Value-taken) <= alike*math.Abs(taken) {
		return nil
	}
	return entry.Say("; … solves the equation too", v.beside(one.Value, v.solutionUnit(0, one.Static)))
}

// beside is a solution beside the one that was taken, to the figures of that.
//
// Two roots of one equation that are shown to different figures look as if one were known
// better.
func (v *solving) beside(x float64, u *units.Unit) entry.Said {
	figures := v.Set.Figures
	if values := v.Entry.Values(); len(values) > 0 {
		figures = values[0].Figures
	}
	return v.Told(figures, x, u)
}

// turnsAdd says that turns of an angle may add solutions, where it is not known which.
//
// It is not said of families, which are told with their period.
func (v *solving) turnsAdd() string {
	if v.families != nil || !v.single() || v.rearranged == nil || !v.rearranged.Repeats {
		return ""
	}
	return " More may come with each turn of the angle."
}

// noSolution says why no real value satisfies the equations, unless that has been
// said. Where a search found nothing, what it could not settle is an error.
//
// That there is none is a claim about the world: it is made only where the solutions in symbols
// prove it, or the whole range was searched and every piece of it settled. Everything else says
// what was looked at and what stays open, and a range that was searched is named with the
// claim.
func (v *solving) noSolution() {
	open := false
	for i := range v.Entry.Findings {
		if f := &v.Entry.Findings[i]; f.ID == finding.NotSettled {
			f.Severity, open = finding.Error, true
		}
	}
	at, name := v.s.Unknowns[0].NameAt, v.s.Unknowns[0].Name
	if open || v.failing() || v.partWithoutValue() || v.single() && v.cancels() {
		return
	}
	message, hint := "No real "+name+" solves the equation.", "Check the signs of the given values, and what is under a root."
	switch conditions := len(v.s.Where) > 0; {
	case v.beyond && !conditions:
		v.Find(v.outOfRange())
		return
	case !v.single() && v.doubtful && !v.alone():
		v.Find(finding.New(finding.NotSolved, at, "No solution was found; there may still be one.", "Check the signs of the given values."))
		return
	case !v.single() && conditions:
		message, hint = "No real values solve these equations with these conditions.", "Check the signs of the given values, and what comes after where."
	case !v.single():
		message, hint = "No real values solve these equations.", "Check the signs of the given values."
	case v.within != nil && !v.within.Whole:
		u := v.solutionUnit(0, v.statics[0])
		message = "No " + name + " from " + v.ShownIn(v.within.Lo, u) + " to " + v.ShownIn(v.within.Hi, u) + " solves the equation."
		hint = "Outside it I didn't look: use `where` for another range."
	default:
		if d, ok := v.discriminant(); ok && d.Value < 0 {
			shown := v.ShownIn(d.Value, units.Preferred(d.Static.Dim, d.Static.Tag))
			message = "No real " + name + " solves the equation: its discriminant is negative, " + shown + "."
			hint = "Check the given values and their signs."
		} else if conditions {
			message, hint = "No "+name+" within the conditions solves the equation.", "Check what comes after where."
		}
	}
	v.Find(finding.New(finding.NoSolution, at, message, hint))
}

// outOfRange says that a solution may be one that no number here holds.
func (v *solving) outOfRange() finding.Finding {
	return finding.New(finding.OutOfRange, v.s.Unknowns[0].NameAt, "The solution may be too large or too small: numbers here go from 10^-308 to 10^308.", "Check the powers and exponents.")
}

// partWithoutValue finds a part of the equations that does not hold an unknown and
// has no value, such as a quotient whose divisor is 0: that no value satisfies the
// equations says nothing then.
//
// With r = 0 the equation F = k/r^2 + c*x has no value whatever x is. The finding of that part
// says more than that nothing solves the equation.
func (v *solving) partWithoutValue() bool {
	bad := false
	for _, e := range v.equations {
		for _, side := range []syntax.Expr{e.Left, e.Right} {
			syntax.Walk(side, func(x syntax.Expr) bool {
				switch x.(type) {
				case *syntax.Binary, *syntax.Root, *syntax.Call:
				default:
					return !bad
				}
				if bad || v.varies(x) {
					return !bad
				}
				got := v.Eval(x, eval.Want{Silent: true})
				bad = got.Slot != run.NoSlot && !v.HasValue(got.Slot)
				return false
			})
		}
	}
	return bad
}

// discriminant works that of a quadratic equation out, if there is one.
//
// It is worked out in symbols with the rearrangement, and shown with its unit where it is
// negative.
func (v *solving) discriminant() (eval.Got, bool) {
	if v.rearranged == nil || v.rearranged.Quadratic == nil {
		return eval.Got{}, false
	}
	d := v.Try(v.rearranged.Quadratic.Discriminant)
	return d, d.OK && !d.Static.Absent
}

// list names solutions of one equation, by more figures where two would look the same.
// Of more than can be named, those nearest to 0 are.
//
// Two roots near a double one print alike to six figures, 2.00000 and 2.00000, and are told
// apart by twelve.
func (v *solving) list(all []solution) entry.Said {
	more := len(all) > limit.Listed
	if more {
		all = slices.Clone(all)
		slices.SortStableFunc(all, func(a, b solution) int { return cmp.Compare(math.Abs(a.values[0]), math.Abs(b.values[0])) })
		all = all[:limit.Listed]
		slices.SortFunc(all, func(a, b solution) int { return cmp.Compare(a.values[0], b.values[0]) })
	}
	named := func(apart int) (out []entry.Said, told bool) {
		for _, one := range all {
			u := v.solutionUnit(0, v.Planner.Static(one.slots[0]))
			figures := v.FiguresOf(one.slots[0], u)
			if apart > 0 {
				figures = units.Figures{N: apart}
			}
			out = append(out, v.Told(figures, one.values[0], u))
		}
		return out, len(slices.CompactFunc(slices.Clone(out), entry.Said.Same)) == len(out)
	}
	var text []entry.Said
	for _, apart := range [...]int{0, apartFigures, allFigures} {
		var told bool
		if text, told = named(apart); told {
			break
		}
	}
	if more {
		text = append(text, entry.Words("more"))
	}
	return entry.Listed(text)
}

// apartFigures tell solutions apart that people took to be near each other, and allFigures
// all that numbers can.
const apartFigures, allFigures = 12, 15

// listSystem names solutions of several equations.
//
// Each solution has all of its values together, as x of one and y of another are no solution.
func (v *solving) listSystem(all []solution) entry.Said {
	var said entry.Said
	for n, one := range all {
		if n == limit.ListedSystems {
			return said.And("; and more")
		}
		if n > 0 {
			said = said.And("; or ")
		}
		for k, u := range v.s.Unknowns {
			if k > 0 {
				said = said.And(", ")
			}
			unit := v.solutionUnit(k, v.Planner.Static(one.slots[k]))
			said = said.And("… = …", entry.Name(u.Name), v.Told(v.FiguresOf(one.slots[k], unit), one.values[k], unit))
		}
	}
	return said
}
