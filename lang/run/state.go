package run

import "steelyard/lang/ops"

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

// keep drops what a call of the main code recorded and nobody refers to, as the
// branch of a function that was not taken, and returns the cause that stays.
func (st *State) keep(before int, cause int32) int32 {
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
