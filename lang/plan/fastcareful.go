package plan

import "math"

// fastCareful runs single lanes by the faithful program, cut to what the
// outputs need.
type fastCareful struct {
	r       runner
	code    Code
	outputs []Slot
	values  []float64 // the lane's inputs
}

// careful cuts the main code down to what varies and what that reads; the rest
// becomes constants.
func (c *fastCutter) careful(outputs []Slot, inputs int) *fastCareful {
	f := &fastCareful{values: make([]float64, inputs), outputs: make([]Slot, len(outputs))}
	moved := make(map[Slot]Slot)
	put := func(s Slot, in Instr) {
		moved[s] = Slot(len(f.code.Instrs))
		f.code.Instrs = append(f.code.Instrs, in)
	}
	// A function may load a slot that lies behind every output.
	for _, known := range c.funcs {
		for _, s := range known.loads {
			if _, ok := moved[s]; !ok && int(s) >= len(c.need) {
				put(s, Instr{Op: OpConst, K: c.fixedValue(s)})
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
		return Instr{Op: OpParam, A: Slot(i)}
	}
	if !c.varies[s] {
		return Instr{Op: OpConst, K: c.fixedValue(s)}
	}
	in := c.p.Main.Instrs[s]
	switch {
	case in.Op == OpCall:
		first := Slot(len(f.code.Args))
		for _, a := range c.p.Main.Args[in.B : in.B+in.C] {
			f.code.Args = append(f.code.Args, moved[a])
		}
		in.B = first
	case in.Op == OpSelect:
		in.A, in.B, in.C = moved[in.A], moved[in.B], moved[in.C]
	case runOperands[in.Op] > 0:
		in.A = moved[in.A]
		if runOperands[in.Op] == 2 {
			in.B = moved[in.B]
		}
	}
	return in
}

// lane works out one lane and tells whether every output has a value. Outputs
// without one are not a number.
func (f *fastCareful) lane(in, out [][]float64, i int) bool {
	for j := range f.values {
		f.values[j] = in[j][i]
	}
	st := f.r.st
	st.failures = st.failures[:0]
	f.r.runMain(&f.code, 0, Slot(len(f.code.Instrs)))
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
