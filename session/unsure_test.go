package session

import (
	"context"
	"math"
	"strconv"
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
