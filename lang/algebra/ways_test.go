package algebra

import (
	"math"
	"strings"
	"testing"

	"steelyard/lang/limit"
	"steelyard/lang/syntax"
)

// way is equations, separated by semicolons, that are solved in one of the ways, and
// how many roots and rests that leads to.
type way struct {
	equations, unknowns string
	roots, rests        int
}

// ways are equations for each way in which one is solved.
var ways = []way{
	// undone
	{"y = m*x + c", "x", 1, 0},
	{"y = (a - (b - x))/c", "x", 1, 0},
	{"y = a/(b/x)", "x", 1, 0},
	{"y = a/(b*x)", "x", 1, 0},
	{"-y = -(x - a)^3", "x", 1, 0},
	{"y = (x/a)^2", "x", 2, 0},
	{"y = a*2^(x/b)", "x", 1, 0},
	{"y = hypot(x, a)", "x", 2, 0},
	{"y = abs(x - a)", "x", 2, 0},
	{"y = root(x, 5)", "x", 1, 0},
	{"y = x^(3/2)", "x", 1, 0},
	{"y = a*sinh(x/b)", "x", 1, 0},
	{"y = cosh(x)", "x", 2, 0},
	{"y = max(x, 2*x)", "x", 2, 0},
	// a product that is to be 0
	{"x*(x - a)*(b - x) = 0", "x", 3, 0},
	{"√(x - a)*(x - b)/(x - c) = 0", "x", 2, 0},
	{"(x - a)^2*exp(x) = 0", "x", 1, 0},
	{"-(a*(x - b)) = 0", "x", 1, 0},
	// one kind: a power, a factor, a quadratic equation, a rational root
	{"a*x + b = c*x", "x", 1, 0},
	{"a*x^2 + b*x^2 = c", "x", 2, 0},
	{"a*x^2 + b*x + c = 0", "x", 2, 0},
	{"a*x^2 = b*x", "x", 2, 0},
	{"x^4 - (a + b)*x^2 + a*b = 0", "x", 4, 0},
	{"a/x + b/x^2 = c", "x", 2, 0},
	{"1/f = 1/x + 1/(d - x)", "x", 2, 0},
	{"a*sin(x)^2 + b*sin(x) = c", "x", 2, 0},
	{"x + a*√(x) = b", "x", 2, 0},
	{"6*ln(x)^3 - 11*ln(x)^2 + 6*ln(x) = 1", "x", 3, 0},
	// several kinds
	{"x*sin(x) = a*x", "x", 2, 0},
	{"a*sin(x) + b*cos(x) = c", "x", 1, 0},
	{"a*sin(x) = b*cos(x)", "x", 1, 0},
	{"2*sin(x)^2 + 3*cos(x) = 3", "x", 2, 0},
	{"cos(2*x) + a*sin(x) = b", "x", 2, 0},
	{"sin(2*x) = cos(x)", "x", 2, 0},
	{"a*exp(x) + b*exp(-x) = c", "x", 2, 0},
	{"2^x = 5*3^x", "x", 1, 0},
	{"4^x - 3*2^x = 10", "x", 2, 0},
	{"exp(2*x) = 3*exp(x)", "x", 2, 0},
	{"tan(x) = a*sin(x)", "x", 2, 0},
	// opened, squared
	{"(x - a)^2 = (x - b)^2", "x", 1, 0},
	{"(x + a)*(x + b) = x*(x + c)", "x", 1, 0},
	{"√(x + a) = x - b", "x", 2, 0},
	{"√(x) + √(x + a) = b", "x", 1, 0},
	// what cancels
	{"x + a = x + b", "x", 0, 1},
	{"a*(x + b) = a*x + c", "x", 0, 1},
	// several unknowns
	{"x + y = a; x - y = b", "x, y", 1, 0},
	{"x + y = a; x*y = b", "x, y", 2, 0},
	{"x*y = 0; x + y = a", "x, y", 2, 0},
	{"F - T = m*x; T = M*x", "x, T", 1, 0},
	{"x^2 + y^2 = a; y = 2*x", "x, y", 2, 0},
	{"x + y + z = a; x - y = b; y = c*z", "x, y, z", 1, 0},
}

// solved solves the equations of a way.
func (w way) solved(t *testing.T) ([]Equation, *Solution) {
	t.Helper()
	var eqs []Equation
	for _, text := range strings.Split(w.equations, "; ") {
		l, r, _ := strings.Cut(text, " = ")
		eqs = append(eqs, Equation{expr(t, l), expr(t, r)})
	}
	s, ok := Solve(limit.Boundless(), eqs, strings.Split(w.unknowns, ", "), Turns{})
	if !ok {
		t.Errorf("%s for %s: not solved", w.equations, w.unknowns)
		return eqs, &Solution{}
	}
	return eqs, s
}

// TestWays solves equations in each way, and puts the roots back: where they have a
// value, with numbers for the names, both sides are the same. Where a step may have
// added solutions, one of the roots must be right at least, at some of the numbers.
func TestWays(t *testing.T) {
	for _, w := range ways {
		eqs, s := w.solved(t)
		if len(s.Roots) != w.roots || len(s.Rests) != w.rests {
			t.Errorf("%s for %s: %d roots and %d rests, want %d and %d", w.equations, w.unknowns, len(s.Roots), len(s.Rests), w.roots, w.rests)
		}
		right := 0
		for _, r := range s.Roots {
			all := []Root{r}
			if r.Also != nil {
				all = append(all, *r.Also)
			}
			for _, r := range all {
				put := map[string]syntax.Expr{}
				for i, u := range strings.Split(w.unknowns, ", ") {
					put[u] = r.X[i]
				}
				for seed := range 24 {
					off, ok := offBy(eqs, put, seed)
					switch {
					case !ok:
					case off < 1e-7:
						right++
					case !s.Widened:
						t.Errorf("%s for %s: %s is off by %v", w.equations, w.unknowns, syntax.PrintExpr(r.X[0]), off)
					}
				}
			}
		}
		if right == 0 && w.roots > 0 {
			t.Errorf("%s for %s: no root was put back", w.equations, w.unknowns)
		}
	}
}

// offBy is by how much the sides of equations differ with roots put in, as a part of
// what stands on them; false where one has no value.
func offBy(eqs []Equation, put map[string]syntax.Expr, seed int) (most float64, ok bool) {
	for _, eq := range eqs {
		l, r := sample(Substitute(eq.Left, put), seed), sample(Substitute(eq.Right, put), seed)
		if l-l != 0 || r-r != 0 {
			return 0, false
		}
		size := math.Max(1, math.Max(math.Abs(l), math.Abs(r)))
		most = math.Max(most, math.Abs(l-r)/size)
	}
	return most, true
}

// TestWaysStep puts the roots back into every line of their working: each line is
// another form of the equation.
func TestWaysStep(t *testing.T) {
	for _, w := range ways {
		_, s := w.solved(t)
		for _, r := range s.Roots {
			put := map[string]syntax.Expr{}
			for i, u := range strings.Split(w.unknowns, ", ") {
				put[u] = r.X[i]
			}
			for _, step := range r.Working() {
				for seed := range 6 {
					off, ok := offBy([]Equation{{step.Left, step.Right}}, put, seed)
					if ok && off > 1e-7 && !s.Widened {
						t.Errorf("%s for %s: %s = %s does not hold for %s", w.equations, w.unknowns, syntax.PrintExpr(step.Left), syntax.PrintExpr(step.Right), syntax.PrintExpr(r.X[0]))
					}
				}
			}
		}
	}
}
