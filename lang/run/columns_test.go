package run

import (
	"fmt"
	"math"
	"reflect"
	"testing"

	"steelyard/lang/ops"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// LikeLines runs columns and checks every lane against the single line: values
// bit for bit, and failures. It returns the outputs.
func LikeLines(t testing.TB, what string, p *Program, outputs, varying []Slot, in [][]float64) ([][]float64, []Failure) {
	t.Helper()
	end := Slot(len(p.Main.Instrs))
	st := &State{}
	p.Run(st, 0, end)
	c, ok := p.Columns(st, outputs, varying)
	if !ok {
		t.Fatalf("%s: no columns", what)
	}
	n := len(in[0])
	out, fails := make([][]float64, len(outputs)), make([]Failure, n)
	for i := range out {
		out[i] = make([]float64, n)
	}
	for _, f := range c.Run(in, out) {
		fails[f.Lane] = c.Failure(f)
	}
	saved := make([]Instr, len(varying))
	for i, s := range varying {
		saved[i] = p.Main.Instrs[s]
	}
	line := &State{}
	for lane := range n {
		for i, s := range varying {
			p.Main.Instrs[s] = Instr{Op: ops.Const, K: in[i][lane]}
		}
		line.Truncate(0)
		p.Run(line, 0, end)
		want := Failure{}
		for i, s := range outputs {
			v, has := line.Value(s)
			if !has {
				v = math.NaN()
				if want.Kind == ops.NoFault {
					want = line.Failure(s)
				}
			}
			if got := out[i][lane]; math.Float64bits(got) != math.Float64bits(v) && (got == got || v == v) {
				t.Fatalf("%s, lane %d, output %d: %v, the line has %v, %+v\n%v", what, lane, s, got, v, line.Failure(s), p.Main.Instrs)
			}
		}
		if fails[lane] != want {
			t.Fatalf("%s, lane %d: fails by %+v, the line by %+v\n%v", what, lane, fails[lane], want, p.Main.Instrs)
		}
	}
	for i, s := range varying {
		p.Main.Instrs[s] = saved[i]
	}
	return out, fails
}

// TestColumnsCalls sweeps a function by intervals that loads a slot which
// varies too, written out and left to the walker.
func TestColumnsCalls(t *testing.T) {
	x, w := []float64{1, 5, -1, 5.5, 7, 0}, []float64{10, 10, 10, 1, 1, 3}
	want := []float64{-10, 0, 0, -11, 0, 0}
	for _, large := range []bool{false, true} {
		p := runPieces(2)
		if large {
			for range mostSteps {
				p.Funcs[0].Code.Instrs = append(p.Funcs[0].Code.Instrs, Instr{Op: ops.Nothing})
			}
		}
		last := Slot(len(p.Main.Instrs) - 1)
		out, fails := LikeLines(t, "pieces", p, []Slot{last}, []Slot{2, 1}, [][]float64{x, w})
		for i, v := range want {
			if good := fails[i].Kind == ops.NoFault; good != !math.IsNaN(out[0][i]) || good && out[0][i] != v {
				t.Errorf("f(%v)·%v is %v, %+v", x[i], w[i], out[0][i], fails[i])
			}
		}
	}
}

// TestColumnsFailure checks the place of a lane's failure: in a function, in
// the main code, and in what doesn't vary.
func TestColumnsFailure(t *testing.T) {
	p := runPieces(2)
	p.Main.Instrs = append(p.Main.Instrs, Instr{Op: ops.Div, A: 3, B: 2}, Instr{Op: ops.Div, A: 1, B: 0}, Instr{Op: ops.Add, A: 5, B: 6})
	x := [][]float64{{5, 1, 7, 0}}
	_, fails := LikeLines(t, "failures", p, []Slot{5}, []Slot{2}, x)
	for lane, want := range []Failure{
		{Slot: 3, Kind: ops.DivZero, Func: p.Funcs[0], Inner: 8}, {},
		{Slot: 3, Kind: ops.NoInterval, Func: p.Funcs[0], Inner: 9}, {Slot: 5, Kind: ops.DivZero},
	} {
		if fails[lane] != want {
			t.Errorf("lane %d: %+v, want %+v", lane, fails[lane], want)
		}
	}
	_, fails = LikeLines(t, "a fault that doesn't vary", p, []Slot{7}, []Slot{2}, x)
	if fails[1] != (Failure{Slot: 6, Kind: ops.DivZero}) {
		t.Errorf("a fault that doesn't vary: %+v", fails[1])
	}
}

// Passes is how many kernels a block runs through.
func (c *Columns) Passes() int { return len(c.passes) }

// TestColumnsSearches finds roots that depend on what varies, which the function
// of the equation loads, and areas up to it: u² = k, and u from 0 to k.
func TestColumnsSearches(t *testing.T) {
	square := Code{Instrs: []Instr{{Op: ops.Param}, {Op: ops.Pow, A: 0, K: 2}, {Op: ops.Load, A: 0}, {Op: ops.Sub, A: 1, B: 2}}, Statics: make([]Static, 4)}
	p := &Program{Funcs: []*Func{{Params: 1, Result: 3, Code: square, Cost: 4}},
		Solves: []*Solve{{Differences: []int{0}, Dims: make([]units.Dim, 1), Choice: syntax.GreatestRoot, Searched: true}}}
	p.Main = Code{Args: []Slot{1, 0}, Instrs: []Instr{{Op: ops.Const, K: 2}, {Op: ops.Const, K: 0},
		{Op: ops.Solve}, {Op: ops.Area, A: 0, B: 0, C: 2}, {Op: ops.Add, A: 2, B: 3}}}
	out, fails := LikeLines(t, "searches", p, []Slot{2, 4}, []Slot{0}, [][]float64{{4, 2, -1, 9, 0.25}})
	if math.Abs(out[0][0]-2) > 1e-9 || math.Abs(out[0][3]-3) > 1e-9 {
		t.Errorf("the roots of 4 and 9: %v and %v", out[0][0], out[0][3])
	}
	if fails[2].Kind != ops.NoRoot || fails[2].Slot != 2 {
		t.Errorf("the root of -1: %+v", fails[2])
	}
}

// TestColumnsSearchAgain finds a root that is to be greater than another one, which varies: how
// far that may be off is told lane by lane. A millionth more than a billion times 1000 is none.
func TestColumnsSearchAgain(t *testing.T) {
	load := func(s Slot, more float64, op ops.Op) *Func {
		return &Func{Params: 1, Result: 4, Cost: 5, Code: Code{Statics: make([]Static, 5),
			Instrs: []Instr{{Op: ops.Param}, {Op: ops.Load, A: s}, {Op: ops.Const, K: more}, {Op: ops.Add, A: 1, B: 2}, {Op: op, A: 0, B: 3}}}}
	}
	p := &Program{Funcs: []*Func{load(0, 0, ops.Sub), load(1, 1e-6, ops.Sub), load(1, 0, ops.Sub)},
		Solves: []*Solve{{Differences: []int{0}, Dims: make([]units.Dim, 1), Searched: true},
			{Differences: []int{1}, Dims: make([]units.Dim, 1), Searched: true, Conditions: []Condition{{Difference: 2, Op: syntax.Greater}}}}}
	p.Main = Code{Instrs: []Instr{{Op: ops.Const, K: 2}, {Op: ops.Solve}, {Op: ops.Solve, A: 1}}}
	out, fails := LikeLines(t, "searches", p, []Slot{2}, []Slot{0}, [][]float64{{1e12, 1, 1e12, 3}})
	if fails[0].Kind != ops.NoRoot || math.Abs(out[0][1]-1.000001) > 1e-9 || math.Abs(out[0][3]-3.000001) > 1e-9 {
		t.Errorf("%v, %+v", out, fails)
	}
}

// widen gives the first slot of a main code several elements, and so those that
// are made of it.
func widen(code *Code, width int32) {
	wide := make([]int32, len(code.Instrs))
	code.firsts = []int32{0}
	for s := range code.Instrs {
		wide[s] = 1
		code.reads(Slot(s), func(o Slot) { wide[s] = max(wide[s], wide[o]) })
		if s == 0 {
			wide[s] = width
		}
		code.firsts = append(code.firsts, code.firsts[s]+wide[s])
	}
}

// TestColumnsWide compares random programs whose first input has two or three
// elements with the single line, element by element, and with its failures.
func TestColumnsWide(t *testing.T) {
	const lanes = 20
	for seed := range uint64(1000) {
		p, b := newRandom(seed)
		for range 1 + b.r.IntN(20) {
			b.step()
		}
		width := 2 + int(seed%2)
		widen(&p.Main, int32(width))
		end := Slot(len(p.Main.Instrs))
		st := &State{}
		p.Run(st, 0, end)
		wide, ok := p.Columns(st, []Slot{end - 1}, []Slot{0, 1})
		if !ok || wide.Inputs() != width+1 || wide.Outputs() != int(p.Main.span(end-1).width) {
			t.Fatalf("seed %d: %t", seed, ok)
		}
		in, out := make([][]float64, wide.Inputs()), make([][]float64, wide.Outputs())
		for lane := range lanes {
			for i := range in {
				in[i] = append(in[i], b.number())
			}
			for i := range out {
				out[i] = append(out[i], float64(lane))
			}
		}
		fails := make([]Failure, lanes)
		for _, f := range wide.Run(in, out) {
			fails[f.Lane] = wide.Failure(f)
		}
		for lane := range lanes {
			p.Main.Instrs[1].K = in[width][lane]
			line := &State{}
			p.Run(line, 0, 1)
			for i := range width {
				line.vals[i] = in[i][lane]
			}
			p.Run(line, 1, end)
			if _, has := line.Value(end - 1); has != (fails[lane] == Failure{}) || !has && fails[lane] != line.Failure(end-1) {
				t.Fatalf("seed %d, lane %d: %+v, the line %+v\n%v", seed, lane, fails[lane], line.Failure(end-1), p.Main.Instrs)
			}
			for i := range out {
				v, has := line.element(end-1, i)
				if got := out[i][lane]; has && math.Float64bits(got) != math.Float64bits(v) || !has && got == got {
					t.Fatalf("seed %d, element %d, lane %d: %v, the line has %v %t\n%v", seed, i, lane, got, v, has, p.Main.Instrs)
				}
			}
		}
	}
}

// TestColumnsWithoutValue runs what has no value in any lane: an argument that was not
// handed over, and a place in no interval of a function.
func TestColumnsWithoutValue(t *testing.T) {
	for _, in := range []Instr{{Op: ops.Param, A: 3}, {Op: ops.Nothing}} {
		p := &Program{Main: Code{Instrs: []Instr{{Op: ops.Const, K: 1}, in}}}
		c, ok := p.Columns(&State{vals: []float64{1, 0}, causes: []int32{0, 0}}, []Slot{1}, []Slot{0})
		if !ok {
			t.Fatalf("%+v: no columns", in)
		}
		out := [][]float64{make([]float64, 20)}
		fails := c.Run([][]float64{make([]float64, 20)}, out)
		if len(fails) != 20 || c.Failure(fails[3]).Kind == ops.NoFault || out[0][3] == out[0][3] {
			t.Errorf("%+v: %v", in, out[0][3])
		}
	}
}

// ofShape adds the operations of a kernel to a program whose first slots are x
// and y, its sums and products turned round or not, and returns what follows in
// the shape.
func ofShape(p *Program, shape []ops.Op, power float64, turned bool) (Slot, []ops.Op) {
	op, rest := shape[0], shape[1:]
	put := func(in Instr) Slot {
		p.Main.Instrs = append(p.Main.Instrs, in)
		return Slot(len(p.Main.Instrs) - 1)
	}
	switch {
	case op == leafX, op == leafY:
		return Slot(op - leafX), rest
	case op >= leafZero:
		return put(Instr{Op: ops.Const, K: []float64{0, 1.7, -0.9, 2.3, 0.6}[op-leafZero]}), rest
	}
	in := Instr{Op: op, K: power}
	switch {
	case op == ops.Root:
		in.K = 5
	case op == ops.Pow && power == 0:
		in.K = 0.7
	}
	in.A, rest = ofShape(p, rest, power, turned)
	if op.Operands() == 2 {
		in.B, rest = ofShape(p, rest, power, turned)
	}
	if turned && (op == ops.Add || op == ops.Mul) {
		in.A, in.B = in.B, in.A
	}
	return put(in), rest
}

// TestKernels runs every kernel through an expression of its shape, its sums and
// products in either order, in one pass, over ordinary lanes and hard ones.
func TestKernels(t *testing.T) {
	for _, k := range kernels {
		for _, turned := range []bool{false, true} {
			p := &Program{Main: Code{Instrs: []Instr{{Op: ops.Const, K: 1.1}, {Op: ops.Const, K: 1.2}}}}
			out, _ := ofShape(p, k.shape, k.power, turned)
			in := make([][]float64, 2)
			for i := range 100 {
				in[0], in[1] = append(in[0], 0.3+float64(i)/200), append(in[1], 1.9-float64(i)/100)
			}
			for _, a := range numbers {
				for _, b := range numbers {
					in[0], in[1] = append(in[0], a), append(in[1], b)
				}
			}
			what := fmt.Sprint(k.shape, k.power, turned)
			LikeLines(t, what, p, []Slot{out}, []Slot{0, 1}, in)
			st := &State{}
			p.Run(st, 0, out+1)
			c, _ := p.Columns(st, []Slot{out}, []Slot{0, 1})
			if len(c.passes) != 1 || reflect.ValueOf(c.passes[0].run).Pointer() != reflect.ValueOf(k.run).Pointer() {
				t.Errorf("%s takes %d passes, or another kernel", what, len(c.passes))
			}
		}
	}
}
