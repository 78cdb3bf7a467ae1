package run

import (
	"steelyard/lang/ops"
)

// mostSteps bounds the steps that calls are written out to; a call beyond that
// is run by the walker.
const mostSteps = 1 << 14

// cutter takes from a program the work that some outputs need.
// Calls are written out in their place, so that a kernel may join an operation of the
// caller with one of the function. What does not vary is worked out while cutting: the
// lanes then see numbers.
//
// Of a page of a hundred lines a curve may need three: those alone become steps. The steps
// are over columns, and know nothing of names, calls or lines any more (work.go).
//
// What it takes out is the same program: each step is the operation of an instruction, in the
// order of the walker, so that values and failures are the walker's to the last bit.
type cutter struct {
	p  *Program
	st *State
	w  *work
	// Slots of the main code before base don't vary; need and slots begin there.
	base  Slot
	need  []bool
	slots []span
	reads Reads
	left  int // steps until calls are left to the walker
}

// frame is a code that is being cut: the main code, or a function that one of
// its instructions calls.
//
// Its place is that of the instruction in the main code, with the one within the function:
// where a lane fails, both are told, as the walker tells them.
type frame struct {
	code  *Code
	place place  // of the instruction that is being cut
	slots []span // those of a function so far
	args  []span
	depth int
}

// of returns the columns of a slot of a code.
//
// Of the main code every slot has columns, if only those of its one value; of a function every
// slot that its result needs has been cut before those that read it.
func (c *cutter) of(f *frame, s Slot) span {
	if f.place.fn == nil {
		return c.main(s)
	}
	return f.slots[s]
}

// An input that nothing needs has its columns all the same, as the caller hands over all of
// them.
func newCutter(p *Program, st *State, w *work, outputs, varying []Slot) *cutter {
	c := &cutter{p: p, st: st, w: w, reads: p.Reads(), left: mostSteps}
	end := Slot(0)
	for _, s := range outputs {
		end = max(end, s+1)
	}
	c.base = end
	for _, s := range varying {
		c.base = min(c.base, s)
	}
	c.need, c.slots = make([]bool, end-c.base), make([]span, end-c.base)
	var inputs []span
	for _, s := range varying {
		given := span{int32(len(w.cols)), p.Main.span(s).width}
		for range given.width {
			w.cols = append(w.cols, column{})
			w.inputSlots = append(w.inputSlots, s)
		}
		inputs = append(inputs, given)
	}
	w.inputs = len(w.cols)
	for i, s := range varying {
		if s < end {
			c.slots[s-c.base] = w.join(inputs[i].columns())
		}
	}
	return c
}

// cut does the work of a cutter.
// What is needed is marked from the outputs back, then worked out from the front: a slot
// stands behind all that it reads.
//
// Both passes see each slot once, so that the cost is that of the page however often a slot is
// used.
func (c *cutter) cut(outputs []Slot) {
	for _, s := range outputs {
		c.mark(s)
	}
	for i := len(c.need) - 1; i >= 0; i-- {
		if c.need[i] && c.slots[i].width == 0 {
			c.reads.Main(c.base+Slot(i), c.mark)
		}
	}
	f := &frame{code: &c.p.Main}
	for i := range c.need {
		if c.need[i] && c.slots[i].width == 0 {
			f.place.slot = c.base + Slot(i)
			c.slots[i] = c.instr(f, f.place.slot)
		}
	}
	for _, s := range outputs {
		out := c.main(s)
		for i := range max(out.width, c.p.Main.span(s).width) {
			c.w.outputs = append(c.w.outputs, out.at(i))
		}
	}
}

// mark notes that a slot of the main code is needed.
func (c *cutter) mark(s Slot) {
	if s -= c.base; s >= 0 && int(s) < len(c.need) {
		c.need[s] = true
	}
}

// main is the columns of a slot of the main code: those it has been given, or
// the value that it has in every lane.
//
// What does not vary has been run already: its value, or why it has none, is copied in.
func (c *cutter) main(s Slot) span {
	if i := s - c.base; i >= 0 && int(i) < len(c.slots) && c.slots[i].width > 0 {
		return c.slots[i]
	}
	if s < 0 || s >= c.st.Len() {
		return span{c.w.fix(0, c.w.cause(Failure{Slot: s, Kind: ops.Absent})), 1}
	}
	return c.still(s)
}

// still is the columns of a slot of the main code that have the value in every lane that it
// has there.
//
// A slot that has failed has its cause in every lane.
func (c *cutter) still(s Slot) span {
	out := span{int32(len(c.w.cols)), c.p.Main.span(s).width}
	var cause int32
	if _, ok := c.st.Value(s); !ok {
		cause = c.w.cause(c.st.Failure(s))
	}
	for i := range out.width {
		v, _ := c.st.element(s, int(i))
		c.w.fix(v, cause)
	}
	return out
}

// instr cuts one instruction and returns the columns of its slot.
//
// An instruction that does nothing but name a value, as a load or a parameter, makes no step:
// its slot is where the value is already.
func (c *cutter) instr(f *frame, s Slot) span {
	in := &f.code.Instrs[s]
	if p, named := f.code.Named(s); named && c.varies(f, p.Exponent) {
		if st := &f.code.Statics[p.Base]; st.Open == 0 && !st.Dim.IsOne() {
			return c.same(f, 0, ops.NotSettled) // each lane would have a unit of its own
		}
		as := p.Varying()
		return c.elements(f, &as)
	}
	switch in.Op {
	case ops.Const:
		return c.same(f, in.K, ops.Const.Fault(0, 0, in.K, in.K))
	case ops.Param:
		if int(in.A) < len(f.args) {
			return f.args[in.A]
		}
		return c.same(f, 0, ops.Absent)
	case ops.Nothing:
		return c.same(f, 0, ops.NoInterval)
	case ops.Load:
		return c.main(in.A)
	case ops.Data:
		out := span{int32(len(c.w.cols)), int32(len(c.p.Data[in.A]))}
		for _, one := range c.p.Data[in.A] {
			c.w.fix(one.K, 0)
		}
		return out
	case ops.Join:
		return c.joined(f, in)
	case ops.Call:
		if out, ok := c.call(f, in); ok {
			return out
		}
		return c.search(f, in, false)
	case ops.Slope, ops.Area, ops.Solve:
		return c.search(f, in, false)
	case ops.Fit, ops.Pieces:
		return c.search(f, in, true)
	case ops.Spread:
		return c.still(s)
	case ops.Copy:
		return c.of(f, in.A)
	}
	if _, all := in.Op.Elements(0); all {
		return c.together(f, in, f.code.span(s).width)
	}
	return c.elements(f, in)
}

// varies tells whether a slot differs between lanes.
//
// A column that is fixed has one value for all lanes.
func (c *cutter) varies(f *frame, s Slot) bool {
	return !c.w.cols[c.of(f, s).first].fixed
}

// joined is the elements of a list, each a slot of its own before.
func (c *cutter) joined(f *frame, in *Instr) span {
	var parts []int32
	for _, s := range f.code.list(in) {
		parts = append(parts, c.of(f, s).columns()...)
	}
	return c.w.join(parts)
}

// together writes out what puts the elements of a list together.
//
// The same arithmetic as over plain numbers, with columns for its numbers: each operation that
// it asks for is a step.
func (c *cutter) together(f *frame, in *Instr, n int32) span {
	out := make([]int32, n)
	if !(together{&cutNumbers{c, f}}).put(in.Op, in.K, c.of(f, in.A).columns(), out) {
		return c.same(f, 0, ops.NotSettled)
	}
	return c.w.join(out)
}

// cutNumbers are numbers whose places are columns.
type cutNumbers struct {
	*cutter
	f *frame
}

func (c *cutNumbers) of(v float64) int32 { return c.w.fix(v, 0) }

func (c *cutNumbers) still(n int32) (float64, bool) {
	col := c.w.cols[n]
	return col.value, col.fixed && col.cause == 0
}

func (c *cutNumbers) do(op ops.Op, _, a, b int32, k float64) int32 {
	return c.w.add(step{op: op, k: k, at: c.f.place, from: [3]int32{a, b}})
}

// same is a column with one value, or one failure.
//
// It costs nothing in the lanes: a fixed column is a number.
func (c *cutter) same(f *frame, v float64, kind ops.Fault) span {
	var cause int32
	if kind != ops.NoFault {
		cause = c.w.cause(f.place.failure(kind))
	}
	return span{c.w.fix(v, cause), 1}
}

// elements cuts an operation on numbers: one step for each element, an operand
// of one element serving for all.
//
// A list of three in a curve is three columns, and an operation on it three steps.
func (c *cutter) elements(f *frame, in *Instr) span {
	var from [3]span
	operands := [3]Slot{in.A, in.B, in.C}
	n := in.Op.Operands()
	wide := int32(1)
	for i, s := range operands[:n] {
		from[i] = c.of(f, s)
		wide = max(wide, from[i].width)
	}
	var to []int32
	for i := range wide {
		st := step{op: in.Op, k: in.K, at: f.place}
		for j := range n {
			st.from[j] = from[j].at(i)
		}
		col := c.w.add(st)
		if wide == 1 {
			return span{col, 1}
		}
		to = append(to, col)
	}
	return c.w.join(to)
}

// call writes a function out in the place of its call, unless it is too large.
// The size is bounded for all calls together: functions that call others twice each would
// double at every level.
func (c *cutter) call(f *frame, in *Instr) (span, bool) {
	fn := c.p.Funcs[in.A]
	n := len(fn.Code.Instrs)
	if c.left < n {
		return span{}, false
	}
	c.left -= n
	inner := &frame{code: &fn.Code, place: place{slot: f.place.slot, fn: fn}, slots: make([]span, n), depth: f.depth + 1}
	for _, a := range f.code.list(in) {
		inner.args = append(inner.args, c.of(f, a))
	}
	// Of a function, too, only what its result needs becomes steps: of several outputs one may
	// be asked for.
	need := make([]bool, n)
	need[fn.Result] = true
	for i := n - 1; i >= 0; i-- {
		if need[i] {
			fn.Code.reads(Slot(i), func(s Slot) { need[s] = true })
		}
	}
	for i := range need {
		if need[i] {
			inner.place.inner = Slot(i)
			inner.slots[i] = c.instr(inner, Slot(i))
		}
	}
	return inner.slots[fn.Result], true
}
