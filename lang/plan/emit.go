package plan

import (
	"steelyard/lang/ops"
	"steelyard/lang/run"
)

// listed adds an instruction to the main code whose operands are a list of slots.
func (p *Planner) listed(in run.Instr, args []run.Slot, st run.Static) run.Slot {
	main := &p.Program.Main
	in.B, in.C = run.Slot(len(main.Args)), run.Slot(len(args))
	main.Args = append(main.Args, args...)
	return p.Emit(in, st)
}

// EmitFit adds the parameters of a fit to the main code, each with what is known of it;
// the readings are slots, and the start values of a model.
func (p *Planner) EmitFit(f *run.Fit, args []run.Slot, params []run.Static) []run.Slot {
	fit := run.Slot(len(p.Program.Fits))
	p.Program.Fits = append(p.Program.Fits, f)
	out := make([]run.Slot, len(params))
	for i, st := range params {
		out[i] = p.listed(run.Instr{Op: ops.Fit, A: fit, K: float64(i)}, args, st)
	}
	return out
}

// EmitCall adds a call of a function with some slots to the main code.
func (p *Planner) EmitCall(fn int, args []run.Slot, st run.Static) run.Slot {
	return p.listed(run.Instr{Op: ops.Call, A: run.Slot(fn)}, args, st)
}

// EmitSolve adds an ops.Solve to the main code: the candidates, or the bounds of
// the search, are slots.
func (p *Planner) EmitSolve(s *run.Solve, args []run.Slot, st run.Static) run.Slot {
	p.Program.Solves = append(p.Program.Solves, s)
	return p.listed(run.Instr{Op: ops.Solve, A: run.Slot(len(p.Program.Solves) - 1)}, args, st)
}
