package run

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"steelyard/lang/limit"
	"steelyard/lang/ops"
)

// randomCode draws instructions that read earlier slots only.
type randomCode struct {
	r     *rand.Rand
	p     *Program
	code  *Code
	funcs int // how many functions may be called
	main  int // how many slots of the main code a function may load; 0 in it
}

// numbers are constants and lanes that are known to be hard, among others.
var numbers = []float64{0, math.Copysign(0, -1), 1, -1, 2, 0.5, 3, -0.3, 9.8, 1e-3, 257, math.Pi, 1e-7, 1e9, 1e-170, 1e200, 5e-324, math.MaxFloat64, 750}

func (b *randomCode) number() float64 {
	if b.r.IntN(3) == 0 {
		return numbers[b.r.IntN(len(numbers))]
	}
	return b.r.Float64()*6 - 3
}

// slot draws an operand, the last ones more often, so that long chains come
// about.
func (b *randomCode) slot() Slot {
	n := len(b.code.Instrs)
	if b.r.IntN(2) == 0 {
		return Slot(n - 1 - b.r.IntN(min(3, n)))
	}
	return Slot(b.r.IntN(n))
}

func (b *randomCode) put(in Instr) Slot {
	b.code.Instrs = append(b.code.Instrs, in)
	return Slot(len(b.code.Instrs) - 1)
}

// ofNumbers are the operations but for those that lists alone have.
var ofNumbers = func() (out []ops.Op) {
	for op := range ops.Op(ops.Count) {
		if _, all := op.Elements(0); !all && op != ops.Data && op != ops.Join {
			out = append(out, op)
		}
	}
	return out
}()

// operation draws any operation that does something with numbers; half the time
// one of the most common.
func (b *randomCode) operation() ops.Op {
	common := []ops.Op{ops.Neg, ops.Add, ops.Sub, ops.Mul, ops.Mul, ops.Div, ops.Pow, ops.Sqrt}
	if b.r.IntN(2) == 0 {
		return common[b.r.IntN(len(common))]
	}
	return ofNumbers[b.r.IntN(len(ofNumbers))]
}

func (b *randomCode) step() {
	in := Instr{Op: b.operation(), A: b.slot(), B: b.slot(), C: b.slot()}
	exponents := []float64{-3, -2, -1, -0.5, 0.5, 1, 1.5, 2, 2, 3, 4, 5, 0, 0.7}
	switch in.Op {
	case ops.Const:
		in.K = b.number()
	case ops.Pow:
		in.K = exponents[b.r.IntN(len(exponents))]
	case ops.Root:
		in.K = float64(2 + b.r.IntN(6))
	case ops.Round, ops.LastFigure:
		in.K = float64(b.r.IntN(4))
	case ops.Param:
		in.A = Slot(b.r.IntN(2)) // one that isn't there, now and then
	case ops.Load:
		if b.main == 0 {
			in.Op = ops.Copy
			break
		}
		in.A = Slot(b.r.IntN(b.main))
	case ops.Call, ops.Slope, ops.Area, ops.Solve, ops.Fit, ops.Pieces, ops.Spread:
		if b.funcs == 0 {
			in.Op = ops.Copy
			break
		}
		in.A = Slot(b.r.IntN(b.funcs))
		n := b.p.Funcs[in.A].Params
		switch {
		case in.Op == ops.Call:
		case n > 1:
			in.Op = ops.Call
		case in.Op == ops.Area:
			n = 2
		default:
			in.Op = ops.Slope
		}
		in.B, in.C = Slot(len(b.code.Args)), Slot(n)
		for range n {
			b.code.Args = append(b.code.Args, b.slot())
		}
	}
	b.put(in)
}

// function draws a function by intervals, which loads slots of the main code
// and may call the functions before it.
func (b *randomCode) function() {
	f := &Func{Params: 1 + b.r.IntN(2), Cost: 1 << 20} // so much that areas end soon
	in := &randomCode{r: b.r, p: b.p, code: &f.Code, funcs: len(b.p.Funcs), main: len(b.code.Instrs)}
	in.put(Instr{Op: ops.Param, A: 0})
	in.put(Instr{Op: ops.Param, A: Slot(b.r.IntN(f.Params))})
	in.put(Instr{Op: ops.Load, A: Slot(b.r.IntN(in.main))})
	for range 1 + b.r.IntN(5) {
		in.step()
	}
	less := in.put(Instr{Op: ops.Less, A: in.slot(), B: in.slot()})
	most := in.put(Instr{Op: ops.AtMost, A: in.slot(), B: in.slot()})
	both := in.put(Instr{Op: ops.Both, A: less, B: most})
	yes, other := in.slot(), in.slot()
	rest := in.put(Instr{Op: ops.Nothing})
	rest = in.put(Instr{Op: ops.Select, A: less, B: other, C: rest})
	f.Result = in.put(Instr{Op: ops.Select, A: both, B: yes, C: rest})
	b.p.Funcs = append(b.p.Funcs, f)
}

const randomInputs = 3

// newRandom begins a random program with its inputs and some constants.
func newRandom(seed uint64) (*Program, *randomCode) {
	p := &Program{}
	b := &randomCode{r: rand.New(rand.NewPCG(seed, 1)), p: p, code: &p.Main}
	for range 2 * randomInputs {
		b.put(Instr{Op: ops.Const, K: b.number()})
	}
	return p, b
}

// finish draws the functions and the steps.
func (b *randomCode) finish() {
	for range b.r.IntN(3) {
		b.function()
	}
	b.funcs = len(b.p.Funcs)
	for range 1 + b.r.IntN(20) {
		b.step()
	}
}

// randomProgram draws a program with some lanes of its inputs, and compares
// columns with single lines.
func randomProgram(t testing.TB, seed uint64) {
	p, b := newRandom(seed)
	b.finish()
	r, end := b.r, len(p.Main.Instrs)
	var varying []Slot
	var in [][]float64
	lanes := 1 + r.IntN(40)
	if r.IntN(20) == 0 {
		lanes += 600 // more than a block
	}
	calm := r.IntN(2) == 0
	for i := range 1 + r.IntN(randomInputs) {
		varying = append(varying, Slot(i))
		in = append(in, make([]float64, lanes))
		for j := range lanes {
			if in[i][j] = b.number(); calm {
				in[i][j] = 0.5 + r.Float64()
			}
			if r.IntN(200) == 0 && !calm {
				in[i][j] = math.Inf(1 - 2*r.IntN(2))
			}
		}
	}
	LikeLines(t, "random", p, []Slot{Slot(end - 1), Slot(r.IntN(end))}, varying, in)
}

// TestColumnsRandom compares random programs of every operation with single
// lines, values and failures bit for bit.
func TestColumnsRandom(t *testing.T) {
	n := uint64(5000)
	if testing.Short() {
		n = 500
	}
	for seed := range n {
		randomProgram(t, seed)
		if t.Failed() {
			t.Fatalf("seed %d", seed)
		}
	}
}

func FuzzColumns(f *testing.F) {
	f.Add(uint64(1))
	f.Fuzz(func(t *testing.T, seed uint64) { randomProgram(t, seed) })
}

// TestColumnsStopped checks that a search in a lane stops when it is told to.
func TestColumnsStopped(t *testing.T) {
	p := &Program{Funcs: []*Func{{Code: Code{Instrs: []Instr{{Op: ops.Param}, {Op: ops.Sin}}}, Result: 1, Params: 1, Cost: 2}}}
	p.Main.Instrs = []Instr{{Op: ops.Const, K: 1}, {Op: ops.Const, K: 9000}, {Op: ops.Area, A: 0, B: 0, C: 2}}
	p.Main.Args = []Slot{0, 1}
	st := &State{}
	p.Run(st, 0, 3)
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	st.Budget = limit.NewBudget(ctx, limit.Steps)
	c, _ := p.Columns(st, []Slot{2}, []Slot{0})
	fails := c.Run([][]float64{{1, 2}}, [][]float64{make([]float64, 2)})
	if len(fails) != 2 || c.Failure(fails[1]).Kind == ops.NoFault {
		t.Error("a search that was stopped has a value")
	}
}
