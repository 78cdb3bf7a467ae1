package run

import (
	"math"
	"slices"
	"testing"
	"time"

	"steelyard/lang/ops"
	"steelyard/lang/syntax"
)

// wideProgram is a main code of a vector a of three components, a scalar s, a
// vector b, and what is made of them: a·s, a·s + b, √ of that, f of it and s,
// with f(v, s) = v/s where v < s, else -v; a scalar beside all is unharmed.
func wideProgram() *Program {
	three := Static{Width: 3, Shape: Vector}
	add := func(c *Code, in Instr, st Static) Slot { return c.Add(in, syntax.Span{}, st) }
	f := &Func{Name: "f", Params: 2}
	v := add(&f.Code, Instr{Op: ops.Param}, three)
	s := add(&f.Code, Instr{Op: ops.Param, A: 1}, Static{})
	less := add(&f.Code, Instr{Op: ops.Less, A: v, B: s}, three)
	part := add(&f.Code, Instr{Op: ops.Div, A: v, B: s}, three)
	minus := add(&f.Code, Instr{Op: ops.Neg, A: v}, three)
	f.Result = add(&f.Code, Instr{Op: ops.Select, A: less, B: part, C: minus}, three)
	p := &Program{Funcs: []*Func{f}}
	main := &p.Main
	a := add(main, Instr{Op: ops.Const}, three)
	k := add(main, Instr{Op: ops.Const, K: 2}, Static{})
	b := add(main, Instr{Op: ops.Const, K: 1}, three)
	product := add(main, Instr{Op: ops.Mul, A: k, B: a}, three)
	sum := add(main, Instr{Op: ops.Add, A: product, B: b}, three)
	add(main, Instr{Op: ops.Sqrt, A: sum}, three)
	main.Args = []Slot{sum, k}
	add(main, Instr{Op: ops.Call, B: 0, C: 2}, three)
	add(main, Instr{Op: ops.Pow, A: k, K: 3}, Static{})
	return p
}

// components are all elements of a slot.
func components(st *State, s Slot, n int) []float64 {
	out := make([]float64, n)
	for i := range out {
		if v, ok := st.element(s, i); ok {
			out[i] = v
		} else {
			out[i] = math.Inf(1)
		}
	}
	return out
}

// runWide runs that program with the components of its first vector.
func runWide(p *Program, a ...float64) *State {
	st := &State{}
	p.Run(st, 0, 1)
	copy(st.vals, a)
	p.Run(st, 1, Slot(len(p.Main.Instrs)))
	return st
}

func TestWideSlots(t *testing.T) {
	p := wideProgram()
	st := runWide(p, 0, 4, 12)
	for s, want := range [][]float64{
		{0, 4, 12}, {2}, {1, 1, 1}, {0, 8, 24}, {1, 9, 25}, {1, 3, 5}, {0.5, -9, -25}, {8},
	} {
		if got := components(st, Slot(s), len(want)); !slices.Equal(got, want) {
			t.Errorf("slot %d: %v, want %v", s, got, want)
		}
	}
	if _, ok := st.element(7, 1); ok || st.Len() != 8 || st.At(5) != 1 || len(st.vals) != 6*3+2 {
		t.Errorf("%d slots in %d columns", st.Len(), len(st.vals))
	}
	// One element without a value leaves the slot without any, and nothing else.
	st = runWide(p, 0, -4, 12)
	if f := st.Failure(5); f.Kind != ops.NoReal || f.Slot != 5 {
		t.Errorf("the root: %+v", f)
	}
	if got := components(st, 6, 3); !slices.Equal(got, []float64{0.5, -7.0 / 2, -25}) {
		t.Errorf("the call: %v", got)
	}
	if v, ok := st.Value(7); !ok || v != 8 {
		t.Errorf("the scalar: %v %t", v, ok)
	}
}

// TestWideUndo takes wide slots back and puts narrow ones in their place.
func TestWideUndo(t *testing.T) {
	p := wideProgram()
	st := runWide(p, 0, 4, 12)
	p.Main.Cut(4, 0)
	st.Truncate(4)
	s := p.Main.Add(Instr{Op: ops.Neg, A: 3}, syntax.Span{}, Static{Width: 3})
	n := p.Main.Add(Instr{Op: ops.Neg, A: 1}, syntax.Span{}, Static{})
	p.Run(st, s, n+1)
	if got := components(st, s, 3); !slices.Equal(got, []float64{0, -8, -24}) || st.At(n) != -2 {
		t.Errorf("%v, %v", got, st.At(n))
	}
	p.Main.Cut(0, 0)
	st.Truncate(0)
	for range 2 {
		p.Main.Add(Instr{Op: ops.Const, K: 5}, syntax.Span{}, Static{})
	}
	p.Run(st, 0, 2)
	if p.Main.firsts != nil || st.At(1) != 5 || len(st.vals) != 2 {
		t.Error("narrow again, and not as before")
	}
}

// TestCutAlike takes a slot back from a short code and from a long one: the time is
// about the same, for lines that are tried out are cut from pages of any length.
func TestCutAlike(t *testing.T) {
	took := func(size int) time.Duration {
		var c Code
		for range size {
			c.Add(Instr{Op: ops.Const}, syntax.Span{}, Static{})
		}
		least := time.Duration(math.MaxInt64)
		for range 10 {
			begun := time.Now()
			for range 100 {
				c.Add(Instr{Op: ops.Const}, syntax.Span{}, Static{})
				c.Cut(Slot(size), 0)
			}
			least = min(least, time.Since(begun))
		}
		return least
	}
	if short, long := took(10), took(300_000); long > 100*(short+time.Microsecond) {
		t.Errorf("%v in a short code, %v in a long one", short, long)
	}
}

// TestWideColumns sweeps a component of a vector and its scalar: every lane is
// the single line, element by element.
func TestWideColumns(t *testing.T) {
	p := wideProgram()
	st := runWide(p, 0, 4, 12)
	out := Slot(6)
	c, ok := p.Columns(st, []Slot{out}, []Slot{1})
	if !ok {
		t.Fatal("not planned")
	}
	in := []float64{0.5, 2, 3, -1, 40}
	got := [][]float64{make([]float64, len(in)), make([]float64, len(in)), make([]float64, len(in))}
	c.Run([][]float64{in}, got)
	for lane, k := range in {
		p.Main.Instrs[1].K = k
		want := components(runWide(p, 0, 4, 12), out, 3)
		for e, v := range want {
			if got[e][lane] != v {
				t.Errorf("at %v, component %d: %v, want %v", k, e, got[e][lane], v)
			}
		}
	}
}
