package run

import (
	"math"
	"slices"

	"steelyard/lang/ops"
)

const (
	// careLanes is how many lanes run with care at a time.
	careLanes = 256
	// careCells bounds the workspace of that: where there are many columns the
	// lanes are fewer.
	careCells = 1 << 17
)

// careful runs the steps of some work one after the other, for a few lanes at a
// time. Each has a kernel of its own, and what that is not sure of is looked at
// lane by lane.
//
// The passes (passes.go) run lanes through kernels that join several operations, and say how
// far they were sure. Where one was not, as it divided by 0 or left the range, lanes come here:
// each operation by itself, and so with its own failure.
type careful struct {
	*work
	lanes  int       // at most
	room   int       // of the workspace
	vals   []float64 // per column, lanes numbers
	causes []int32   // 0, or the number of a failure of the work
	failed []bool    // per column: some lane has a cause
	own    []ownPass
	// What a search needs: a state that holds the lane's values of what its
	// functions load.
	walk  *floatWalker
	state State
}

// ownPass is the kernel of a step, and the failure that the step had last:
// lanes beside each other often fail alike.
type ownPass struct {
	pass
	kind   ops.Fault
	cause  int32
	faults ops.Faults
}

// prepare notes the work, and what its searches need of a state as it is now.
func (c *careful) prepare(p *Program, st *State, w *work) {
	c.work = w
	c.lanes = max(group, min(careLanes, careCells/max(1, len(w.cols)))&^(group-1))
	if slices.ContainsFunc(w.steps, func(s step) bool { return s.search != nil }) {
		c.state = w.stateFor(st)
		c.walk = p.floats(&c.state)
	}
}

// open makes the workspace for so many lanes, with the columns that don't vary. Most
// work never needs it, or for the few lanes after the last whole group.
func (c *careful) open(lanes int) {
	c.room = min((lanes+group-1)&^(group-1), c.lanes)
	c.vals, c.causes = make([]float64, c.room*len(c.cols)), make([]int32, c.room*len(c.cols))
	c.failed, c.own = make([]bool, len(c.cols)), make([]ownPass, len(c.steps))
	for i, col := range c.cols {
		if !col.fixed {
			continue
		}
		v, why := c.column(int32(i))
		for lane := range v {
			v[lane], why[lane] = col.value, col.cause
		}
		c.failed[i] = col.cause != 0
	}
	for i := range c.steps {
		if s := &c.steps[i]; s.search == nil && s.op != ops.Select && s.parts == nil {
			c.own[i].run, c.own[i].k[0] = single(s.op, s.k), s.k
			c.own[i].faults = s.op.Faults()
		}
	}
}

// column is the workspace of a column.
//
// The numbers of one column lie beside each other, as a kernel runs along a column.
func (c *careful) column(i int32) ([]float64, []int32) {
	from, to := int(i)*c.room, int(i+1)*c.room
	return c.vals[from:to:to], c.causes[from:to:to]
}

// run works out m lanes from lo on, and adds those that fail to a list.
//
// A lane of which an input is no number fails there, and so does what is worked out from it.
func (c *careful) run(in, out [][]float64, lo, m int, list []Fail) []Fail {
	if m > c.room {
		c.open(m)
	}
	for i := range c.inputs {
		v, fails := c.column(int32(i))
		v = v[:copy(v[:m], in[i][lo:])]
		if c.failed[i] {
			clear(fails)
			c.failed[i] = false
		}
		for lane, x := range v {
			if !ops.Finite(x) {
				fails[lane] = c.cause(Failure{Slot: c.inputSlots[i], Kind: ops.OutOfRange})
				c.failed[i] = true
			}
		}
	}
	for i := range c.steps {
		s := &c.steps[i]
		switch {
		case s.search != nil:
			c.searches(s, m)
		case s.parts != nil:
			c.join(s, m)
		case s.op == ops.Select:
			c.choose(s, m)
		default:
			c.arithmetic(s, &c.own[i], m)
		}
	}
	var lanes [careLanes]int32
	// A lane is listed once with its first cause, however many outputs lack a value there.
	var why []int32 // where an output has no value
	for i, col := range c.outputs {
		v, fails := c.column(col)
		show := out[i][lo : lo+m]
		copy(show, v)
		if !c.failed[col] {
			continue
		}
		fails = fails[:len(show)]
		for lane, cause := range fails {
			if cause != 0 {
				show[lane] = math.NaN()
			}
		}
		if why == nil {
			why = fails
		} else {
			why = lanes[:copy(lanes[:], why)]
			first(why, fails)
		}
	}
	n := len(list)
	list = slices.Grow(list, len(why))[:n+len(why)]
	for lane, cause := range why {
		if list[n] = (Fail{int32(lo + lane), cause}); cause != 0 {
			n++
		}
	}
	return list[:n]
}

// first notes causes where none is noted.
//
// The cause of the operand that is written first is the one that the walker would tell.
func first(why, causes []int32) {
	causes = causes[:len(why)]
	for i := range why {
		if why[i] == 0 {
			why[i] = causes[i]
		}
	}
}

// arithmetic runs an operation on one or two numbers. Lanes whose operands
// fail do so for the same cause. Its kernel works out whole groups, those after
// the last lane too, and a group that it isn't sure of is looked at.
//
// A lane that fails only because an operand is too large for a number may still be settled:
// 1/exp(1000) is 0 (Grown).
func (c *careful) arithmetic(s *step, own *ownPass, m int) {
	v, why := c.column(s.to)
	a, failsA := c.column(s.from[0])
	b, failsB := a, failsA
	failed := c.failed[s.from[0]]
	if s.op.Operands() == 2 {
		b, failsB = c.column(s.from[1])
		failed = failed || c.failed[s.from[1]]
	}
	why = why[:m]
	if clear(why); failed {
		first(why, failsA)
		first(why, failsB)
	}
	given := failed
	all := (m + group - 1) &^ (group - 1)
	own.d, own.x, own.y, own.through = v[:all], a, b, false
	if sure := own.run(&own.pass); sure < all {
		own.d, own.x, own.y, own.through = v[sure:all], a[sure:], b[sure:], true
		own.run(&own.pass)
		failed = c.look(s, own, why[min(sure, m):], a[sure:], b[sure:], v[sure:]) || failed
	}
	for i := 0; given && i < m; i++ {
		switch {
		case failsA[i] == 0 && failsB[i] == 0, !c.grown(failsA[i]):
		case !c.grown(failsB[i]):
			why[i] = failsB[i]
		case s.op.Settles(a[i], v[i]):
			why[i] = 0
		}
	}
	c.failed[s.to] = failed
}

// look notes why lanes of a step have no value, and tells whether some have
// none.
//
// Where lanes beside each other fail alike, which is usual beyond the end of a curve, the
// failure is made once.
func (c *careful) look(s *step, own *ownPass, why []int32, a, b, v []float64) bool {
	failed, faults, last, cause := false, own.faults, own.kind, own.cause
	a, b, v = a[:len(why)], b[:len(why)], v[:len(why)]
	for i, x := range v {
		kind := faults.Always
		switch {
		case why[i] != 0:
			continue
		case x-x == 0:
			if x != 0 || !faults.Vanishes(a[i], b[i]) {
				continue
			}
			kind = ops.OutOfRange
		case faults.Divides && b[i] == 0:
			kind = ops.DivZero
		case faults.By != nil:
			kind = faults.By(a[i], b[i], s.k)
		}
		if kind != last {
			last, cause = kind, c.cause(s.at.failure(kind))
		}
		why[i], failed = cause, true
	}
	own.kind, own.cause = last, cause
	return failed
}

// choose runs a selection: the other operand may fail unseen.
//
// A condition is 1 or 0, and no lane runs the branch that it does not take.
func (c *careful) choose(s *step, m int) {
	v, why := c.column(s.to)
	is, failsIs := c.column(s.from[0])
	yes, failsYes := c.column(s.from[1])
	no, failsNo := c.column(s.from[2])
	for i := range m {
		switch {
		case failsIs[i] != 0:
			v[i], why[i] = is[i], failsIs[i]
		case is[i] == 1:
			v[i], why[i] = yes[i], failsYes[i]
		default:
			v[i], why[i] = no[i], failsNo[i]
		}
	}
	c.failed[s.to] = true // as far as is known
}

// join copies the elements of a slot, with the first cause among them for all.
//
// The elements of one slot have one cause together, as in the walker.
func (c *careful) join(s *step, m int) {
	var lanes [careLanes]int32
	why, failed := lanes[:m], false
	for _, p := range s.parts {
		_, fails := c.column(p)
		first(why, fails)
		failed = failed || c.failed[p]
	}
	for i, p := range s.parts {
		to := s.to + int32(i)
		v, fails := c.column(to)
		part, _ := c.column(p)
		copy(v, part)
		copy(fails, why)
		c.failed[to] = failed
	}
}

// searches runs what has no kernel, such as an area, by the walker, lane by
// lane.
func (c *careful) searches(s *step, m int) {
	v, why := c.column(s.to)
	for i := range m {
		v[i], why[i] = s.search.run(c.work, c.walk, func(col int32) (float64, int32) {
			vals, causes := c.column(col)
			return vals[i], causes[i]
		})
	}
	c.failed[s.to] = true // as far as is known
}
