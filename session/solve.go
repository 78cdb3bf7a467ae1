package session

import (
	"math"
	"sort"

	"steelyard/lang/algebra"
	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// remainder is how much of the greatest term may be left when a solution is put
// back into its equation.
const remainder = 1e-9

// solve rearranges an equation for an unknown and works it out.
func (w *work) solve(s *syntax.Solve) {
	defs := make([]*plan.Def, len(s.Unknowns))
	for i, u := range s.Unknowns {
		defs[i] = &plan.Def{Name: u.Name, Kind: plan.Quantity, Slot: run.NoSlot}
		if !w.mayDefine(u.Name, u.NameAt, plan.Quantity) {
			return
		}
	}
	root := w.solvedOf(s, defs)
	for i, d := range defs {
		if d.Slot != run.NoSlot {
			w.givenAgain(d.Name, s.Unknowns[i].NameAt)
		}
		if d.Slot == run.NoSlot {
			w.fail(d, root)
		} else {
			w.settleDef(d)
		}
	}
}

// solvedOf solves equations of quantities.
func (w *work) solvedOf(s *syntax.Solve, defs []*plan.Def) *plan.Def {
	if f, bad := w.formulasEquated(s); bad {
		w.find(f)
		return nil
	}
	return w.solved(s, defs)
}

// solved solves one equation, and gives the unknowns their slots. It returns
// the failed definition that the equation needs, or nil.
func (w *work) solved(s *syntax.Solve, defs []*plan.Def) *plan.Def {
	if len(s.Equations) > 1 {
		return w.system(s, defs)
	}
	left, right, ok := w.equation(s)
	if !ok {
		return nil
	}
	unknown, ok := w.unknown(s, left, right)
	if !ok {
		return nil
	}
	eq := w.planner.CompileEquation(left, right, w.e.Text, unknown)
	for _, f := range eq.Findings {
		if f.At.To == 0 { // within a formula that is written elsewhere
			f.At = s.Equations[0].Left.Span()
		}
		w.findOnce(f)
	}
	w.uses(eq.Uses, s.Equations[0].Left.Span())
	if !eq.OK {
		return eq.Root
	}
	w.CatchUp()
	if !w.unknownUnits(s, func(int) run.Static { return eq.Unknown }) {
		return nil
	}
	w.found.unknown = unknown
	rearrange := algebra.Solve
	if len(s.Where) > 0 {
		rearrange = algebra.SolveTurns
	}
	solution, ok := rearrange(w.opened(left, 0), w.opened(right, 0), unknown)
	if !ok && !eq.Absent && eq.Unknown.Open == 0 {
		w.search(s, left, right, eq)
		w.choose(s, w.searched, defs, eq)
		return nil
	}
	if !ok {
		w.find(finding.New(finding.NotSolved, s.Unknowns[0].NameAt, "This equation can't be rearranged for "+unknown+" here.",
			"This version undoes operations one by one, and solves linear and quadratic equations."))
		return nil
	}
	w.found.solution = solution
	if eq.Absent && !w.cancelsOut(solution) {
		w.withoutNumbers(s, solution, defs, eq)
		return nil
	}
	all := w.candidates(s, roots(s, solution, w.bounded(s)), eq)
	if worst, some := finding.Worst(w.e.Findings); len(all) == 0 && len(s.Where) > 0 && !(some && worst.Fails()) {
		w.rooted = nil
		all = w.candidates(s, roots(s, solution, true), eq)
	}
	w.choose(s, all, defs, eq)
	return nil
}

// candidate is a root that was put back into the equation and satisfies it.
type candidate struct {
	root  algebra.Root
	slot  run.Slot
	value float64
	form  plan.Compiled
	// size is that of what the value is added up from: what is smaller than it
	// by nine powers of ten is a rounding remainder.
	size float64
}

// candidates works the roots out, and keeps the real ones that satisfy the
// equation and the conditions.
func (w *work) candidates(s *syntax.Solve, all []algebra.Root, eq plan.Planned) []candidate {
	var out []candidate
	if len(all) > 1 || len(s.Where) > 0 {
		w.rule = w.newRule(s, eq)
	}
	for _, r := range all {
		c := w.Eval(r.X, Want{Silent: true}).Compiled
		if c.Slot == run.NoSlot {
			continue
		}
		c.Static = w.planner.SettleTo(c.Slot, eq.Unknown.Dim)
		w.rooted = append(w.rooted, c.Slot)
		v, ok := w.state.Value(c.Slot)
		if !ok || !w.satisfies(eq, c.Slot) {
			continue
		}
		size := w.planner.Program.AddedUp(&w.state, c.Slot, w.mark.plan.Start())
		if w.rule != nil {
			w.rule.Scale = math.Max(w.rule.Scale, size)
		}
		twice := false
		for _, o := range out {
			twice = twice || math.Abs(o.value-v) <= remainder*math.Max(math.Abs(o.value), math.Abs(v))
		}
		if !twice {
			out = append(out, candidate{root: r, slot: c.Slot, value: v, form: c, size: size})
		}
	}
	return w.within(s, out)
}

// roots lists the roots; with conditions, or a choice asked for, those too that
// a principal value leaves out, and if turns is set those some turns away.
func roots(s *syntax.Solve, solution *algebra.Solution, turns bool) []algebra.Root {
	all := solution.Roots
	if len(s.Where) == 0 && s.Unknowns[0].Which == syntax.AnyRoot && len(s.Unknowns) == 1 {
		return all
	}
	for _, r := range solution.Roots {
		if r.Also != nil {
			all = append(all[:len(all):len(all)], algebra.Root{X: r.Also, Steps: r.Steps})
		}
		for _, x := range r.Turns {
			if turns {
				all = append(all[:len(all):len(all)], algebra.Root{X: x, Steps: r.Steps})
			}
		}
	}
	return all
}

// bounded tells whether conditions bound the unknown on both sides.
func (w *work) bounded(s *syntax.Solve) bool {
	below, above := false, false
	for _, c := range s.Where {
		op := c.Op
		if n, ok := c.Left.(*syntax.Name); !ok || n.Name != w.found.unknown {
			if n, ok = c.Right.(*syntax.Name); !ok || n.Name != w.found.unknown {
				continue
			}
			op = turned(op)
		}
		if op == syntax.Less || op == syntax.AtMost {
			above = true
		} else {
			below = true
		}
	}
	return below && above
}

// satisfies puts a value back into the equation.
func (w *work) satisfies(eq plan.Planned, at run.Slot) bool {
	d, size := w.planner.EmitCall(eq.Difference, at), w.planner.EmitCall(eq.Size, at)
	w.CatchUp()
	if eq.Absent {
		return w.satisfiesAnyway(d, size)
	}
	rest, ok1 := w.state.Value(d)
	most, ok2 := w.state.Value(size)
	return ok1 && ok2 && math.Abs(rest) <= remainder*most
}

// within keeps the candidates that satisfy the conditions. One within a
// thousand-millionth of a bound counts as on it.
func (w *work) within(s *syntax.Solve, all []candidate) []candidate {
	var out []candidate
	for _, c := range all {
		good := true
		for _, cond := range s.Where {
			l, ok1 := w.side(cond.Left, s, c)
			r, ok2 := w.side(cond.Right, s, c)
			if !ok1 || !ok2 {
				return nil
			}
			margin := remainder * math.Max(math.Max(math.Abs(l), math.Abs(r)), c.size)
			switch cond.Op {
			case syntax.Less:
				good = good && l < r-margin
			case syntax.Greater:
				good = good && l > r+margin
			default:
				good = good && compareHolds(cond.Op, l, r, margin)
			}
		}
		if good {
			out = append(out, c)
		}
	}
	return out
}

// side works out one side of a condition for a candidate.
func (w *work) side(x syntax.Expr, s *syntax.Solve, c candidate) (float64, bool) {
	v, _, ok := w.sideSlot(x, s, c)
	return v, ok
}

// sideSlot is side, with the slot of what does not hold the unknown.
func (w *work) sideSlot(x syntax.Expr, s *syntax.Solve, c candidate) (float64, run.Slot, bool) {
	if n, ok := x.(*syntax.Name); ok && (isUnknown(s, n.Name) || n.Name == w.found.unknown) {
		return c.value, run.NoSlot, true
	}
	at := w.Eval(x, Want{Silent: true})
	for _, f := range at.Findings {
		known := false
		for _, g := range w.e.Findings {
			known = known || g.ID == f.ID && g.At == f.At
		}
		if !known {
			w.find(f)
		}
	}
	if at.Slot == run.NoSlot || !w.HasValue(at.Slot) {
		return 0, run.NoSlot, false
	}
	w.uses(at.Uses, x.Span())
	st := w.planner.SettleTo(at.Slot, c.form.Static.Dim)
	if st.Dim != c.form.Static.Dim {
		w.find(finding.New(finding.UnlikeDimensions, x.Span(), "The bound is "+plan.Words(st)+"; "+w.found.unknown+" is "+plan.Words(c.form.Static)+".", "Give the bound in a unit of "+w.found.unknown+"."))
		return 0, run.NoSlot, false
	}
	return w.state.Vals[at.Slot], at.Slot, true
}

// choose gives the unknowns their values by the rules for several roots.
func (w *work) choose(s *syntax.Solve, all []candidate, defs []*plan.Def, eq plan.Planned) {
	sort.SliceStable(all, func(i, j int) bool { return all[i].value < all[j].value })
	at := s.Unknowns[0].NameAt
	switch {
	case len(all) == 0 && w.leftOpen():
		return
	case len(all) == 0:
		if worst, some := finding.Worst(w.e.Findings); !some || !worst.Fails() {
			w.find(w.noSolution(s))
		}
		return
	case len(s.Unknowns) > 1:
		if len(all) != len(s.Unknowns) {
			w.find(finding.New(finding.WhichRoot, at, "The equation has "+itoa(len(all))+" solution"+plural(len(all))+": "+w.list(s, all)+".", "Ask for as many names."))
			return
		}
		for i := range all {
			w.keepRule(&all[i], run.NthRoot, i, len(all))
			w.take(s.Unknowns[i], all[i], defs[i])
		}
		return
	}
	chosen, note := w.pick(s.Unknowns[0], all)
	if chosen < 0 {
		name := s.Unknowns[0].Name
		w.find(finding.New(finding.WhichRoot, at, "Several values of "+name+" satisfy the equation: "+w.list(s, all)+".",
			"Say which: for the greater "+name+", for the smaller "+name+", where "+name+" > …, or for "+name+"1, "+name+"2."))
		return
	}
	w.keepRule(&all[chosen], choiceOf[s.Unknowns[0].Which], 0, 0)
	w.take(s.Unknowns[0], all[chosen], defs[0])
	if note == "" && all[chosen].root.Also != nil {
		note = w.alsoNote(s.Unknowns[0], all[chosen])
	}
	if note != "" {
		w.find(finding.New(finding.OtherRoot, at, note, ""))
	}
}

// alsoNote names the solution that the principal value of an angle leaves out.
func (w *work) alsoNote(u syntax.Unknown, c candidate) string {
	also := w.Try(c.root.Also)
	if !also.OK {
		return ""
	}
	unit := w.solutionUnit(u, c)
	return "The principal value is taken; " + units.FormatQuantity(unit.FromSI(also.Value), unit, w.set.figures, w.set.rounding, units.Screen) +
		" satisfies the equation too, and so does each full turn of the angle."
}

// leftOpen makes an error of what a search could not settle, where it found
// nothing else.
func (w *work) leftOpen() bool {
	open := false
	for i := range w.e.Findings {
		if f := &w.e.Findings[i]; f.ID == finding.NotSettled {
			f.Severity, open = finding.Error, true
		}
	}
	return open
}

func plural(n int) string {
	if n == 1 {
		return ""
	}
	return "s"
}

// pick chooses among several roots: the one that is asked; for a square, the
// positive one; the only positive one; else none. The note says what else
// satisfies the equation.
func (w *work) pick(u syntax.Unknown, all []candidate) (int, string) {
	switch {
	case len(all) == 1:
		return 0, ""
	case u.Which == syntax.GreatestRoot:
		return len(all) - 1, ""
	case u.Which == syntax.LeastRoot:
		return 0, ""
	}
	positive, count := -1, 0
	for i, c := range all {
		if c.value > 0 {
			positive, count = i, count+1
		}
	}
	if count != 1 {
		return -1, ""
	}
	var others []candidate
	for i := range all {
		if i != positive {
			others = append(others, all[i])
		}
	}
	one := syntax.Solve{Unknowns: []syntax.Unknown{u}}
	return positive, "The positive solution is taken; " + w.list(&one, others) + " satisfies the equation too."
}

// maxListed is how many of several solutions are named.
const maxListed = 6

// list names the values of candidates in the unit asked for.
func (w *work) list(s *syntax.Solve, all []candidate) string {
	text := ""
	for i, c := range all {
		unit := w.solutionUnit(s.Unknowns[0], c)
		if i == maxListed {
			text += " and more"
			break
		}
		if i > 0 {
			text += " and "
		}
		text += units.FormatQuantity(unit.FromSI(c.value), unit, w.set.figures, w.set.rounding, units.Screen)
	}
	return text
}
