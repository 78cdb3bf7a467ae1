package algebra

import (
	"math"
	"testing"

	"steelyard/lang/syntax"
	"steelyard/lang/typeset"
)

// TestDerivative compares derivatives with what they are known to be, and each
// antiderivative with the expression that it comes from.
func TestDerivative(t *testing.T) {
	for text, want := range map[string]string{
		"v0*x - 1/2*g*x^2": "v0 - g·x",
		"1/2*k*x^2":        "k·x",
		"3*a":              "0",
		"A*cos(ω*x + φ)":   "-A·ω·sin(ω·x + φ)",
		"U*exp(-x/τ)":      "-U·exp(-x/τ)/τ",
		"k/x":              "-k/x²",
		"2π*√(x/g)":        "π·√(1/(x·g))",
		"(a + x)^3":        "3·(a + x)²",
		"x*sin(x)":         "sin(x) + x·cos(x)",
		"ln(x/a)":          "1/x",
		"x^n":              "",
		"abs(x)":           "sgn(x)",
		"sinh(2*x)":        "2·cosh(2·x)",
		"atan(x)":          "1/(1 + x²)",
		"log10(x)":         "1/(x·ln(10))",
	} {
		got := ""
		if d, ok := Derivative(parse(t, text), "x"); ok {
			got = typeset.Text(d)
		}
		if got != want {
			t.Errorf("%s: %q, want %q", text, got, want)
		}
	}
}

func TestAntiderivative(t *testing.T) {
	for text, want := range map[string]string{
		"k*x":            "k·x²/2",
		"v0 - g*x":       "v0·x - g·x²/2",
		"3*a":            "3·a·x",
		"A*cos(ω*x + φ)": "A·sin(ω·x + φ)/ω",
		"A*sin(ω*x)":     "-A·cos(ω·x)/ω",
		"U*exp(-x/τ)":    "",
		"k/x^2":          "-k/x",
		"k/x":            "",
		"x*sin(x)":       "",
		"√(x)":           "",
	} {
		x := parse(t, text)
		f, ok := Antiderivative(x, "x")
		got := ""
		if ok {
			got = typeset.Text(f)
			back, ok := Derivative(f, "x")
			if !ok {
				t.Errorf("%s: no derivative of %s", text, got)
			} else if !sameAt(back, x) {
				t.Errorf("%s: %s has the derivative %s", text, got, typeset.Text(back))
			}
		}
		if want != "" && got != want {
			t.Errorf("%s: %q, want %q", text, got, want)
		}
		if want == "" && ok != (text == "U*exp(-x/τ)" || text == "√(x)") {
			t.Errorf("%s: %q", text, got)
		}
	}
}

func sameAt(a, b syntax.Expr) bool {
	for seed := range 6 {
		if x, y := sample(a, seed), sample(b, seed); math.Abs(x-y) > 1e-9*math.Max(math.Abs(x), math.Abs(y)) {
			return false
		}
	}
	return true
}
