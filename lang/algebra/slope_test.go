package algebra

import (
	"testing"

	"steelyard/lang/syntax"
)

func TestSlope(t *testing.T) {
	for _, c := range []struct{ y, x, want string }{
		{"(2π√(m/k))^2", "m", "4*π^2/k"},
		{"v0 + a*m", "m", "a"},
		{"1/2*a*m^2", "m^2", "a/2"},
		{"x0 + v0*m + 1/2*a*m^2", "m^2", ""},
		{"ln(2π√(m/k)/(1 s))", "ln(m/(1 kg))", "1/2"},
		{"ln(A*exp(-m/τ)/(1 m))", "m", "-1/τ"},
		{"√(2*g*m)", "√m", "√(2*g)"},
		{"1/(1/f - 1/m)", "m", ""},
		{"1/(1/(1/f - 1/m))", "1/m", "-1"},
		{"c/m", "1/m", "c"},
		{"R*m^(2/3)", "ln(m)", ""},
	} {
		y, _ := syntax.ParseExpr(c.y)
		x, _ := syntax.ParseExpr(c.x)
		got := ""
		if s, ok := Slope(y, x, "m"); ok {
			got = syntax.PrintExpr(s)
		}
		if got != c.want {
			t.Errorf("%s against %s: %q, want %q", c.y, c.x, got, c.want)
		}
	}
}
