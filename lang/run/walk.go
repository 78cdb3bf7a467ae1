package run

import (
	"cmp"

	"steelyard/lang/limit"
	"steelyard/lang/ops"
)

// domain is a kind of number that codes run over: plain numbers, numbers with
// their slope, intervals, numbers with a bound of their error.
//
// A domain says what numbers are; which slots there are, what a call is and what becomes of a
// failure is the walker's. So a slope, an enclosure or an uncertainty of a line is worked out
// by the very code that works out its value, and can't have another meaning.
type domain[N any] interface {
	// of is a number that does not vary.
	of(v float64) N
	// constant is the number of an ops.Const.
	constant(in *Instr) N
	// load is element i of a slot of the main code, which has the value v.
	load(s Slot, i int32, v float64) N
	// apply is what an arithmetic operation makes of its operands, or why that
	// is no value.
	apply(op ops.Op, a, b N, k float64) (N, ops.Fault)
	// branch tells which branches of a selection its condition leaves open.
	branch(condition N) (yes, no bool)
	// either is what is known of a value that is the first of two where a condition holds.
	either(condition, a, b N) N
	// still is the number of one that does not vary; false for any other.
	still(n N) (float64, bool)
	// unknown is what is known of a root of what varies, and of a slope or an area in a
	// domain without calculus.
	unknown() (N, ops.Fault)
	// steps is how many elementary steps an operation takes.
	steps() int64
}

// mostDepth is how deep calls may be within each other. The planner lets no
// line pass limit.Calls; a search within a curve adds a few of its own.
const mostDepth = limit.Calls + 8

// curveSteps bounds the elementary steps of one area among the many that a search for its
// ends works out.
const curveSteps = 3_000_000

// callSteps is how many elementary steps it takes to call a function.
const callSteps = 6

// walker runs codes over one domain. Whatever is run, an instruction means what
// its row in the table of operations says; the walker adds calls, selections,
// and the care for what has no value.
//
// One walker runs one line, or one function for a search; it keeps its frames between calls, so
// that a curve of ten thousand points makes them once.
type walker[N any, D domain[N]] struct {
	running
	d D

	// The frames of calls: one value and one cause a slot, as in a State.
	stack []N
	marks []int32
	top   int // where the next frame begins
}

// newWalker is a walker over a domain that runs functions of a program, within
// the budget of a state.
func newWalker[N any, D domain[N]](p *Program, st *State, depth int, d D) walker[N, D] {
	return walker[N, D]{running: running{p: p, st: st, budget: st.budget(), steps: d.steps(), depth: depth}, d: d}
}

// args are the arguments of a call: slots of the caller, whose code is nil where
// each has one column.
type args[N any] struct {
	slots  []Slot
	code   *Code
	vals   []N
	causes []int32
}

// exec runs the instructions from ≤ i < to of a code; fn is nil in the main
// code.
// An instruction that fails does not end the run: others may not depend on it, and each
// value of a page has its own reason for being none. Arithmetic is nearly all that runs,
// and finds its operands before anything else is looked at.
func (w *walker[N, D]) exec(code *Code, fn *Func, vals []N, causes []int32, from, to Slot, given args[N]) {
	for i := from; i < to; i++ {
		in := &code.Instrs[i]
		if fn == nil {
			w.main = i
		}
		if !w.budget.Spend(w.steps) {
			causes[i] = w.fail(ops.Stopped, fn, i)
			continue
		}
		if code.firsts != nil {
			causes[i] = w.wide(in, code, fn, i, vals, causes, given)
			continue
		}
		var a, b N
		var cause int32
		switch in.Op.Operands() {
		case 2:
			a, b = vals[in.A], vals[in.B]
			if cause = causes[in.A]; cause == 0 {
				cause = causes[in.B]
			}
		case 1:
			a, cause = vals[in.A], causes[in.A]
		default:
			if in.Op != ops.Const {
				w.single(in, code, fn, i, vals, causes, given)
				continue
			}
			vals[i], causes[i] = w.d.constant(in), 0
			if in.K-in.K != 0 {
				causes[i] = w.fail(ops.OutOfRange, fn, i)
			}
			continue
		}
		if cause != 0 {
			vals[i], causes[i] = w.settles(in, a, b, cause, causes)
			continue
		}
		v, fault := w.d.apply(in.Op, a, b, in.K)
		vals[i], causes[i] = v, 0
		if fault != ops.NoFault {
			causes[i] = w.fail(fault, fn, i)
		}
	}
}

// settles is an operation of which an operand has no value, for a cause: it has one
// all the same where what has grown beyond every number leads to it, and nothing else is
// wrong.
//
// 1/(1 + exp(1000)) is 0 to every figure, though exp(1000) is no number; 0*exp(1000) is not
// known at all.
func (w *walker[N, D]) settles(in *Instr, a, b N, cause int32, causes []int32) (N, int32) {
	for k, s := range [2]Slot{in.A, in.B} {
		if k < in.Op.Operands() && causes[s] != 0 && w.st.failures[causes[s]-1].Kind != ops.Grown {
			return a, causes[s]
		}
	}
	v, _ := w.d.apply(in.Op, a, b, in.K)
	of, _ := w.d.still(a)
	if to, _ := w.d.still(v); in.Op.Settles(of, to) {
		return v, 0
	}
	return v, cause
}

// single runs what is not arithmetic in a code whose slots have one column each. It is apart
// from the loop, which is slower with so many arguments to make ready.
func (w *walker[N, D]) single(in *Instr, code *Code, fn *Func, i Slot, vals []N, causes []int32, given args[N]) {
	causes[i], _ = w.special(in, code, fn, i, vals[i:i+1], vals, causes, given)
}

// special works out the elements of what is not arithmetic; each tells that a cause is of
// some alone, of which it is known which.
//
// These need the code around them: parameters, other slots, functions. A search keeps its own
// failures to itself, and tells one of them.
func (w *walker[N, D]) special(in *Instr, code *Code, fn *Func, i Slot, out, vals []N, causes []int32, given args[N]) (cause int32, each bool) {
	clear(out)
	before := len(w.st.failures)
	switch in.Op {
	case ops.Param:
		if fn == nil || int(in.A) >= len(given.slots) {
			return w.fail(ops.Absent, fn, i), false
		}
		s := given.slots[in.A]
		spread(out, given.vals, given.at(s))
		return given.causes[s], false
	case ops.Load:
		from := w.p.Main.span(in.A)
		for e := range out {
			out[e] = w.d.load(in.A, int32(e), w.st.vals[from.at(int32(e))])
		}
		return w.st.causes[in.A], false
	case ops.Call:
		all, cause := w.called(in, code, fn, i, vals, causes)
		if len(all) > 0 {
			spread(out, all, span{0, int32(len(all))})
		}
		if fn == nil {
			cause = w.st.keep(before, cause)
		}
		return cause, false
	case ops.Data:
		for e := range out {
			out[e] = w.d.constant(&w.p.Data[in.A][e])
		}
		return 0, true
	case ops.Join:
		for _, s := range code.Args[in.B : in.B+in.C] {
			from := code.span(s)
			out = out[copy(out, vals[from.first:from.first+from.width]):]
			cause = cmp.Or(cause, causes[s])
		}
		return cause, false
	case ops.Select:
		return w.selected(in, code, out, vals, causes), causes[in.A] == 0
	case ops.Slope, ops.Area, ops.Solve:
		out[0], cause = w.search(in, code, fn, i, vals, causes)
		return w.st.keep(before, cause), false
	case ops.Fit:
		out[0], cause = w.fit(in, code, fn, i, vals, causes)
		return cause, false
	case ops.Pieces:
		out[0], cause = w.pieces(in, code, fn, i, vals, causes)
		return cause, false
	case ops.Spread:
		return w.spread(in, code, fn, i, out), false
	}
	return w.fail(ops.NoInterval, fn, i), false
}

// either takes the branch of a selection that a condition leaves open, or what
// is known of both: a branch that has no value says nothing then.
// Both are worked out before, as an interval may lie on both sides of the condition; what
// the branch that is not taken could not do is no failure.
func (w *walker[N, D]) either(condition, a, b N, failsA, failsB int32) (v N, cause int32) {
	yes, no := w.d.branch(condition)
	switch {
	case !no:
		return a, failsA
	case !yes:
		return b, failsB
	case failsA == 0 && failsB == 0:
		return w.d.either(condition, a, b), 0
	case failsA == 0:
		return w.d.either(condition, a, a), 0
	case failsB == 0:
		return w.d.either(condition, b, b), 0
	}
	return v, failsB
}

// called runs the function of a call and returns all elements of its result.
//
// A program that was made by hand could call beyond the limit or a function that is not there:
// it is stopped, and nothing panics.
func (w *walker[N, D]) called(in *Instr, code *Code, fn *Func, i Slot, vals []N, causes []int32) ([]N, int32) {
	if int(in.A) >= len(w.p.Funcs) || w.depth > mostDepth {
		return nil, w.fail(ops.Stopped, fn, i)
	}
	return w.frame(w.p.Funcs[in.A], args[N]{code.Args[in.B : in.B+in.C], code, vals, causes})
}

// frame runs a function and returns the elements of its result, which hold until
// the next is run. The frames below keep their array where a greater one is
// made.
//
// The frames lie in one array, one behind the other, and are used again as soon as a call is
// over.
func (w *walker[N, D]) frame(f *Func, given args[N]) ([]N, int32) {
	w.budget.Spend(callSteps)
	n := Slot(len(f.Code.Instrs))
	base, end := w.top, w.top+f.Code.column(n)
	if end > len(w.stack) {
		more := end
		if base > 0 {
			more = 2*end + 64 // calls within each other
		}
		w.stack, w.marks = make([]N, more), make([]int32, more)
	}
	v, c := w.stack[base:end], w.marks[base:base+int(n)]
	w.top, w.depth = end, w.depth+1
	w.exec(&f.Code, f, v, c, 0, n, given)
	w.top, w.depth = base, w.depth-1
	result := f.Code.span(f.Result)
	return v[result.first : result.first+result.width], c[f.Result]
}

// at runs a function of some numbers on its own, and tells whether it has a
// value there. Nothing is recorded.
//
// Searches run functions at thousands of places, at many of which they have no value: what
// fails there is no failure of the line.
func (w *walker[N, D]) at(fn int, x []N) (N, bool) {
	before, main := len(w.st.failures), w.main
	given := args[N]{vals: x}
	if len(x) <= len(argSlots) {
		given.slots, given.causes = argSlots[:len(x)], argCauses[:len(x)]
	} else {
		given.slots, given.causes = make([]Slot, len(x)), make([]int32, len(x))
		for i := range x {
			given.slots[i] = Slot(i)
		}
	}
	all, cause := w.frame(w.p.Funcs[fn], given)
	if cause != 0 {
		w.why = w.st.failures[cause-1].Kind
	}
	w.main, w.st.failures = main, w.st.failures[:before]
	return all[0], cause == 0
}

// argSlots and argCauses are what at calls a function with: its arguments
// stand one after the other, and each has a value.
var (
	argSlots = func() (s [limit.Unknowns]Slot) {
		for i := range s {
			s[i] = Slot(i)
		}
		return s
	}()
	argCauses [limit.Unknowns]int32
)

// search works out a slope, an area or a root by plain numbers.
//
// A root, a slope or an area at places that don't vary is a number, whatever domain runs: it is
// found by plain numbers. Where they vary, the domain must say what is known (varying).
func (w *walker[N, D]) search(in *Instr, code *Code, fn *Func, i Slot, vals []N, causes []int32) (N, int32) {
	slots := code.list(in)
	x := make([]float64, len(slots))
	has := make([]bool, len(slots))
	for k, s := range slots {
		var still bool
		if x[k], still = w.d.still(vals[code.span(s).first]); !still && causes[s] == 0 {
			v, fault := w.varying(in, code, slots, vals)
			if fault != ops.NoFault {
				return v, w.fail(fault, fn, i)
			}
			return v, 0
		}
		has[k] = causes[s] == 0
		if !has[k] && (in.Op != ops.Solve || w.p.Solves[in.A].Searched) {
			var none N
			return none, causes[s]
		}
	}
	v, doubt, fault := w.found(in, x, has)
	if fault != ops.NoFault {
		return w.d.of(0), w.fail(fault, fn, i)
	}
	if d, ok := any(w.d).(erring[N]); ok && in.Op != ops.Solve {
		return d.found(in.Op, v, doubt, w.operands(in, code, slots, vals), w.curve(int(in.A))), 0
	}
	return w.d.of(v), 0
}

// varying is what is known of a slope, an area or a root of what varies.
//
// The slope of an area at its end is the curve there, and that of a slope the second
// derivative. Arguments that a function does not use are set to 0, as what varies in them moves
// nothing.
func (w *walker[N, D]) varying(in *Instr, code *Code, slots []Slot, vals []N) (N, ops.Fault) {
	d, ok := any(w.d).(calculus[N])
	if !ok || in.Op == ops.Solve {
		return w.d.unknown()
	}
	x, of := w.operands(in, code, slots, vals), w.curve(int(in.A))
	if in.Op == ops.Slope {
		return d.slopeOf(x, of)
	}
	var rest []float64
	for _, n := range x[2:] {
		v, still := w.d.still(n)
		if !still {
			return w.d.unknown()
		}
		rest = append(rest, v)
	}
	return d.areaOf(x[0], x[1], x[2:], rest, of)
}

// operands are what a slope or an area is worked out from: one place or two, and what else
// the curve takes.
func (w *walker[N, D]) operands(in *Instr, code *Code, slots []Slot, vals []N) []N {
	places := 1
	if in.Op == ops.Area {
		places = 2
	}
	x := make([]N, len(slots))
	for i, s := range slots {
		x[i] = vals[code.span(s).first]
		if i >= places && !w.p.Funcs[in.A].takes(i-places+1) {
			x[i] = w.d.of(0) // it matters to nothing
		}
	}
	return x
}

// curve is a function as what slopes and areas are taken of. It has a walker of its own, so
// that none other is kept.
func (w *walker[N, D]) curve(fn int) curve[N] {
	own := *w
	return curve[N]{at: func(x ...N) (N, bool) { return own.at(fn, x) }, ofFunc: ofFunc{w.running, fn}}
}

// calculus is a domain that knows slopes and areas of a function of which some arguments
// vary.
type calculus[N any] interface {
	// slopeOf is the slope by the first of its arguments.
	slopeOf(x []N, of curve[N]) (N, ops.Fault)
	// areaOf is the area from one place to another; the further arguments do not vary.
	areaOf(from, to N, rest []N, still []float64, of curve[N]) (N, ops.Fault)
}

// erring is a domain of numbers that may be off: it knows how far a slope or an area is
// then, which may itself be off by a doubt.
type erring[N any] interface {
	found(op ops.Op, v, doubt float64, x []N, of curve[N]) N
}
