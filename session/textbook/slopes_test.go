package textbook

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"

	"steelyard/session"
	"steelyard/session/entry"
)

// budgetOf is the budget of a line, whose givens are a, b and c with the same relative
// uncertainty.
func budgetOf(t *testing.T, of map[string][]string, row int, relative float64, line, budget string) *entry.Budget {
	t.Helper()
	pad := session.New()
	for _, name := range []string{"a", "b", "c"} {
		v, err := strconv.ParseFloat(of[name][row], 64)
		if err != nil {
			t.Fatal(err)
		}
		pad.Enter(context.Background(), fmt.Sprintf("%s = %s ± %.6f", name, of[name][row], relative*v))
	}
	pad.Enter(context.Background(), line)
	out, _ := pad.Enter(context.Background(), budget).Outcome.(*entry.Budget)
	if out == nil {
		t.Errorf("%s at a = %s, b = %s, c = %s: no budget", line, of["a"][row], of["b"][row], of["c"][row])
	}
	return out
}

// TestSensitivities holds the sensitivity coefficients of random expressions against
// differences of sixty digits.
func TestSensitivities(t *testing.T) {
	of := table(t, "sensitivities.csv")
	for i, x := range of["expression"] {
		got := budgetOf(t, of, i, 0.01, "y = "+x, "budget y")
		if got == nil {
			continue
		}
		slopes, most := map[string]float64{}, 0.0
		for _, s := range got.Sources {
			slopes[s.Name] = s.Sensitivity
			most = max(most, math.Abs(s.Sensitivity))
		}
		for _, name := range []string{"a", "b", "c"} {
			want, err := strconv.ParseFloat(of["by_"+name][i], 64)
			if err != nil {
				t.Fatal(err)
			}
			if math.Abs(slopes[name]-want) > 1e-11*max(most, math.Abs(want)) {
				t.Errorf("%s: by %s %v, want %v", x, name, slopes[name], want)
			}
		}
	}
}

// TestFirstOrderAgainstSampling holds the uncertainties of some of the same expressions
// against random draws, with uncertainties so small that slopes must tell them.
func TestFirstOrderAgainstSampling(t *testing.T) {
	const within = 0.005 // a million draws tell a standard deviation to 0.0007
	of := table(t, "sensitivities.csv")
	for i := 0; i < len(of["expression"]); i += 25 {
		x := of["expression"][i]
		got := budgetOf(t, of, i, 0.001, "y = "+x, "budget y by sampling")
		if got == nil {
			continue
		}
		if got.Sampled == nil || math.Abs(got.Sampled.U/got.U-1) > within {
			t.Errorf("%s: first order %v, sampling %v", x, got.U, got.Sampled)
		}
	}
}

// TestLinesAgainstAnother holds fitted lines against those of another library, with
// weights and without, through the origin and not.
func TestLinesAgainstAnother(t *testing.T) {
	r := rand.New(rand.NewPCG(14, 1))
	for n := 4; n < 40; n += 3 {
		x, y, weights := make([]float64, n), make([]float64, n), make([]float64, n)
		lists := [3]string{}
		for i := range n {
			off := float64(1+r.IntN(9)) / 100
			x[i], y[i] = float64(i)+float64(r.IntN(100))/100, 3*float64(i)+float64(r.IntN(300))/100
			weights[i] = 1 / (off * off)
			for k, text := range []string{fmt.Sprintf("%.2f", x[i]), fmt.Sprintf("%.2f", y[i]), fmt.Sprintf("%.2f ± %.2f", y[i], off)} {
				if i > 0 {
					lists[k] += ", "
				}
				lists[k] += text
			}
		}
		for _, c := range []struct {
			y       string
			weights []float64
		}{{lists[1], nil}, {lists[2], weights}} {
			for _, through := range []bool{false, true} {
				pad := session.New()
				pad.Enter(context.Background(), "x = ["+lists[0]+"]")
				pad.Enter(context.Background(), "y = ["+c.y+"]")
				line := "fit y against x"
				if through {
					line += " through the origin"
				}
				e := pad.Enter(context.Background(), line)
				intercept, slope := stat.LinearRegression(x, y, c.weights, through)
				want := []float64{slope, intercept}
				for k, v := range e.Values() {
					if digits(v.SI, want[k]) < 11 {
						t.Errorf("%s of %d points: %v, want %v", line, n, v.SI, want[k])
					}
				}
				if len(e.Values()) == 0 {
					t.Errorf("%s of %d points: %v", line, n, e.Findings)
				}
			}
		}
	}
}

// TestPolynomialsAgainstAnother holds fitted parabolas, with weights and without, and the certified
// sets that are linear in their parameters against the QR factorisation of another library.
func TestPolynomialsAgainstAnother(t *testing.T) {
	numbers := func(of []string) []float64 {
		out := make([]float64, len(of))
		for i, text := range of {
			out[i], _ = strconv.ParseFloat(text, 64)
		}
		return out
	}
	held := func(what, model string, x, y, off []string, powers []int, names []string, least float64) {
		t.Helper()
		pad, of := session.New(), slices.Clone(y)
		a, b := mat.NewDense(len(x), len(powers), nil), mat.NewVecDense(len(x), nil)
		xs, ys, us := numbers(x), numbers(y), numbers(off)
		for i := range x {
			w := 1.0
			if off != nil {
				of[i], w = y[i]+" ± "+off[i], 1/us[i]
			}
			for k, power := range powers {
				a.Set(i, k, w*math.Pow(xs[i], float64(power)))
			}
			b.SetVec(i, w*ys[i])
		}
		var qr mat.QR
		var want mat.VecDense
		if qr.Factorize(a); qr.SolveVecTo(&want, false, b) != nil {
			t.Fatal(what)
		}
		pad.Enter(context.Background(), "x = ["+strings.Join(x, ", ")+"]")
		pad.Enter(context.Background(), "y = ["+strings.Join(of, ", ")+"]")
		e := pad.Enter(context.Background(), model)
		if len(e.Values()) != len(names) {
			t.Fatalf("%s: %v", what, e.Findings)
		}
		for k, v := range e.Values() {
			if v.Name != names[k] || digits(v.SI, want.AtVec(k)) < least {
				t.Errorf("%s: %s = %v, want %v", what, v.Name, v.SI, want.AtVec(k))
			}
		}
	}
	of := func(file string) (x, y []string) {
		all := table(t, file)
		return all["x"], all["y"]
	}
	x, y := of("lin_norris.csv")
	held("Norris", "fit y against x as B1, B0", x, y, nil, []int{1, 0}, []string{"B1", "B0"}, 9)
	x, y = of("lin_noint1.csv")
	held("NoInt1", "fit y against x through the origin as B1", x, y, nil, []int{1}, []string{"B1"}, 12)
	x, y = of("lin_wampler1.csv")
	held("Wampler1", "fit y = B0 + B1*x + B2*x^2 + B3*x^3 + B4*x^4 + B5*x^5 for B0, B1, B2, B3, B4, B5", x, y, nil,
		[]int{0, 1, 2, 3, 4, 5}, []string{"B0", "B1", "B2", "B3", "B4", "B5"}, 6) // the other has eight digits of the certified 1
	r := rand.New(rand.NewPCG(14, 2))
	for n := 5; n < 40; n += 3 {
		var x, y, off []string
		for i := range n {
			x = append(x, fmt.Sprintf("%.3f", float64(i)+r.Float64()))
			y = append(y, fmt.Sprintf("%.3f", float64(i*i)/10+3*r.Float64()+1))
			off = append(off, fmt.Sprintf("%.3f", 0.05+r.Float64()))
		}
		for _, off := range [][]string{nil, off} {
			held(fmt.Sprint("a parabola of ", n, " points, weighted: ", off != nil), "fit y = a + b*x + c*x^2 for a, b, c", x, y, off, []int{0, 1, 2}, []string{"a", "b", "c"}, 10)
		}
	}
}

// TestAddedPercents has the uncertainties that a textbook prints where it adds percents,
// and those of the GUM without that setting.
func TestAddedPercents(t *testing.T) {
	for _, c := range []struct {
		id, givens, of string
		added, alone   float64
	}{
		{"UNC-008", "n = 40 ± 1|t = 30.0 ± 0.5 s", "n/t in min^-1", 3.333333333, 2.4},
		{"UNC-009", "a = 3.955 ± 0.005 m|b = 3.050 ± 0.005 m", "a*b", 0.035025, 0.025},
		{"UNC-011", "a = 1.80 ± 0.01 cm|b = 2.05 ± 0.02 cm|c = 3.1 ± 0.1 cm", "a*b*c in cm^3", 0.54415, 0.39},
		{"UNC-012", "a = 4.00 m ± 2 %|b = 3.00 m ± 1 %", "a*b", 0.36, 0.27},
	} {
		for _, added := range []bool{false, true} {
			pad, want, near := session.New(), c.alone, 0.03 // as the source rounds it
			if added {
				pad.Enter(context.Background(), "results with uncertainties added")
				want, near = c.added, 1e-9
			}
			for _, given := range strings.Split(c.givens, "|") {
				pad.Enter(context.Background(), given)
			}
			e := pad.Enter(context.Background(), c.of)
			if v := e.Values(); len(v) != 1 || math.Abs(v[0].Unit.FromSIDifference(v[0].U)/want-1) > near {
				t.Errorf("%s, added %v: %v %v, want %v", c.id, added, v, e.Findings, want)
			}
		}
	}
}
