package plan

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"

	"steelyard/lang/ops"
)

// TestRunKinds checks why what has no value has none, and that what has one
// keeps it.
func TestRunKinds(t *testing.T) {
	for _, c := range []struct {
		text string
		kind ops.Fault
		want float64
	}{
		{"sqrt(0 - 1)", ops.NoReal, 0},
		{"sqrt(0)", ops.NoFault, 0},
		{"(0 - 2)^0.5", ops.NoReal, 0},
		{"(0 - 2)^1.3", ops.NoReal, 0},
		{"(0 - 2)^3", ops.NoFault, -8},
		{"(0 - 2)^-3", ops.NoFault, -0.125},
		{"cbrt(0 - 8)", ops.NoFault, -2},
		{"ln(0)", ops.NoReal, 0},
		{"ln(0 - 1)", ops.NoReal, 0},
		{"log10(0)", ops.NoReal, 0},
		{"log10(1000)", ops.NoFault, 3},
		{"asin(1.0000001)", ops.NoReal, 0},
		{"acos(0 - 2)", ops.NoReal, 0},
		{"1/0", ops.DivZero, 0},
		{"0/0", ops.DivZero, 0},
		{"0^-1", ops.DivZero, 0},
		{"0^-0.5", ops.DivZero, 0},
		{"0^2", ops.NoFault, 0},
		{"a*a", ops.OutOfRange, 0},
		{"a*10^8 + a*10^8", ops.OutOfRange, 0},
		{"exp(1000)", ops.OutOfRange, 0},
		{"exp(0 - 1000)", ops.OutOfRange, 0},
		{"(1/a)*(1/a)", ops.OutOfRange, 0},
		{"(1/a)^2", ops.OutOfRange, 0},
		{"1/a/a", ops.OutOfRange, 0},
		{"0*a", ops.NoFault, 0},
		{"a - a", ops.NoFault, 0},
		{"sinh(800)", ops.OutOfRange, 0},
		{"a^a", ops.OutOfRange, 0},
		{"(0 - a)^0.3", ops.NoReal, 0},
		{"1 + sqrt(0 - 1)/0", ops.NoReal, 0},
	} {
		p, out := runtimeProgram(t, c.text, []string{"a"})
		st := runtimeRun(p, []float64{1e300})
		v, ok := st.Value(out)
		if f := st.Failure(out); f.Kind != c.kind || ok != (c.kind == ops.NoFault) || ok && v != c.want {
			t.Errorf("%s: %v %t, kind %d, want %v, kind %d", c.text, v, ok, f.Kind, c.want, c.kind)
		}
	}
}

func TestRunRoots(t *testing.T) {
	for _, c := range [][3]float64{{32, 5, 2}, {-32, 5, -2}, {81, 4, 3}, {1e10, 10, 10}, {-128, 7, -2}, {0, 5, 0}, {2, 2, math.Sqrt2}} {
		if got := ops.Root.Value(c[0], 0, c[1]); got != c[2] {
			t.Errorf("root of degree %v of %v is %v, want %v", c[1], c[0], got, c[2])
		}
	}
	if got := ops.Root.Value(-16, 0, 4); got == got {
		t.Errorf("the fourth root of -16 is %v", got)
	}
}

func TestRunRounds(t *testing.T) {
	for _, c := range [][3]float64{
		{2.5, 1, 3}, {-2.5, 1, -3}, {2.4999, 1, 2}, {0.285, 0.01, 0.29}, {7, 5, 5}, {7.5, 5, 10},
		{0.3, 0.1, 0.3}, {1e300, 1, 1e300}, {0.0123, 0.005, 0.01}, {0.2, 1, 0},
	} {
		if got := ops.Round.Value(c[0], c[1], 0); got != c[2] {
			t.Errorf("%v to multiples of %v is %v, want %v", c[0], c[1], got, c[2])
		}
	}
}

// runPieces is f(x) = √x for x < 4, x/(x - 5) for x < 6, called by g(x) =
// f(x)·w, w being slot 1 of the main code.
func runPieces(args ...float64) *Program {
	f := &Func{Name: "f", Params: 1, Result: 11, Code: Code{Instrs: []Instr{
		{Op: ops.Param}, {Op: ops.Const, K: 4}, {Op: ops.Const, K: 6}, {Op: ops.Const, K: 5},
		{Op: ops.Less, A: 0, B: 1}, {Op: ops.Less, A: 0, B: 2},
		{Op: ops.Sqrt, A: 0}, {Op: ops.Sub, A: 0, B: 3}, {Op: ops.Div, A: 0, B: 7},
		{Op: ops.Nothing}, {Op: ops.Select, A: 5, B: 8, C: 9}, {Op: ops.Select, A: 4, B: 6, C: 10},
	}}}
	g := &Func{Name: "g", Params: 1, Result: 3, Code: Code{Args: []Slot{0}, Instrs: []Instr{
		{Op: ops.Param}, {Op: ops.Call, A: 0, B: 0, C: 1}, {Op: ops.Load, A: 1}, {Op: ops.Mul, A: 1, B: 2},
	}}}
	p := &Program{Funcs: []*Func{f, g}}
	p.Main.Instrs = []Instr{{Op: ops.Const}, {Op: ops.Const, K: 10}}
	for _, x := range args {
		n := Slot(len(p.Main.Instrs))
		p.Main.Args = append(p.Main.Args, n)
		p.Main.Instrs = append(p.Main.Instrs, Instr{Op: ops.Const, K: x},
			Instr{Op: ops.Call, A: 1, B: Slot(len(p.Main.Args) - 1), C: 1}, Instr{Op: ops.Neg, A: n + 1})
	}
	return p
}

func TestRunCalls(t *testing.T) {
	p := runPieces(1, 5, -1, 5.5, 7)
	st := &State{}
	p.Run(context.Background(), st, 0, Slot(len(p.Main.Instrs)))
	f := p.Funcs[0]
	want := []struct {
		v    float64
		fail Failure
	}{
		{-10, Failure{}},
		{0, Failure{Slot: 6, Kind: ops.DivZero, Func: f, Inner: 8}},
		{0, Failure{Slot: 9, Kind: ops.NoReal, Func: f, Inner: 6}},
		{-110, Failure{}},
		{0, Failure{Slot: 15, Kind: ops.NoInterval, Func: f, Inner: 9}},
	}
	for i, w := range want {
		s := Slot(4 + 3*i) // what uses the call fails for the same cause
		v, ok := st.Value(s)
		if w.fail.Kind == ops.NoFault && (!ok || v != w.v) || w.fail.Kind != ops.NoFault && (ok || st.Failure(s) != w.fail) {
			t.Errorf("call %d: %v %t %+v, want %v %+v", i, v, ok, st.Failure(s), w.v, w.fail)
		}
	}
	if n := len(st.failures); n != 3 {
		t.Errorf("%d failures kept, want the 3 that slots refer to", n)
	}
}

func TestRunTruncate(t *testing.T) {
	p := runPieces(5, 7)
	st := &State{}
	end := Slot(len(p.Main.Instrs))
	p.Run(context.Background(), st, 0, end)
	st.Truncate(5)
	if st.Len() != 5 || len(st.failures) != 1 {
		t.Fatalf("%d slots, %d failures after undo", st.Len(), len(st.failures))
	}
	if f := st.Failure(7); f.Kind != ops.NoFault {
		t.Errorf("what was undone still fails: %+v", f)
	}
	p.Main.Instrs[5].K = 1 // another line in its place
	p.Run(context.Background(), st, 5, end)
	if v, ok := st.Value(7); !ok || v != -10 {
		t.Errorf("after undo: %v %t", v, ok)
	}
	if f := st.Failure(4); f.Kind != ops.DivZero || f.Slot != 3 {
		t.Errorf("the line above lost its cause: %+v", f)
	}
	st.Truncate(-1)
	if st.Len() != 0 || len(st.failures) != 0 {
		t.Error("something is left")
	}
}

func TestRunStops(t *testing.T) {
	p := &Program{}
	for range 3 * runEvery {
		p.Main.Instrs = append(p.Main.Instrs, Instr{Op: ops.Const, K: 1})
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	st := &State{}
	end := Slot(len(p.Main.Instrs))
	p.Run(ctx, st, 0, end)
	if f := st.Failure(end - 1); f.Kind != ops.Stopped {
		t.Errorf("the last slot: %+v", f)
	}
}

// TestRunHostile gives the runner programs that no planner makes.
func TestRunHostile(t *testing.T) {
	loop := &Func{Name: "f", Result: 0, Code: Code{Instrs: []Instr{{Op: ops.Call}}}}
	p := &Program{Main: Code{Instrs: []Instr{{Op: ops.Call}, {Op: ops.Param}, {Op: ops.Call, A: 9}}}, Funcs: []*Func{loop}}
	st := &State{}
	p.Run(context.Background(), st, 0, 3)
	for s, want := range []ops.Fault{ops.Stopped, ops.Absent, ops.Stopped} {
		if f := st.Failure(Slot(s)); f.Kind != want {
			t.Errorf("slot %d: kind %d, want %d", s, f.Kind, want)
		}
	}
	p.Run(context.Background(), st, 2, 1)
	p.Run(context.Background(), st, -1, 1)
}

func TestRunAllocatesNothing(t *testing.T) {
	p := runPieces(1, 5, -1, 7)
	st := &State{}
	end := Slot(len(p.Main.Instrs))
	ctx := context.Background()
	p.Run(ctx, st, 0, end)
	if n := testing.AllocsPerRun(100, func() {
		st.Truncate(0)
		p.Run(ctx, st, 0, end)
	}); n != 0 {
		t.Errorf("Run allocates %v times", n)
	}
}

// TestFastCalls sweeps a function by intervals that loads a slot which varies
// too, and a program too large to cut.
func TestFastCalls(t *testing.T) {
	x, w := []float64{1, 5, -1, 5.5, 7, 0}, []float64{10, 10, 10, 1, 1, 3}
	want := []float64{-10, 0, 0, -11, 0, 0}
	ok := []bool{true, false, false, true, false, true}
	for _, extra := range []int{0, fastMost} {
		p := runPieces(2)
		last := Slot(len(p.Main.Instrs) - 1)
		for range extra {
			p.Main.Instrs = append(p.Main.Instrs, Instr{Op: ops.Copy, A: Slot(len(p.Main.Instrs) - 1)})
		}
		out := Slot(len(p.Main.Instrs) - 1)
		st := &State{}
		p.Run(context.Background(), st, 0, out+1)
		f, planned := p.Fast(st, []Slot{out, last}, []Slot{2, 1})
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
	f, ok := p.Fast(st, []Slot{out, 3, 1, out}, []Slot{3})
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
	if _, ok := p.Fast(st, []Slot{out + 1}, nil); ok {
		t.Error("a slot that isn't there was planned")
	}
	if _, ok := p.Fast(st, []Slot{out}, []Slot{-1}); ok {
		t.Error("a column for no slot was planned")
	}
	f.Run(nil, outs) // no columns, no lanes
	if f.Inputs() != 1 || f.Outputs() != 4 {
		t.Errorf("%d inputs, %d outputs", f.Inputs(), f.Outputs())
	}
	if f, ok := p.Fast(st, []Slot{out}, nil); ok {
		f.Run(nil, outs[:1])
	}
}

// TestFastFailure checks the cause of a lane's failure: in a function, in the
// main code, and in what doesn't vary.
func TestFastFailure(t *testing.T) {
	p := runPieces(2)
	p.Main.Instrs = append(p.Main.Instrs, Instr{Op: ops.Div, A: 3, B: 2}, Instr{Op: ops.Div, A: 1, B: 0}, Instr{Op: ops.Add, A: 5, B: 6})
	st := &State{}
	p.Run(context.Background(), st, 0, 8)
	x := [][]float64{{5, 1, 7, 0}}
	f, _ := p.Fast(st, []Slot{5}, []Slot{2})
	for lane, want := range []Failure{
		{Slot: 3, Kind: ops.DivZero, Func: p.Funcs[0], Inner: 8}, {},
		{Slot: 3, Kind: ops.NoInterval, Func: p.Funcs[0], Inner: 9}, {Slot: 5, Kind: ops.DivZero},
	} {
		if got := f.Failure(x, lane); got != want {
			t.Errorf("lane %d: %+v, want %+v", lane, got, want)
		}
	}
	f, _ = p.Fast(st, []Slot{7}, []Slot{2})
	if got := f.Failure(x, 1); got != (Failure{Slot: 6, Kind: ops.DivZero}) {
		t.Errorf("a fault that doesn't vary: %+v", got)
	}
	if f.Failure(x, 4).Kind != ops.Absent || f.Failure(nil, 0).Kind != ops.Absent {
		t.Error("a lane that isn't there has a value")
	}
}
