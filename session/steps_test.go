package session

import (
	"context"
	"strings"
	"testing"

	"steelyard/units"
)

// TestSteps shows the working of results of every kind.
func TestSteps(t *testing.T) {
	p := enter(t, "k = 200 N/m", "A = 5 cm", "m = 2.0 kg", "ω = 3 rad/s", "F(x) = k*x in N", "y(t) = A*sin(ω*t) in cm",
		"U = 1/2*k*A^2 in J", "T = spring_period(m, k)", "solve U = 1/2*m*v^2 for v in m/s",
		"W = area under F(x) from 2 cm to A in J", "S = area under y(t) from 0 s to 1 s", "r = slope of y(t) at t = 0.2 s", "q = area under hypot(x, A) against x from 0 m to A")
	for name, want := range map[string]string{
		"U": "U = 1/2·k·A² | = 1/2·(200 N/m)·(5 cm)² | = 0.25 J | units: (N/m)·m² = (kg/s²)·m² = kg·m²/s² = J",
		"T": "spring_period: T = 2π√(m/k) | = 2π√((2.0 kg)/(200 N/m)) | = 0.628319 s | units: √(kg/(N/m)) = √(kg/(kg/s²)) = s",
		"v": "U = 1/2·m·v² | 1/2·m·v² = U swap the sides | v² = 2·U/m divide both sides by m/2 | v = √(2·U/m) take the square root of both sides | = √(2·(0.25 J)/(2.0 kg)) | = 0.5 m/s | units: √(J/kg) = √((kg·m²/s²)/kg) = m/s",
		"W": "W = area under F(x) from 2 cm to 5 cm | = k·A²/2 - k·(2 cm)²/2 integrate: k·x²/2 | = (200 N/m)·(5 cm)²/2 - (200 N/m)·(2 cm)²/2 | = 0.21 J",
		"S": "S = area under y(t) from 0 s to 1 s | = -A·cos(ω·(1 s))/ω - (-A·cos(ω·(0 s))/ω) integrate: -A·cos(ω·t)/ω | = -(5 cm)·cos((3 rad/s)·(1 s))/(3 rad/s) - (-(5 cm)·cos((3 rad/s)·(0 s))/(3 rad/s)) | = 3.31665 cm·s",
		"r": "r = slope of y(t) at t = 0.2 s | = A·ω·cos(ω·t) differentiate | = (5 cm)·(3 rad/s)·cos((3 rad/s)·(0.2 s)) | = 12.38 cm/s",
		"q": "q = area under hypot(x, A) from 0 m to 5 cm | = 28.6948 cm²",
	} {
		e := p.Enter(context.Background(), "steps "+name)
		var lines []string
		for _, l := range told(e)[1:] {
			lines = append(lines, strings.Join(strings.Fields(l), " "))
		}
		if got := strings.Join(lines, " | "); got != want {
			t.Errorf("steps %s:\n got %s\nwant %s", name, got, want)
		}
	}
}

// TestStepsOfTheirTime works results out from a function and a name that are
// given anew later: what is shown, solved and drawn is what stood above.
func TestStepsOfTheirTime(t *testing.T) {
	p := enter(t, "A = 2 m", "x(t) = A*t^2/(1 s^2) in m", "v = slope of x(t) at t = 1 s", "part b: ", "A = 5 m", "u = slope of x(t) at t = 1 s",
		"solve x(t) = 8 m for t", "part c: ", "x(t) = A*t/(1 s) in m")
	for line, want := range map[string]string{
		"steps v":                              "v = slope of x(t) at t = 1 s | = 2·A·t/(1 s²) differentiate | = 2·(2 m)·(1 s)/(1 s²) | = 4 m/s",
		"steps u":                              "u = slope of x(t) at t = 1 s | = 2·A@1·t/(1 s²) differentiate | = 2·(2 m)·(1 s)/(1 s²) | = 4 m/s",
		"graph x(t) against t from 0 s to 1 s": "x is a line in t through the origin, with slope 5 m/s.",
	} {
		e := p.Enter(context.Background(), line)
		var lines []string
		for _, l := range told(e) {
			if text := strings.Join(strings.Fields(l), " "); text != "Working" {
				lines = append(lines, text)
			}
		}
		if got := strings.Join(lines, " | "); got != want {
			t.Errorf("%s:\n got %s\nwant %s", line, got, want)
		}
	}
	if e := p.Enter(context.Background(), "check t = 2 s"); e.Failed() {
		t.Error(e.Findings)
	}
	q := enter(t, "A = 2 m", "x(t) = A*t/(1 s) in m", "part b: ", "A = 5 m")
	if e := q.Enter(context.Background(), "graph x(t) against t from 0 s to 1 s"); strings.Join(told(e), "") != "x is a line in t through the origin, with slope 2 m/s." {
		t.Errorf("%q", told(e))
	}
}

// TestStandardGravityOfItsTime works results out from standard gravity, a function
// of it and a formula, all of which are given anew later.
func TestStandardGravityOfItsTime(t *testing.T) {
	p := enter(t, "m = 2.0 kg", "W = m*g in N", "F(m) = m*g in N", "k = 200 N/m",
		"formula wobble: T = 2π*√(m/k)\n  T in s\n  m in kg\n  k in N/m", "T1 = wobble(m, k)",
		"part b: on the moon", "g = 1.62 m/s^2", "r = slope of F(m) at m = 1 kg", "w(m) = m*g in N",
		"formula wobble: T = 3*√(m/k)\n  T in s\n  m in kg\n  k in N/m", "part c: on earth", "g = 9.80 m/s^2")
	for line, want := range map[string]string{
		"steps W":                                "Working | W = m·g | = (2.0 kg)·(9.80665 m/s²) | = 19.6133 N | units: kg·(m/s²) = kg·m/s² = N",
		"steps r":                                "Working | r = slope of F(m) at m = 1 kg | = 9.80665 m/s² differentiate | = 9.80665 m/s²",
		"steps T1":                               "Working | wobble: T = 2π·√(m/k) | T1 = 2π·√(m/k) | = 2π·√((2.0 kg)/(200 N/m)) | = 0.628319 s | units: √(kg/(N/m)) = √(kg/(kg/s²)) = s",
		"graph F(m) against m from 0 kg to 2 kg": "F is a line in m through the origin, with slope 9.80665 m/s².",
		"graph w(m) against m from 0 kg to 2 kg": "w is a line in m through the origin, with slope 1.62 m/s².",
	} {
		e := p.Enter(context.Background(), line)
		var lines []string
		for _, l := range told(e) {
			lines = append(lines, strings.Join(strings.Fields(l), " "))
		}
		if got := strings.Join(lines, " | "); got != want {
			t.Errorf("%s:\n got %s\nwant %s", line, got, want)
		}
	}
	for _, one := range [][2]string{{"solve F(m) = 9.80665 N for m", "1 kg"}, {"solve w(m) = 3.24 N for m", "2 kg"}} {
		if e := p.Enter(context.Background(), one[0]); len(e.Values()) != 1 || e.Values()[0].Shown(units.File) != one[1] {
			t.Errorf("%s: %v %v", one[0], e.Values(), e.Findings)
		}
	}
}
