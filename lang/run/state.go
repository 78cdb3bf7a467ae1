package run

import (
	"steelyard/lang/limit"
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
	// Budget is what running may still cost; nil is no bound.
	Budget *limit.Budget

	layout             // that of the code that was run
	vals     []float64 // per column, in coherent SI units
	causes   []int32   // per slot: 0, or 1 + the place in failures
	failures []Failure
	stack    []float64 // the frames of calls
	marks    []int32   // their causes

	eliminated answered[Linear]   // the last linear equations
	searched   answered[Searched] // the last search
	fitted     lastFit            // the last fit

	// What is known of the slots beside their values, as far as it was asked for: see asked.
	figured  *mainFigures // to which places they are known
	noughted *mainFigures // the same if noughts at the end hold a place alone
	bounded  *mainBounds  // how far they may be off
	unsure   *mainUnsure  // what they depend on that is uncertain
}

// budget is the one to spend from.
func (st *State) budget() *limit.Budget {
	if st.Budget == nil {
		st.Budget = limit.Boundless()
	}
	return st.Budget
}

// Len returns how many slots have been run.
func (st *State) Len() Slot { return Slot(len(st.causes)) }

// At returns the number of a slot, the first of several; that of one that
// failed means nothing.
func (st *State) At(s Slot) float64 { return st.vals[st.column(s)] }

// Value returns the value of a slot, and false if it has none.
func (st *State) Value(s Slot) (float64, bool) { return st.element(s, 0) }

// element returns an element of a slot, counted from 0, and false if it has no
// value.
func (st *State) element(s Slot, i int) (float64, bool) {
	if s < 0 || s >= st.Len() || st.causes[s] != 0 {
		return 0, false
	}
	if at := st.column(s) + i; at < st.column(s+1) {
		return st.vals[at], true
	}
	return 0, false
}

// Elements returns the elements of a slot, which hold until the program runs again; one
// alone is the only one. They mean nothing where the slot has no value.
func (st *State) Elements(s Slot) []float64 { return st.vals[st.column(s):st.column(s+1)] }

// Failure returns why a slot has no value; its kind is ops.NoFault if it has one.
func (st *State) Failure(s Slot) Failure {
	if s < 0 || int(s) >= len(st.causes) || st.causes[s] == 0 {
		return Failure{Slot: s}
	}
	return st.failures[st.causes[s]-1]
}

// Truncate forgets the slots from n on, as undo does.
// Failures stand in the order of their slots, so that those to forget are the last.
func (st *State) Truncate(n Slot) {
	n = max(n, 0)
	if n >= st.Len() {
		return
	}
	st.forget(n)
	st.vals, st.causes = st.vals[:st.column(n)], st.causes[:n]
	if st.firsts != nil {
		st.firsts = st.firsts[:n+1]
	}
	for k := len(st.failures); k > 0 && st.failures[k-1].Slot >= n; k-- {
		st.failures = st.failures[:k-1]
	}
}

// forget forgets what is known of the slots from n on beside their values.
func (st *State) forget(n Slot) {
	if st.figured != nil {
		st.figured.forget(n)
	}
	if st.noughted != nil {
		st.noughted.forget(n)
	}
	if st.bounded != nil {
		st.bounded.forget(n)
	}
	if st.unsure != nil && len(st.unsure.known) > int(n) { // its slots share a tape
		st.unsure = nil
	}
}

// grow makes room for the slots of a code below n.
func (st *State) grow(code *Code, n Slot) {
	if code.firsts == nil {
		st.firsts = nil
	} else {
		st.firsts = append(st.firsts, code.firsts[min(len(st.firsts), int(n)+1):n+1]...)
	}
	for st.Len() < n {
		st.causes = append(st.causes, 0)
	}
	for end := code.column(n); len(st.vals) < end; {
		st.vals = append(st.vals, 0)
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
