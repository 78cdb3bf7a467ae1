package solve

import (
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/typeset"
	"steelyard/session/entry"
	"steelyard/session/eval"
)

// inSymbols answers with the equations rearranged and their units where a symbol
// has no value yet; false if no solution depends on it.
func (v *solving) inSymbols() bool {
	all := v.inForm()
	depends := false
	for _, one := range all {
		for _, x := range one.root.X {
			c := v.Try(x)
			depends = depends || c.Slot == run.NoSlot || c.Static.Absent
		}
	}
	if !depends {
		return false
	}
	one := all[0]
	var rows entry.Lines
	for i, x := range one.root.X {
		c := v.Eval(x, eval.Want{Silent: true})
		if c.Slot == run.NoSlot {
			return true
		}
		if v.statics[i].Open == 0 {
			v.Planner.SettleTo(c.Slot, v.statics[i].Dim)
		}
		v.Planner.Program.Main.Statics[c.Slot].Absent = true
		unit := v.solutionUnit(i, v.Planner.Static(c.Slot))
		v.defs[i].Slot, v.defs[i].Unit = c.Slot, unit
		v.workedFrom(one, i)
		rows = append(rows, v.s.Unknowns[i].Name+" = "+typeset.Text(x)+", in "+unit.Screen())
	}
	v.Entry.Outcome = rows
	return true
}

// standIns are numbers that stand in for symbols without a value, while a root
// that does not depend on them is put back into its equation.
var standIns = []float64{1.37, 0.61, 2.9}

// satisfiesAnyway puts values back into equations that hold symbols without a
// value: what is left must be nothing whatever they are.
func (v *solving) satisfiesAnyway(one solution) bool {
	for i := range standIns {
		replaced := map[run.Slot]float64{}
		for k, def := range v.Planner.Names.All() {
			if def.Kind == plan.Symbol && def.Slot != run.NoSlot {
				replaced[def.Slot] = standIns[(i+k)%len(standIns)]
			}
		}
		if good, _ := v.Planner.Program.PutBack(v.Rerun(replaced), v.rule, one.candidate()); !good {
			return false
		}
	}
	return true
}

// withUnitEnough says of a name without a value when its unit would be enough.
func withUnitEnough(f finding.Finding) finding.Finding {
	name := strings.TrimSuffix(strings.TrimPrefix(f.Message, "No line above defines "), ".")
	f.Hint += " If it cancels, its unit is enough: `let " + name + " in …`."
	return f
}
