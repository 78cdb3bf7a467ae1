package plan

import (
	"math"

	"steelyard/lang/ops"
	"steelyard/lang/run"
)

// fastCareful runs single lanes by the faithful program, cut to what the
// outputs need.
type fastCareful struct {
	cut     *run.Cut
	code    run.Code
	outputs []run.Slot
	values  []float64  // the lane's inputs
	from    []run.Slot // the slot of the program that each instruction stands for
	fixed   map[run.Slot]run.Failure
}

// careful cuts the main code down to what varies and what that reads; the rest
// becomes constants.
func (c *fastCutter) careful(outputs []run.Slot, inputs int) *fastCareful {
	f := &fastCareful{values: make([]float64, inputs), outputs: make([]run.Slot, len(outputs)), fixed: map[run.Slot]run.Failure{}}
	moved := make(map[run.Slot]run.Slot)
	put := func(s run.Slot, in run.Instr) {
		moved[s] = run.Slot(len(f.code.Instrs))
		f.code.Instrs = append(f.code.Instrs, in)
		f.from = append(f.from, s)
		if why := c.st.Failure(s); why.Kind != ops.NoFault && !c.varying(s) {
			f.fixed[s] = why
		}
	}
	// A function may load a slot that lies behind every output.
	for _, known := range c.funcs {
		for _, s := range known.loads {
			if _, ok := moved[s]; !ok && int(s) >= len(c.need) {
				put(s, run.Instr{Op: ops.Const, K: c.fixedValue(s)})
			}
		}
	}
	for s := range run.Slot(len(c.need)) {
		if c.need[s] {
			put(s, c.cutInstr(f, s, moved))
		}
	}
	for i, s := range outputs {
		f.outputs[i] = moved[s]
	}
	f.cut = run.NewCut(c.p, &f.code, f.values, moved)
	return f
}

// cutInstr returns an instruction with its operands moved.
func (c *fastCutter) cutInstr(f *fastCareful, s run.Slot, moved map[run.Slot]run.Slot) run.Instr {
	if i, ok := c.input[s]; ok {
		return run.Instr{Op: ops.Param, A: run.Slot(i)}
	}
	if !c.varies[s] {
		return run.Instr{Op: ops.Const, K: c.fixedValue(s)}
	}
	in := c.p.Main.Instrs[s]
	switch {
	case in.Op == ops.Call, in.Op == ops.Solve, in.Op == ops.Slope, in.Op == ops.Area:
		first := run.Slot(len(f.code.Args))
		for _, a := range c.p.Main.Args[in.B : in.B+in.C] {
			f.code.Args = append(f.code.Args, moved[a])
		}
		in.B = first
	case in.Op == ops.Select:
		in.A, in.B, in.C = moved[in.A], moved[in.B], moved[in.C]
	case in.Op.Operands() > 0:
		in.A = moved[in.A]
		if in.Op.Operands() == 2 {
			in.B = moved[in.B]
		}
	}
	return in
}

// run works out one lane.
func (f *fastCareful) run(in [][]float64, i int) *run.State {
	for j := range f.values {
		f.values[j] = in[j][i]
	}
	return f.cut.Run()
}

// failure is why the first output of a lane that fails does, in the slots of
// the whole program.
func (f *fastCareful) failure(in [][]float64, i int) run.Failure {
	st := f.run(in, i)
	for _, s := range f.outputs {
		why := st.Failure(s)
		if why.Kind == ops.NoFault {
			continue
		}
		at := f.from[why.Slot]
		if known, ok := f.fixed[at]; ok && why.Func == nil {
			return known
		}
		why.Slot = at
		return why
	}
	return run.Failure{}
}

// lane works out one lane and tells whether every output has a value. Outputs
// without one are not a number.
func (f *fastCareful) lane(in, out [][]float64, i int) bool {
	st := f.run(in, i)
	ok := true
	for j, s := range f.outputs {
		v, has := st.Value(s)
		if !has {
			v, ok = math.NaN(), false
		}
		out[j][i] = v
	}
	return ok
}
