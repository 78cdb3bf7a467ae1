package eval

import (
	"slices"

	"steelyard/lang/ops"
	"steelyard/lang/run"
)

// Rerun runs the plan of the whole worksheet with other numbers in some slots.
func (l *Line) Rerun(replaced map[run.Slot]float64) *run.State {
	p := l.Planner.Program
	p.Main.Instrs = slices.Clone(p.Main.Instrs)
	for slot, v := range replaced {
		p.Main.Instrs[slot] = run.Instr{Op: ops.Const, K: v}
	}
	st := &run.State{Budget: l.State.Budget}
	p.Run(st, 0, run.Slot(len(p.Main.Instrs)))
	return st
}
