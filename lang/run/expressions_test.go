package run_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"steelyard/lang/ops"
	"steelyard/lang/run"
)

// columnsOf sweeps an expression in its first names.
func columnsOf(t testing.TB, text, names string, in ...[]float64) ([][]float64, []run.Failure) {
	t.Helper()
	p, out := program(t, text, strings.Fields(names))
	varying := make([]run.Slot, len(in))
	for i := range in {
		varying[i] = run.Slot(i + 1)
	}
	return run.LikeLines(t, text, p, []run.Slot{out}, varying, in)
}

// TestColumnsRelations compares columns, single line and loop for each
// relation.
func TestColumnsRelations(t *testing.T) {
	x := runtimeSweep(100, 0.5, 1.5)
	loop := make([]float64, len(x))
	for _, r := range runtimeRelations(t) {
		_, p, out := r.plan(t)
		got, _ := run.LikeLines(t, r.id, p, []run.Slot{out}, []run.Slot{r.slot()}, [][]float64{x})
		runtimeLoops[r.id](loop, x, r.values)
		for i, v := range x {
			if ulps(loop[i], got[0][i]) > 8 {
				t.Errorf("%s %s at %s = %g: %v, the loop has %v", r.id, r.equation, r.swept, v, got[0][i], loop[i])
				break
			}
		}
	}
}

// TestColumnsPasses holds the fusing to what it promises.
func TestColumnsPasses(t *testing.T) {
	for _, c := range []struct {
		text   string
		names  string
		passes int
	}{
		{"k*x^2/2", "x k", 1},
		{"k*x^2/2 + m*v^2/2", "x k m v", 1},
		{"m*g*h", "h m g", 1},
		{"2*pi*sqrt(m/k)", "m k", 1},
		{"2*pi*sqrt(m/k)", "k m", 1},
		{"A*cos(omega*t + phi)", "t A omega phi", 1},
		{"sqrt(v0^2 + 2*a*(x - x0))", "x v0 a x0", 1},
		{"v0^2*sin(2*theta)/g", "theta v0 g", 1},
		{"x0 + v0*t + a*t^2/2", "t x0 v0 a", 1},
		{"G*m1*m2/r^2", "r G m1 m2", 1},
		{"(x + 1)^2 + (x + 1)", "x", 3},
	} {
		p, out := program(t, c.text, strings.Fields(c.names))
		f, ok := p.Columns(ran(p, []float64{0.3, 1.3, 0.7, 0.3}[:len(strings.Fields(c.names))]), []run.Slot{out}, []run.Slot{1})
		if !ok {
			t.Fatalf("%s: no columns", c.text)
		}
		if f.Passes() != c.passes {
			t.Errorf("%s takes %d passes, want %d", c.text, f.Passes(), c.passes)
		}
	}
}

func TestColumnsAllocateNothing(t *testing.T) {
	x, out := runtimeSweep(1024, 0.5, 1.5), make([]float64, 1024)
	x[700] = 0
	in, outs := [][]float64{x}, [][]float64{out}
	for _, r := range runtimeRelations(t) {
		f, _, _ := r.plan(t)
		if n := testing.AllocsPerRun(10, func() { f.Run(in, outs) }); n != 0 {
			t.Errorf("%s: Run allocates %v times", r.equation, n)
		}
	}
}

// TestColumnsFailures checks lanes without a value, among them those whose
// fault a plain computation would swallow, alone and among ordinary ones.
func TestColumnsFailures(t *testing.T) {
	hard := []float64{-2, -1, -0.5, 0, math.Copysign(0, -1), 0.5, 1, 2, 1e-200, 1e200, 1e-320, 800, -800, math.Inf(1), math.Inf(-1), math.NaN(), 1e308}
	var long []float64
	for i, v := range hard {
		long = append(append(long, runtimeSweep(100+i, 0.25, 0.75)...), v)
	}
	for _, eq := range []string{
		"sqrt(x)", "1/x", "ln(x)", "asin(x)", "x*x", "x^3", "atan(1/x)", "1/(1/x)", "1 + 1/(1 + 1/x)",
		"exp(-x)", "1 + exp(-x)", "1 + x*x*1", "tanh(1/x)", "x/x", "0*x", "0*ln(x)", "1/exp(x)", "3 + 1/exp(exp(x))",
		"sgn(sqrt(x))", "(x - x)/2", "x^4*x^4*x^4*x^4", "1/(x - 1)^2", "sqrt(x)/(x - 2)", "x - x^2",
		"1 + 0^x", "1 + 2^x", "x^-3 + 1", "1 + 1/(x - 1)^2/(x + 2)", "sin(ln(x))", "abs(asin(x)) + 1",
		"1 + 1/(1/(x - 1))", "1 + 0.5^(x*2000)", "1 + x*10^-200*10^-200", "sgn(x)*x", "min(x, 1)", "x^0", "0/x",
		"x + 10^300*10^8", "tanh(x)", "atan(x)", "x*1", "-(x*3)", "(-x)*3", "x/4", "x/3", "x - 3", "atan2(x, 2)", "x", "2 + 0*x",
	} {
		columnsOf(t, eq, "x", hard)
		columnsOf(t, eq, "x", long)
	}
}

// TestColumnsSeveral runs expressions of three columns.
func TestColumnsSeveral(t *testing.T) {
	in := [][]float64{runtimeSweep(1301, 0.3, 2), runtimeSweep(1301, 3, 1), runtimeSweep(1301, -0.7, 0.9)}
	for _, text := range strings.Fields(`x*y 3*x*y 2*x*y*z x*y*z*3*x x^4 x^4*y^3*z^2 x/y 2/x/y x*y/z x*x/y 1.5*x/y^2
		x*y*z/(x*y*z) 1/x^3 x+y x+y+1 x+y+z 2*x^2+3*y^2 1+2*x*y x*y+z z+3*x*y x+2*x x*y+y*z 1+x+2 (x+y)+(y+z) x^2+y^2+z^2
		2*sin(x) sin(2*x+1)*y exp(x)*exp(x) cos(x*y) sqrt(x^2+y^2) tan(x+y) sgn(x) sgn(z)*z 3*x^5 x^0.7 x^-0.5 x^1.5 x^(y) 2^x
		x/(y+2) y/(3*x) sqrt(x/y) sqrt(x*y) hypot(x,y) min(x,y) max(x,z) atan2(x,z) round(x,y) cbrt(z) root(x,5) abs(z) (z+1)*(z+1)`) {
		columnsOf(t, text, "x y z", in...)
	}
}

// TestColumnsKeepDifferences checks that nothing is multiplied out: near x0
// that would lose every digit.
func TestColumnsKeepDifferences(t *testing.T) {
	columnsOf(t, "-k*(x - x0)^2/2 + k*(x - x0)", "x x0 k", []float64{1 + 1e-12, 1 + 3e-9, math.Nextafter(1, 2)})
}

// TestColumnsFixed checks outputs that don't vary, columns handed through, and
// slots that were never run.
func TestColumnsFixed(t *testing.T) {
	p, out := program(t, "a*b", strings.Fields("a b x"))
	st := ran(p, []float64{2, 3, 4})
	outs, _ := run.LikeLines(t, "fixed", p, []run.Slot{out, 3, 1, out}, []run.Slot{3}, [][]float64{{7, 8}})
	if !slices.Equal(outs[0], []float64{6, 6}) || !slices.Equal(outs[1], []float64{7, 8}) || outs[2][1] != 2 || outs[3][1] != 6 {
		t.Errorf("%v", outs)
	}
	if _, ok := p.Columns(st, []run.Slot{out + 1}, nil); ok {
		t.Error("a slot that isn't there was planned")
	}
	if _, ok := p.Columns(st, []run.Slot{out}, []run.Slot{-1}); ok {
		t.Error("a column for no slot was planned")
	}
	c, ok := p.Columns(st, []run.Slot{out, 3, 1, out}, []run.Slot{3})
	if !ok || c.Inputs() != 1 || c.Outputs() != 4 {
		t.Fatalf("%d inputs, %d outputs", c.Inputs(), c.Outputs())
	}
	c.Run(nil, outs) // no columns, no lanes
	if c.Failure(run.Fail{}).Kind != ops.NoFault {
		t.Error("a lane that doesn't fail has a failure")
	}
	if c, ok := p.Columns(st, []run.Slot{out}, nil); ok {
		c.Run(nil, outs[:1])
	}
}
