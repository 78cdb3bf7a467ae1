package plan

import (
	"math"

	"steelyard/lang/ops"
)

// fastCareful runs single lanes by the faithful program, cut to what the
// outputs need.
type fastCareful struct {
	r       runner
	code    Code
	outputs []Slot
	values  []float64 // the lane's inputs
	from    []Slot    // the slot of the program that each instruction stands for
	fixed   map[Slot]Failure
}

// careful cuts the main code down to what varies and what that reads; the rest
// becomes constants.
func (c *fastCutter) careful(outputs []Slot, inputs int) *fastCareful {
	f := &fastCareful{values: make([]float64, inputs), outputs: make([]Slot, len(outputs)), fixed: map[Slot]Failure{}}
	moved := make(map[Slot]Slot)
	put := func(s Slot, in Instr) {
		moved[s] = Slot(len(f.code.Instrs))
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
				put(s, Instr{Op: ops.Const, K: c.fixedValue(s)})
			}
		}
	}
	for s := range Slot(len(c.need)) {
		if c.need[s] {
			put(s, c.cutInstr(f, s, moved))
		}
	}
	for i, s := range outputs {
		f.outputs[i] = moved[s]
	}
	st := &State{}
	st.grow(len(f.code.Instrs))
	f.r = runner{p: c.p, st: st, left: runEvery, params: f.values, moved: moved}
	return f
}

// cutInstr returns an instruction with its operands moved.
func (c *fastCutter) cutInstr(f *fastCareful, s Slot, moved map[Slot]Slot) Instr {
	if i, ok := c.input[s]; ok {
		return Instr{Op: ops.Param, A: Slot(i)}
	}
	if !c.varies[s] {
		return Instr{Op: ops.Const, K: c.fixedValue(s)}
	}
	in := c.p.Main.Instrs[s]
	switch {
	case in.Op == ops.Call, in.Op == ops.Solve, in.Op == ops.Slope, in.Op == ops.Area:
		first := Slot(len(f.code.Args))
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
func (f *fastCareful) run(in [][]float64, i int) {
	for j := range f.values {
		f.values[j] = in[j][i]
	}
	f.r.st.failures = f.r.st.failures[:0]
	f.r.runMain(&f.code, 0, Slot(len(f.code.Instrs)))
}

// failure is why the first output of a lane that fails does, in the slots of
// the whole program.
func (f *fastCareful) failure(in [][]float64, i int) Failure {
	f.run(in, i)
	for _, s := range f.outputs {
		why := f.r.st.Failure(s)
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
	return Failure{}
}

// lane works out one lane and tells whether every output has a value. Outputs
// without one are not a number.
func (f *fastCareful) lane(in, out [][]float64, i int) bool {
	f.run(in, i)
	st := f.r.st
	ok := true
	for j, s := range f.outputs {
		v := st.Vals[s]
		if st.causes[s] != 0 {
			v, ok = math.NaN(), false
		}
		out[j][i] = v
	}
	return ok
}
