package algebra

import (
	"testing"

	"steelyard/lang/syntax"
)

// TestSum brings expressions into normal form, in which they keep their value and
// have no other form: brackets with the unknown x are multiplied out, others stay
// closed.
func TestSum(t *testing.T) {
	for text, want := range map[string]string{
		"a + b - a":               "b",
		"2*a*3":                   "6*a",
		"a*x*a^2/a":               "a^2*x",
		"√(a)*√(a)":               "a",
		"√(4*a^2*b)":              "2*a*√b",
		"(a + b)*x":               "(a + b)*x",
		"(a + b)*(b + a)":         "(a + b)^2",
		"(x + a)*(x - a)":         "x^2 - a^2",
		"(x + a)^2":               "(x + a)^2",
		"x/(a/b)":                 "x*b/a",
		"1/3 + 1/6":               "1/2",
		"0.1 + 0.2":               "0.3",
		"sin(a + b) - sin(b + a)": "0",
		"sin(0)*a":                "0",
		"cos(0*a)":                "cos(0*a)",
		"cbrt(8*a^3)":             "2*a",
		"root(a, 4)":              "a^(1/4)",
		"a - (b - (c - x))":       "a - b + c - x",
		"2^x":                     "2^x",
		"-(-a)":                   "a",
	} {
		x := expr(t, text)
		s := normalizer{unknown: "x"}.sum(x)
		if s.lost() {
			t.Errorf("%s: no normal form", text)
			continue
		}
		got := sumExpr(s)
		if syntax.PrintExpr(got) != want {
			t.Errorf("%s: %s, want %s", text, syntax.PrintExpr(got), want)
		}
		if !alike(got, x) && want != "cos(0*a)" {
			t.Errorf("%s became %s, which is another number", text, want)
		}
	}
}

// TestRatio tells which ratios are the same number whatever the names mean.
func TestRatio(t *testing.T) {
	for _, tt := range []struct {
		a, b string
		want float64 // 0 where it depends on the names
	}{
		{"1/2*m*(2*v)^2", "1/2*m*v^2", 4},
		{"2π*√(4*m/k)", "2π*√(m/k)", 2},
		{"G*m1*m2/(3*r)^2", "G*m1*m2/r^2", 1.0 / 9},
		{"2*a + 2*b", "a + b", 2},
		{"π*a", "a", 3.141592653589793},
		{"a + 2*b", "a + b", 0},
		{"a", "0*a", 0},
		{"30°*a", "a", 0},
	} {
		got, fixed := Ratio(expr(t, tt.a), expr(t, tt.b))
		if fixed != (tt.want != 0) || got-tt.want > 1e-15 || tt.want-got > 1e-15 {
			t.Errorf("(%s)/(%s): %v, %v", tt.a, tt.b, got, fixed)
		}
	}
}

// What is divided by 0, or grows beyond what is worked with, has no normal form,
// wherever it stands.
func TestLost(t *testing.T) {
	for _, text := range []string{
		"a/0", "0*(a/0)", "a - a/0", "(a - a)^(-1)", "0^0", "sqrt(a/0)", "sin(1/(a - a))", "-(a/(b - b))",
		"a^60*a^60", "(a^60)^2", "(a^60*a^60)/a^60",
	} {
		if s := (normalizer{unknown: "x"}).sum(expr(t, text)); !s.lost() {
			t.Errorf("%s: %s, want none", text, syntax.PrintExpr(sumExpr(s)))
		}
		if _, ok := OneFraction(expr(t, "("+text+")*c + c")); ok {
			t.Errorf("%s as a part of a fraction: want none", text)
		}
	}
}
