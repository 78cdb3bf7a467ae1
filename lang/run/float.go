package run

import "steelyard/lang/ops"

// floats is the domain of plain numbers: what a line is worked out in.
type floats struct{}

type floatWalker struct {
	walker[float64, floats]
	// duals is for slopes, which are asked for by the thousand; nil before the first.
	duals *walker[dual, duals]
}

func (floats) of(v float64) float64 { return v }

func (floats) constant(in *Instr) float64 { return in.K }

func (floats) load(_ Slot, _ int32, v float64) float64 { return v }

// Nearly all values are usual numbers, and are told from others by one test; the fault is
// looked for only where that fails.
func (floats) apply(op ops.Op, a, b, k float64) (float64, ops.Fault) {
	v := op.Value(a, b, k)
	if ops.Suspect(v) {
		return v, op.Fault(a, b, k, v)
	}
	return v, ops.NoFault
}

func (floats) branch(condition float64) (yes, no bool) { return condition == 1, condition != 1 }

func (floats) either(_, a, _ float64) float64 { return a }

func (floats) still(n float64) (float64, bool) { return n, true }

func (floats) unknown() (float64, ops.Fault) { return 0, ops.NoFault }

func (floats) steps() int64 { return 1 }

// Run evaluates the instructions from ≤ i < to of the main code in order and
// stores values and failures in st. A slot that fails makes those that use it
// fail for the same cause. Where the budget of st has ended, what is left fails as
// stopped.
func (p *Program) Run(st *State, from, to Slot) {
	to = min(to, Slot(len(p.Main.Instrs)))
	if from < 0 || from >= to {
		return
	}
	st.forget(from)
	st.grow(&p.Main, to)
	w := p.floats(st)
	// The frames of calls are the state's, so that running again needs no memory.
	w.stack, w.marks = st.stack, st.marks
	w.exec(&p.Main, nil, st.vals, st.causes, from, to, args[float64]{})
	st.stack, st.marks = w.stack, w.marks
}

// floats returns a walker that runs functions of a program by plain numbers.
func (p *Program) floats(st *State) *floatWalker {
	return &floatWalker{walker: newWalker[float64](p, st, 0, floats{})}
}

// Single returns a function of one number that tells whether it has a value, for one
// number after the other.
func (p *Program) Single(st *State, fn int) func(x float64) (float64, bool) {
	w, at := p.floats(st), make([]float64, 1)
	return func(x float64) (float64, bool) {
		at[0] = x
		return w.at(fn, at)
	}
}
