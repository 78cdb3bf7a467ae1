package run

import (
	"context"
	"math"
	"testing"

	"steelyard/lang/ops"
)

// LikeLines runs columns and checks every lane against the single line: values
// bit for bit, and failures. It returns the outputs.
func LikeLines(t testing.TB, what string, p *Program, outputs, varying []Slot, in [][]float64) ([][]float64, []Failure) {
	t.Helper()
	end := Slot(len(p.Main.Instrs))
	st := &State{}
	p.Run(context.Background(), st, 0, end)
	c, ok := p.Columns(st, outputs, varying)
	if !ok {
		t.Fatalf("%s: no columns", what)
	}
	n := len(in[0])
	out, why, fails := make([][]float64, len(outputs)), make([]Cause, n), make([]Failure, n)
	for i := range out {
		out[i] = make([]float64, n)
	}
	c.Run(context.Background(), in, out, why)
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
		p.Run(context.Background(), line, 0, end)
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
		if fails[lane] = c.Failure(why[lane]); fails[lane] != want {
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
