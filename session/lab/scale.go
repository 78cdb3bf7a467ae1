package lab

import (
	"math"
	"slices"

	"steelyard/lang/syntax"
	"steelyard/units"
)

// scale is what may be made of readings before they are plotted.
type scale struct {
	of func(v float64) float64
	// slope and bend are the first and the second derivative.
	slope, bend func(v float64) float64
	// shown is the same of an expression in a unit: T², or ln(T/(1 s)).
	shown func(x syntax.Expr, u *units.Unit) syntax.Expr
}

var (
	plain = scale{func(v float64) float64 { return v }, func(float64) float64 { return 1 }, func(float64) float64 { return 0 },
		func(x syntax.Expr, _ *units.Unit) syntax.Expr { return x }}
	square = scale{func(v float64) float64 { return v * v }, func(v float64) float64 { return 2 * v }, func(float64) float64 { return 2 },
		func(x syntax.Expr, _ *units.Unit) syntax.Expr {
			return &syntax.Binary{Op: syntax.Pow, X: closed(x), Y: written("2")}
		}}
	root = scale{math.Sqrt, func(v float64) float64 { return 1 / (2 * math.Sqrt(v)) }, func(v float64) float64 { return -1 / (4 * v * math.Sqrt(v)) },
		func(x syntax.Expr, _ *units.Unit) syntax.Expr { return &syntax.Root{X: closed(x)} }}
	inverse = scale{func(v float64) float64 { return 1 / v }, func(v float64) float64 { return -1 / (v * v) }, func(v float64) float64 { return 2 / (v * v * v) },
		func(x syntax.Expr, _ *units.Unit) syntax.Expr {
			return &syntax.Binary{Op: syntax.Div, X: written("1"), Y: closed(x)}
		}}
	logarithm = scale{math.Log, func(v float64) float64 { return 1 / v }, func(v float64) float64 { return -1 / (v * v) },
		func(x syntax.Expr, u *units.Unit) syntax.Expr {
			if !u.Dim().IsOne() {
				x = &syntax.Binary{Op: syntax.Div, X: closed(x), Y: &syntax.Paren{X: quantity("1", u)}}
			}
			return &syntax.Call{Func: "ln", Args: []syntax.Arg{{X: x}}}
		}}
)

// scales are what is tried on the axes: across, the root would say what the square says
// upward.
func scales(u *units.Unit, upward bool) []*scale {
	switch {
	case u.Affine(): // squares of °C are those of no temperature
		return []*scale{&plain}
	case upward:
		return []*scale{&plain, &square, &root, &inverse, &logarithm}
	}
	return []*scale{&plain, &square, &inverse, &logarithm}
}

// scaled are readings with what they may be off.
type scaled struct {
	v []float64
	// slope is how much faster than the reading each value grows, and off the standard
	// uncertainty.
	slope, off []float64
}

// readings makes of readings with standard uncertainties what the scale says; false where
// one of them has no such value. The next term beside that of first order is counted (JCGM
// 100:2008, 5.1.2, note): T² of T = 0 has no slope, and is not certain for that.
func (s *scale) readings(v, off []float64) (scaled, bool) {
	out := scaled{make([]float64, len(v)), make([]float64, len(v)), make([]float64, len(v))}
	for i := range v {
		out.v[i], out.slope[i] = s.of(v[i]), s.slope(v[i])
		if off[i] > 0 {
			out.off[i] = math.Hypot(out.slope[i]*off[i], s.bend(v[i])*off[i]*off[i]/math.Sqrt2)
		}
	}
	return out, !slices.ContainsFunc(out.v, func(v float64) bool { return v-v != 0 })
}

// closed is an expression as an operand.
func closed(x syntax.Expr) syntax.Expr {
	switch x.(type) {
	case *syntax.Name, *syntax.Call, *syntax.Paren, *syntax.List:
		return x
	}
	return &syntax.Paren{X: x}
}

func written(text string) *syntax.Number {
	d, _ := units.ParseDecimal(text)
	return &syntax.Number{Value: d}
}

// quantity is a number with a unit.
func quantity(text string, u *units.Unit) *syntax.Quantity {
	return &syntax.Quantity{Value: written(text).Value, Unit: syntax.UnitText{Text: u.Text()}}
}
