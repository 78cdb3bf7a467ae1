package run

import (
	"cmp"

	"steelyard/lang/ops"
)

// work is what has to be done in each lane: a program cut down to what some
// outputs need, its calls written out, each step giving one column. What does
// not vary is worked out already.
//
// It is what lies between a program and the kernels: straight-line code without calls, names
// or branches, each number of which is a column.
type work struct {
	cols       []column // the inputs first
	steps      []step
	inputs     int
	inputSlots []Slot // of each input
	outputs    []int32
	failures   []Failure // what causes stand for
}

// column is what is known of one number per lane before any lane runs.
type column struct {
	fixed bool // the same in every lane: value, or none for a cause
	value float64
	cause int32
}

// step works out one column from others.
//
// Its place is kept for the lane that fails there: the message then names the line.
type step struct {
	op   ops.Op
	to   int32
	from [3]int32 // the operands; 0 for those that op doesn't have
	k    float64
	at   place
	// search is set for what the walker does, parts for what joins the elements
	// of a slot.
	search *search
	parts  []int32
}

// place is where an instruction stands: in a function that slot calls or, if
// fn is nil, at slot itself.
type place struct {
	slot  Slot
	fn    *Func
	inner Slot
}

func (p place) failure(kind ops.Fault) Failure {
	return Failure{Slot: p.slot, Kind: kind, Func: p.fn, Inner: p.inner}
}

// cause is the number of a failure, from 1 on.
//
// Lanes note a number, and not the failure itself, so that a thousand that fail alike hold one.
func (w *work) cause(f Failure) int32 {
	for i := range w.failures {
		if w.failures[i] == f {
			return int32(i + 1)
		}
	}
	w.failures = append(w.failures, f)
	return int32(len(w.failures))
}

// fix adds a column that is the same in every lane.
func (w *work) fix(v float64, cause int32) int32 {
	w.cols = append(w.cols, column{fixed: true, value: v, cause: cause})
	return int32(len(w.cols) - 1)
}

// add adds a step, worked out at once if its operands don't vary.
func (w *work) add(s step) int32 {
	fixed := s.search == nil
	for _, from := range s.from[:s.op.Operands()] {
		fixed = fixed && w.cols[from].fixed
	}
	switch {
	case s.op == ops.Select && w.cols[s.from[0]].fixed:
		return w.chosen(&s)
	case fixed:
		return w.fold(&s)
	}
	s.to = int32(len(w.cols))
	w.cols = append(w.cols, column{})
	w.steps = append(w.steps, s)
	return s.to
}

// join makes one slot of its elements, whose columns then stand side by side:
// where one has no value, the slot has none, for the cause of the first.
func (w *work) join(parts []int32) span {
	if len(parts) == 1 {
		return span{parts[0], 1}
	}
	out := span{int32(len(w.cols)), int32(len(parts))}
	fixed, cause := true, int32(0)
	for _, p := range parts {
		fixed = fixed && w.cols[p].fixed
		if cause == 0 {
			cause = w.cols[p].cause
		}
	}
	for _, p := range parts {
		w.cols = append(w.cols, column{fixed: fixed, value: w.cols[p].value, cause: cause})
		if !fixed {
			w.cols[len(w.cols)-1] = column{}
		}
	}
	if !fixed {
		w.steps = append(w.steps, step{to: out.first, parts: parts})
	}
	return out
}

// columns lists the columns of a slot.
func (s span) columns() []int32 {
	out := make([]int32, s.width)
	for i := range out {
		out[i] = s.first + int32(i)
	}
	return out
}

// grown tells whether a cause, if there is one, is that a number has grown too large.
func (w *work) grown(cause int32) bool {
	return cause == 0 || w.failures[cause-1].Kind == ops.Grown
}

// chosen is the column that a selection with a fixed condition takes.
//
// Such a selection is a function by intervals of something that does not vary.
func (w *work) chosen(s *step) int32 {
	switch is := w.cols[s.from[0]]; {
	case is.cause != 0:
		return s.from[0]
	case is.value == 1:
		return s.from[1]
	}
	return s.from[2]
}

// fold works out a step whose operands don't vary.
//
// It must fail as a lane would, with the same place: it is worked out by the same rules.
func (w *work) fold(s *step) int32 {
	a := w.cols[s.from[0]]
	b := a
	if s.op.Operands() == 2 {
		b = w.cols[s.from[1]]
	}
	v := s.op.Value(a.value, b.value, s.k)
	if cause := cmp.Or(a.cause, b.cause); cause != 0 {
		switch {
		case !w.grown(cause):
		case !w.grown(b.cause):
			cause = b.cause
		case s.op.Settles(a.value, v):
			cause = 0
		}
		return w.fix(v, cause)
	}
	if kind := s.op.Fault(a.value, b.value, s.k, v); kind != ops.NoFault {
		return w.fix(v, w.cause(s.at.failure(kind)))
	}
	return w.fix(v, 0)
}
