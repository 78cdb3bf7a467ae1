package plan

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"

	"steelyard/lang/ops"
	"steelyard/lang/run"
)

// runPieces is f(x) = √x for x < 4, x/(x - 5) for x < 6, called by g(x) =
// f(x)·w, w being slot 1 of the main code.
func runPieces(args ...float64) *run.Program {
	f := &run.Func{Name: "f", Params: 1, Result: 11, Code: run.Code{Instrs: []run.Instr{
		{Op: ops.Param}, {Op: ops.Const, K: 4}, {Op: ops.Const, K: 6}, {Op: ops.Const, K: 5},
		{Op: ops.Less, A: 0, B: 1}, {Op: ops.Less, A: 0, B: 2},
		{Op: ops.Sqrt, A: 0}, {Op: ops.Sub, A: 0, B: 3}, {Op: ops.Div, A: 0, B: 7},
		{Op: ops.Nothing}, {Op: ops.Select, A: 5, B: 8, C: 9}, {Op: ops.Select, A: 4, B: 6, C: 10},
	}}}
	g := &run.Func{Name: "g", Params: 1, Result: 3, Code: run.Code{Args: []run.Slot{0}, Instrs: []run.Instr{
		{Op: ops.Param}, {Op: ops.Call, A: 0, B: 0, C: 1}, {Op: ops.Load, A: 1}, {Op: ops.Mul, A: 1, B: 2},
	}}}
	p := &run.Program{Funcs: []*run.Func{f, g}}
	p.Main.Instrs = []run.Instr{{Op: ops.Const}, {Op: ops.Const, K: 10}}
	for _, x := range args {
		n := run.Slot(len(p.Main.Instrs))
		p.Main.Args = append(p.Main.Args, n)
		p.Main.Instrs = append(p.Main.Instrs, run.Instr{Op: ops.Const, K: x},
			run.Instr{Op: ops.Call, A: 1, B: run.Slot(len(p.Main.Args) - 1), C: 1}, run.Instr{Op: ops.Neg, A: n + 1})
	}
	return p
}

// TestFastCalls sweeps a function by intervals that loads a slot which varies
// too, and a program too large to cut.
func TestFastCalls(t *testing.T) {
	x, w := []float64{1, 5, -1, 5.5, 7, 0}, []float64{10, 10, 10, 1, 1, 3}
	want := []float64{-10, 0, 0, -11, 0, 0}
	ok := []bool{true, false, false, true, false, true}
	for _, extra := range []int{0, fastMost} {
		p := runPieces(2)
		last := run.Slot(len(p.Main.Instrs) - 1)
		for range extra {
			p.Main.Instrs = append(p.Main.Instrs, run.Instr{Op: ops.Copy, A: run.Slot(len(p.Main.Instrs) - 1)})
		}
		out := run.Slot(len(p.Main.Instrs) - 1)
		st := &run.State{}
		p.Run(context.Background(), st, 0, out+1)
		f, planned := FastOf(p, st, []run.Slot{out, last}, []run.Slot{2, 1})
		if !planned || f.plain != (extra > 0) {
			t.Fatalf("planned %t, plain %t", planned, f.plain)
		}
		got, again, good := make([]float64, len(x)), make([]float64, len(x)), make([]bool, len(x))
		f.RunStatus([][]float64{x, w}, [][]float64{got, again}, good)
		for i := range want {
			if good[i] != ok[i] || ok[i] && got[i] != want[i] || !ok[i] && !math.IsNaN(got[i]) {
				t.Errorf("f(%v)·%v is %v %t, want %v %t", x[i], w[i], got[i], good[i], want[i], ok[i])
			}
		}
		f.Run([][]float64{x, w}, [][]float64{again, got})
		if again[0] != want[0] || again[3] != want[3] {
			t.Errorf("Run gives %v", again)
		}
	}
}

// TestFastScalars checks outputs that don't vary, columns handed through, and
// slots that were never run.
func TestFastScalars(t *testing.T) {
	p, out := runtimeProgram(t, "a*b", strings.Fields("a b x"))
	st := runtimeRun(p, []float64{2, 3, 4})
	f, ok := FastOf(p, st, []run.Slot{out, 3, 1, out}, []run.Slot{3})
	if !ok {
		t.Fatal("no fast plan")
	}
	x := []float64{7, 8}
	outs := [][]float64{{0, 0}, {0, 0}, {0, 0}, {0, 0}}
	good := make([]bool, 2)
	f.RunStatus([][]float64{x}, outs, good)
	if !slices.Equal(outs[0], []float64{6, 6}) || !slices.Equal(outs[1], x) || outs[2][1] != 2 || outs[3][1] != 6 || !good[1] {
		t.Errorf("%v %v", outs, good)
	}
	if _, ok := FastOf(p, st, []run.Slot{out + 1}, nil); ok {
		t.Error("a slot that isn't there was planned")
	}
	if _, ok := FastOf(p, st, []run.Slot{out}, []run.Slot{-1}); ok {
		t.Error("a column for no slot was planned")
	}
	f.Run(nil, outs) // no columns, no lanes
	if f.Inputs() != 1 || f.Outputs() != 4 {
		t.Errorf("%d inputs, %d outputs", f.Inputs(), f.Outputs())
	}
	if f, ok := FastOf(p, st, []run.Slot{out}, nil); ok {
		f.Run(nil, outs[:1])
	}
}

// TestFastFailure checks the cause of a lane's failure: in a function, in the
// main code, and in what doesn't vary.
func TestFastFailure(t *testing.T) {
	p := runPieces(2)
	p.Main.Instrs = append(p.Main.Instrs, run.Instr{Op: ops.Div, A: 3, B: 2}, run.Instr{Op: ops.Div, A: 1, B: 0}, run.Instr{Op: ops.Add, A: 5, B: 6})
	st := &run.State{}
	p.Run(context.Background(), st, 0, 8)
	x := [][]float64{{5, 1, 7, 0}}
	f, _ := FastOf(p, st, []run.Slot{5}, []run.Slot{2})
	for lane, want := range []run.Failure{
		{Slot: 3, Kind: ops.DivZero, Func: p.Funcs[0], Inner: 8}, {},
		{Slot: 3, Kind: ops.NoInterval, Func: p.Funcs[0], Inner: 9}, {Slot: 5, Kind: ops.DivZero},
	} {
		if got := f.Failure(x, lane); got != want {
			t.Errorf("lane %d: %+v, want %+v", lane, got, want)
		}
	}
	f, _ = FastOf(p, st, []run.Slot{7}, []run.Slot{2})
	if got := f.Failure(x, 1); got != (run.Failure{Slot: 6, Kind: ops.DivZero}) {
		t.Errorf("a fault that doesn't vary: %+v", got)
	}
	if f.Failure(x, 4).Kind != ops.Absent || f.Failure(nil, 0).Kind != ops.Absent {
		t.Error("a lane that isn't there has a value")
	}
}
