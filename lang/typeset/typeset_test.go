package typeset

import (
	"testing"

	"steelyard/lang/syntax"
)

func TestShow(t *testing.T) {
	for _, s := range []string{"1/2*k*x^2", "2π√(m/k)", "(a+b)*c", "a-(b-c)", "x^(1/2)", "5 N*3 m", "sin(x)^2", "Δx^2", "-x'_0^2", "spring_energy(k = 257 N/m, x=6 cm)", "1.6e-19 C", "a*-b", "(m*v^2/r)^2", "log10(x)+root(x,4)", "2*(3 m/s)^2"} {
		x, bad := syntax.ParseExpr(s)
		t.Log(s, bad)
		t.Log(Expr(MathML, x))
		t.Log(Expr(LaTeX, x))
	}
}
