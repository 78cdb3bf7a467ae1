package algebra

import (
	"fmt"
	"math"
	"testing"

	"steelyard/lang/syntax"
)

// TestTurned holds functions of an angle and some quarter turns against those of the angle.
func TestTurned(t *testing.T) {
	of := map[string]func(float64) float64{"sin": math.Sin, "cos": math.Cos, "tan": math.Tan}
	const x = 0.3
	for name, f := range of {
		for k := -5; k <= 5; k++ {
			for sign, text := range map[float64]string{1: "+", -1: "-"} {
				if k == 0 || name == "tan" && k%2 != 0 {
					continue
				}
				line := fmt.Sprintf("%s(%d*π/2 %s x)", name, k, text)
				read, _ := syntax.ParseExpr(line)
				n := normalizer{unknown: "x"}
				c := read.(*syntax.Call)
				got, ok := n.turned(c, n.sum(c.Args[0].X))
				if !ok || len(got) != 1 || len(got[0].factors) != 1 {
					t.Errorf("%s: %v, %t", line, got, ok)
					continue
				}
				by, _ := got[0].coef.Float64()
				to := got[0].factors[0].base.(*syntax.Call).Func
				if v, want := by*of[to](x), f(float64(k)*math.Pi/2+sign*x); math.Abs(v-want) > 1e-12 {
					t.Errorf("%s is %g %s(x), which is %g, want %g", line, by, to, v, want)
				}
			}
		}
	}
}
