package run_test

import (
	"math"
	"testing"

	"steelyard/lang/ops"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// TestSatisfies judges roots by whether an equation vanishes within its own
// error: a factor that is zero but for rounding makes its product zero.
func TestSatisfies(t *testing.T) {
	third := 1.0 / 3
	for _, c := range []struct {
		left, right string
		x           float64
		want        bool
	}{
		{"(u - 0.3)*(u - 7)", "0", 0.1 + 0.2, true},
		{"(u - 0.3)*(u - 7)", "0", 0.3001, false},
		{"u*(3*u - 1)", "0", third, true},
		{"(u - 0.3)^2", "0", 0.1 + 0.2, true},
		{"√(3*u - 1)", "0", math.Nextafter(third, 0), true},
		{"√(3*u - 1)", "0", 0.33, false},
		{"√(u + 1)", "u - 1", 3, true},
		{"√(u + 1)", "u - 1", 0, false}, // squaring makes it
		{"1/u", "0", 1e12, false},
		{"cos(u)", "1", 1e-12, true},
		{"u^2 + 1", "1", 1e-3, false},
	} {
		l, _ := syntax.ParseExpr(c.left)
		r, _ := syntax.ParseExpr(c.right)
		p := plan.New()
		eq := p.CompileOf("", []string{"u"}, p.Unknowns(1), l, r)
		st := &run.State{}
		p.Program.Run(st, 0, p.Size())
		s := &run.Solve{Differences: []int{eq.Fn}, Dims: []units.Dim{{}}}
		if got, _ := p.Program.PutBack(st, s, run.Candidate{X: []float64{c.x}}); got != c.want {
			t.Errorf("%v satisfies %s = %s: %t", c.x, c.left, c.right, got)
		}
	}
}

// TestAddedUp finds the size of what a value is added up from.
func TestAddedUp(t *testing.T) {
	for _, c := range []struct {
		text        string
		least, most float64
	}{
		{"a + b - a", 2000, 5000}, {"a*b", 2000, 9000}, {"(a - a)*b", 4000, 9000}, {"√(a^2 - a^2 + b^2)", 1e3, 1e7}, {"a/a - 1", 1, 5},
	} {
		p, s := program(t, c.text, []string{"a", "b"})
		st := ran(p, []float64{1000, 2})
		if got := p.AddedUp(st, s); got < c.least || got > c.most {
			t.Errorf("%s is added up from %v, want %v to %v", c.text, got, c.least, c.most)
		}
	}
}

// TestFunctionsByIntervals searches a function given by intervals, whose
// branches meet and jump.
func TestFunctionsByIntervals(t *testing.T) {
	// f(u) = u - 1 for u < 2, 5 - u else.
	f := &run.Func{Name: "f", Params: 1, Result: 7, Cost: 8, Code: run.Code{Instrs: []run.Instr{
		{Op: ops.Param}, {Op: ops.Const, K: 2}, {Op: ops.Less, A: 0, B: 1}, {Op: ops.Const, K: 1},
		{Op: ops.Sub, A: 0, B: 3}, {Op: ops.Const, K: 5}, {Op: ops.Sub, A: 5, B: 0}, {Op: ops.Select, A: 2, B: 4, C: 6},
	}}}
	p := &run.Program{Funcs: []*run.Func{f}}
	got := p.FindRoots(&run.State{}, &run.Solve{Differences: []int{0}}, 1, -10, 10)
	if len(got.Found) != 2 || len(got.Unsettled) != 0 {
		t.Errorf("%+v", got)
	}
	v, _, _, partly := p.Enclose(&run.State{}, 0, ops.Between(1.5, 2.5))
	if !partly || v.Lo > 0.5 || v.Hi < 3 {
		t.Errorf("over the jump: %v, partly %t", v, partly)
	}
}
