package plan

import (
	"context"
	"math"
	"testing"

	"steelyard/lang/ops"
	"steelyard/lang/run"

	"pgregory.net/rapid"
)

// randomCode draws instructions that read earlier slots only.
type randomCode struct {
	t     *rapid.T
	code  *run.Code
	from  []ops.Op
	funcs []*run.Func
}

var randomArithmetic = []ops.Op{ops.Neg, ops.Add, ops.Sub, ops.Mul, ops.Mul, ops.Div, ops.Pow, ops.Pow, ops.Sqrt, ops.Add, ops.Sub, ops.Copy}

var randomAll = append([]ops.Op{
	ops.PowVar, ops.Cbrt, ops.Root, ops.Abs, ops.Sgn, ops.Sin, ops.Cos, ops.Tan, ops.Asin, ops.Acos, ops.Atan, ops.Atan2, ops.Sinh, ops.Cosh,
	ops.Tanh, ops.Exp, ops.Ln, ops.Log10, ops.Hypot, ops.Min, ops.Max, ops.Round, ops.Less, ops.AtMost, ops.Call, ops.Call,
}, append(randomArithmetic, randomArithmetic...)...)

// randomExact are the operations that no rewriting touches.
var randomExact = []ops.Op{
	ops.Neg, ops.Add, ops.Sub, ops.Add, ops.Sub, ops.Sqrt, ops.Cbrt, ops.Abs, ops.Sin, ops.Cos, ops.Atan, ops.Atan2, ops.Tanh, ops.Exp, ops.Ln,
	ops.Hypot, ops.Min, ops.Max, ops.Copy, ops.Sinh,
}

func (r *randomCode) slot() run.Slot {
	return run.Slot(rapid.IntRange(0, len(r.code.Instrs)-1).Draw(r.t, "slot"))
}

func (r *randomCode) put(in run.Instr) run.Slot {
	r.code.Instrs = append(r.code.Instrs, in)
	return run.Slot(len(r.code.Instrs) - 1)
}

func (r *randomCode) step() run.Slot {
	op := rapid.SampledFrom(r.from).Draw(r.t, "op")
	in := run.Instr{Op: op, A: r.slot(), B: r.slot()}
	switch op {
	case ops.Pow:
		in.K = rapid.SampledFrom([]float64{-3, -2, -1, -0.5, 0.5, 1, 1.5, 2, 2, 3, 4, 5, 0, 0.7}).Draw(r.t, "k")
	case ops.Root:
		in.K = float64(rapid.IntRange(2, 7).Draw(r.t, "n"))
	case ops.Call:
		if len(r.funcs) == 0 {
			return r.put(run.Instr{Op: ops.Copy, A: in.A})
		}
		at := rapid.IntRange(0, len(r.funcs)-1).Draw(r.t, "func")
		in.A, in.B, in.C = run.Slot(at), run.Slot(len(r.code.Args)), 2
		r.code.Args = append(r.code.Args, r.slot(), r.slot())
	}
	return r.put(in)
}

// function draws a function of two arguments by intervals, which loads slots
// of the main code and may call the functions before it.
func (r *randomCode) function(loads int) *run.Func {
	f := &run.Func{Params: 2}
	b := &randomCode{t: r.t, code: &f.Code, from: r.from, funcs: r.funcs}
	b.put(run.Instr{Op: ops.Param, A: 0})
	b.put(run.Instr{Op: ops.Param, A: 1})
	b.put(run.Instr{Op: ops.Load, A: run.Slot(rapid.IntRange(0, loads-1).Draw(r.t, "load"))})
	for range rapid.IntRange(1, 4).Draw(r.t, "body") {
		b.step()
	}
	less := b.put(run.Instr{Op: ops.Less, A: b.slot(), B: b.slot()})
	most := b.put(run.Instr{Op: ops.AtMost, A: b.slot(), B: b.slot()})
	both := b.put(run.Instr{Op: ops.Both, A: less, B: most})
	yes, other := b.slot(), b.slot()
	rest := b.put(run.Instr{Op: ops.Nothing})
	rest = b.put(run.Instr{Op: ops.Select, A: less, B: other, C: rest})
	f.Result = b.put(run.Instr{Op: ops.Select, A: both, B: yes, C: rest})
	return f
}

const randomInputs = 3

// randomProgram draws a program whose first slots are its inputs.
func randomProgram(t *rapid.T, from []ops.Op) *run.Program {
	p := &run.Program{}
	r := &randomCode{t: t, code: &p.Main, from: from}
	for range randomInputs {
		r.put(run.Instr{Op: ops.Const, K: 1})
	}
	for range 3 {
		r.put(run.Instr{Op: ops.Const, K: rapid.SampledFrom([]float64{0, 1, 2, 0.5, -1, 3, 9.8, -0.3, 1e-3, 257, math.Pi}).Draw(t, "const")})
	}
	loads := len(p.Main.Instrs)
	for range rapid.IntRange(0, 2).Draw(t, "funcs") {
		f := r.function(loads)
		p.Funcs = append(p.Funcs, f)
		r.funcs = p.Funcs
	}
	for range rapid.IntRange(1, 20).Draw(t, "steps") {
		r.step()
	}
	return p
}

// randomBound bounds how far a value may lie from another rounding of the same
// expression. NaN is for what can't be told: a jump or the edge of a domain
// within reach.
func randomBound(in *run.Instr, a, b, ea, eb, v float64) float64 {
	dev := 0.0
	for _, x := range []float64{a - ea, a + ea} {
		for _, y := range []float64{b - eb, b + eb} {
			w := in.Op.Value(x, y, in.K)
			dev = max(dev, math.Abs(w-v))
			if w-w != 0 {
				return math.NaN()
			}
			if jumps := in.Op == ops.Sgn || in.Op == ops.Less || in.Op == ops.AtMost || in.Op == ops.Round; jumps && w != v && ea+eb > 0 {
				return math.NaN()
			}
		}
	}
	return 2*dev + 4*0x1p-52*math.Abs(v)
}

// randomBounds runs the bound through a main code without calls.
func randomBounds(p *run.Program, st *run.State) []float64 {
	e := make([]float64, len(p.Main.Instrs))
	for i := range e {
		in := &p.Main.Instrs[i]
		if _, ok := st.Value(run.Slot(i)); !ok || in.Op == ops.Const {
			continue
		}
		var a, b, ea, eb float64
		if n := in.Op.Operands(); n > 0 {
			a, ea = st.Vals[in.A], e[in.A]
			if n > 1 {
				b, eb = st.Vals[in.B], e[in.B]
			}
		}
		if in.Op == ops.Call {
			e[i] = math.NaN()
			continue
		}
		e[i] = randomBound(in, a, b, ea, eb, st.Vals[i])
	}
	return e
}

// checkRandom compares both ways of running over the same lanes. The bound
// tells, per lane and output, how far the two may lie apart; NaN: don't compare.
func checkRandom(t *rapid.T, p *run.Program, bound func(p *run.Program, st *run.State, s run.Slot) float64) {
	n := rapid.IntRange(1, 9).Draw(t, "lanes")
	vary := rapid.IntRange(1, randomInputs).Draw(t, "vary")
	end := run.Slot(len(p.Main.Instrs))
	outputs := []run.Slot{end - 1, run.Slot(rapid.IntRange(0, int(end)-1).Draw(t, "output"))}
	var varying []run.Slot
	var in, out [][]float64
	for i := range vary {
		varying = append(varying, run.Slot(i))
		in = append(in, make([]float64, n))
		for j := range n {
			in[i][j] = rapid.OneOf(rapid.Float64Range(-3, 3), rapid.SampledFrom([]float64{0, 1, -1, 2, 0.5, 1e-7, 1e9})).Draw(t, "x")
		}
	}
	out = [][]float64{make([]float64, n), make([]float64, n)}
	st := &run.State{}
	p.Run(context.Background(), st, 0, end)
	f, ok := FastOf(p, st, outputs, varying)
	if !ok {
		t.Fatal("no fast plan")
	}
	good := make([]bool, n)
	f.RunStatus(in, out, good)
	for j := range n {
		for i := range vary {
			p.Main.Instrs[i].K = in[i][j]
		}
		st := &run.State{}
		p.Run(context.Background(), st, 0, end)
		all, unsure := true, false
		for i, s := range outputs {
			want, has := st.Value(s)
			all = all && has
			e := bound(p, st, s)
			if e != e || st.Failure(s).Kind == ops.OutOfRange {
				unsure = true
				continue
			}
			if has && !(math.Abs(out[i][j]-want) <= e) {
				t.Fatalf("lane %d output %d: fast %v, faithful %v, bound %g\n%v", j, s, out[i][j], want, e, p.Main.Instrs)
			}
		}
		if !unsure && good[j] != all {
			t.Fatalf("lane %d: status %t, faithful %t\n%v", j, good[j], all, p.Main.Instrs)
		}
	}
}

// TestFastRandom compares random programs within the rounding of their terms.
func TestFastRandom(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := randomProgram(t, rapid.SampledFrom([][]ops.Op{randomArithmetic, randomAll}).Draw(t, "ops"))
		checkRandom(t, p, func(p *run.Program, st *run.State, s run.Slot) float64 {
			e := randomBounds(p, st)
			for i := range e[:s+1] {
				// The edge of a domain within reach: either way is right.
				if st.Failure(run.Slot(i)).Kind != ops.NoFault && i > int(randomInputs) && randomNear(p, st, e, run.Slot(i)) {
					return math.NaN()
				}
			}
			for _, x := range e[:s+1] {
				if x != x {
					return x
				}
			}
			return e[s]
		})
	})
}

// randomNear tells whether a slot failed by no more than rounding could do.
func randomNear(p *run.Program, st *run.State, e []float64, s run.Slot) bool {
	in := &p.Main.Instrs[s]
	if st.Failure(s).Slot != s || in.Op == ops.Call || in.Op.Operands() == 0 {
		return false
	}
	return e[in.A] != 0 || in.Op.Operands() == 2 && e[in.B] != 0
}

// TestFastExact compares random programs that nothing rewrites to the last bit.
func TestFastExact(t *testing.T) {
	from := append([]ops.Op{ops.Call, ops.Call}, randomExact...)
	rapid.Check(t, func(t *rapid.T) {
		checkRandom(t, randomProgram(t, from), func(*run.Program, *run.State, run.Slot) float64 { return 0 })
	})
}
