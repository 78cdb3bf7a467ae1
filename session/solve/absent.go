package solve

import (
	"slices"

	"math/rand/v2"
	"strings"

	"steelyard/lang/algebra"
	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/eval"
)

// inSymbols answers with the equations rearranged and their units where a symbol
// has no value yet; false if no solution depends on it. As with numbers, the only
// solution is taken, or the only positive one; the others are told.
//
// For instance solve v^2 = 2*a*s for v with a and s only declared by let. The units are right
// for every value that they may get, and the line shows the formula with the unit of its
// result.
func (v *solving) inSymbols() bool {
	all := asSolutions(v.rearranged.Roots)
	depends := false
	for i := range all {
		for _, x := range all[i].root.X {
			c := v.Eval(x, eval.Want{Silent: true})
			depends = depends || c.Slot == run.NoSlot || c.Static.Absent
			all[i].slots = append(all[i].slots, c.Slot)
		}
	}
	if !depends {
		return false
	}
	all = v.whateverValues(all)
	chosen := v.rule.Choose(valuesOf(all))
	switch {
	case len(all) == 0:
		v.Find(finding.New(finding.NotSolved, v.s.Unknowns[0].NameAt, "No solution was found with the values that were tried for the symbols.", "Give the symbols values in lines above."))
	case v.chosenAmong() || !v.single() && len(v.s.Where) > 0:
		v.Find(finding.New(finding.WhichRoot, v.s.Unknowns[0].NameAt, "Which solution is meant depends on values that are missing: "+v.inText(all).String()+".", "Give the symbols values in lines above, or leave the choice out."))
	case chosen < 0:
		v.Find(finding.New(finding.WhichRoot, v.s.Unknowns[0].NameAt, "There are several solutions: "+v.inText(all).String()+".", "Give the symbols values in lines above, and say which one is meant."))
	default:
		v.takeSymbols(all[chosen])
		v.othersInSymbols(all[chosen], append(all[:chosen:chosen], all[chosen+1:]...))
	}
	return true
}

// takeSymbols makes the unknowns what a solution in symbols says.
func (v *solving) takeSymbols(one solution) {
	var rows entry.Lines
	for i, slot := range one.slots {
		if slot == run.NoSlot {
			return
		}
		if v.statics[i].Open == 0 {
			v.Planner.SettleTo(slot, v.statics[i].Dim)
		}
		v.Planner.Program.Main.Statics[slot].Absent = true
		unit := v.solutionUnit(i, v.Planner.Static(slot))
		v.defs[i].Slot, v.defs[i].Unit = slot, unit
		v.workedFrom(one, i)
		rows = append(rows, entry.Say("… = …, in …", entry.Name(v.s.Unknowns[i].Name), entry.Math(one.root.X[i]), entry.Words(unit.Screen())))
	}
	v.Entry.Outcome = rows
}

// othersInSymbols tells of the solutions beside the one that is taken, and of those
// that come again with each turn of an angle.
//
// Which is positive was found with numbers in the place of the symbols, which the note says.
func (v *solving) othersInSymbols(one solution, others []solution) {
	var note entry.Said
	switch family, also := familyText(one.root), one.root.Also; {
	case family != nil:
		note = entry.Say("… is taken; infinitely many values solve the equation: …, with any whole number ….", v.inText([]solution{one}), family, entry.Name("n"))
	case len(others) > 0:
		solve := " solves the equation too."
		if len(others) > 1 {
			solve = " solve the equation too."
		}
		note = entry.Say("The solution that is positive for positive symbols is taken; …"+solve, v.inText(others))
	case v.rearranged.Repeats && also != nil:
		note = entry.Say("… is taken; … = … solves the equation too, and more come with each turn of the angle.", v.inText([]solution{one}), entry.Name(v.unknowns[0]), entry.Math(also.X[0]))
	}
	if note != nil {
		v.aside(finding.OtherRoot, note, "")
	}
}

// familyText writes the solutions that repeat evenly: a·asin(c) + n·(2·π·a).
//
// The period is itself an expression, 2*π*a, where the angle is divided by one: it gets
// brackets behind n, as n·(2·π·a).
func familyText(r algebra.Root) entry.Said {
	period, ok := r.Period()
	if !ok {
		return nil
	}
	again := "… + …·…"
	switch syntax.Unbracket(period).(type) {
	case *syntax.Binary, *syntax.Unary:
		again = "… + …·(…)"
	}
	n, by := &syntax.Name{Name: "n"}, syntax.Unbracket(period)
	first := entry.Say(again, entry.Maths(r.X[0], n, by)...)
	if r.Tangent() {
		return first
	}
	return entry.Say("… and …", first, entry.Say(again, entry.Maths(r.Also.X[0], n, by)...))
}

// inText lists solutions in symbols.
func (v *solving) inText(all []solution) entry.Said {
	var parts []entry.Said
	for _, one := range all {
		var values []entry.Said
		for i, x := range one.root.X {
			values = append(values, entry.Say("… = …", entry.Name(v.unknowns[i]), entry.Math(x)))
		}
		parts = append(parts, entry.Joined(values, ", "))
	}
	return entry.Joined(parts, " and ")
}

// standIns is how many sets of numbers are tried in place of symbols without a
// value.
const standIns = 3

// standIn runs the plan with such numbers, other ones each time and for each symbol,
// positive as those of a problem mostly are.
//
// They are drawn from a fixed seed, between 0.3 and 3.3: the same page is worked out in the
// same way every time, and round numbers, at which terms cancel by chance, are unlikely.
func (v *solving) standIn(time int) *run.State {
	r := rand.New(rand.NewPCG(2, uint64(time)))
	replaced := map[run.Slot]float64{}
	for _, def := range v.Planner.Names.All() {
		if def.Kind == plan.Symbol && def.Slot != run.NoSlot {
			replaced[def.Slot] = float64(300+r.IntN(3000)) / 1000
		}
	}
	return v.rerun(replaced)
}

// whateverValues keeps the solutions that satisfy the equations with some numbers in
// the place of the symbols. Their values are those of the signs that they have with
// all of them.
//
// A root that was brought in by squaring satisfies no equation, whatever the symbols are; one
// that is real for some of the tried values is kept, as the page may mean those.
func (v *solving) whateverValues(all []solution) []solution {
	held := make([]bool, len(all))
	positive := make([]bool, len(all))
	for time := range standIns {
		st := v.standIn(time)
		for i, one := range all {
			values, ok := one.valuesIn(st)
			if good, _ := v.Planner.Program.PutBack(st, v.rule, run.Candidate{X: values}); !ok || !good {
				continue
			}
			above := true
			for _, x := range values {
				above = above && x > 0
			}
			positive[i] = above && (positive[i] || !held[i])
			held[i] = true
		}
	}
	var kept []solution
	for i, one := range all {
		if !held[i] {
			continue
		}
		for range one.root.X {
			one.values = append(one.values, map[bool]float64{true: 1, false: -1}[positive[i]])
		}
		kept = append(kept, one)
	}
	return kept
}

// valuesIn are the numbers of a solution in a state.
func (one solution) valuesIn(st *run.State) ([]float64, bool) {
	values := make([]float64, len(one.slots))
	for i, slot := range one.slots {
		x, ok := st.Value(slot)
		if !ok {
			return values, false
		}
		values[i] = x
	}
	return values, true
}

// satisfiesAnyway puts values back into equations that hold symbols without a
// value: what is left must be nothing whatever they are.
//
// A root in symbols for x is put back with several sets of numbers: by chance it can fit one.
func (v *solving) satisfiesAnyway(one solution) bool {
	for time := range standIns {
		if good, _ := v.Planner.Program.PutBack(v.standIn(time), v.rule, one.candidate()); !good {
			return false
		}
	}
	return true
}

// withUnitEnough says of a name without a value when its unit would be enough.
func withUnitEnough(f finding.Finding) finding.Finding {
	name, unknown := strings.CutPrefix(f.Message, "No line above defines ")
	if unknown {
		f.Hint += " If it cancels, its unit is enough: `let " + strings.TrimSuffix(name, ".") + " in …`."
	}
	return f
}

// rerun runs the plan of the whole worksheet with other numbers in some slots.
//
// The whole program runs again, as a symbol may be used in lines above that the equations need.
func (v *solving) rerun(replaced map[run.Slot]float64) *run.State {
	p := v.Planner.Program
	p.Main.Instrs = slices.Clone(p.Main.Instrs)
	for slot, v := range replaced {
		p.Main.Instrs[slot] = run.Instr{Op: ops.Const, K: v}
	}
	st := &run.State{Budget: v.State.Budget}
	p.Run(st, 0, run.Slot(len(p.Main.Instrs)))
	return st
}
