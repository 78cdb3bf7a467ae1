package session

import (
	"math"
	"strings"

	"steelyard/lang/algebra"
	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
)

// cancelsOut tells whether the symbols without a value that an equation holds
// are gone from all of its roots, so that these have values.
func (w *work) cancelsOut(solution *algebra.Solution) bool {
	for _, r := range solution.Roots {
		if c := w.Try(r.X); c.Slot == run.NoSlot || c.Static.Absent {
			return false
		}
	}
	return true
}

// systemWithoutNumbers answers with the rearranged equations and their units where
// a symbol has no value yet; false if the solution does not depend on it.
func (w *work) systemWithoutNumbers(s *syntax.Solve, r algebra.SystemRoot, statics []run.Static, defs []*plan.Def) bool {
	slots := make([]plan.Compiled, len(r.X))
	absent := false
	for i, x := range r.X {
		if slots[i] = w.Eval(x, Want{Silent: true}).Compiled; slots[i].Slot == run.NoSlot {
			return false
		}
		absent = absent || slots[i].Static.Absent
	}
	if !absent {
		return false
	}
	w.found.solution = &algebra.Solution{Steps: r.Steps}
	var rows entry.Lines
	for i, u := range s.Unknowns {
		c := slots[i]
		if statics[i].Open == 0 {
			c.Static = w.planner.SettleTo(c.Slot, statics[i].Dim)
		}
		w.planner.Program.Main.Statics[c.Slot].Absent = true
		unit := w.solutionUnit(u, candidate{form: c})
		defs[i].Slot, defs[i].Unit = c.Slot, unit
		w.root(algebra.Root{X: r.X[i]})
		rows = append(rows, u.Name+" = "+algebra.Display(r.X[i])+", in "+unit.Screen())
	}
	w.e.Outcome = rows
	return true
}

// standIns are numbers that stand in for symbols without a value, while a root
// that does not depend on them is put back into its equation.
var standIns = []float64{1.37, 0.61, 2.9}

// satisfiesAnyway puts a value back into an equation that holds symbols without
// a value: what is left must be nothing whatever they are.
func (w *work) satisfiesAnyway(d, size run.Slot) bool {
	for i := range standIns {
		replaced := map[run.Slot]float64{}
		for k, def := range w.planner.Names.All() {
			if def.Kind == plan.Symbol && def.Slot != run.NoSlot {
				replaced[def.Slot] = standIns[(i+k)%len(standIns)]
			}
		}
		st := w.rerun(replaced)
		rest, ok1 := st.Value(d)
		most, ok2 := st.Value(size)
		if !ok1 || !ok2 || math.Abs(rest) > remainder*most {
			return false
		}
	}
	return true
}

// findOnce adds a finding unless one like it says the same of another place in
// the line.
func (w *work) findOnce(f finding.Finding) {
	for _, g := range w.e.Findings {
		if g.ID == f.ID && g.Message == f.Message {
			return
		}
	}
	if f.ID == finding.UnknownName && f.Hint != "" {
		name := strings.TrimSuffix(strings.TrimPrefix(f.Message, "No line above gives "), ".")
		f.Hint += " If it cancels, its unit is enough: `let " + name + " in …`."
	}
	w.find(f)
}
