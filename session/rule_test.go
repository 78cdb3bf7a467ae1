package session

import (
	"context"
	"math"
	"steelyard/session/entry"
	"strings"
	"testing"
)

// TestRootsAgain replaces a given of solved equations, and compares with the
// page entered anew: the same rule must take the same root, or none.
func TestRootsAgain(t *testing.T) {
	tests := []struct{ page, name, given, value string }{
		// The other branch becomes the later root when a changes its sign.
		{"x = 5 m; v0 = 20 m/s; a = -4 m/s^2; solve x = v0*t + 1/2*a*t^2 for the later t", "t", "a", "4 m/s^2"},
		{"x = 5 m; v0 = 20 m/s; a = -4 m/s^2; solve x = v0*t + 1/2*a*t^2 for the smaller t", "t", "a", "4 m/s^2"},
		{"h = 2 m; v0 = 9 m/s; solve h = v0*t - 1/2*g*t^2 for t1, t2", "t2", "v0", "12 m/s"},
		{"h = 2 m; v0 = 9 m/s; solve h = v0*t - 1/2*g*t^2 for t1, t2", "t1", "v0", "3 m/s"},
		{"h = 2 m; v0 = 9 m/s; t0 = 0.3 s; solve h = v0*t - 1/2*g*t^2 for t where t > t0", "t", "t0", "0.1 s"},
		{"h = 2 m; v0 = 9 m/s; t0 = 0.3 s; solve h = v0*t - 1/2*g*t^2 for t where t > t0", "t", "t0", "3 s"},
		{"v = 3 m/s; h = 0.1 m; solve v^2 = u^2 + 2*g*h for u", "u", "h", "1 m"},
		// Searched for.
		{"y = 3 cm; v = 3 m/s; τ = 0.4 s; solve y = v*u*exp(-u/τ) for the smaller u", "u", "y", "5 cm"},
		{"y = 3 cm; v = 3 m/s; τ = 0.4 s; solve y = v*u*exp(-u/τ) for the greater u", "u", "τ", "20 ms"},
		{"y = 3 cm; v = 3 m/s; τ = 0.4 s; solve y = v*u*exp(-u/τ) for u where u < τ", "u", "τ", "0.2 s"},
		// Several equations, by elimination and step by step.
		{"m1 = 2 kg; m2 = 3 kg; v = 4 m/s; solve m1*v = m1*a + m2*b and m1*v^2 = m1*a^2 + m2*b^2 for a, b where b > 0.1 m/s", "a", "m2", "1 kg"},
		{"m1 = 2 kg; m2 = 3 kg; v = 4 m/s; solve m1*v = m1*a + m2*b and m1*v^2 = m1*a^2 + m2*b^2 for a, b where b > 0.1 m/s", "b", "v", "9 m/s"},
		{"m = 2 kg; F = 20 N; solve T*sin(θ) = F and T*cos(θ) = m*g for T in N, θ in °", "θ", "F", "5 N"},
		{"m = 2 kg; F = 20 N; solve T*sin(θ) = F and T*cos(θ) = m*g for T in N, θ in °", "T", "m", "11 kg"},
	}
	for _, tt := range tests {
		page := strings.Split(tt.page, "; ")
		p, fresh := New(), New()
		for _, line := range page {
			if e := p.Enter(context.Background(), line); e.Failed() {
				t.Errorf("%s: %v", line, e.Findings)
			}
			if strings.HasPrefix(line, tt.given+" = ") {
				line = tt.given + " = " + tt.value
			}
			fresh.Enter(context.Background(), line)
		}
		again := p.Enter(context.Background(), tt.name+" with "+tt.given+" = "+tt.value)
		want := fresh.Enter(context.Background(), tt.name)
		if len(again.Values()) != len(want.Values()) {
			t.Errorf("%s with %s = %s: %d values (%v), anew %d (%v)", tt.page, tt.given, tt.value,
				len(again.Values()), again.Findings, len(want.Values()), want.Findings)
			continue
		}
		if len(again.Values()) == 1 {
			a, b := again.Values()[0].SI, want.Values()[0].SI
			if math.Abs(a-b) > 1e-9*math.Abs(b) {
				t.Errorf("%s with %s = %s: %g, anew %g", tt.page, tt.given, tt.value, a, b)
			}
		}
	}
}

// TestSystemsStepByStep solves equations that elimination can't, and compares
// with their closed solutions.
func TestSystemsStepByStep(t *testing.T) {
	tests := []struct {
		page   string
		checks []string
		says   string
	}{
		// A ball on a string that swings round in a circle: tan θ = F/(m g).
		{"m = 2 kg; F = 20 N; solve T*sin(θ) = F and T*cos(θ) = m*g for T in N, θ in °",
			[]string{"T = hypot(F, m*g)", "θ = atan2(F, m*g)"}, "-134.441°"},
		{"L = 3 m; A = 2 m^2; solve x + y = L and x*y = A for x, y where x > y", []string{"x = 2 m", "y = 1 m"}, ""},
		{"v = 5 m/s; d = 2 m; solve v*cos(θ)*t = d and v*sin(θ)*t = 1/2*g*t^2 for θ in °, t in s where θ < 45° and θ > 0° and t > 0 s",
			[]string{"θ = 1/2*asin(g*d/v^2)", "t = d/(v*cos(θ))"}, ""},
		{"a = 2 m; solve x*exp(y/a) = 3 m and y = 1 m for x, y", []string{"x = 3 m*exp(-1/2)"}, ""},
		{"R = 6 Ω; P = 9 W; solve x + y = R and x*y/(x + y) = R/4.5 for x in Ω, y in Ω where x < y", []string{"x = 2 Ω", "y = 4 Ω"}, ""},
	}
	for _, tt := range tests {
		p := New()
		says := ""
		for _, line := range strings.Split(tt.page, "; ") {
			e := p.Enter(context.Background(), line)
			if e.Failed() {
				t.Errorf("%s: %v", line, e.Findings)
			}
			for _, f := range e.Findings {
				says += f.Message
			}
		}
		if !strings.Contains(says, tt.says) {
			t.Errorf("%s: said %q, not %q", tt.page, says, tt.says)
		}
		for _, c := range tt.checks {
			if e := p.Enter(context.Background(), "check "+c); e.Failed() {
				t.Errorf("%s: check %s: %v", tt.page, c, e.Findings)
			}
		}
	}
}

// TestSystemsRefused have no solution, or several among which none is chosen.
func TestSystemsRefused(t *testing.T) {
	tests := []struct{ line, id, says string }{
		{"solve x^2 + y^2 = -(1 m^2) and x = y*exp(x/y) for x, y", "not-solved", "can't be solved for x and y"},
		{"solve x = 2 m and x = 2 m + y*0 for x, y", "not-solved", ""},
		{"solve x = 2 m and y = x*(1 s) for x, y in s", "unit-mismatch", "y comes out in m·s"},
		{"solve x = 2 m and y = x*(1 s) for x, y where y > 3 s", "unlike-dimensions", ""},
		{"solve (2 kg)*(4 m/s) = (2 kg)*a + (3 kg)*b and (2 kg)*(4 m/s)^2 = (2 kg)*a^2 + (3 kg)*b^2 for a, b", "which-root", "a = -0.8 m/s, b = 3.2 m/s; or a = 4 m/s, b = 0 m/s"},
	}
	for _, tt := range tests {
		e := New().Enter(context.Background(), tt.line)
		found := false
		for _, f := range e.Findings {
			found = found || string(f.ID) == tt.id && strings.Contains(f.Message, tt.says)
		}
		if !found {
			t.Errorf("%s: %v", tt.line, e.Findings)
		}
	}
}

// TestRemainderIsNoRoot solves equations whose root is 0 but for rounding; it
// does not count as greater than 0, and a small true one does.
func TestRemainderIsNoRoot(t *testing.T) {
	tests := []struct {
		page string
		has  bool
	}{
		// Two carts that just do not meet: the closing speed is a remainder.
		{"v1 = 0.3 m/s; v2 = 0.1 m/s; v3 = 0.2 m/s; solve v1 = v + v2 + v3 for v where v > 0", false},
		{"v1 = 0.3 m/s; v2 = 0.1 m/s; v3 = 0.1999 m/s; solve v1 = v + v2 + v3 for v where v > 0", true},
		{"v1 = 0.3 m/s; v2 = 0.1 m/s; v3 = 0.2 m/s; solve v1 = v + v2 + v3 for v where v ≥ 0", true},
		// A satellite's mass beside a planet's is small and no remainder.
		{"M = 6e24 kg; F = 4900 N; r = 6.4e6 m; constants G; solve F = G*M*m/r^2 for m where m > 0", true},
		{"h = 0.1 m + 0.2 m; d = 0.3 m; solve v^2 = 2*g*(h - d) for v where v > 0", false},
	}
	for _, tt := range tests {
		p := New()
		var last *entry.Entry
		for _, line := range strings.Split(tt.page, "; ") {
			last = p.Enter(context.Background(), line)
		}
		if has := len(last.Values()) == 1; has != tt.has {
			t.Errorf("%s: %v %v", tt.page, last.Values(), last.Findings)
		}
	}
}
