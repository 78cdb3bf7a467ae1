package algebra

import (
	"strings"
	"testing"

	"steelyard/lang/limit"
	"steelyard/lang/syntax"
)

func expr(t testing.TB, text string) syntax.Expr {
	t.Helper()
	x, fs := syntax.ParseExpr(text)
	if len(fs) > 0 {
		t.Fatalf("%q: %v", text, fs)
	}
	return x
}

// TestSolve rearranges equations of introductory mechanics.
func TestSolve(t *testing.T) {
	tests := []struct{ equation, unknown, want string }{
		{"U = 1/2*k*x^2", "k", "2*U/x^2"},
		{"U = 1/2*k*x^2", "x", "√(2*U/k); -√(2*U/k)"},
		{"T = 2π√(m/k)", "k", "4*π^2*m/T^2"},
		{"T = 2π√(m/k)", "m", "T^2*k/(4*π^2)"},
		{"v = v0 + a*t", "t", "(v - v0)/a"},
		{"x = x0 + v0*t + 1/2*a*t^2", "v0", "(x - x0 - a*t^2/2)/t"},
		{"f = n*v/(2*L)", "L", "n*v/(2*f)"},
		{"v = (m1*v1 + m2*v2)/(m1 + m2)", "m1", "(m2*v2 - v*m2)/(v - v1)"},
		{"R = v0^2*sin(2*θ)/g", "θ", "asin(R*g/v0^2)/2"},
		{"y = exp(-t/τ)", "t", "-τ*ln(y)"},
		{"F = G*m1*m2/r^2", "r", "√(G*m1*m2/F); -√(G*m1*m2/F)"},
	}
	for _, tt := range tests {
		l, r, _ := strings.Cut(tt.equation, " = ")
		s, ok := Solve(limit.Boundless(), []Equation{{expr(t, l), expr(t, r)}}, []string{tt.unknown}, Turns{})
		if !ok {
			t.Errorf("%s for %s: not solved", tt.equation, tt.unknown)
			continue
		}
		var got []string
		for _, root := range s.Roots {
			got = append(got, syntax.PrintExpr(root.X[0]))
		}
		if text := strings.Join(got, "; "); text != tt.want {
			t.Errorf("%s for %s: %s, want %s", tt.equation, tt.unknown, text, tt.want)
		}
	}
}
