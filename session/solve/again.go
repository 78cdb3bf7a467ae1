package solve

import (
	"slices"

	"steelyard/lang/ops"
	"steelyard/lang/run"
)

// rerun runs the plan of the whole worksheet with other numbers in some slots.
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
