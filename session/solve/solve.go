// Package solve works equations out for their unknowns: in symbols where they can
// be rearranged, else by a search. Which of several roots is taken is decided
// where the worksheet runs (lang/run), for the line itself as for every later run.
package solve

import (
	"math"
	"slices"

	"steelyard/lang/algebra"
	"steelyard/lang/finding"
	"steelyard/lang/limit"
	"steelyard/lang/ops"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/eval"
	"steelyard/units/writing"
)

// solving is a solve while it is worked out. One equation is a system of one.
//
// The order is that of solve: the equations are read and planned (posed), solved in symbols
// (bySymbols), completed by what those leave out (leftOut), and one solution is chosen
// (choose). Each step notes what it found out for the later ones; nothing of it is kept when
// the line is done.
type solving struct {
	*eval.Line
	s    *syntax.Solve
	defs []*plan.Def // of the unknowns asked for
	// equations are those written, with the symbols of formulas bound.
	equations []algebra.Equation
	uses      [][]*plan.Def // the names in each
	// opened are the same with the functions in them written out.
	opened []algebra.Equation
	// unknowns are what they are solved for, and statics what they say of those.
	// Where t1 and t2 are asked of one equation, the unknown is t.
	unknowns []string
	statics  []run.Static
	// absent tells that a symbol without a value stands in an equation, and open
	// that the equations leave the dimension of an unknown open.
	absent, open bool
	// rule is what a solution must satisfy and which of several is taken, and
	// args are the slots that it chooses from: roots in symbols, or the bounds of
	// a search. Again tells that there is something to choose.
	rule  *run.Solve
	args  []run.Slot
	again bool
	// strict tells that no one of several solutions is taken, as for the components of a
	// vector, of which a positive one is as good as any.
	strict bool
	// undefined tells that a solution in symbols has no value with these givens for
	// another reason than the root of a negative number: it divides by 0, though
	// the equations need not.
	undefined bool
	// doubtful tells that the solutions in symbols do not prove that there are no
	// others: one is real and does not satisfy the equations, or has no value for
	// another reason than that there is no such root or angle.
	doubtful bool
	// unproved tells that one has no value, though that proves nothing: the logarithm of a
	// negative number, of which whole powers have a value.
	unproved bool
	// missed tells that a solution in symbols is real and is none: whatever lies as near
	// to it as it may be off does not satisfy the equation.
	missed bool
	// beyond tells that one is too large for a number, or so small that it was taken for 0.
	beyond bool
	// satisfied tells that some solution in symbols satisfies the equations,
	// whatever the conditions.
	satisfied bool
	// lost tells that rounding has left nothing of a solution: it satisfies the equation
	// only for what it is added up from.
	lost bool
	// limits are the bounds that conditions set, once they have been worked out.
	limits *limits
	// turns are how many full turns of an angle from the principal one solutions
	// are listed, and families those that repeat with each turn; nil if none do.
	turns    algebra.Turns
	families *families
	// within is what a search found, if there was one.
	within *run.Searched
	// rearranged is how the equations were solved in symbols. CutShort tells that
	// this took more steps than it may.
	rearranged *algebra.Solution
	cutShort   bool
	// linear is what elimination made of equations that are linear.
	linear run.Linear
	// how is how values were found that no rearrangement gives.
	how string
	// asides are what is said beside the working.
	asides []entry.Said
}

// solution is one solution of the equations: an expression, a slot and a number
// for each unknown.
//
// The working of a solution comes with its root: its steps are shown on the key, and steps and
// value belong to the same one.
type solution struct {
	root   algebra.Root
	slots  []run.Slot
	values []float64
	size   float64 // of what the value of a single unknown is added up from
}

// Solve solves equations for unknowns, which become names of the worksheet.
//
// Lists and vectors are taken apart first, and come back here by their elements and components.
func Solve(l *eval.Line, s *syntax.Solve) {
	if listWritten(l, s) || ofVectors(l, s) {
		return
	}
	for i, d := range ofNumbers(l, s, false) {
		if d.Slot != run.NoSlot {
			l.GivenAgain(d.Name, s.Unknowns[i].NameAt, true)
			l.Settle(d)
		}
	}
}

// ofNumbers are the definitions of the unknowns of a solve without vectors, which are lists
// where the equations hold some.
//
// Components of vectors come here as well, each of which may be a list.
func ofNumbers(l *eval.Line, s *syntax.Solve, strict bool) []*plan.Def {
	if of := listsOf(l, s); len(of) > 0 {
		return byElements(l, s, of, strict)
	}
	return solved(l, s, strict)
}

// solved are the definitions of the unknowns of a solve. Those without a value have
// failed.
func solved(l *eval.Line, s *syntax.Solve, strict bool) []*plan.Def {
	v := &solving{Line: l, s: s, strict: strict}
	for _, u := range s.Unknowns {
		if !l.MayDefine(u.Name, u.NameAt, plan.Quantity) {
			return nil
		}
		v.defs = append(v.defs, &plan.Def{Name: u.Name, Kind: plan.Quantity, Slot: run.NoSlot})
	}
	needs := v.solve()
	for _, d := range v.defs {
		if d.Slot == run.NoSlot {
			l.Fail(d, needs)
		}
	}
	return v.defs
}

// single tells whether there is one equation.
func (v *solving) single() bool { return len(v.s.Equations) == 1 }

// solve works the unknowns out. It returns the failed definition that an
// equation needs, or nil.
func (v *solving) solve() *plan.Def {
	needs, ok := v.posed()
	if !ok {
		return needs
	}
	all, said := v.bySymbols()
	if !said {
		all, said = v.leftOut(all)
	}
	if !said {
		v.choose(all)
	}
	return nil
}

// bySymbols are the solutions that the equations have in symbols. Where those are not all,
// it searches, and has said what there is to say.
//
// A solution in symbols comes first, since it is exact, shows how it was found, and can be
// worked out again with other givens. What it can't settle, units that don't cancel as written,
// is tried once more in base units before a search is.
func (v *solving) bySymbols() (all []solution, said bool) {
	v.openedUp()
	done, sure := v.inSteps()
	if !sure && (!v.single() || !v.cancels()) {
		v.search()
	}
	if done || !sure || v.absent && v.inSymbols() {
		return nil, true
	}
	if v.families = v.repeated(); v.families != nil && !v.turned() {
		return nil, true
	}
	all = v.workedOut(v.inForm())
	if len(all) > 0 || v.satisfied || !v.doubtful && !v.undefined || !v.inOneUnit() {
		return all, false
	}
	if done, sure = v.inSteps(); sure && !done {
		all = v.workedOut(v.inForm())
	}
	return all, done
}

// leftOut adds the solutions that those in symbols leave out, where they repeat otherwise
// than by full turns, or rounding hides them.
//
// The gravest fault here would be to say no solution where there is one. So whenever symbols
// end without a solution and without a proof, a search looks again; and where they have lost
// digits, it looks for better ones.
func (v *solving) leftOut(all []solution) (_ []solution, said bool) {
	if v.single() && v.rearranged.Repeats && !v.absent && !v.failing() && (v.satisfied || v.doubtful) {
		if len(all) == 0 && v.periodic() || v.families == nil && v.unevenTurns(all) {
			return nil, true
		}
	}
	if len(all) == 0 && !v.satisfied && (v.doubtful || v.missed) && !v.absent && !v.failing() && !v.partWithoutValue() {
		if v.single() && v.cancels() {
			return nil, true
		}
		all = v.hidden()
	}
	if len(all) == 0 && !v.satisfied && !v.absent && !v.failing() && v.agrees() {
		return nil, true
	}
	if len(all) == 0 && (!v.satisfied || len(v.s.Where) > 0 && v.rooted()) && !v.doubtful && !v.absent && !v.failing() {
		all = v.contradicted(nil)
	}
	if !v.single() && len(all) > 0 && v.linear.Rank != run.OneSolution && !v.absent && !v.failing() && v.dividedByZero() {
		if all = v.contradicted(all); v.rearranged != nil {
			v.aside(finding.Searched, entry.Words("Put into each other, the equations divide by 0 here: there may be other solutions."), "")
		}
	}
	if v.single() && len(all) > 0 && v.unproved && v.rearranged != nil && !v.rearranged.Repeats && !v.absent && !v.failing() {
		all = v.contradicted(all)
	}
	if v.lost && !v.failing() {
		if found := v.hidden(); len(found) > 0 {
			all = found
		}
	}
	return all, false
}

// failing tells whether something found keeps the line from having a value.
func (v *solving) failing() bool {
	worst, some := finding.Worst(v.Entry.Findings)
	return some && worst.Fails()
}

const (
	// rearranging is which part of a line's budget may be spent on solving equations
	// in symbols: the rest is left for a search.
	rearranging = 4
	// rearrangingLinear is which part that is where elimination gives the values,
	// and mostInSymbols how many unknowns are tried then: more make no working that
	// can be read.
	rearrangingLinear, mostInSymbols = 512, 6
)

// openedUp writes the functions in the equations out.
//
// Solving must reach the unknown within a call: F(x) = 3 N for x, where F is a function of the
// page.
func (v *solving) openedUp() {
	v.opened = make([]algebra.Equation, len(v.equations))
	for i, e := range v.equations {
		v.opened[i] = algebra.Equation{Left: v.Opened(e.Left, v.Entry.Line, v.unknowns...), Right: v.Opened(e.Right, v.Entry.Line, v.unknowns...)}
	}
}

// inSteps solves the equations in symbols. It tells whether all is said, and whether
// the solutions in symbols are all.
func (v *solving) inSteps() (said, sure bool) {
	if !v.rearrange() {
		return false, false
	}
	return v.leftOver()
}

// inOneUnit writes one equation with its quantities in base units, where these are in
// several units: 1 m and 100 cm cancel then. It forgets what was found before; false if
// nothing changes.
//
// Only what could not be settled as it is written is: a reader knows 36 km/h better.
func (v *solving) inOneUnit() bool {
	if !v.single() || v.absent || v.failing() {
		return false
	}
	in, changed := v.opened[0].InBaseUnits()
	if changed {
		v.opened[0], v.undefined, v.doubtful, v.lost = in, false, false, false
		v.beyond = false
		v.args, v.rule.Sizes = nil, nil
	}
	return changed
}

// rearrange solves the equations in symbols, as far as that can be done.
//
// A search needs steps too, and must not find them spent: so only a part of the line's budget
// goes into symbols, and a very small one where elimination has the values already.
func (v *solving) rearrange() bool {
	v.Doing("rearranging for "+writing.List(v.unknowns, "and"), v.s.Unknowns[0].NameAt)
	ok := false
	budget := v.State.Budget
	if !v.absent && !v.open {
		part := int64(rearranging)
		if v.linear.Rank == run.OneSolution {
			if part = rearrangingLinear; len(v.unknowns) > mostInSymbols {
				return false
			}
		}
		budget = budget.Part(part)
		defer v.State.Budget.Join(budget)
	}
	v.rearranged, ok = algebra.Solve(budget, v.opened, v.unknowns, v.turns)
	v.cutShort = budget.Ended() != limit.Going
	return ok && !v.cutShort // some solutions may be missing
}

// inForm lists the solutions in symbols. Of several equations, and of one with conditions or
// a choice asked for, those too that a principal value leaves out, and those some turns away.
//
// Of one equation without a choice, the principal values are enough; a condition may mean any
// of the others, and in a system each may lead to another solution.
func (v *solving) inForm() []solution {
	roots := v.rearranged.Roots
	if d, ok := v.discriminant(); ok && d.Value == 0 {
		// Where roots touch, the formula without its root is the surer one.
		roots = slices.Concat(v.rearranged.Quadratic.Double, roots)
	}
	if v.chosenAmong() || !v.single() {
		for _, r := range v.rearranged.Roots {
			if r.Also != nil {
				roots = append(roots[:len(roots):len(roots)], *r.Also)
			}
			roots = append(roots[:len(roots):len(roots)], r.Turns...)
		}
	}
	if v.families != nil && !v.chosenAmong() {
		roots = slices.Clone(roots)
		for i, r := range roots {
			roots[i] = v.families.nearest(v, r, r.Turns)
		}
	}
	v.again = len(roots) > 1 || len(v.s.Where) > 0
	return asSolutions(roots)
}

// chosenAmong tells whether one equation comes with conditions or a choice, so that
// every solution counts.
//
// Then a root that a principal value leaves out may be the one that is meant.
func (v *solving) chosenAmong() bool {
	return v.single() && (len(v.s.Where) > 0 || v.s.Unknowns[0].Which != syntax.AnyRoot || len(v.s.Unknowns) > 1)
}

// asSolutions are roots as solutions without numbers yet.
func asSolutions(roots []algebra.Root) []solution {
	all := make([]solution, len(roots))
	for i, r := range roots {
		all[i].root = r
	}
	return all
}

// workedOut gives solutions in symbols their numbers, and keeps the real ones
// that satisfy the equations and the conditions.
//
// A root whose leading coefficient is 0 with these givens falls away, and the roots of what is
// left take its place: a*x^2 + b*x + c with a = 0 has the root of b*x + c.
func (v *solving) workedOut(all []solution) []solution {
	var good []solution
	var wrong []finding.Finding
	for i := 0; i < len(all); i++ {
		one, undefined, doubtful := all[i], v.undefined, v.doubtful
		found, ok := v.numbers(&one)
		if !ok && len(one.root.Flat) > 0 {
			if lead := v.Try(one.root.Lead); lead.OK && lead.Value == 0 {
				v.undefined, v.doubtful = undefined, doubtful
				all = append(all, asSolutions(one.root.Flat)...)
			}
		}
		if wrong == nil {
			wrong = found
		}
		if !ok {
			continue
		}
		fits, lacks := v.satisfies(one)
		if also := one.root.Also; !fits && also != nil && v.families != nil && !v.chosenAmong() {
			all = append(all, solution{root: v.families.nearest(v, *also, one.root.Turns)})
		}
		if v.judged(one, fits, lacks) {
			good = append(good, one)
		}
	}
	if len(good) == 0 && len(v.Entry.Findings) == 0 {
		v.Find(wrong...)
	}
	return v.allowed(good)
}

// judged tells whether a solution in symbols counts, which fits the equations or not, or
// lacks digits to tell; and notes what it says of others that there may be.
//
// To fit the equations is not enough where digits are lost on the way, and not to fit is no
// proof: three things can be said of a solution, that it is one, that it is none, and that
// these numbers can't tell. Only the second, for all of them, is a proof that there is no
// solution.
func (v *solving) judged(one solution, fits, lacks bool) (good bool) {
	misses := !v.rearranged.Repeats && v.misses(one, fits)
	switch {
	case fits && !misses:
		v.satisfied = true
		v.doubtful = v.doubtful || v.rearranged.Repeats && !v.single() // other turns may fit as well
		v.lost = v.lost || v.loses(one)
		return true
	case !lacks && misses:
		v.missed = true
	case lacks && !v.single():
		v.doubtful = true
	case lacks && one.values[0] == 0 && v.Planner.Program.Main.Instrs[one.slots[0]].Op == ops.Exp:
		v.doubtful, v.beyond = true, true
	case !lacks, v.rearranged.Repeats, one.size > sure*math.Abs(one.values[0]), v.begins(one):
		v.doubtful = true
	}
	return false
}

// numbers works one solution out; false if it has no real value. What keeps it
// from being planned is returned.
//
// Why it has no value matters: a square root of a negative number is a proof, a division by 0
// or a number out of range is none.
func (v *solving) numbers(one *solution) ([]finding.Finding, bool) {
	for i, x := range one.root.X {
		c := v.Eval(x, eval.Want{Silent: true})
		if c.Slot == run.NoSlot {
			v.doubtful = true
			return c.Findings, false
		}
		if v.single() || v.statics[i].Open == 0 {
			v.Planner.SettleTo(c.Slot, v.statics[i].Dim)
		}
		one.slots = append(one.slots, c.Slot)
	}
	v.args = append(v.args, one.slots...)
	if v.single() {
		one.size = v.Planner.Program.AddedUp(&v.State, one.slots[0])
		v.rule.Sizes = append(v.rule.Sizes, one.size)
	}
	for _, s := range one.slots {
		x, ok := v.State.Value(s)
		if !ok {
			failed := v.State.Failure(s)
			if failed.Kind == ops.DivZero && v.leads(one.root) {
				return nil, false
			}
			v.undefined = v.undefined || failed.Kind != ops.NoReal
			v.beyond = v.beyond || failed.Kind == ops.OutOfRange || failed.Kind == ops.Grown
			v.unproved = v.unproved || failed.Kind == ops.NoReal && !v.provedNone(one.root, failed)
			v.doubtful = v.doubtful || v.undefined || v.unproved
			return nil, false
		}
		one.values = append(one.values, x)
	}
	return nil, true
}

// loses tells whether rounding has left nothing of the solution of one equation, as
// where a root is nearly as large as what it is taken from; of linear ones, whether it
// has left less than of the elimination, which takes decimals as they are written.
//
// A root that is a millionth of what it is the difference of has six figures fewer than its
// terms. The exact elimination of linear equations shows it by its own value.
func (v *solving) loses(one solution) bool {
	for i, x := range v.linear.X {
		if math.Abs(one.values[i]-x) > run.Near*math.Abs(x) && x != 0 {
			return true
		}
	}
	if !v.single() || v.absent || math.Abs(one.values[0]) > run.Near*one.size {
		return false
	}
	alone := run.Candidate{X: one.values, Size: math.Abs(one.values[0])}
	good, _ := v.Planner.Program.PutBack(&v.State, v.rule, alone)
	return !good
}
