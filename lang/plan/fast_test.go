package plan

import (
	"context"
	"encoding/csv"
	"math"
	"os"
	"strings"
	"testing"

	"steelyard/lang/run"
)

// runtimeRelation is a row of testdata/relations.csv. Its sections are those of
// University Physics Volume 1 (UP1), College Physics 2e (CP2e) and Physics for
// high school (HS), OpenStax, CC BY 4.0.
type runtimeRelation struct {
	id, equation, swept string
	names               []string
	values              []float64
}

func runtimeRelations(t testing.TB) []runtimeRelation {
	t.Helper()
	file, err := os.Open("testdata/relations.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	some := []float64{1.3, 0.7, 2.1, 1.9, 0.55, 1.7, 2.3}
	var out []runtimeRelation
	for _, r := range rows[1:] {
		names := strings.Fields(r[4])
		out = append(out, runtimeRelation{r[0], r[2], r[3], names, some[:len(names)]})
	}
	return out
}

// plan returns the fast plan of a relation, its program and result.
func (r *runtimeRelation) plan(t testing.TB) (*Fast, *run.Program, run.Slot) {
	t.Helper()
	p, out := runtimeProgram(t, r.equation, r.names)
	st := runtimeRun(p, r.values)
	f, ok := FastOf(p, st, []run.Slot{out}, []run.Slot{r.slot()})
	if !ok {
		t.Fatalf("%s: no fast plan", r.id)
	}
	return f, p, out
}

// slot is the slot of the swept name.
func (r *runtimeRelation) slot() run.Slot {
	for i, n := range r.names {
		if n == r.swept {
			return run.Slot(i + 1)
		}
	}
	return run.NoSlot
}

// runtimeSweep returns n values that grow from lo to hi.
func runtimeSweep(n int, lo, hi float64) []float64 {
	x := make([]float64, n)
	for i := range x {
		x[i] = lo + (hi-lo)*float64(i)/float64(n)
	}
	return x
}

// TestFastRelations compares fast plan, faithful program and loop for each
// relation.
func TestFastRelations(t *testing.T) {
	for _, r := range runtimeRelations(t) {
		f, p, out := r.plan(t)
		x := runtimeSweep(100, 0.5, 1.5)
		fast, loop := make([]float64, len(x)), make([]float64, len(x))
		ok := make([]bool, len(x))
		f.RunStatus([][]float64{x}, [][]float64{fast}, ok)
		runtimeLoops[r.id](loop, x, r.values)
		for i, v := range x {
			p.Main.Instrs[r.slot()].K = v
			st := &run.State{}
			p.Run(context.Background(), st, 0, run.Slot(len(p.Main.Instrs)))
			want, has := st.Value(out)
			if ok[i] != has {
				t.Errorf("%s %s at %s = %g: status %t, faithful %t", r.id, r.equation, r.swept, v, ok[i], has)
				break
			}
			if has && (runtimeUlps(fast[i], want) > 4 || runtimeUlps(loop[i], want) > 8) {
				t.Errorf("%s %s at %s = %g: fast %v, loop %v, faithful %v", r.id, r.equation, r.swept, v, fast[i], loop[i], want)
				break
			}
		}
	}
}

// TestFastPasses holds the fusing to what it promises.
func TestFastPasses(t *testing.T) {
	for _, c := range []struct {
		equation string
		names    string
		steps    int
	}{
		{"U = k*x^2/2", "x k", 1},
		{"E = k*x^2/2 + m*v^2/2", "x k m v", 1},
		{"U = m*g*h", "h m g", 1},
		{"T = 2*pi*sqrt(m/k)", "m k", 1},
		{"T = 2*pi*sqrt(m/k)", "k m", 1},
		{"x = A*cos(omega*t + phi)", "t A omega phi", 1},
		{"v = sqrt(v0^2 + 2*a*(x - x0))", "x v0 a x0", 2},
		{"R = v0^2*sin(2*theta)/g", "theta v0 g", 1},
		{"x = x0 + v0*t + a*t^2/2", "t x0 v0 a", 1},
		{"F = G*m1*m2/r^2", "r G m1 m2", 1},
		{"f = fs*v/(v - vs)", "vs fs v", 1},
		{"y = (x + 1)^2 + (x + 1)", "x", 2},
	} {
		names := strings.Fields(c.names)
		p, out := runtimeProgram(t, c.equation, names)
		f, ok := FastOf(p, runtimeRun(p, nil), []run.Slot{out}, []run.Slot{1})
		if !ok || f.plain {
			t.Fatalf("%s: no fast plan", c.equation)
		}
		if len(f.steps) != c.steps {
			t.Errorf("%s takes %d passes, want %d", c.equation, len(f.steps), c.steps)
		}
	}
}

func TestFastAllocatesNothing(t *testing.T) {
	x, out, ok := runtimeSweep(1024, 0.5, 1.5), make([]float64, 1024), make([]bool, 1024)
	in, outs := [][]float64{x}, [][]float64{out}
	for _, r := range runtimeRelations(t) {
		f, _, _ := r.plan(t)
		if n := testing.AllocsPerRun(10, func() { f.Run(in, outs) }); n != 0 {
			t.Errorf("%s: Run allocates %v times", r.equation, n)
		}
		if n := testing.AllocsPerRun(10, func() { f.RunStatus(in, outs, ok) }); n != 0 {
			t.Errorf("%s: RunStatus allocates %v times", r.equation, n)
		}
	}
}

// TestFastKeepsDifferences checks that nothing is multiplied out: near x0 that
// would lose every digit.
func TestFastKeepsDifferences(t *testing.T) {
	p, out := runtimeProgram(t, "W = -k*(x - x0)^2/2 + k*(x - x0)", []string{"x", "x0", "k"})
	st := runtimeRun(p, []float64{1, 0.1, 3.7})
	f, _ := FastOf(p, st, []run.Slot{out}, []run.Slot{1})
	x := []float64{0.1 + 1e-12, 0.1 + 3e-9, math.Nextafter(0.1, 1)}
	got := make([]float64, len(x))
	f.Run([][]float64{x}, [][]float64{got})
	for i, v := range x {
		st := runtimeRun(p, []float64{v, 0.1, 3.7})
		if want := st.Vals[out]; runtimeUlps(got[i], want) > 4 {
			t.Errorf("at %v: %v, want %v", v, got[i], want)
		}
	}
}

// TestFastStatus checks lanes without a value against the faithful program,
// among them those whose fault a plain computation would swallow.
func TestFastStatus(t *testing.T) {
	x := []float64{-2, -1, -0.5, 0, 0.5, 1, 2, 1e-200, 1e200, 1e-320, 800, -800, math.Inf(1), math.NaN()}
	for _, eq := range []string{
		"sqrt(x)", "1/x", "ln(x)", "asin(x)", "x*x", "x^3", "atan(1/x)", "1/(1/x)", "1 + 1/(1 + 1/x)",
		"exp(-x)", "1 + exp(-x)", "1 + x*x*1", "tanh(1/x)", "x/x", "0*x", "0*ln(x)", "1/exp(x)", "3 + 1/exp(exp(x))",
		"sgn(sqrt(x))", "(x - x)/2", "x^4*x^4*x^4*x^4", "1/(x - 1)^2", "sqrt(x)/(x - 2)", "x - x^2",
		"1 + 0^x", "1 + 2^x", "x^-3 + 1", "1 + 1/(x - 1)^2/(x + 2)", "sin(ln(x))", "abs(asin(x)) + 1",
		"1 + 1/(1/(x - 1))", "1 + 0.5^(x*2000)", "1 + x*10^-200*10^-200",
	} {
		p, out := runtimeProgram(t, eq, []string{"x"})
		st := runtimeRun(p, []float64{0.3})
		f, _ := FastOf(p, st, []run.Slot{out}, []run.Slot{1})
		got, ok := make([]float64, len(x)), make([]bool, len(x))
		f.RunStatus([][]float64{x}, [][]float64{got}, ok)
		for i, v := range x {
			st := runtimeRun(p, []float64{v})
			want, has := st.Value(out)
			if has != ok[i] || has && runtimeUlps(got[i], want) > 8 {
				t.Errorf("%s at %g: %v %t, faithful %v %t", eq, v, got[i], ok[i], want, has)
			}
			if !ok[i] && got[i] == got[i] {
				t.Errorf("%s at %g: a lane that failed shows %v", eq, v, got[i])
			}
		}
	}
}
