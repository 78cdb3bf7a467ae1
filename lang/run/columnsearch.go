package run

import "steelyard/lang/ops"

// search is an instruction that has no kernel, such as an area or a root: the
// walker runs it in each lane.
//
// A graph of T(x) with a root within it is a curve like any other to who draws it. Each
// point costs a search, beside which nothing is gained by doing several at once.
type search struct {
	in    Instr // its arguments are 0, 1, …
	code  Code
	place place
	depth int // of the calls that it is in
	args  []int32
	loads []load
	// The arguments of a lane.
	vals   []float64
	causes []int32
}

// load is a slot of the main code that a function loads and that varies.
type load struct {
	slot Slot
	col  int32
}

// search cuts an instruction that the walker runs, one search for each element.
//
// One that nothing varies in is run at once, and is a number like any other from there on.
func (c *cutter) search(f *frame, in *Instr) span {
	slots := f.code.list(in)
	given := make([]span, len(slots))
	wide := int32(1)
	for i, a := range slots {
		o, ok := c.of(f, a)
		if !ok {
			return c.same(f, 0, ops.Absent)
		}
		given[i], wide = o, max(wide, o.width)
	}
	var loads []Slot
	var loaded []span
	for _, l := range c.reads.loaded(in) {
		o := c.main(l)
		loads, loaded, wide = append(loads, l), append(loaded, o), max(wide, o.width)
	}
	parts := make([]int32, wide)
	for i := range wide {
		s := &search{in: *in, place: f.place, depth: f.depth, vals: make([]float64, len(slots)), causes: make([]int32, len(slots))}
		s.in.B, s.in.C = 0, Slot(len(slots))
		varies := false
		for k, o := range given {
			s.args, s.code.Args = append(s.args, o.at(i)), append(s.code.Args, Slot(k))
			varies = varies || !c.w.cols[o.at(i)].fixed
		}
		for k, o := range loaded {
			if col := o.at(i); !c.w.cols[col].fixed {
				s.loads, varies = append(s.loads, load{loads[k], col}), true
			}
		}
		if varies {
			parts[i], _ = c.w.add(step{op: in.Op, at: f.place, search: s})
			continue
		}
		st := c.w.stateFor(c.st)
		parts[i] = c.w.fix(s.run(c.w, c.p.floats(&st), func(col int32) (float64, int32) {
			return c.w.cols[col].value, c.w.cols[col].cause
		}))
	}
	return c.w.join(parts)
}

// stateFor is a state with the values that functions load.
func (w *work) stateFor(st *State) State {
	return State{Budget: st.Budget, vals: append([]float64(nil), st.vals...), firsts: st.firsts, causes: append([]int32(nil), st.causes...), failures: append([]Failure(nil), st.failures...)}
}

// run works out a lane; of tells what a column has there.
// The state that the walker reads is that of the single line but for what varies: what a
// lane put there is put over by the next.
func (s *search) run(w *work, walk *floatWalker, of func(col int32) (float64, int32)) (float64, int32) {
	st := walk.st
	known := len(st.failures)
	number := func(cause int32) int32 {
		if cause == 0 {
			return 0
		}
		st.failures = append(st.failures, w.failures[cause-1])
		return int32(len(st.failures))
	}
	for i, col := range s.args {
		v, cause := of(col)
		s.vals[i], s.causes[i] = v, number(cause)
	}
	for _, l := range s.loads {
		v, cause := of(l.col)
		st.vals[st.column(l.slot)], st.causes[l.slot] = v, number(cause)
	}
	walk.main, walk.depth = s.place.slot, s.depth
	v, cause := walk.special(&s.in, &s.code, s.place.fn, s.place.inner, s.vals, s.causes, args[float64]{})
	var why int32
	if cause != 0 {
		why = w.cause(st.failures[cause-1])
	}
	st.failures = st.failures[:known]
	return v, why
}
