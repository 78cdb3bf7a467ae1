package algebra

import (
	"math"
	"testing"

	"steelyard/lang/limit"
	"steelyard/lang/ops"
	"steelyard/lang/syntax"
)

// TestInverses undoes every function of the table that has an inverse: at a
// number that it takes, one of the roots is that number again, and every root
// has the value.
func TestInverses(t *testing.T) {
	undone := 0
	for _, f := range ops.Functions() {
		_, has := f.Op.Inverse()
		if !has || f.Name == "root" {
			continue
		}
		undone++
		args := "x"
		if f.Op.Operands() == 2 {
			args += ", 0.25"
		}
		eq := Equation{expr(t, f.Name+"("+args+")"), &syntax.Name{Name: "y"}}
		s, ok := Solve(limit.Boundless(), []Equation{eq}, []string{"x"}, Turns{})
		if !ok {
			t.Errorf("%s is not undone", f.Name)
			continue
		}
		for _, at := range []float64{-0.9, -0.3, 0.2, 0.75} {
			value := f.Op.Value(at, 0.25, 0)
			if value-value != 0 {
				continue
			}
			found := false
			for _, r := range s.Roots {
				all := []Root{r}
				if r.Also != nil {
					all = append(all, *r.Also)
				}
				for _, r := range all {
					x := worked(r.X[0], map[string]float64{"y": value})
					found = found || math.Abs(x-at) < 1e-9
					if back := f.Op.Value(x, 0.25, 0); math.Abs(back-value) > 1e-9*math.Max(1, math.Abs(value)) {
						t.Errorf("%s(x) = %v: x = %v has the value %v", f.Name, value, x, back)
					}
				}
			}
			if !found {
				t.Errorf("%s(x) = %v: %v is not among the roots", f.Name, value, at)
			}
		}
	}
	if undone < 15 {
		t.Errorf("only %d functions have an inverse", undone)
	}
}
