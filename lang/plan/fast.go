package plan

import (
	"math"

	"steelyard/lang/ops"
	"steelyard/lang/run"
)

// Fast is a fast plan: it works out some slots of a program from columns of
// others, for many lanes at once. It shares constants and common parts, works
// out once what no column touches, and runs what is left as few passes over
// blocks that stay in the first-level cache.
//
// Constants in a product are gathered and a division by a constant becomes a
// multiplication, so that a value may differ from the faithful program's in its
// last bits, by at most one unit in the last place per multiplication and
// division of the product; sums are added as they are written.
//
// A Fast holds its own workspace: one goroutine at a time.
type Fast struct {
	inputs, outputs int
	steps           []fastStep
	consts          [][]float64 // one number each, for operands that don't vary
	temps           [][]float64
	block           int
	cols            [][]float64 // inputs, outputs, constants, workspace
	args            kernelArgs
	sure            []bool // a block of true
	careful         *fastCareful
	// plain is set if the program is too large to cut into kernels, or holds
	// numbers near the ends of the range: each lane is then run by itself.
	plain bool
}

// fastStep is one pass over a block.
type fastStep struct {
	run     kernel
	dst     int32
	x, y, z int32 // columns; -1 for none
	c       [5]float64
	op      ops.Op
	k       float64
}

// Blocks are as long as the workspace lets them be in the first-level cache.
const (
	fastLongBlock  = 1024
	fastShortBlock = 512
)

// Inputs and Outputs return the number of columns that Run takes.
func (f *Fast) Inputs() int  { return f.inputs }
func (f *Fast) Outputs() int { return f.outputs }

// lanes is the number of lanes that all columns have, or 0 if one is missing.
func (f *Fast) lanes(in, out [][]float64) int {
	if len(in) < f.inputs || len(out) < f.outputs || f.outputs == 0 {
		return 0
	}
	n := len(out[0])
	for _, c := range out[:f.outputs] {
		n = min(n, len(c))
	}
	for _, c := range in[:f.inputs] {
		n = min(n, len(c))
	}
	return n
}

// Run works out the outputs, in the order asked for, from the columns of the
// varying slots, in the order given. Lanes without a value are infinite or not
// a number; RunStatus says which those are for sure. Outputs must not overlap
// inputs.
func (f *Fast) Run(in, out [][]float64) {
	n := f.lanes(in, out)
	if f.plain {
		for i := range n {
			f.careful.lane(in, out, i)
		}
		return
	}
	for lo := 0; lo < n; lo += f.block {
		f.runBlock(in, out, lo, min(lo+f.block, n))
	}
}

// RunStatus is Run, and tells for each lane whether every output has a value. A
// lane whose numbers are near the ends of the range, or whose result is 0 or
// not finite, is run again by the faithful program, so that a result too small
// to hold is never taken for 0; in a term of a sum it counts as 0 beside the
// others. An output without a value is not a number.
func (f *Fast) RunStatus(in, out [][]float64, ok []bool) {
	n := min(f.lanes(in, out), len(ok))
	if f.plain {
		for i := range n {
			ok[i] = f.careful.lane(in, out, i)
		}
		return
	}
	for lo := 0; lo < n; lo += f.block {
		hi := min(lo+f.block, n)
		f.runBlock(in, out, lo, hi)
		copy(ok[lo:hi], f.sure)
		doubt := false
		for _, c := range in[:f.inputs] {
			doubt = fastDoubt(ok[lo:hi], c[lo:hi], fastLeast, fastGreatest) || doubt
		}
		for _, c := range out[:f.outputs] {
			doubt = fastDoubt(ok[lo:hi], c[lo:hi], 1, fastInfinite) || doubt
		}
		for i := lo; doubt && i < hi; i++ {
			if !ok[i] {
				ok[i] = f.careful.lane(in, out, i)
			}
		}
	}
}

// Failure returns why the first output that has no value in a lane has none,
// as the faithful program finds it; its kind is ops.NoFault if all have one.
func (f *Fast) Failure(in [][]float64, lane int) run.Failure {
	if len(in) < f.inputs {
		return run.Failure{Kind: ops.Absent}
	}
	for _, c := range in[:f.inputs] {
		if lane < 0 || lane >= len(c) {
			return run.Failure{Kind: ops.Absent}
		}
	}
	return f.careful.failure(in, lane)
}

// Bits of the numbers that bound what is ordinary, and of infinity.
var (
	fastLeast    = math.Float64bits(1e-60)
	fastGreatest = math.Float64bits(1e60)
	fastInfinite = math.Float64bits(math.Inf(1))
)

// fastDoubt takes ok from the lanes whose magnitude isn't from least up to,
// but not including, most, as bits, and tells whether there were any. 0 always
// is in doubt.
func fastDoubt(ok []bool, c []float64, least, most uint64) bool {
	// One subtraction or the other reaches below 0, which sets the top bit.
	last, below := most-least-1, uint64(0)
	for _, v := range c {
		x := math.Float64bits(v)&^(1<<63) - least
		below |= x | (last - x)
	}
	if below < 1<<63 {
		return false
	}
	for i, v := range c[:len(ok)] {
		if math.Float64bits(v)&^(1<<63)-least > last {
			ok[i] = false
		}
	}
	return true
}

// runBlock runs the steps over the lanes from lo on, below hi.
func (f *Fast) runBlock(in, out [][]float64, lo, hi int) {
	cols := f.cols
	for i := range f.inputs {
		cols[i] = in[i][lo:hi]
	}
	for i := range f.outputs {
		cols[f.inputs+i] = out[i][lo:hi]
	}
	base := f.inputs + f.outputs + len(f.consts)
	for i, t := range f.temps {
		cols[base+i] = t[:hi-lo]
	}
	a := &f.args
	for i := range f.steps {
		s := &f.steps[i]
		a.dst, a.c, a.op, a.k = cols[s.dst], &s.c, s.op, s.k
		if s.x >= 0 {
			a.x = cols[s.x]
		}
		if s.y >= 0 {
			a.y = cols[s.y]
		}
		if s.z >= 0 {
			a.z = cols[s.z]
		}
		s.run(a)
	}
}
