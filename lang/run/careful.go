package run

import "steelyard/lang/ops"

const (
	// careLanes is how many lanes run with care at a time.
	careLanes = 32
	// careCells bounds the workspace of that: where there are many columns the
	// lanes are fewer.
	careCells = 1 << 17
)

// careful runs the steps of some work one after the other, for a few lanes at a
// time, and looks in each lane whether the operands have a value and whether
// the result is one.
type careful struct {
	*work
	lanes  int
	vals   []float64 // per column, lanes numbers
	causes []Cause
	last   []lastFailure // per step

	// What a search needs: a state that holds the lane's values of what its
	// functions load.
	walk  *floatWalker
	state State
}

// lastFailure is the failure that a step had last: lanes beside each other
// often fail alike.
type lastFailure struct {
	kind  ops.Fault
	cause Cause
}

// prepare makes the workspace, with the columns that don't vary.
func (c *careful) prepare(p *Program, st *State, w *work) {
	c.work = w
	c.lanes = max(1, min(careLanes, careCells/max(1, len(w.cols))))
	c.vals, c.causes = make([]float64, c.lanes*len(w.cols)), make([]Cause, c.lanes*len(w.cols))
	c.last = make([]lastFailure, len(w.steps))
	for i, col := range w.cols {
		if !col.fixed {
			continue
		}
		v, why := c.column(int32(i))
		for lane := range v {
			v[lane], why[lane] = col.value, col.cause
		}
	}
	c.state = w.stateFor(st)
	c.walk = p.floats(nil, &c.state)
}

// column is the workspace of a column.
func (c *careful) column(i int32) ([]float64, []Cause) {
	from := int(i) * c.lanes
	return c.vals[from : from+c.lanes : from+c.lanes], c.causes[from : from+c.lanes : from+c.lanes]
}

// run works out m lanes from lo on.
func (c *careful) run(in, out [][]float64, why []Cause, lo, m int) {
	for i := range c.inputs {
		v, fails := c.column(int32(i))
		copy(v[:m], in[i][lo:])
		for lane, x := range v[:m] {
			if fails[lane] = 0; x-x != 0 {
				fails[lane] = c.cause(Failure{Slot: c.inputSlots[i], Kind: ops.OutOfRange})
			}
		}
	}
	for i := range c.steps {
		s := &c.steps[i]
		switch {
		case s.search != nil:
			c.searches(s, m)
		case s.op == ops.Select:
			c.choose(s, m)
		default:
			c.arithmetic(s, &c.last[i], m)
		}
	}
	clear(why[lo : lo+m])
	for i, col := range c.outputs {
		v, fails := c.column(col)
		for lane, x := range v[:m] {
			if cause := fails[lane]; cause != 0 {
				x = noValue
				if why[lo+lane] == 0 {
					why[lo+lane] = cause
				}
			}
			out[i][lo+lane] = x
		}
	}
}

// arithmetic runs an operation on one or two numbers.
func (c *careful) arithmetic(s *step, last *lastFailure, m int) {
	v, why := c.column(s.to)
	a, failsA := c.column(s.from[0])
	b, failsB := a, failsA
	if s.op.Operands() == 2 {
		b, failsB = c.column(s.from[1])
	}
	for i := range m {
		if why[i] = failsA[i]; why[i] == 0 {
			why[i] = failsB[i]
		}
		if why[i] != 0 {
			continue
		}
		x := s.op.Value(a[i], b[i], s.k)
		v[i] = x
		if !ops.Suspect(x) {
			continue
		}
		if kind := s.op.Fault(a[i], b[i], s.k, x); kind != ops.NoFault {
			if kind != last.kind {
				*last = lastFailure{kind, c.cause(s.at.failure(kind))}
			}
			why[i] = last.cause
		}
	}
}

// choose runs a selection: the other operand may fail unseen.
func (c *careful) choose(s *step, m int) {
	v, why := c.column(s.to)
	is, failsIs := c.column(s.from[0])
	yes, failsYes := c.column(s.from[1])
	no, failsNo := c.column(s.from[2])
	for i := range m {
		switch {
		case failsIs[i] != 0:
			why[i] = failsIs[i]
		case is[i] == 1:
			v[i], why[i] = yes[i], failsYes[i]
		default:
			v[i], why[i] = no[i], failsNo[i]
		}
	}
}

// searches runs what has no kernel, such as an area, by the walker, lane by
// lane.
func (c *careful) searches(s *step, m int) {
	v, why := c.column(s.to)
	for i := range m {
		v[i], why[i] = s.search.run(c.work, c.walk, func(col int32) (float64, Cause) {
			vals, causes := c.column(col)
			return vals[i], causes[i]
		})
	}
}
