package typeset

import (
	"strings"
	"testing"

	"steelyard/lang/syntax"
)

// What is shown on a screen reads as what was written.
func TestText(t *testing.T) {
	for in, want := range map[string]string{
		"1/2*k*x^2":          "1/2·k·x²",
		"(m*v^2/r)":          "m·v²/r",
		"x^25":               "x²⁵",
		"x^-12*y":            "x⁻¹²·y",
		"sin((30°))":         "sin(30°)",
		"x^-1":               "x⁻¹",
		"x^(1/2)":            "x^(1/2)",
		"x^1.5":              "x^1.5",
		"2^3^2":              "2^3²", // and not 2³², which is another number
		"(2^3)^2":            "(2³)²",
		"4π²*m/T^2":          "4π²·m/T²",
		"9.8 m/s^2*t":        "(9.8 m/s²)·t",
		"3 N*m":              "(3 N)·m",
		"5 m^(1/2)":          "5 m^(1/2)",
		"f((a + b), (2))":    "f(a + b, 2)",
		"√(2*g*h)":           "√(2·g·h)",
		"sin(θ)^2":           "sin(θ)²",
		"30° + v@12":         "30° + v@12",
		"-13 h 4 min":        "-13 h 4 min",
		"(1/2) kg*(3 m/s)^2": "((1/2) kg)·(3 m/s)²",
		"5 m / s_0":          "(5 m)/s0",
	} {
		x, findings := syntax.ParseExpr(in)
		if len(findings) > 0 {
			t.Fatalf("%s: %v", in, findings)
		}
		got := Text(x)
		if got != want {
			t.Errorf("%s is shown as %s, want %s", in, got, want)
		}
		again, findings := syntax.ParseExpr(got)
		if len(findings) > 0 || Text(again) != got {
			t.Errorf("%s reads as %s: %v", got, Text(again), findings)
		}
	}
	if got := Text(nil); got != "" {
		t.Errorf("nothing is shown as %q", got)
	}
}

// A page of plain text has the signs of print, and words for the names of formulas.
func TestPage(t *testing.T) {
	for in, want := range map[string]string{
		"-3.2e-5 m - x":              "−3.2×10⁻⁵ m − x",
		"sqrt(0^2 + 2*a*(s - 0))":    "√(0² + 2·a·(s − 0))",
		"cbrt(V)":                    "³√V",
		"log10(x)^2":                 "log10(x)²",
		"abs(ℓ_0 - ℓ)^-2":            "|ℓ0 − ℓ|⁻²",
		"asin(Ψ_α)":                  "arcsin(Ψ_α)",
		"spring_energy(k, x_max)":    "spring energy(k, x_max)",
		"1.16e3 N/m*(2.4 cm)/(36 g)": "(1.16×10³ N/m)·(2.4 cm)/(36 g)",
		"pendulum_period(L = 2*ℓ_1)": "pendulum period(L = 2·ℓ1)",
		"Δx*v_x_max":                 "Δx·v_x_max",
	} {
		x, findings := syntax.ParseExpr(in)
		if len(findings) > 0 {
			t.Fatalf("%s: %v", in, findings)
		}
		if got := Expr(x).Page(); got != want {
			t.Errorf("%s is %s, want %s", in, got, want)
		}
	}
}

// A label is broken at the signs of its sum, at those of products only where it must be,
// and in no bracket.
func TestLines(t *testing.T) {
	for in, want := range map[string]string{
		"F*y - 1/2*m*v^2 + E_k":    "F·y − (1/2)·m·v² | + E_k",
		"a*b + c":                  "a·b + c",
		"k*(x + y)*F_max*s_max":    "k·(x + y)·F_max | · s_max",
		"atan2(y, x)*(1 J)*ω":      "atan2(y, x)·(1 J) | · ω",
		"a - (b + c + d + e_long)": "",
		"spring_energy(k, x)":      "",
		"m_of_the_whole_ball":      "",
	} {
		x, _ := syntax.ParseExpr(in)
		var lines []string
		for _, b := range Line(x).Lines(func(b Box) bool { return len([]rune(b.Page())) <= 17 }) {
			lines = append(lines, strings.TrimSpace(b.Page()))
		}
		if got := strings.Join(lines, " | "); got != want {
			t.Errorf("%s: %q, want %q", in, got, want)
		}
	}
}
