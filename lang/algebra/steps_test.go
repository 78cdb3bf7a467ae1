package algebra

import (
	"strings"
	"testing"

	"steelyard/lang/limit"
	"steelyard/lang/syntax"
	"steelyard/lang/typeset"
)

// TestSteps isolates unknowns as on paper. Each case is an equation, the unknown
// and the steps, each with its reason in brackets.
func TestSteps(t *testing.T) {
	tests := []struct{ left, right, unknown, want string }{
		{"W", "1/2*k*x^2", "k", "1/2·k·x² = W [swap the sides]; k = 2·W/x² [divide both sides by x²/2]"},
		{"W", "1/2*k*x^2", "x", "1/2·k·x² = W [swap the sides]; x² = 2·W/k [divide both sides by k/2]; x = √(2·W/k) [take the square root of both sides]"},
		{"2π*√(m/k)", "T", "m", "√(m/k) = T/(2·π) [divide both sides by 2·π]; m/k = T²/(4·π²) [square both sides]; m = k·T²/(4·π²) [multiply both sides by k]"},
		{"2π*√(m/k)", "T", "k", "√(m/k) = T/(2·π) [divide both sides by 2·π]; m/k = T²/(4·π²) [square both sides]; k = 4·π²·m/T² [multiply both sides by k, divide them by T²/(4·π²)]"},
		{"F - T", "m*a", "T", "-T = m·a - F [subtract F from both sides]; T = F - m·a [change the signs on both sides]"},
		{"F - T", "m*a", "F", "F = m·a + T [add T to both sides]"},
		{"v", "v0 + a*t", "t", "v0 + a·t = v [swap the sides]; a·t = v - v0 [subtract v0 from both sides]; t = (v - v0)/a [divide both sides by a]"},
		{"n1*sin(α)", "n2*sin(β)", "β", "n2·sin(β) = n1·sin(α) [swap the sides]; sin(β) = n1·sin(α)/n2 [divide both sides by n2]; β = asin(n1·sin(α)/n2) [take the angle with this sine]"},
		{"E", "F*d*cos(θ)", "θ", "F·d·cos(θ) = E [swap the sides]; cos(θ) = E/(F·d) [divide both sides by F·d]; θ = acos(E/(F·d)) [take the angle with this cosine]"},
		{"k", "k", "k", ""},
		{"x^2 + 2*x", "a", "x", "x² + 2·x - a = 0 [write it in standard form]; x = (-2 + √(4 + 4·a))/2 [the quadratic formula]"},
		{"x", "2*a", "x", ""},
		{"2/(x - a)", "3/(x + a)", "x", "3·a/(x + a) - 3·x/(x + a) = -2 [multiply both sides by x - a]; x = 5·a [multiply both sides by x + a]"},
		{"1/(x - a)", "2*a/(x^2 - a^2) + 1", "x", "x - x² = a - a² [multiply both sides by x² - a²]; x² - x + a - a² = 0 [write it in standard form]; x = (1 + √(1 - 4·(a - a²)))/2 [the quadratic formula]"},
		{"sin(x)", "cos(x - π/2) + cos(x) - b", "x", "cos(x) = b [quarter turns added to an angle swap sine and cosine, or their signs]; x = acos(b) [take the angle with this cosine]"},
	}
	for _, tt := range tests {
		left, right := parse(t, tt.left), parse(t, tt.right)
		got := ""
		if s, ok := Solve(limit.Boundless(), []Equation{{left, right}}, []string{tt.unknown}, Turns{}); ok && len(s.Roots) > 0 {
			var said []string
			for _, st := range s.Roots[0].Working()[1:] {
				reason := string(st.Reason)
				for _, x := range st.By {
					reason = strings.Replace(reason, "…", typeset.Text(x), 1)
				}
				said = append(said, typeset.Text(st.Left)+" = "+typeset.Text(st.Right)+" ["+reason+"]")
			}
			got = strings.Join(said, "; ")
		}
		if got != tt.want {
			t.Errorf("%s = %s for %s:\n got %s\nwant %s", tt.left, tt.right, tt.unknown, got, tt.want)
		}
	}
}

func parse(t *testing.T, text string) syntax.Expr {
	t.Helper()
	x, fs := syntax.ParseExpr(text)
	if len(fs) > 0 {
		t.Fatalf("%s: %v", text, fs)
	}
	return x
}
