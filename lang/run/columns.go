package run

import (
	"math"

	"steelyard/lang/limit"
	"steelyard/lang/ops"
)

// Columns works out some slots of a program for many lanes at once, such as the
// points of a curve: the numbers of a slot that differs between lanes are a
// column. Values are those of the single line bit for bit, and a lane without
// one has the failure that the single line would have.
//
// Lanes run in blocks. A block runs through kernels, loops that each do a few
// operations for every lane and tell up to which lane they are sure. The lanes
// after that are few: they run with care, each operation with a look at what
// may have failed.
//
// Columns hold their own workspace: one goroutine at a time.
type Columns struct {
	work    work
	careful careful
	passes  []pass
	// cols are the columns of the passes: inputs, outputs, constants, workspace.
	cols   [][]float64
	most   int // the lanes of a block
	budget *limit.Budget
	fails  []Fail // of the last run
}

// Fail is a lane in which some output has no value.
type Fail struct {
	Lane  int32
	cause int32
}

const (
	// blockLanes is how many lanes a block has, so that its columns stay in the
	// first-level cache; looseLanes where it has inputs and outputs alone.
	blockLanes, looseLanes = 512, 4096
	// group is how many lanes a kernel looks at together, and fewLanes how many run with
	// care at first where one is in doubt: often it is one alone, as the 0 of x² at 0.
	group, fewLanes = 8, 16
	// lanesPerStep is how many lanes of a step cost as much as one step of the
	// walker, and the set-ups are the lanes that setting a step up costs as much
	// as.
	lanesPerStep          = 4
	blockSetUp, careSetUp = 4, 8
)

// Columns plans the work of finding outputs from columns of the slots in
// varying, whatever instructions gave those before. Slots that don't depend on
// them have the value that they have in st. A slot of several elements has as
// many columns. It returns false if st hasn't run as far as the slots asked for.
func (p *Program) Columns(st *State, outputs, varying []Slot) (*Columns, bool) {
	for _, list := range [2][]Slot{outputs, varying} {
		for _, s := range list {
			if s < 0 || s >= st.Len() || int(s) >= len(p.Main.Instrs) {
				return nil, false
			}
		}
	}
	p = p.varying(varying)
	c := &Columns{budget: st.budget()}
	newCutter(p, st, &c.work, outputs, varying).cut(outputs)
	c.careful.prepare(p, st, &c.work)
	c.passes, c.cols = planPasses(&c.work)
	if c.most = blockLanes; len(c.cols) == c.Inputs()+c.Outputs() {
		c.most = looseLanes
	}
	return c, true
}

// Inputs and Outputs return the number of columns that Run takes.
func (c *Columns) Inputs() int  { return c.work.inputs }
func (c *Columns) Outputs() int { return len(c.work.outputs) }

// Run works out the outputs, in the order asked for, from the columns of the
// varying slots, in the order given, in as many lanes as all columns have. An
// output without a value is not a number; the lanes where that is so are
// returned in their order, and stay until the next run. Outputs must not
// overlap inputs. Where the budget of the state has ended, the lanes that are left
// fail as stopped.
func (c *Columns) Run(in, out [][]float64) []Fail {
	c.fails = c.fails[:0]
	n := c.lanes(in, out)
	size, care := c.most, fewLanes
	sureFrom := 0 // from where on all lanes so far were run without care
	for lo := 0; lo < n; {
		m := min(size, n-lo)
		if again := group - m; again > 0 && again <= lo-sureFrom {
			lo, m = lo-again, group // some lanes once more, so that the last group is whole
		}
		if !c.spend(m, blockSetUp) {
			return c.stopped(out, lo, n)
		}
		sure := c.block(in, out, lo, m)
		lo += sure
		if sure == m {
			size, care = min(2*size, c.most), fewLanes
			continue
		}
		if sure > 0 {
			care = fewLanes
		}
		for end := min(lo+care, n); lo < end; lo += m {
			m = min(c.careful.lanes, end-lo)
			if !c.spend(m, careSetUp) {
				return c.stopped(out, lo, n)
			}
			c.fails = c.careful.run(in, out, lo, m, c.fails)
		}
		size, care, sureFrom = careLanes, min(2*care, blockLanes), lo
	}
	return c.fails
}

// spend takes what m lanes cost from the budget: each of their steps takes a
// fraction of one of the walker's, and some to be set up.
func (c *Columns) spend(m, setUp int) bool {
	return c.budget.Spend(int64(len(c.work.steps)) * int64(m+setUp) / lanesPerStep)
}

// stopped fails the lanes from lo on.
func (c *Columns) stopped(out [][]float64, lo, n int) []Fail {
	cause := c.work.cause(Failure{Kind: ops.Stopped})
	for ; lo < n; lo++ {
		for i := range c.Outputs() {
			out[i][lo] = math.NaN()
		}
		c.fails = append(c.fails, Fail{int32(lo), cause})
	}
	return c.fails
}

// Failure is why the first output that has no value in a lane has none.
func (c *Columns) Failure(f Fail) Failure {
	if f.cause <= 0 || int(f.cause) > len(c.work.failures) {
		return Failure{}
	}
	return c.work.failures[f.cause-1]
}

// lanes is the number of lanes that all columns have, or 0 if one is missing.
func (c *Columns) lanes(in, out [][]float64) int {
	if len(in) < c.Inputs() || len(out) < c.Outputs() || c.Outputs() == 0 {
		return 0
	}
	n := len(out[0])
	for _, col := range out[:c.Outputs()] {
		n = min(n, len(col))
	}
	for _, col := range in[:c.Inputs()] {
		n = min(n, len(col))
	}
	return n
}

// block runs the passes over m lanes from lo on, and returns up to which of
// them all are sure.
func (c *Columns) block(in, out [][]float64, lo, m int) int {
	m -= m % group
	if len(c.passes) == 0 || m == 0 {
		return 0
	}
	cols := c.cols
	for i := range c.Inputs() {
		cols[i] = in[i][lo : lo+m]
	}
	for i := range c.Outputs() {
		cols[c.Inputs()+i] = out[i][lo : lo+m]
	}
	for i := range c.passes {
		p := &c.passes[i]
		p.d, p.x = cols[p.to][:m], cols[p.from[0]]
		p.y, p.z = cols[p.from[1]], cols[p.from[2]]
		if m = p.run(p); m == 0 {
			return 0
		}
	}
	return m
}
