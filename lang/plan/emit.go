package plan

import (
	"steelyard/lang/ops"
	"steelyard/lang/run"
)

// EmitFit adds the parameters of a fit to the main code, each with what is known of it;
// the readings are slots, and the start values of a model.
func (p *Planner) EmitFit(f *run.Fit, args []run.Slot, params []run.Static) []run.Slot {
	main := &p.Program.Main
	first := run.Slot(len(main.Args))
	main.Args = append(main.Args, args...)
	p.Program.Fits = append(p.Program.Fits, f)
	out := make([]run.Slot, len(params))
	for i, st := range params {
		out[i] = p.Emit(run.Instr{Op: ops.Fit, A: run.Slot(len(p.Program.Fits) - 1), B: first, C: run.Slot(len(args)), K: float64(i)}, st)
	}
	return out
}

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
