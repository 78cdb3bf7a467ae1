package run_test

import (
	"fmt"
	"math"
	"testing"

	"steelyard/lang/ops"
)

// TestPeak holds the greatest and the least values of curves against what is known of
// them in closed form. Places are as they print to three figures.
func TestPeak(t *testing.T) {
	over := ops.Between(0, 10)
	for _, tt := range []struct {
		text            string
		greatest, least float64
		at, atLeast     string
	}{
		{"u^2 - 6*u", 40, -9, "10", "3"},
		{"sin(u)", 1, -1, "1.57 7.85", "4.71"},
		{"exp(-((u - 3.7)/0.00001)^2)", 1, 0, "3.7", "0:3.7 3.7:10"},
		{"2 - exp(-((u - 7)/0.001)^2)", 2, 1, "0:6.99 7.01:10", "7"},
		{"abs(abs(u - 4) - 1)", 5, 0, "10", "3 5"},
		{"sgn(u - 3.3)", 1, -1, "3.3:10", "0:3.3"},
		{"max(0, u - 4)", 6, 0, "10", "0:4"},
		{"(u - 1.3)^2*(u - 9)", 75.69, -67.6345185185, "10", "6.43"},
		{"cos(3*u)*u", 8.384202272624, -9.43066584636, "8.39", "9.44"},
		{"√(4 - (u - 5)^2)", 2, 0, "5", "3 7"},
		{"1/(1 + (u - 5)^2)", 1, 1.0 / 26, "5", "0 10"},
		{"5", 5, 5, "0:10", "0:10"},
		// Where both sides of a quotient are 0 there is no value, but one beside it. The
		// least of sin(u)/u is at tan(u) = u: by mpmath.
		{"sin(u)/u", 1, -0.217233628211222, "0", "4.49"},
		{"(1 - cos(u))/u^2", 0.5, 0, "0", "6.28"},
		{"(exp(u) - 1)/u", 2202.54657948067, 1, "10", "0"},
	} {
		p, st, fn := rootFunc(t, tt.text, "0")
		hi, ok1 := p.Peak(st, fn, over, 1)
		lo, ok2 := p.Peak(st, fn, over, -1)
		if !ok1 || !ok2 || hi.Endless || lo.Endless {
			t.Errorf("%s: %+v %t, %+v %t", tt.text, hi, ok1, lo, ok2)
			continue
		}
		if math.Abs(hi.Y-tt.greatest) > 1e-7*math.Abs(tt.greatest) || math.Abs(lo.Y-tt.least) > 1e-9*math.Abs(tt.least) {
			t.Errorf("%s: greatest %v, least %v", tt.text, hi.Y, lo.Y)
		}
		if hi, lo := places(hi.At), places(lo.At); hi != tt.at || lo != tt.atLeast {
			t.Errorf("%s: greatest at %s, least at %s", tt.text, hi, lo)
		}
	}
	for text, at := range map[string]float64{"1/(u - 3)^2": 3, "1/(u - 3.3)": 3.3, "1e-20/(u - 4)^2": 4, "-ln(u)": 0, "tan(u/4)": 2 * math.Pi} {
		p, st, fn := rootFunc(t, text, "0")
		if hi, ok := p.Peak(st, fn, over, 1); !ok || !hi.Endless || math.Abs(hi.At[0].Lo-at) > 1e-12 {
			t.Errorf("%s: %+v, %t", text, hi, ok)
		}
	}
	for _, text := range []string{"sin(1e6*u)*u", "sin(1e6*u)*cos(u)"} { // what comes to no end
		p, st, fn := rootFunc(t, text, "0")
		if hi, ok := p.Peak(st, fn, over, 1); ok {
			t.Errorf("%s: %+v", text, hi)
		}
	}
}

func places(all []ops.Interval) (s string) {
	for i, x := range all {
		if i > 0 {
			s += " "
		}
		s += fmt.Sprintf("%.3g", x.Lo)
		if !x.IsPoint() {
			s += fmt.Sprintf(":%.3g", x.Hi)
		}
	}
	return s
}

// TestRises tells curves that rise throughout from those that don't quite.
func TestRises(t *testing.T) {
	for text, want := range map[string]bool{
		"u":                         true,
		"(u - 5)^3":                 true,
		"u - sin(u)":                true,
		"√u":                        true,
		"sgn(u - 3)":                true,
		"tanh((u - 3)/1e-7)":        true,
		"max(0, u - 2)":             true,
		"u - 1.001*sin(u)":          false,
		"u^2 - 0.001*u":             false,
		"-u":                        false,
		"u - exp(-(u - 3)^2/1e-12)": false,
		"ln(u)":                     false, // it has no value at 0
	} {
		p, st, fn := rootFunc(t, text, "0")
		if got := p.Rises(st, fn, ops.Between(0, 10), 1); got != want {
			t.Errorf("%s: %t", text, got)
		}
	}
}

// TestHides finds what is between samples.
func TestHides(t *testing.T) {
	x := make([]float64, 257)
	for i := range x {
		x[i] = 10 * float64(i) / 256
	}
	for text, want := range map[string]bool{
		"u^2 - 6*u":                            false,
		"sin(20*u)":                            false,
		"exp(-((u - 3.7)/0.00001)^2)":          true,
		"u + 0.1*exp(-((u - 3.7)/0.001)^2)":    true,
		"sin(u) + sgn(u - 3) - sgn(u - 3.001)": true,
	} {
		p, st, fn := rootFunc(t, text, "0")
		y := make([]float64, len(x))
		for i := range x {
			y[i], _ = p.Single(st, fn)(x[i])
		}
		if got := p.Hides(st, fn, x, y, 1e-3); got != want {
			t.Errorf("%s: %t", text, got)
		}
	}
}
