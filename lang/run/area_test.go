package run_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"steelyard/lang/ops"
)

// areaOf is the area under a curve of x, or why it has none.
func areaOf(t testing.TB, curve, from, to string) (float64, ops.Fault) {
	t.Helper()
	p, s := program(t, "area under "+curve+" against x from "+from+" to "+to, nil)
	st := ran(p, nil)
	v, _ := st.Value(s)
	return v, st.Failure(s).Kind
}

// holds compares an area with the true one, as a part of the area of the curve's
// size.
func holds(t *testing.T, curve, from, to string, want, size float64) {
	t.Helper()
	got, fault := areaOf(t, curve, from, to)
	if fault != ops.NoFault || math.Abs(got-want) > 1e-9*size {
		t.Errorf("area under %s from %s to %s: %g (fault %d), want %g", curve, from, to, got, fault, want)
	}
}

// TestAreaPulses are narrow peaks at random places: ∫exp(-((x-a)/w)²) = w·√π, and
// that of 1/(1 + ((x-a)/w)²) by the arctangent.
func TestAreaPulses(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 9))
	for range 140 {
		a, w := 0.05+0.9*r.Float64(), math.Pow(10, -4-4*r.Float64())
		at, wide := fmt.Sprint(a), strings.Replace(fmt.Sprintf("%.4e", w), "e", "*10^", 1)
		var digits float64
		fmt.Sscanf(fmt.Sprintf("%.4e", w), "%g", &digits)
		holds(t, "exp(-((x - "+at+")/("+wide+"))^2)", "0", "1", digits*math.Sqrt(math.Pi), digits*math.Sqrt(math.Pi))
		want := digits * (math.Atan((1-a)/digits) + math.Atan(a/digits))
		holds(t, "1/(1 + ((x - "+at+")/("+wide+"))^2)", "0", "1", want, want)
	}
}

func TestAreas(t *testing.T) {
	for _, c := range []struct {
		curve, from, to string
		want, size      float64
	}{
		{"x^2", "0", "3", 9, 9},
		{"x", "-1", "1", 0, 1},
		{"abs(x - 0.3)", "0", "1", 0.29, 0.29},
		{"abs(sin(x))", "0", "20", 12 + 1 - math.Cos(20-6*math.Pi), 13},
		{"sgn(x - 0.7)*x", "0", "1", 0.5 - 0.49, 0.5},
		{"round(x)", "0", "10", 50, 50},
		{"min(x, 1 - x)", "0", "1", 0.25, 0.25},
		{"max(x, x^2)", "0", "2", 0.5 + 7.0/3, 3},
		{"sin(100000*x)", "0", "1", (1 - math.Cos(1e5)) / 1e5, 0.6},
		{"sqrt(x)", "0", "1", 2.0 / 3, 1},
		{"sqrt(1 - x^2)", "-1", "1", math.Pi / 2, 1},
		{"1/sqrt(x)", "0", "1", 2, 2},
		{"1/sqrt(1 - x)", "0", "1", 2, 2},
		{"1/sqrt(abs(x - 0.3))", "0", "1", 2*math.Sqrt(0.3) + 2*math.Sqrt(0.7), 3},
		{"ln(x)", "0", "1", -1, 1},
		{"sin(x)/x", "0", "1", 0.9460830703671830, 1}, // Si(1), from memory
		{"exp(-1000*x)", "0", "10", 1e-3, 1e-3},
		{"sin(x)^2 + cos(x)^2 - 1", "0", "10", 0, 1e-300},
		{"exp(-x^2/2)", "-40", "40", math.Sqrt(2 * math.Pi), 2.5},
		{"hypot(x, 1)", "0", "1", (math.Sqrt2 + math.Asinh(1)) / 2, 1},
		{"2^x", "0", "1", 1 / math.Ln2, 1},
		{"x^x", "1", "2", 2.050446234534731, 2}, // from memory
		{"1/(1 + exp(-(x - 2)/0.001))", "0", "5", 3, 3},
	} {
		holds(t, c.curve, c.from, c.to, c.want, c.size)
	}
	for curve, want := range map[string]ops.Fault{
		"1/x": ops.Unbounded, "1/(x - 0.3)": ops.Unbounded, "1/(x - 0.3)^2": ops.Unbounded, "tan(2*x)": ops.Unbounded,
		"sqrt(x - 0.5)": ops.NoReal, "exp(2000*x)": ops.OutOfRange,
	} {
		if v, fault := areaOf(t, curve, "0", "1"); fault != want {
			t.Errorf("area under %s: %g, fault %d, want %d", curve, v, fault, want)
		}
	}
}

// TestAreaSteps are sums of steps at random places, and a line with kinks.
func TestAreaSteps(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 9))
	for range 60 {
		want, size := 0.0, 0.0
		var terms []string
		for range 1 + r.IntN(6) {
			at, tall := float64(r.IntN(1000))/1000, float64(r.IntN(200)-100)/10
			terms = append(terms, fmt.Sprintf("(%v)*sgn(x - %v)", tall, at), fmt.Sprintf("(%v)*abs(x - %v)", tall, at))
			want += tall*(1-2*at) + tall*(at*at+(1-at)*(1-at))/2
			size += 2 * math.Abs(tall)
		}
		holds(t, strings.Join(terms, " + "), "0", "1", want, math.Max(size, 1))
	}
}

func BenchmarkArea(b *testing.B) {
	for _, curve := range []string{"3*x", "sin(x)", "exp(-x^2)*cos(9*x)", "sqrt(x)", "abs(x - 0.3)", "exp(-((x - 0.3)/10^-6)^2)", "sin(100000*x)", "hypot(x, 1)", "tan(x)"} {
		b.Run(curve, func(b *testing.B) {
			p, _ := program(b, "area under "+curve+" against x from 0 to 1", nil)
			for b.Loop() {
				ran(p, nil)
			}
		})
	}
}
