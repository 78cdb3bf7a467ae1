package run

import "steelyard/lang/ops"

// search is an instruction that has no kernel, such as an area or a root: the
// walker runs it in each lane.
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

// search cuts an instruction that the walker runs.
func (c *cutter) search(f *frame, in *Instr) span {
	s := &search{in: *in, place: f.place, depth: f.depth}
	varies := false
	for i, a := range arguments(f.code, in) {
		o, ok := c.of(f, a)
		if !ok {
			return c.same(f, 0, ops.Absent)
		}
		s.args, s.code.Args = append(s.args, o.first), append(s.code.Args, Slot(i))
		varies = varies || !c.w.cols[o.first].fixed
	}
	s.in.B, s.in.C = 0, Slot(len(s.args))
	s.vals, s.causes = make([]float64, len(s.args)), make([]int32, len(s.args))
	for _, l := range c.loaded(in) {
		if o := c.main(l); !c.w.cols[o.first].fixed {
			s.loads, varies = append(s.loads, load{l, o.first}), true
		}
	}
	if varies {
		to, _ := c.w.add(step{op: in.Op, at: f.place, search: s})
		return span{to, 1}
	}
	st := c.w.stateFor(c.st)
	v, cause := s.run(c.w, c.p.floats(nil, &st), func(col int32) (float64, Cause) {
		return c.w.cols[col].value, c.w.cols[col].cause
	})
	return span{c.w.fix(v, cause), 1}
}

// stateFor is a state with the values that functions load.
func (w *work) stateFor(st *State) State {
	return State{Vals: append([]float64(nil), st.Vals...), causes: append([]int32(nil), st.causes...), failures: append([]Failure(nil), st.failures...)}
}

// run works out a lane; of tells what a column has there.
func (s *search) run(w *work, walk *floatWalker, of func(col int32) (float64, Cause)) (float64, Cause) {
	st := walk.st
	known := len(st.failures)
	number := func(cause Cause) int32 {
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
		st.Vals[l.slot], st.causes[l.slot] = v, number(cause)
	}
	walk.main, walk.depth = s.place.slot, s.depth
	v, cause := walk.special(&s.in, &s.code, s.place.fn, s.place.inner, s.vals, s.causes, args[float64]{})
	var why Cause
	if cause != 0 {
		why = w.cause(st.failures[cause-1])
	}
	st.failures = st.failures[:known]
	return v, why
}
