package session

import (
	"context"
	"math"
	"strconv"
	"strings"
	"testing"

	"steelyard/session/entry"
	"steelyard/units"
)

// worked enters lines and returns the value of the last.
func worked(t *testing.T, lines ...string) entry.Value {
	t.Helper()
	p := New()
	var e *entry.Entry
	for _, line := range lines {
		if e = p.Enter(context.Background(), line); e.Failed() {
			t.Fatalf("%s: %v", line, e.Findings)
		}
	}
	return e.Values()[0]
}

// TestGauge is the end gauge of JCGM 100:2008, H.1, its inputs after texts that quote the
// clause: the combined standard uncertainty is 32 nm (clause H.1.4), 31.7 nm before it
// is rounded.
func TestGauge(t *testing.T) {
	v := worked(t, "lS = 50000623 ± 25 nm", "d = 215 ± 9.7 nm", "αS = 11.5e-6 ± 1.2e-6 K^-1", "θ1 = -0.1 ± 0.41 K",
		"dα = 0 ± 0.58e-6 K^-1", "dθ = 0 ± 0.029 K", "l1 = lS + d - lS*(dα*θ1 + αS*dθ) in nm")
	if v.Shown(units.Screen) != "(5.0000838 ± 0.0000032)×10⁷ nm" || math.Abs(v.UInUnit()-31.7) > 0.05 {
		t.Errorf("%s, %g", v.Shown(units.Screen), v.UInUnit())
	}
}

// TestPublishedUncertainties are rows of textbook.csv.
func TestPublishedUncertainties(t *testing.T) {
	for _, c := range []struct {
		id, u string
		lines []string
	}{
		// quadrature: UNC-015, k = t/√x, 0.09 s/m^0.5
		{"UNC-015", "0.087", []string{"t = 0.76 ± 0.15 s", "x = 3.00 ± 0.01 m", "t/√x"}},
		// UNC-008, 40 ± 1 beats in 30.0 ± 0.5 s: by squares 2.4 per minute
		{"UNC-008", "2.4", []string{"n = 40 ± 1", "t = 30.0 ± 0.5 s", "n/t in min^-1"}},
		// UNC-009, by squares 0.025 m²
		{"UNC-009", "0.025", []string{"a = 3.955 ± 0.005 m", "b = 3.050 ± 0.005 m", "a*b"}},
		// UNC-021: 0.2 K, and a half-width of 0.5 K; uniform here: √(0.04 + 0.25/3)
		{"uniform", "0.35", []string{"a = 20.0 ± 0.2 K", "b = 0.0 ± 0.5 K uniform", "a + b"}},
		{"triangular", "0.20", []string{"b = 10.0 ± 0.5 K triangular", "b*1.0"}},
		{"correlated", "0", []string{"x = 3.0 ± 0.1 m", "x - x"}},
		{"correlated", "0.20", []string{"x = 3.0 ± 0.1 m", "x + x"}},
	} {
		v := worked(t, c.lines...)
		want := c.u
		if got := shownU(v); got != want {
			t.Errorf("%s: u = %s, want %s (%s)", c.id, got, want, v.Shown(units.Screen))
		}
	}
}

func shownU(v entry.Value) string {
	if v.U == 0 {
		return "0"
	}
	v.U, v.SI, v.InUnit = 0, v.U, v.UInUnit()
	v.Figures.N, v.Figures.Keep = 2, true
	return v.Number(units.Screen)
}

// TestSensitivities holds the contributions against differences: each given is moved by a
// thousandth of its uncertainty to both sides.
func TestSensitivities(t *testing.T) {
	const a, b = 3.25, 1.75
	for _, text := range []string{"a*b^2", "a/b", "√(a^2 + b^2)", "sin(a)*exp(-b)", "atan2(a, b)", "hypot(a, b)", "ln(a/b)", "a^b", "cbrt(a*b)", "tanh(a - b)", "max(a, b)*b", "root(a, 5)+acos(b/4)"} {
		at := func(a, b float64) float64 {
			return worked(t, "x0 = 1 m", "a = "+number(a), "b = "+number(b), text).SI
		}
		const h = 1e-4
		da := (at(a+h, b) - at(a-h, b)) / (2 * h)
		db := (at(a, b+h) - at(a, b-h)) / (2 * h)
		want := math.Hypot(0.02*da, 0.05*db)
		got := worked(t, "a = 3.25 ± 0.02", "b = 1.75 ± 0.05", text).U
		if math.Abs(got-want) > 1e-6*want {
			t.Errorf("%s: u = %g, by differences %g", text, got, want)
		}
	}
}

func number(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// TestSimultaneous is the resistance, the reactance and the impedance of JCGM 100:2008, H.2:
// five sets of readings of one table, whose means go together. The figures of the clause are
// those of texts that quote its table H.3.
func TestSimultaneous(t *testing.T) {
	table := "data\n  V / V  I / A  φ / rad\n  5.007  0.019663  1.0456\n  4.994  0.019639  1.0438\n  5.005  0.019640  1.0468\n" +
		"  4.990  0.019685  1.0428\n  4.999  0.019678  1.0433"
	for text, want := range map[string]string{
		"mean(V)/mean(I)*cos(mean(φ))": "127.732 ± 0.071 Ω",
		"mean(V)/mean(I)*sin(mean(φ))": "219.85 ± 0.30 Ω", // 219.847, u = 0.295
		"mean(V)/mean(I)":              "254.26 ± 0.24 Ω", // 254.260, u = 0.236
		"mean(V)":                      "4.9990 ± 0.0032 V",
	} {
		if got := worked(t, table, text).Shown(units.Screen); got != want {
			t.Errorf("%s: %s, want %s", text, got, want)
		}
	}
	if v := worked(t, table, "mean(V)/mean(I)*sin(mean(φ))"); math.Abs(v.U-0.295) > 0.001 {
		t.Errorf("u = %g", v.U)
	}
}

// TestSampling are examples of JCGM 101:2008, by what texts quote of its tables, and what
// follows from the distributions.
func TestSampling(t *testing.T) {
	normal, flat := "0.0 ± 1.0", "0.0 ± 1.7320508 uniform"
	four := func(x string) []string {
		return []string{"X1 = " + x, "X2 = " + x, "X3 = " + x, "X4 = " + x, "Y = X1 + X2 + X3 + X4", "budget Y by sampling"}
	}
	for _, c := range []struct {
		name           string
		lines          []string
		mean, u, high  float64
		within, agrees float64
	}{
		{"9.2.2, table 2", four(normal), 0, 2.00, 3.92, 0.015, 1},
		{"9.2.3, table 3", four(flat), 0, 2.00, 3.88, 0.015, 1},
		// Y = σ²χ² of two degrees of freedom: mean and standard deviation 2σ²; the interval ends at
		// -2σ² ln 0.025.
		{"9.4, X1 = 0", []string{"X1 = 0.000 ± 0.005", "X2 = 0.000 ± 0.005", "Y = X1^2 + X2^2", "budget Y by sampling"}, 50e-6, 50e-6, 184.4e-6, 0.5e-6, 0},
		// Table 6, from memory: 1.2340 mg, u by first order 0.0539, by sampling 0.0754.
		{"9.3", []string{"mR = 100000.000 ± 0.050 mg", "d = 1.234 ± 0.020 mg", "ρa = 1.20 ± 0.10 kg/m^3 uniform", "ρW = 8000 ± 1000 kg/m^3 uniform", "ρR = 8000 ± 50 kg/m^3 uniform",
			"Y = (mR + d)*(1 + (ρa - 1.2 kg/m^3)*(1/ρW - 1/ρR)) - 100000 mg in mg", "budget Y by sampling"}, 1.234e-6, 0.0754e-6, 1.3825e-6, 0.002e-6, 0},
		// Student's t of four degrees of freedom: u = √2 times the standard error 1, and 2.776.
		{"a mean", []string{"T = [-2.2360679775, 2.2360679775, 0, -2.2360679775, 2.2360679775] m", "Y = mean(T)", "budget Y by sampling"}, 0, 1.414, 2.776, 0.02, 1},
	} {
		p := New()
		var e *entry.Entry
		for _, line := range c.lines {
			if e = p.Enter(context.Background(), line); e.Failed() {
				t.Fatalf("%s: %v", line, e.Findings)
			}
		}
		b, ok := e.Outcome.(*entry.Budget)
		if !ok || b.Sampled == nil {
			t.Fatalf("%s: %v", c.name, e.Outcome)
		}
		got := b.Sampled
		if got.Draws != 1_000_000 || math.Abs(got.Mean-c.mean) > c.within || math.Abs(got.U-c.u) > c.within || math.Abs(got.Hi-c.high) > 2*c.within || got.Agrees != (c.agrees == 1) {
			t.Errorf("%s: %+v", c.name, *got)
		}
	}
}

// TestSampledFit draws a parameter of a fit once: by its own uncertainty, in which those of
// the readings are.
func TestSampledFit(t *testing.T) {
	for _, fit := range []string{"fit y against x as a, b", "fit y = a*x + b for a, b"} {
		p := New()
		for _, line := range []string{"y = [1.0 ± 0.1, 2.0 ± 0.1, 3.0 ± 0.1, 4.1 ± 0.1] m", "x = [1, 2, 3, 4] s", fit} {
			p.Enter(context.Background(), line)
		}
		b, ok := p.Enter(context.Background(), "budget a by sampling").Outcome.(*entry.Budget)
		if !ok || b.Sampled == nil || !b.Sampled.Agrees || b.Sampled.Lacking > 0 || math.Abs(b.Sampled.U-b.U) > 1e-3*b.U*5 {
			t.Errorf("%s: %+v", fit, b)
		}
	}
}

// TestSampledFewReadings tells no standard deviation of means that have none, but where most
// of their values lie: Student's t of 1 and 2 degrees of freedom has 12.71 and 4.30 (JCGM
// 100:2008, table G.2).
func TestSampledFewReadings(t *testing.T) {
	for list, factor := range map[string]float64{"[1.21, 1.19] s": 12.71, "[1.21, 1.19, 1.20] s": 4.30} {
		p := New()
		p.Enter(context.Background(), "A = mean("+list+")")
		b, ok := p.Enter(context.Background(), "budget A by sampling").Outcome.(*entry.Budget)
		if !ok || b.Sampled == nil {
			t.Fatalf("%s: no budget", list)
		}
		if s := b.Sampled; s.U == s.U || s.Mean == s.Mean || math.Abs(s.Hi-1.2-factor*b.U) > 0.03*factor*b.U {
			t.Errorf("%s: %+v", list, *s)
		}
	}
}

// TestWithoutSlopes has no budget of a value that changes without bound, and says by sampling
// how it spreads.
func TestWithoutSlopes(t *testing.T) {
	p := New()
	p.Enter(context.Background(), "x = 0.0 ± 0.1 m")
	p.Enter(context.Background(), "y = √x")
	if e := p.Enter(context.Background(), "budget y"); !e.Failed() || e.Outcome != nil {
		t.Errorf("%v", e.Outcome)
	}
	told, _ := p.Enter(context.Background(), "budget y by sampling").Outcome.(entry.Lines)
	text := strings.Join(entry.Texts(told), " ")
	if !strings.Contains(text, "By sampling") || !strings.Contains(text, "no uncertainty of y") || strings.Contains(text, "the same") || strings.Contains(text, "infinite") {
		t.Errorf("%s", text)
	}
}

// TestFitBeyondNumbers fits no line through readings whose squares are beyond the range of
// numbers: its slope would be 0.
func TestFitBeyondNumbers(t *testing.T) {
	for m, fits := range map[string]bool{"[1e150, 2e150, 3e150] kg": true, "[1e160, 2e160, 3e160] kg": false, "[1e170, 2e170, 3e170] kg": false, "[1e-170, 2e-170, 3e-170] kg": false} {
		p := New()
		p.Enter(context.Background(), "T = [1.0, 2.1, 3.0] s")
		p.Enter(context.Background(), "m = "+m)
		if e := p.Enter(context.Background(), "fit T against m as a, b"); e.Failed() == fits {
			t.Errorf("%s: %v, %v", m, e.Outcome, e.Findings)
		}
	}
}

// TestExpanded holds the coverage factors against JCGM 100:2008, table G.2: 2.78 for 95 % and
// four degrees of freedom, 1.96 where there is no end of them.
func TestExpanded(t *testing.T) {
	for _, c := range []struct {
		lines  []string
		factor float64
	}{
		{[]string{"T = [1.21, 1.19, 1.24, 1.22, 1.20] s", "Y = mean(T)", "budget Y covering 95 %"}, 2.78},
		{[]string{"a = 2.0 ± 0.1 m", "Y = a^2", "budget Y covering 95 %"}, 1.96},
		{[]string{"T = [1.21, 1.19, 1.24, 1.20] s", "Y = mean(T)", "budget Y covering 99 %"}, 5.84},
	} {
		p := New()
		var e *entry.Entry
		for _, line := range c.lines {
			e = p.Enter(context.Background(), line)
		}
		b, ok := e.Outcome.(*entry.Budget)
		if !ok || b.Expanded == nil || math.Abs(b.Expanded.Factor-c.factor) > 0.005 {
			t.Errorf("%v: %+v", c.lines, e.Outcome)
		}
	}
}

// TestManyUncertain is a list of 1,500 readings with an uncertainty each: the time grows with
// their number.
func TestManyUncertain(t *testing.T) {
	text := "L = ["
	for i := range 1500 {
		if i > 0 {
			text += ", "
		}
		text += number(1+float64(i)/1000) + " ± 0.01"
	}
	v := worked(t, text+"] m", "s = sd(L)", "mean(L) + s")
	if v.U <= 0 || v.U > 0.001 {
		t.Errorf("u = %g", v.U)
	}
}
