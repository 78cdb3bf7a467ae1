package plan

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"steelyard/lang/ops"
	"steelyard/lang/syntax"
)

// rootFunc plans left - right as a function of u.
func rootFunc(t testing.TB, left, right string) (*Program, *State, int) {
	t.Helper()
	l, bad1 := syntax.ParseExpr(left)
	r, bad2 := syntax.ParseExpr(right)
	if len(bad1)+len(bad2) > 0 {
		t.Fatal(bad1, bad2)
	}
	p := New()
	eq := p.CompileEquation(l, r, "", "u")
	if !eq.OK {
		t.Fatal(eq.Findings)
	}
	st := &State{}
	p.Program.Run(context.Background(), st, 0, p.Size())
	return &p.Program, st, eq.Difference
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
		{"tan(u)", "u", 2, 10, []float64{4.493409457909064, 7.725251836937707}, true},
		{"u^3 - 3*u", "-1", -5, 5, []float64{2 * math.Cos(2*math.Pi/9), 2 * math.Cos(4*math.Pi/9), 2 * math.Cos(8*math.Pi/9)}, false},
		{"√u", "u - 2", 0.5, 50, []float64{4}, false},
		{"1/u", "0", 0.1, 1e6, nil, false},
		{"u^2 - 2*u + 1", "0", 0.5, 1.7, nil, true},
		{"abs(u)", "1", -9, 9, []float64{-1, 1}, false},
		{"u*exp(-u)", "0.2", 0.01, 9, []float64{0.2591711018190738, 2.5426413577735265}, false},
	}
	for _, tt := range tests {
		p, st, fn := rootFunc(t, tt.left, tt.right)
		got := p.FindRoots(context.Background(), st, fn, []Interval{{tt.lo, tt.hi}})
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

// TestEnclose holds enclosures against values and slopes at points within.
func TestEnclose(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for _, text := range []string{"u^2 - 3*u", "sin(2*u) + cos(u)", "exp(-u)*u", "1/(1 + u^2)", "√(u^2 + 1)", "tan(u/9)", "ln(u^2 + 0.1)", "abs(u - 1)", "atan(u)*u", "u^3 - u^(1/2)"} {
		p, st, fn := rootFunc(t, text, "0.25")
		for range 400 {
			lo := 0.01 + 4*r.Float64()
			x := Interval{lo, lo + r.Float64()*r.Float64()}
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
func pointValue(p *Program, st *State, fn int, x float64) float64 {
	q := *p
	q.Main = Code{}
	q.Main.Instrs = append(append(q.Main.Instrs, p.Main.Instrs...), Instr{Op: ops.Const, K: x})
	arg := Slot(len(q.Main.Instrs) - 1)
	q.Main.Args = append(append(q.Main.Args, p.Main.Args...), arg)
	q.Main.Instrs = append(q.Main.Instrs, Instr{Op: ops.Call, A: Slot(fn), B: Slot(len(q.Main.Args) - 1), C: 1})
	own := &State{}
	q.Run(context.Background(), own, 0, Slot(len(q.Main.Instrs)))
	v, _ := own.Value(arg + 1)
	return v
}

// BenchmarkFindRoots searches a wide range.
func BenchmarkFindRoots(b *testing.B) {
	p, st, fn := rootFunc(b, "u*exp(-u)", "0.2")
	for b.Loop() {
		p.FindRoots(context.Background(), st, fn, []Interval{{1e-6, 1e6}})
	}
}
