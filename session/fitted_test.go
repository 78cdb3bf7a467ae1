package session

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"

	"steelyard/session/entry"
)

// TestFitGoesWithItsReadings holds the uncertainty of what is worked out from the parameters
// of a fit and from its readings as well against pages in which one reading is another.
func TestFitGoesWithItsReadings(t *testing.T) {
	x := []float64{1, 2, 3, 4, 5, 6}
	y, u := []float64{2.1, 3.9, 6.2, 7.8, 10.1, 12.3}, []float64{0.1, 0.2, 0.1, 0.15, 0.1, 0.3}
	of := func(moved int, by float64, lines ...string) float64 {
		var given []string
		for i, v := range y {
			if i == moved {
				v += by
			}
			given = append(given, fmt.Sprintf("y%d = %s ± %s", i+1, number(v), number(u[i])))
		}
		list := func(name string, of func(i int) string) string {
			var all []string
			for i := range x {
				all = append(all, of(i))
			}
			return name + " = [" + strings.Join(all, ", ") + "]"
		}
		given = append(given, list("x", func(i int) string { return number(x[i]) }), list("y", func(i int) string { return fmt.Sprintf("y%d", i+1) }))
		v := worked(t, append(given, lines...)...)
		if moved < 0 {
			return v.U
		}
		return v.SI
	}
	for _, lines := range [][]string{
		{"fit y against x as a, b", "a*1"},
		{"fit y against x as a, b", "b*1"},
		{"fit y against x as a, b", "a*7 + b"},
		{"fit y against x as a, b", "a*3 + b - y3"},
		{"fit y against x as a, b", "y6/a - b"},
		{"fit y against x as a through the origin", "a*2 - y2"},
		{"fit y against x as a, b", "mean(y) - a*3.5 - b"},
		{"fit y = a*x + b*x^2 for a, b", "a*2 + b*4 - y2"},
		{"fit y = a*x + b*x^2 for a, b", "a*b + y1"},
		{"fit y against x as a, b", "fit y = A*x + B*x^2 for A, B", "(a + A)*(b + y4)"},
		{"fit y against x as a, b", "c = a*2", "z = [c, c + y1, c + y2 + y3, c, y6, a]", "sum(z)"},
	} {
		sum := 0.0
		for i := range y {
			const h = 1e-4
			sum = math.Hypot(sum, u[i]*(of(i, h, lines...)-of(i, -h, lines...))/(2*h))
		}
		if got := of(-1, 0, lines...); math.Abs(got-sum) > 1e-6*max(sum, 1e-3) {
			t.Errorf("%s: u = %g, by differences %g", strings.Join(lines, "; "), got, sum)
		}
	}
}

// TestFitSampledWithItsReadings draws the parameters of a fit and its readings together, some
// of which are spread evenly: what comes out is as spread as first order says.
func TestFitSampledWithItsReadings(t *testing.T) {
	for _, fit := range []string{"fit y against x as a, b", "fit y = a*x + b for a, b"} {
		for _, text := range []string{"a*3 + b - y3", "a*7 + b", "y4 - a*4", "(a*5 + b)/y5", "c*(a*5 + b) - y5", "c*y3 + a"} {
			p := New()
			var e *entry.Entry
			for _, line := range []string{"c = 1.00 ± 0.02", "y1 = 2.1 ± 0.1", "y2 = 3.9 ± 0.2 uniform", "y3 = 6.2 ± 0.3 uniform", "y4 = 7.8 ± 0.1", "y5 = 10.1 ± 0.1 triangular", "x = [1, 2, 3, 4, 5]",
				"y = c*[y1, y2, y3, y4, y5]", fit, "Y = " + text, "budget Y by sampling"} {
				if e = p.Enter(context.Background(), line); e.Failed() {
					t.Fatalf("%s: %v", line, e.Findings)
				}
			}
			b, ok := e.Outcome.(*entry.Budget)
			if !ok || b.Sampled == nil || b.Sampled.Draws != 1_000_000 || math.Abs(b.Sampled.U/b.U-1) > 0.005 {
				t.Errorf("%s, %s: %g, %+v", fit, text, b.U, b.Sampled)
			}
		}
	}
}

// TestFitFreedom counts the readings that tell how well a parameter is known: JCGM 100:2008,
// table G.2, has 3.18 for 95 % and three degrees of freedom, and 1.96 where there is no end of
// them. Parameters that are off together are counted once.
func TestFitFreedom(t *testing.T) {
	for _, c := range []struct {
		y      string
		lines  []string
		factor float64
	}{
		{"[2.1, 3.9, 6.2, 7.8, 10.1]", []string{"fit y against x as a, b", "Y = a*2.5 + b"}, 3.18},
		{"[2.1, 3.9, 6.2, 7.8, 10.1]", []string{"fit y = a*x + b*x^2 for a, b", "Y = a/b"}, 3.18},
		{"[2.1, 3.9, 6.2, 7.8, 10.1]", []string{"fit y against x as a through the origin", "Y = a*2"}, 2.78},
		{"[2.1 ± 0.1, 3.9 ± 0.1, 6.2 ± 0.1, 7.8 ± 0.1, 10.1 ± 0.1]", []string{"fit y against x as a, b", "Y = a*2.5 + b"}, 1.96},
	} {
		p := New()
		var e *entry.Entry
		for _, line := range append([]string{"x = [1, 2, 3, 4, 5]", "y = " + c.y}, append(c.lines, "budget Y covering 95 %")...) {
			e = p.Enter(context.Background(), line)
		}
		b, ok := e.Outcome.(*entry.Budget)
		if !ok || b.Expanded == nil || math.Abs(b.Expanded.Factor-c.factor) > 0.005 {
			t.Errorf("%v: %+v %v", c.lines, e.Outcome, e.Findings)
		}
	}
}

// TestCalibration is the straight line of JCGM 100:2008, H.3, its readings after the clause, from
// memory: y = y1 + y2·(t - 20 °C), with y1 = -0.1712 ± 0.0029 °C, y2 = 0.00218 ± 0.00067, and at
// 30 °C -0.1494 ± 0.0041 °C, of nine degrees of freedom. The two are off together, r = -0.930.
func TestCalibration(t *testing.T) {
	lines := []string{
		"t = [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511] K",
		"y = [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160] K",
		"d = t - 20 K",
		"fit y against d as y2, y1",
	}
	for text, want := range map[string][3]float64{"y1*1": {-0.1712, 0.0029, 0.5e-4}, "y2*1": {0.00218, 0.00067, 0.5e-5}, "y1 + y2*10 K": {-0.1494, 0.0041, 0.5e-4}} {
		v := worked(t, append(lines, text)...)
		if math.Abs(v.SI-want[0]) > want[2] || math.Abs(v.U-want[1]) > 0.02*want[1] {
			t.Errorf("%s = %v ± %v, want %v", text, v.SI, v.U, want)
		}
	}
}

// TestFlatLines tells no R² of readings that are all alike, and says of two sides that come from
// the same readings that they do.
func TestFlatLines(t *testing.T) {
	for _, c := range [][2]string{
		{"fit z against m", "differ too little for R²"},
		{"fit z against m through the origin", "differ too little for R²"},
		{"fit z = a*m + b for a, b", "differ too little for R²"},
		{"fit w*1e-160 against m", "differ too little for R²"},
		{"fit w = q*m for q", "below 0: the points lie nearer to their mean than to this"},
		{"fit m against m", "both are worked out from m alone"},
		{"fit m^2 against 2*m", "both are worked out from m alone"},
	} {
		p := New()
		p.Enter(context.Background(), "m = [1, 2, 3, 4] kg")
		p.Enter(context.Background(), "z = [0, 0, 0, 0] s")
		p.Enter(context.Background(), "w = [1.21, 1.19, 1.24, 1.2] s")
		e := p.Enter(context.Background(), c[0])
		if got := strings.Join(told(e), " "); !strings.Contains(got, c[1]) || strings.Contains(got, "R² = NaN") {
			t.Errorf("%s: %q, %v", c[0], got, e.Findings)
		}
	}
}
