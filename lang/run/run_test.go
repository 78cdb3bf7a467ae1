package run

import (
	"testing"

	"steelyard/lang/limit"
	"steelyard/lang/ops"
)

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
	p.Run(st, 0, Slot(len(p.Main.Instrs)))
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
	p.Run(st, 0, end)
	st.Truncate(5)
	if st.Len() != 5 || len(st.failures) != 1 {
		t.Fatalf("%d slots, %d failures after undo", st.Len(), len(st.failures))
	}
	if f := st.Failure(7); f.Kind != ops.NoFault {
		t.Errorf("what was undone still fails: %+v", f)
	}
	p.Main.Instrs[5].K = 1 // another line in its place
	p.Run(st, 5, end)
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
	const n = 100
	for range n + 1 {
		p.Main.Instrs = append(p.Main.Instrs, Instr{Op: ops.Const, K: 1})
	}
	st := &State{Budget: limit.NewBudget(t.Context(), n)}
	p.Run(st, 0, n+1)
	if f := st.Failure(n - 1); f.Kind != ops.NoFault {
		t.Errorf("step %d: %+v", n, f)
	}
	if f := st.Failure(n); f.Kind != ops.Stopped {
		t.Errorf("step %d: %+v", n+1, f)
	}
}

// TestRunHostile gives the runner programs that no planner makes.
func TestRunHostile(t *testing.T) {
	loop := &Func{Name: "f", Result: 0, Code: Code{Instrs: []Instr{{Op: ops.Call}}}}
	p := &Program{Main: Code{Instrs: []Instr{{Op: ops.Call}, {Op: ops.Param}, {Op: ops.Call, A: 9}}}, Funcs: []*Func{loop}}
	st := &State{}
	p.Run(st, 0, 3)
	for s, want := range []ops.Fault{ops.Stopped, ops.Absent, ops.Stopped} {
		if f := st.Failure(Slot(s)); f.Kind != want {
			t.Errorf("slot %d: kind %d, want %d", s, f.Kind, want)
		}
	}
	p.Run(st, 2, 1)
	p.Run(st, -1, 1)
}

func TestRunAllocatesNothing(t *testing.T) {
	p := runPieces(1, 5, -1, 7)
	st := &State{}
	end := Slot(len(p.Main.Instrs))
	p.Run(st, 0, end)
	if n := testing.AllocsPerRun(100, func() {
		st.Truncate(0)
		p.Run(st, 0, end)
	}); n != 0 {
		t.Errorf("Run allocates %v times", n)
	}
}
