package advise

import (
	"slices"

	"steelyard/lang/syntax"
	"steelyard/session/eval"
	"steelyard/units"
)

// unitSquared finds 1/2*k*0.3 m^2: a power behind a unit goes to the unit, and 0.3 m^2 is an
// area. The units agree with those of (0.3 m)^2, so that nothing else shows it.
//
// An area is a factor of many formulas, but not beside 1/2 or π, not of what comes out as a
// moment of inertia, and not below what comes out as a force or a field: those have squares of
// lengths there. The squares of times, currents, voltages and charges are no quantities: 3 s^2.
func unitSquared(l *eval.Line, x *syntax.Binary, of units.Dim) slip {
	t := term{number: 1}
	if q := t.squared(l, x, of); q != nil {
		right, ok := eval.Instead(x, func(part syntax.Expr) bool { return part == syntax.Expr(q) }, eval.Squared(q))
		if ok {
			return slip{"Only the unit is squared in " + syntax.PrintExpr(q) + ".", "For the square of the whole, write", syntax.PrintExpr(right)}
		}
	}
	return slip{}
}

// term is a term of a sum taken apart: its number, and what has the square of one unit.
type term struct {
	number  float64
	pi      bool
	squares []square
}

type square struct {
	of    *syntax.Quantity
	under bool // it is below the bar
}

// squared is a quantity in one of the terms whose square was meant, or nil. Of a term alone the
// dimension is known.
func (t *term) squared(l *eval.Line, x *syntax.Binary, of units.Dim) *syntax.Quantity {
	if x.Op == syntax.Add || x.Op == syntax.Sub {
		for _, side := range [...]syntax.Expr{x.X, x.Y} {
			if b, ok := syntax.Unbracket(side).(*syntax.Binary); ok {
				if q := (&term{number: 1}).squared(l, b, units.Dim{}); q != nil {
					return q
				}
			}
		}
		return nil
	}
	t.take(x, false)
	for _, s := range t.squares {
		u, bad := l.Planner.Unit(s.of.Unit, units.AfterNumber)
		if bad != nil || !slices.ContainsFunc(squares[:], func(of string) bool { return u.Dim() == units.Of(of).Dim() }) {
			continue // 5 m/s^2 is an acceleration
		}
		field := of == units.Of("N").Dim() || of == units.Of("m/s^2").Dim()
		if u.Dim() != units.Of("m^2").Dim() || t.pi || t.number == 0.5 || s.under && field || !s.under && of == units.Of("kg m^2").Dim() {
			return s.of
		}
	}
	return nil
}

// squares are the squares that formulas have.
var squares = [...]string{"m^2", "s^2", "A^2", "V^2", "C^2"}

// take collects what of a product matters here.
func (t *term) take(x syntax.Expr, under bool) {
	switch x := x.(type) {
	case *syntax.Paren:
		t.take(x.X, under)
	case *syntax.Unary:
		t.take(x.X, under)
	case *syntax.Pi:
		t.pi = true
	case *syntax.Number:
		if under {
			t.number /= x.Value.Float()
		} else {
			t.number *= x.Value.Float()
		}
	case *syntax.Quantity:
		if eval.Squared(x) != "" {
			t.squares = append(t.squares, square{x, under})
		}
	case *syntax.Binary:
		switch x.Op {
		case syntax.Mul:
			t.take(x.X, under)
			t.take(x.Y, under)
		case syntax.Div:
			t.take(x.X, under)
			t.take(x.Y, !under)
		}
	}
}
