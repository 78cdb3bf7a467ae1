package run

import (
	"testing"

	"steelyard/lang/limit"
	"steelyard/lang/ops"
	"steelyard/lang/syntax"
)

// TestAskedOnce asks of each slot of a long chain to which place it is known and how far
// it may be off, as a page does line by line: what is known of the slots above is not
// worked out again. What was taken back is.
func TestAskedOnce(t *testing.T) {
	const n = 2000
	p, st := &Program{}, &State{}
	p.Main.Add(Written(1.5, 0.1, 0), syntax.Span{}, Static{})
	p.Run(st, 0, 1)
	add := func(v float64) Slot {
		last := Slot(len(p.Main.Instrs) - 1)
		k := p.Main.Add(Written(v, 0.001, 0), syntax.Span{}, Static{})
		s := p.Main.Add(Instr{Op: ops.Add, A: last, B: k}, syntax.Span{}, Static{})
		p.Run(st, k, s+1)
		return s
	}
	st.Budget = limit.NewBudget(t.Context(), 100*n)
	for range n {
		s := add(0.25)
		if known, ok := p.Known(st, s, false); !ok || known.Place != 0.1 {
			t.Fatalf("slot %d: %+v", s, known)
		}
		if off := p.Off(st, s)[0]; off <= 0 {
			t.Fatalf("slot %d is off by %g", s, off)
		}
	}
	if st.Budget.Ended() != limit.Going {
		t.Error("it takes more than 100 steps a line")
	}
	before := Slot(len(p.Main.Instrs))
	for _, v := range []float64{0.25, 1000} {
		s := add(v)
		if known, _ := p.Known(st, s, false); known.V != st.At(s) {
			t.Errorf("%g is known as %g", st.At(s), known.V)
		}
		p.Main.Cut(before, 0)
		st.Truncate(before)
	}
}

// TestAskedThroughCalls asks how far the last of many lines may be off, each of which calls a
// function that reads the line before. Calls go no deeper than one for that.
func TestAskedThroughCalls(t *testing.T) {
	const n = 3 * mostDepth
	p := &Program{}
	last := p.Main.Add(Instr{Op: ops.Const, K: 0.1}, syntax.Span{}, Static{})
	for i := range n {
		f := &Func{Result: 2, Cost: 3, Code: Code{Statics: make([]Static, 3),
			Instrs: []Instr{{Op: ops.Load, A: last}, {Op: ops.Const, K: 0.1}, {Op: ops.Add, A: 0, B: 1}}}}
		p.Funcs = append(p.Funcs, f)
		last = p.Main.Add(Instr{Op: ops.Call, A: Slot(i)}, syntax.Span{}, Static{})
	}
	st := &State{}
	p.Run(st, 0, last+1)
	if off := p.Off(st, last)[0]; off < 0.05*n*n*exact || off > n*n*exact { // each sum is rounded once
		t.Errorf("%g is off by %g", st.At(last), off)
	}
}
