package run

import "cmp"

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

// search cuts an instruction that the walker runs: one that takes lists whole, as a parameter
// of a fit, or one search for each element.
//
// One that nothing varies in is run at once, and is a number like any other from there on.
func (c *cutter) search(f *frame, in *Instr, whole bool) span {
	var given, loaded []span
	wide := int32(1)
	for _, a := range f.code.list(in) {
		o := c.of(f, a)
		given, wide = append(given, o), max(wide, o.width)
	}
	loads := c.reads.loaded(in)
	for _, l := range loads {
		o := c.main(l)
		loaded, wide = append(loaded, o), max(wide, o.width)
	}
	if whole {
		wide = 1
	}
	parts := make([]int32, wide)
	for i := range wide {
		s := &search{in: *in, place: f.place, depth: f.depth, code: Code{layout: layout{[]int32{0}}}, causes: make([]int32, len(given))}
		// The instruction gets a code of its own that holds its arguments alone, so that the
		// walker can run it without the rest of the page.
		s.in.B, s.in.C = 0, Slot(len(given))
		varies := false
		for k, o := range given {
			if !whole {
				o = span{o.at(i), 1}
			}
			for _, col := range o.columns() {
				s.args = append(s.args, col)
				varies = varies || !c.w.cols[col].fixed
			}
			s.code.Args, s.code.firsts = append(s.code.Args, Slot(k)), append(s.code.firsts, int32(len(s.args)))
		}
		for k, o := range loaded {
			if col := o.at(i); !c.w.cols[col].fixed {
				s.loads, varies = append(s.loads, load{loads[k], col}), true
			}
		}
		s.vals = make([]float64, len(s.args))
		if varies {
			parts[i] = c.w.add(step{op: in.Op, at: f.place, search: s})
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
//
// The lanes write into it, and the state that was handed over is the page's: so it is a copy.
func (w *work) stateFor(st *State) State {
	return State{Budget: st.Budget, vals: append([]float64(nil), st.vals...), layout: st.layout, causes: append([]int32(nil), st.causes...), failures: append([]Failure(nil), st.failures...)}
}

// run works out a lane; of tells what a column has there.
// The state that the walker reads is that of the single line but for what varies: what a
// lane put there is put over by the next.
//
// Failures of a lane are added behind those of the page and taken away when it is done; else
// ten thousand points would leave as many behind.
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
	for k := range s.causes {
		s.causes[k] = 0
		for i := s.code.firsts[k]; i < s.code.firsts[k+1]; i++ {
			v, cause := of(s.args[i])
			s.vals[i], s.causes[k] = v, cmp.Or(s.causes[k], number(cause))
		}
	}
	for _, l := range s.loads {
		v, cause := of(l.col)
		st.forget(l.slot)
		st.vals[st.column(l.slot)], st.causes[l.slot] = v, number(cause)
	}
	walk.main, walk.depth = s.place.slot, s.depth
	var out [1]float64
	cause, _ := walk.special(&s.in, &s.code, s.place.fn, s.place.inner, out[:], s.vals, s.causes, args[float64]{})
	var why int32
	if cause != 0 {
		why = w.cause(st.failures[cause-1])
	}
	st.failures = st.failures[:known]
	return out[0], why
}
