package session

import (
	"context"
	"strings"
	"testing"

	"steelyard/lang/finding"
	"steelyard/session/view"
)

// TestScaling asks how results grow with givens.
func TestScaling(t *testing.T) {
	p := New()
	for _, line := range []string{"m = 0.40 kg", "k = 90 N/m", "A = 5 cm", "g = 9.80 m/s^2", "L = 1.2 m", "v0 = 3 m/s",
		"T = spring_period(m, k)", "ω = 2π/T", "a = A*ω^2", "U = 1/2*k*A^2", "solve U = 1/2*m*v^2 for v", "P = pendulum_period(L)", "w = √(v0^2 + 2*g*L)", "kx = m*g/A", "S = 2π*√(m/kx)"} {
		if e := p.Enter(context.Background(), line); e.Failed() {
			t.Fatalf("%s: %v", line, e.Findings)
		}
	}
	tests := map[string]string{
		"scaling T against m":                  "T goes as √m (k fixed): doubling m multiplies T by 1.41421.",
		"scaling T against k":                  "T goes as 1/√k (m fixed): doubling k multiplies T by 0.707107.",
		"scaling a against k":                  "a goes as k (A, m fixed): doubling k multiplies a by 2.",
		"scaling a against m":                  "a goes as 1/m (A, k fixed): doubling m multiplies a by 0.5.",
		"scaling U against A":                  "U goes as A² (k fixed): doubling A multiplies U by 4.",
		"scaling v against A":                  "v goes as A (k, m fixed): doubling A multiplies v by 2.",
		"scaling P against L":                  "P goes as √L (g fixed): doubling L multiplies P by 1.41421.",
		"scaling P against m":                  "P does not depend on m.",
		"scaling w against L":                  "w is not a power of L; near these values it goes as L to the power 0.3616; doubling L multiplies w by 1.31273.",
		"scaling pendulum_period(L) against L": "pendulum_period(L) goes as √L (g fixed): doubling L multiplies pendulum_period(L) by 1.41421.",
		"scaling 2*T against T":                "2·T goes as T: doubling T multiplies 2·T by 2. T (line 7) is a result; here it is changed by itself.",
		"scaling a against ω":                  "a goes as ω² (A fixed): doubling ω multiplies a by 4. ω (line 8) is a result; here it is changed by itself.",
		"scaling v0 + w against w":             "v0 + w is not a power of w; near these values it goes as w to the power 0.6553; doubling w multiplies v0 + w by 1.65528. w (line 13) is a result; here it is changed by itself.",
		// What cancels but for a residue is not told to grow.
		"scaling sin(k/(3 N/m))^2 + cos(k/(3 N/m))^2 against k": "Near these values sin(k/(3 N/m))² + cos(k/(3 N/m))² goes as k to the power 0; doubling k multiplies sin(k/(3 N/m))² + cos(k/(3 N/m))² by 1.",
		"scaling ω against a": "ω does not depend on a. a (line 9) is a result; here it is changed by itself.",
		// What stays may do so since something else changes too.
		"scaling S against m": "S does not depend on m. kx changes with m too.",
		"S with m = 2*m":      "S stays as it was kx changes with m too.",
		"2*kx*m with m = 2*m": "4 times 2·kx·m as it was kx changes with m too.",
	}
	for line, want := range tests {
		e := p.Enter(context.Background(), line)
		if got := strings.Join(told(e), " "); got != want {
			t.Errorf("%s: %q, want %q; %v", line, got, want, e.Findings)
		}
	}
}

// TestWith works results out again with givens replaced, and leaves what they
// were alone.
func TestWith(t *testing.T) {
	p := New()
	ctx := context.Background()
	for _, line := range []string{"m = 0.40 kg", "k = 90 N/m", "T = spring_period(m, k)", "f = 1/T in Hz"} {
		p.Enter(ctx, line)
	}
	tests := map[string]string{
		"T with m = 4*m":                 "0.837758 s",
		"f with k = 4*k":                 "4.77465 Hz",
		"f with m = 2*m, k = 2*k":        "2.38732 Hz",
		"f in rev/min with k = 4*k":      "",
		"T in ms with m = 100 g":         "209.44 ms",
		"T":                              "0.418879 s",
		"T with m = 3 s":                 "",
		"T with f = 3 Hz":                "0.418879 s",
		"T with q = 3":                   "",
		"T with m = -(1 kg)":             "",
		"2*T with m = 4*m":               "1.67552 s",
		"spring_period(m, k) with m=4*m": "0.837758 s",
	}
	for line, want := range tests {
		e := p.Enter(ctx, line)
		got := ""
		if len(e.Values()) == 1 {
			got = e.Values()[0].Shown(0)
		}
		if line == "f in rev/min with k = 4*k" {
			if len(e.Findings) != 1 || e.Findings[0].ID != "angle-or-cycle" {
				t.Errorf("%s: %v", line, e.Findings)
			}
			continue
		}
		if got != want || want == "" && len(e.Findings) == 0 {
			t.Errorf("%s: %q, want %q; %v", line, got, want, e.Findings)
		}
	}
}

// TestWithoutNumbers solves, scales and replaces where symbols have units alone.
func TestWithoutNumbers(t *testing.T) {
	p := New()
	for _, line := range []string{"let m1 in kg", "let m2 in kg", "let L in m", "let k in N/m", "let x in m", "g = 9.80 m/s^2",
		"P = 2π√(L/g) in s", "U = 1/2*k*x^2 in J", "solve T - m1*g = m1*a and m2*g - T = m2*a for T in N, a in m/s^2", "solve U = 1/2*m1*v^2 for v"} {
		if e := p.Enter(context.Background(), line); e.Failed() || len(e.Values()) > 0 && line[0] != 'g' {
			t.Fatalf("%s: %v %v", line, e.Values(), e.Findings)
		}
	}
	for line, want := range map[string]string{
		"P with L = 2*L":          "1.41421 times P as it was, whatever the symbols are",
		"U with x = 3*x, k = k/2": "4.5 times U as it was, whatever the symbols are",
		"U with x = x + 1 m":      "U becomes k·(x + 1 m)²/2",
		"scaling P against L":     "P goes as √L (g fixed): doubling L multiplies P by 1.41421.",
		"scaling P against g":     "P goes as 1/√g (L fixed): doubling g multiplies P by 0.707107.",
		"scaling U against x":     "U goes as x² (k fixed): doubling x multiplies U by 4.",
		"scaling v against x":     "v goes as x (k, m1 fixed): doubling x multiplies v by 2.",
		"steps P":                 "Working   P = 2π√(L/g)",
	} {
		e := p.Enter(context.Background(), line)
		if got := strings.Join(told(e), " "); got != want || len(e.Values()) > 0 {
			t.Errorf("%s: %q, want %q; %v", line, got, want, e.Findings)
		}
	}
	for line, id := range map[string]finding.ID{"scaling a against m1": finding.NotWorkedOut, "P": finding.NoValueYet, "a": finding.NoValueYet, "U with x = 3 s": finding.UnlikeDimensions} {
		e := p.Enter(context.Background(), line)
		if len(e.Findings) == 0 || e.Findings[0].ID != id {
			t.Errorf("%s: %v", line, e.Findings)
		}
	}
}

// TestScalingOfItsTime follows a name at a line to what it is worked out from: a
// name that was given anew since is what it was then.
func TestScalingOfItsTime(t *testing.T) {
	p := enter(t, "A = 2 m", "y = 3*A", "z = y@2*2", "B = A@1^2", "F(m) = m*g in N", "W = F(2 kg)")
	tell := func(line, want string) {
		t.Helper()
		e := p.Enter(context.Background(), line)
		if got := strings.Join(told(e), " "); got != want {
			t.Errorf("%s: %q, want %q; %v", line, got, want, e.Findings)
		}
	}
	tell("scaling z against A", "z goes as A: doubling A multiplies z by 2.")
	tell("scaling y@2 against A", "y@2 goes as A: doubling A multiplies y@2 by 2.")
	tell("scaling B against A", "B goes as A²: doubling A multiplies B by 4.")
	for _, line := range []string{"part b: on the moon", "A = 5 m", "g = 1.62 m/s^2"} {
		p.Enter(context.Background(), line)
	}
	tell("scaling y against A", "y goes as A: doubling A multiplies y by 2.")
	tell("scaling W against g", "W goes as g: doubling g multiplies W by 2.")
	for _, line := range []string{"k = 100 N/m", "E(x) = 1/2*k*x^2", "H(x) =\n  k*x for 0 m ≤ x ≤ 1 m\n  0 N for 1 m < x ≤ 2 m", "part c", "k = 200 N/m", "r = 2 m", "v = (r, 2*r)"} {
		p.Enter(context.Background(), line)
	}
	tell("scaling E(2 cm) against k", "E(2 cm) goes as k: doubling k multiplies E(2 cm) by 2.")
	tell("scaling v_x against r", "v_x goes as r: doubling r multiplies v_x by 2.")
	tell("scaling v_y^2 against r", "v_y² goes as r²: doubling r multiplies v_y² by 4.")
	// What algebra can't open is not told to be no power, nor to stay.
	tell("scaling v·v against r", "Near these values v · v goes as r to the power 2; doubling r multiplies v · v by 4.")
	tell("scaling H(0.5 m) against k", "Near these values H(0.5 m) goes as k to the power 1; doubling k multiplies H(0.5 m) by 2.")
}

// TestNamedExponents varies names in exponents, which the plan holds as numbers, and what
// algebra can't see into.
func TestNamedExponents(t *testing.T) {
	p := enter(t, "n = 2.0", "N0 = 80", "N = N0/2^n", "l = n^n", "w = 2^n", "f(x) = x^n", "V = 2", "r = V^n", "r2 = r with V = 4",
		"solve d^n + d = 42 for d", "a = 2 m/s^2", "v(t) =\n  a*t for 0 s ≤ t ≤ 4 s\n  a*(4 s) for t > 4 s", "P = (3 kg)*a*v(10 s)",
		"solve z^5 + n*z = 40 for z", "q = n/z", "let b in m/s^2", "h(t) =\n  b*t for 0 s ≤ t ≤ 4 s\n  b*(4 s) for t > 4 s", "Q = b*h(10 s)", "R = 3*b")
	for line, want := range map[string]string{
		"scaling N against n":    "N is not a power of n; near these values it goes as n to the power -1.386; doubling n multiplies N by 0.25.",
		"scaling l against n":    "l is not a power of n; near these values it goes as n to the power 3.386; doubling n multiplies l by 64.",
		"scaling f(5) against n": "f(5) is not a power of n; near these values it goes as n to the power 3.219; doubling n multiplies f(5) by 25.",
		"scaling f(n) against n": "f(n) is not a power of n; near these values it goes as n to the power 3.386; doubling n multiplies f(n) by 64.",
		"scaling r2 against n":   "Near these values r2 goes as n to the power 2.773; doubling n multiplies r2 by 16.",
		"scaling d against n":    "d is not a power of n; near these values it goes as n to the power -1.654; doubling n multiplies d by 0.41781.",
		"scaling P against a":    "Near these values P goes as a to the power 2; doubling a multiplies P by 4.",
		"scaling q against n":    "q is not a power of n; near these values it goes as n to the power 1.022; doubling n multiplies q by 2.04661.",
		"scaling R against b":    "R goes as b: doubling b multiplies R by 2.",
		"scaling Q against b":    "",
	} {
		e := p.Enter(context.Background(), line)
		if got := strings.Join(told(e), " "); got != want || want == "" && (len(e.Findings) != 1 || e.Findings[0].ID != finding.NotWorkedOut) {
			t.Errorf("%s: %q, want %q; %v", line, got, want, e.Findings)
		}
	}
	e := p.Enter(context.Background(), "graph w against n from 0 to 4")
	if got := strings.Join(told(e), " "); !strings.HasPrefix(got, "w grows exponentially in n: 1 at n = 0") {
		t.Errorf("the graph of 2^n: %q", got)
	}
	var table strings.Builder
	if err := view.Text(&table, p.Enter(context.Background(), "table N, d against n from 1 to 3 by 1"), view.Options{Width: 80}); err != nil {
		t.Fatal(err)
	}
	for _, row := range []string{"1 40 21", "2 20 6", "3 10 3.3"} {
		if !strings.Contains(strings.Join(strings.Fields(table.String()), " "), row) {
			t.Errorf("the table of N and d lacks %q:\n%s", row, &table)
		}
	}
}

// TestWithOfVectors replaces a vector, written in either form, under results that use all of
// it or a part of it, and holds each against the same result where the vector is given so.
func TestWithOfVectors(t *testing.T) {
	ctx := context.Background()
	results := []string{"2*v", "v_x*(2 s)", "v_y^2/(2*g)", "|v|", "v·((2, 1) m)", "v along 10°", "v across 10°", "direction(v)", "angle(v, (1, 0) m/s)", "u_y", "w*v_x", "v - unit(v)*(1 m/s)"}
	givens := []string{"17 m/s at 52°", "12 m/s at 30° north of east", "(3.0, 4.0) m/s", "(w, 2*w)", "w at 20°", "2*(1.0, 2.0) m/s"}
	page := func(given, result string) *Pad {
		p := New()
		for _, line := range []string{"g = 9.80 m/s^2", "w = 2.0 m/s", "v = " + given, "u = 3*v", "R = " + result} {
			if e := p.Enter(ctx, line); e.Failed() {
				t.Fatalf("%s: %v", line, e.Findings)
			}
		}
		return p
	}
	shown := func(p *Pad, line string) string {
		e := p.Enter(ctx, line)
		if len(e.Values()) == 0 {
			t.Fatalf("%s: %v", line, e.Findings)
		}
		return strings.Join(shownValues(e), ", ")
	}
	for _, before := range givens {
		for _, after := range givens {
			for _, result := range results {
				got := shown(page(before, result), "R with v = "+after)
				if want := shown(page(after, result), "R"); got != want {
					t.Errorf("v = %s, %s with v = %s is %s, want %s", before, result, after, got, want)
				}
			}
		}
	}
}

// TestFactorOfFewFigures tells a factor to three figures of values that are known to one.
func TestFactorOfFewFigures(t *testing.T) {
	p := New()
	for _, line := range []string{"results to the givens' figures", "m1 = 3.4 kg", "m2 = 2.6 kg", "a = (m1 - m2)*g/(m1 + m2)"} {
		p.Enter(context.Background(), line)
	}
	for line, want := range map[string]string{"a with m1 = 3.5 kg": "1.11 times a as it was", "scaling a against m1": "doubling m1 multiplies a by 3.35"} {
		if got := strings.Join(told(p.Enter(context.Background(), line)), " "); !strings.Contains(got, want) {
			t.Errorf("%s: %q, want %q", line, got, want)
		}
	}
}
