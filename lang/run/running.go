package run

import (
	"steelyard/lang/limit"
	"steelyard/lang/ops"
)

// running is what a walker has whatever its numbers are: the program, its state, and where
// in it the walker is.
//
// What needs no more than this is no method of the walker, of which there is a copy for each
// kind of number.
type running struct {
	p      *Program
	st     *State
	budget *limit.Budget
	steps  int64     // that an operation takes
	main   Slot      // the instruction of the main code that is being run
	depth  int       // of calls within each other
	why    ops.Fault // the last run of a function had no value for this
}

// within does some work with so many elementary steps at most.
//
// A search that asks for many areas must not be stopped by one of them that is hard.
func (w *running) within(steps int64, work func()) {
	whole := w.budget
	part := whole.Part(max(1, whole.Left()/steps))
	w.budget, w.st.Budget = part, part
	work()
	whole.Join(part)
	w.budget, w.st.Budget = whole, whole
}

// stopped tells whether the budget has ended.
func (w *running) stopped() bool { return !w.budget.Spend(1) }

// fail records a failure and returns its cause number.
// It keeps where the failure began, not only why: the page names the line and the
// function.
func (w *running) fail(fault ops.Fault, fn *Func, i Slot) int32 {
	f := Failure{Slot: w.main, Kind: fault, Func: fn}
	if fn != nil {
		f.Inner = i
	}
	w.st.failures = append(w.st.failures, f)
	return int32(len(w.st.failures))
}

// plain returns a walker over plain numbers.
func (w *running) plain() *floatWalker {
	return &floatWalker{walker: newWalker[float64](w.p, w.st, w.depth, floats{})}
}

// intervals returns a walker over intervals.
func (w *running) intervals() *intervalWalker {
	return &intervalWalker{walker: newWalker[enclosed](w.p, w.st, w.depth, intervals{})}
}

// series returns a walker over series.
func (w *running) series() *seriesWalker {
	return &seriesWalker{newWalker[*series](w.p, w.st, w.depth, powers{})}
}

// found is the slope, area or root at some numbers, and how far an area may be off.
//
// The three kinds of search end in one number or in a fault; what is beyond any number is out
// of range.
func (w *running) found(in *Instr, x []float64, has []bool) (v, doubt float64, fault ops.Fault) {
	own := w.plain()
	switch in.Op {
	case ops.Area:
		var t total
		t, fault = own.under(int(in.A), x[0], x[1], x[2:])
		v, doubt = t.value(), t.off()
	case ops.Solve:
		v, fault = own.chosen(w.p.Solves[in.A], x, has)
	default:
		var ok bool
		if v, ok = own.slopeAt(int(in.A), x[0], x[1:]...); !ok {
			fault = ops.NoSlope
		}
	}
	if fault == ops.NoFault && v-v != 0 {
		fault = ops.OutOfRange
	}
	return v, doubt, fault
}

// curve runs a function: over a domain, over series, and for the area between two numbers.
type curve[N any] struct {
	at func(x ...N) (N, bool)
	ofFunc
}

// ofFunc is what is known of a function whatever the numbers are that it is run over.
type ofFunc struct {
	running
	fn int
}

func (c *ofFunc) series(x ...*series) (*series, bool) { return c.running.series().at(c.fn, x) }

func (c *ofFunc) area(lo, hi float64, rest []float64) (t total, fault ops.Fault) {
	c.within(curveSteps, func() { t, fault = c.plain().under(c.fn, lo, hi, rest) })
	return t, fault
}
