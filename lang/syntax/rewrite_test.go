package syntax

import "testing"

// TestUnplaced takes the places out of every kind of node, and leaves the
// expression itself as it is.
func TestUnplaced(t *testing.T) {
	read := func(text string) Expr {
		x, found := ParseExpr(text)
		if x == nil {
			t.Fatalf("%s: %v", text, found)
		}
		return x
	}
	trees := []Expr{
		read("√(m*v@2^2) - π*5 ft 3 inch + sin(30°)*that"), read("f(x = 2 m) with m = 2*m, v = 3 m/s"),
		read("(1/2) kg"), read("-2 m"), read("slope of 2*x at x = 3 m"), read("area under F(x)*2 against x from 0 m to 2*x1"),
	}
	for _, x := range trees {
		got := Unplaced(x)
		if PrintExpr(got) != PrintExpr(x) {
			t.Errorf("%s became %s", PrintExpr(x), PrintExpr(got))
		}
		Walk(got, func(x Expr) bool {
			if x.Span() != (Span{}) {
				t.Errorf("%s still has a place, %v", PrintExpr(x), x.Span())
			}
			return true
		})
	}
}
