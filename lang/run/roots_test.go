package run_test

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"steelyard/lang/limit"
	"steelyard/lang/ops"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
)

// program plans an expression whose names are pure numbers. Slot 0 is π and the
// names' slots follow, then those of the expression.
func program(t testing.TB, text string, names []string) (*run.Program, run.Slot) {
	t.Helper()
	p := plan.New()
	p.Emit(run.Instr{Op: ops.Const, K: math.Pi}, run.Static{})
	for _, n := range names {
		slot := p.Emit(run.Instr{Op: ops.Const, K: 1}, run.Static{})
		p.Define(&plan.Def{Name: syntax.Canonical(n), Slot: slot})
	}
	x, findings := syntax.ParseExpr(text)
	if len(findings) > 0 {
		t.Fatalf("%q: %v", text, findings)
	}
	c := p.Compile(x, text, "")
	if c.Slot == run.NoSlot {
		t.Fatalf("%q: %v", text, c.Findings)
	}
	return &p.Program, c.Slot
}

// ran runs a program whose names have the given values.
func ran(p *run.Program, values []float64) *run.State {
	for i, v := range values {
		p.Main.Instrs[i+1].K = v
	}
	st := &run.State{}
	p.Run(st, 0, run.Slot(len(p.Main.Instrs)))
	return st
}

// rootFunc plans left - right as a function of u.
func rootFunc(t testing.TB, left, right string) (*run.Program, *run.State, int) {
	t.Helper()
	l, bad1 := syntax.ParseExpr(left)
	r, bad2 := syntax.ParseExpr(right)
	if len(bad1)+len(bad2) > 0 {
		t.Fatal(bad1, bad2)
	}
	p := plan.New()
	eq := p.CompileOf("", []string{"u"}, p.Unknowns(1), l, r)
	if !eq.OK {
		t.Fatal(eq.Findings)
	}
	st := &run.State{}
	p.Program.Run(st, 0, p.Size())
	return &p.Program, st, eq.Fn
}

// TestFindRoots finds the roots of equations that have no closed form, and
// proves pieces empty. The values are known to the digits given from tables
// (tan x = x: Abramowitz and Stegun, table 4.19, from memory) or from the closed
// form.
func TestFindRoots(t *testing.T) {
	tests := []struct {
		left, right string
		lo, hi      float64
		want        []float64
		unsettled   bool
	}{
		{"u^2", "2", 0, 10, []float64{math.Sqrt2}, false},
		{"cos(u)", "u", 0, 1, []float64{0.7390851332151607}, false},
		{"exp(u)", "3*u", 0, 5, []float64{0.6190612867359451, 1.5121345516578424}, false},
		{"tan(u)", "u", 2, 10, []float64{4.493409457909064, 7.725251836937707}, false},
		{"u^3 - 3*u", "-1", -5, 5, []float64{2 * math.Cos(2*math.Pi/9), 2 * math.Cos(4*math.Pi/9), 2 * math.Cos(8*math.Pi/9)}, false},
		{"√u", "u - 2", 0.5, 50, []float64{4}, false},
		{"1/u", "0", 0.1, 1e6, nil, false},
		{"u^2 - 2*u + 1", "0", 0.5, 1.7, []float64{1}, false},
		{"(u - 1.3)^4", "0", 0.5, 1.7, []float64{1.3}, false},
		{"(u - 1.3)^2*(u - 1.6)", "0", 0.5, 1.7, []float64{1.3, 1.6}, false},
		{"cos(u)", "-1", 0, 10, []float64{math.Pi, 3 * math.Pi}, false},
		{"1/(u - 7.43)", "0", -1e6, 1e6, nil, false},
		{"sgn(u - 2.52)", "0.5", -1e6, 1e6, nil, false},
		{"u*sgn(u - 2.52)", "0", -9, 9, []float64{0, 2.52}, false},
		{"abs(u)", "u - 4", -1e6, 1e6, nil, false},
		{"√(u - 1.1)", "0", -9, 9, []float64{1.1}, false},
		{"max(0, u - 1)", "0", -9, 9, nil, false},
		{"abs(u)", "1", -9, 9, []float64{-1, 1}, false},
		{"u*exp(-u)", "0.2", 0.01, 9, []float64{0.2591711018190738, 2.5426413577735265}, false},
	}
	for _, tt := range tests {
		p, st, fn := rootFunc(t, tt.left, tt.right)
		got := p.FindRoots(st, &run.Solve{Differences: []int{fn}}, 1, tt.lo, tt.hi)
		if len(got.Found) != len(tt.want) || len(got.Unsettled) > 0 != tt.unsettled {
			t.Errorf("%s = %s: %+v", tt.left, tt.right, got)
			continue
		}
		for _, want := range tt.want {
			near := math.Inf(1)
			for _, g := range got.Found {
				near = min(near, math.Abs(g-want))
			}
			if near > 1e-12*math.Max(1, math.Abs(want)) {
				t.Errorf("%s = %s: %v, want %v", tt.left, tt.right, got.Found, want)
			}
		}
	}
}

// TestSearchBeyond lets a search beyond the range of the givens take a part of the budget
// alone, where each value is an area: what was found within is told, and that the rest is
// not known.
func TestSearchBeyond(t *testing.T) {
	const within, beyond = 5_000_000, 24_000_000 // the last area may end 3,000,000 steps late
	p, st, fn := rootFunc(t, "area under sin(t^2) against t from 0 to u", "0.3")
	st.Budget = limit.NewBudget(t.Context(), 1_000_000_000)
	before := st.Budget.Left()
	got := p.FindRoots(st, &run.Solve{Differences: []int{fn}}, 1, 0, math.Inf(1))
	took := before - st.Budget.Left()
	// ∫ sin t² from 0 to u, by Simpson's rule over 20,000 steps and halving.
	if want := 0.987699219800013; len(got.Found) != 1 || math.Abs(got.Found[0]-want) > 1e-9 {
		t.Errorf("found %v, want %v", got.Found, want)
	}
	if got.Whole || took > within+beyond {
		t.Errorf("all is known: %v, after %d steps", got.Whole, took)
	}
	if st.Budget.Ended() != limit.Going {
		t.Errorf("nothing is left for the rest of the line")
	}
}

// TestEnclose holds enclosures against values and slopes at points within.
func TestEnclose(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for _, text := range []string{"u^2 - 3*u", "sin(2*u) + cos(u)", "exp(-u)*u", "1/(1 + u^2)", "√(u^2 + 1)", "tan(u/9)", "ln(u^2 + 0.1)", "abs(u - 1)", "atan(u)*u", "u^3 - u^(1/2)"} {
		p, st, fn := rootFunc(t, text, "0.25")
		for range 400 {
			lo := 0.01 + 4*r.Float64()
			x := ops.Between(lo, lo+r.Float64()*r.Float64())
			v, d, none, _ := p.Enclose(st, fn, x)
			at := x.Lo + (x.Hi-x.Lo)*r.Float64()
			y, slope, h := pointValue(p, st, fn, at), 0.0, 1e-6
			slope = (pointValue(p, st, fn, at+h) - pointValue(p, st, fn, at-h)) / (2 * h)
			if none || y < v.Lo || y > v.Hi {
				t.Fatalf("%s over %v: %v does not hold the value %v at %v", text, x, v, y, at)
			}
			if text != "abs(u - 1)" && (slope < d.Lo-1e-5 || slope > d.Hi+1e-5) {
				t.Fatalf("%s over %v: %v does not hold the slope %v at %v", text, x, d, slope, at)
			}
		}
	}
}

// pointValue is the function at a point as the faithful run has it.
func pointValue(p *run.Program, st *run.State, fn int, x float64) float64 {
	q := *p
	q.Main = run.Code{}
	q.Main.Instrs = append(append(q.Main.Instrs, p.Main.Instrs...), run.Instr{Op: ops.Const, K: x})
	arg := run.Slot(len(q.Main.Instrs) - 1)
	q.Main.Args = append(append(q.Main.Args, p.Main.Args...), arg)
	q.Main.Instrs = append(q.Main.Instrs, run.Instr{Op: ops.Call, A: run.Slot(fn), B: run.Slot(len(q.Main.Args) - 1), C: 1})
	own := &run.State{}
	q.Run(own, 0, run.Slot(len(q.Main.Instrs)))
	v, _ := own.Value(arg + 1)
	return v
}

// BenchmarkFindRoots searches a wide range.
func BenchmarkFindRoots(b *testing.B) {
	p, st, fn := rootFunc(b, "u*exp(-u)", "0.2")
	for b.Loop() {
		p.FindRoots(st, &run.Solve{Differences: []int{fn}}, 1, 1e-6, 1e6)
	}
}

// TestFaults checks why what has no value has none, and that what has one
// keeps it.
func TestFaults(t *testing.T) {
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
		{"exp(1000)", ops.Grown, 0},
		{"1/(1 + exp(1000))", ops.NoFault, 0},
		{"3 - 2/cosh(1000)^2", ops.NoFault, 3},
		{"tanh(sinh(1000))", ops.NoFault, 1},
		{"exp(0 - exp(1000))", ops.NoFault, 0},
		{"min(2, 10^(100*a))", ops.NoFault, 2},
		{"exp(800)/exp(790)", ops.Grown, 0},
		{"exp(709)/exp(710)", ops.Grown, 0},
		{"exp(800) - exp(790)", ops.Grown, 0},
		{"1/(1 + a*a)", ops.OutOfRange, 0},
		{"exp(0 - 1000)", ops.NoFault, 0},
		{"(1/a)*(1/a)", ops.OutOfRange, 0},
		{"(1/a)^2", ops.OutOfRange, 0},
		{"1/a/a", ops.OutOfRange, 0},
		{"0*a", ops.NoFault, 0},
		{"a - a", ops.NoFault, 0},
		{"sinh(800)", ops.Grown, 0},
		{"a^a", ops.Grown, 0},
		{"(0 - a)^0.3", ops.NoReal, 0},
		{"1 + sqrt(0 - 1)/0", ops.NoReal, 0},
	} {
		p, out := program(t, c.text, []string{"a"})
		st := ran(p, []float64{1e300})
		v, ok := st.Value(out)
		if f := st.Failure(out); f.Kind != c.kind || ok != (c.kind == ops.NoFault) || ok && v != c.want {
			t.Errorf("%s: %v %t, kind %d, want %v, kind %d", c.text, v, ok, f.Kind, c.want, c.kind)
		}
	}
}

// BenchmarkRun is the faithful program of total energy.
func BenchmarkRun(b *testing.B) {
	p, _ := program(b, "k*x^2/2 + m*v^2/2", strings.Fields("x k m v"))
	st := ran(p, []float64{1, 2, 3, 4})
	b.ReportAllocs()
	for b.Loop() {
		p.Run(st, 0, run.Slot(len(p.Main.Instrs)))
	}
}
