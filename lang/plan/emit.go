package plan

import (
	"steelyard/lang/ops"
	"steelyard/lang/run"
)

// EmitAt adds an operation on a curve to the main code: ops.Call and ops.Slope at
// one slot, ops.Area between two.
func (p *Planner) EmitAt(op ops.Op, fn int, args []run.Slot, st run.Static) run.Slot {
	main := &p.Program.Main
	first := run.Slot(len(main.Args))
	main.Args = append(main.Args, args...)
	return p.Emit(run.Instr{Op: op, A: run.Slot(fn), B: first, C: run.Slot(len(args))}, st)
}

// EmitSolve adds an ops.Solve to the main code: the candidates, or the bounds of
// the search, are slots.
func (p *Planner) EmitSolve(s *run.Solve, args []run.Slot, st run.Static) run.Slot {
	main := &p.Program.Main
	first := run.Slot(len(main.Args))
	main.Args = append(main.Args, args...)
	p.Program.Solves = append(p.Program.Solves, s)
	return p.Emit(run.Instr{Op: ops.Solve, A: run.Slot(len(p.Program.Solves) - 1), B: first, C: run.Slot(len(args))}, st)
}
