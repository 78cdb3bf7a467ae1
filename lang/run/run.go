package run

import (
	"context"

	"steelyard/lang/ops"
)

// Failure says why a slot has no value and where that began: at instruction
// Slot of the main code or, if Func is set, at instruction Inner of that
// function, reached from the call at Slot.
type Failure struct {
	Slot  Slot
	Kind  ops.Fault
	Func  *Func
	Inner Slot
}

// State holds the values of a program's main code as far as it was run. The
// zero State is ready. It is not safe for concurrent use.
type State struct {
	// Vals has the value of each slot, in coherent SI units. The value of a
	// slot that failed means nothing.
	Vals []float64

	causes   []int32 // per slot: 0, or 1 + the place in failures
	failures []Failure
	stack    []float64 // the frames of calls
	marks    []int32   // their causes
}

// Len returns how many slots have been run.
func (st *State) Len() Slot { return Slot(len(st.Vals)) }

// Value returns the value of a slot, and false if it has none.
func (st *State) Value(s Slot) (float64, bool) {
	if s < 0 || int(s) >= len(st.Vals) || st.causes[s] != 0 {
		return 0, false
	}
	return st.Vals[s], true
}

// Failure returns why a slot has no value; its kind is ops.NoFault if it has one.
func (st *State) Failure(s Slot) Failure {
	if s < 0 || int(s) >= len(st.causes) || st.causes[s] == 0 {
		return Failure{Slot: s}
	}
	return st.failures[st.causes[s]-1]
}

// Truncate forgets the slots from n on, as undo does.
func (st *State) Truncate(n Slot) {
	n = max(n, 0)
	if int(n) >= len(st.Vals) {
		return
	}
	st.Vals, st.causes = st.Vals[:n], st.causes[:n]
	for k := len(st.failures); k > 0 && st.failures[k-1].Slot >= n; k-- {
		st.failures = st.failures[:k-1]
	}
}

// grow makes room for the slots below n.
func (st *State) grow(n int) {
	for len(st.Vals) < n {
		st.Vals = append(st.Vals, 0)
		st.causes = append(st.causes, 0)
	}
}

// runEvery is the number of instructions between two looks at the context.
const runEvery = 4096

// runner runs codes over a state.
type runner struct {
	p      *Program
	st     *State
	ctx    context.Context
	main   Slot // the instruction of the main code that is being run
	top    int  // where the next frame begins
	left   int  // instructions until the next look at the context
	depth  int
	halted bool

	// A lane of a fast plan runs a cut of the main code: its parameters are the
	// lane's columns, and slots loaded by functions have moved.
	params []float64
	moved  map[Slot]Slot
}

// Run evaluates the instructions from ≤ i < to of the main code in order and
// stores values and failures in st. A slot that fails makes those that use it
// fail for the same cause. When ctx is done, what is left fails as stopped.
func (p *Program) Run(ctx context.Context, st *State, from, to Slot) {
	to = min(to, Slot(len(p.Main.Instrs)))
	if from < 0 || from >= to {
		return
	}
	st.grow(int(to))
	r := runner{p: p, st: st, ctx: ctx, left: runEvery}
	r.runMain(&p.Main, from, to)
}

// runMain runs instructions of a main code.
func (r *runner) runMain(code *Code, from, to Slot) {
	r.exec(code, nil, r.st.Vals, r.st.causes, from, to, frameArgs{})
}

// keep drops what a call of the main code recorded and nobody refers to, as the
// branch of a function that was not taken, and returns the cause that stays.
func (r *runner) keep(before int, cause int32) int32 {
	st := r.st
	switch {
	case len(st.failures) == before:
	case int(cause) <= before:
		st.failures = st.failures[:before]
	default:
		st.failures[before] = st.failures[cause-1]
		st.failures = st.failures[:before+1]
		cause = int32(before + 1)
	}
	return cause
}

// frameArgs are the arguments of a call: slots of the caller.
type frameArgs struct {
	slots  []Slot
	vals   []float64
	causes []int32
}

// exec runs the instructions from ≤ i < to of a code; fn is nil in the main
// code.
func (r *runner) exec(code *Code, fn *Func, vals []float64, causes []int32, from, to Slot, args frameArgs) {
	for i := from; i < to; i++ {
		if r.left--; r.left < 0 {
			r.look()
		}
		in := &code.Instrs[i]
		if fn == nil {
			r.main = i
		}
		if r.halted {
			causes[i] = r.fail(ops.Stopped, fn, i)
			continue
		}
		if in.Op >= ops.Call || in.Op <= ops.Load {
			if v, cause, done := r.special(in, code, fn, i, vals, causes, args); done {
				vals[i], causes[i] = v, cause
				continue
			}
		}
		var a, b float64
		var cause int32
		switch in.Op.Operands() {
		case 2:
			a, b = vals[in.A], vals[in.B]
			if cause = causes[in.A]; cause == 0 {
				cause = causes[in.B]
			}
		case 1:
			a, cause = vals[in.A], causes[in.A]
		}
		if cause != 0 {
			causes[i] = cause
			continue
		}
		v := in.Op.Value(a, b, in.K)
		vals[i], causes[i] = v, 0
		if ops.Suspect(v) {
			if kind := in.Op.Fault(a, b, in.K, v); kind != ops.NoFault {
				causes[i] = r.fail(kind, fn, i)
			}
		}
	}
}

// special runs what is not arithmetic.
func (r *runner) special(in *Instr, code *Code, fn *Func, i Slot, vals []float64, causes []int32, args frameArgs) (v float64, cause int32, done bool) {
	switch in.Op {
	case ops.Param:
		switch {
		case fn != nil && int(in.A) < len(args.slots):
			s := args.slots[in.A]
			return args.vals[s], args.causes[s], true
		case fn == nil && int(in.A) < len(r.params):
			if v = r.params[in.A]; v-v != 0 {
				return v, r.fail(ops.OutOfRange, fn, i), true
			}
			return v, 0, true
		}
		return 0, r.fail(ops.Absent, fn, i), true
	case ops.Load:
		s := r.place(in.A)
		return r.st.Vals[s], r.st.causes[s], true
	case ops.Call:
		before := len(r.st.failures)
		v, cause = r.call(in, code, fn, i, vals, causes)
		if fn == nil {
			cause = r.keep(before, cause)
		}
		return v, cause, true
	case ops.Select:
		if cause = causes[in.A]; cause != 0 {
			return 0, cause, true
		}
		s := in.C
		if vals[in.A] == 1 {
			s = in.B
		}
		return vals[s], causes[s], true
	case ops.Slope, ops.Area:
		v, cause = r.curve(in, code, fn, i, vals, causes)
		return v, cause, true
	case ops.Solve:
		before := len(r.st.failures)
		v, cause = r.solve(in, code, fn, i, vals, causes)
		return v, r.keep(before, cause), true
	case ops.Nothing:
		return 0, r.fail(ops.NoInterval, fn, i), true
	}
	return 0, 0, false
}

// place is where a slot that a function loads stands in the state.
func (r *runner) place(s Slot) Slot {
	if r.moved != nil {
		if to, ok := r.moved[s]; ok {
			return to
		}
	}
	return s
}

// loaded is the value of a slot that a function loads.
func (r *runner) loaded(s Slot) (float64, bool) { return r.st.Value(r.place(s)) }

// call runs a function in a frame of its own. The language has no recursion;
// the guard keeps a broken program from growing the stack.
func (r *runner) call(in *Instr, code *Code, fn *Func, i Slot, vals []float64, causes []int32) (float64, int32) {
	if r.depth > len(r.p.Funcs) || int(in.A) >= len(r.p.Funcs) {
		return 0, r.fail(ops.Stopped, fn, i)
	}
	f := r.p.Funcs[in.A]
	n := len(f.Code.Instrs)
	base := r.top
	st := r.st
	if base+n > len(st.stack) {
		// The frames below keep the old array, which they hold themselves.
		st.stack = make([]float64, 2*(base+n)+64)
		st.marks = make([]int32, len(st.stack))
	}
	v, c := st.stack[base:base+n], st.marks[base:base+n]
	r.top, r.depth = base+n, r.depth+1
	r.exec(&f.Code, f, v, c, 0, Slot(n), frameArgs{code.Args[in.B : in.B+in.C], vals, causes})
	r.top, r.depth = base, r.depth-1
	return v[f.Result], c[f.Result]
}

// fail records a failure and returns its cause number.
func (r *runner) fail(kind ops.Fault, fn *Func, i Slot) int32 {
	f := Failure{Slot: r.main, Kind: kind, Func: fn}
	if fn != nil {
		f.Inner = i
	}
	r.st.failures = append(r.st.failures, f)
	return int32(len(r.st.failures))
}

// look finds out whether the computation was stopped.
func (r *runner) look() {
	r.left = runEvery
	if r.ctx != nil && r.ctx.Err() != nil {
		r.halted = true
	}
}
