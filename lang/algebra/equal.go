package algebra

import (
	"math"

	"steelyard/lang/syntax"
)

// Ratio is a over b, if that is the same number whatever the names mean.
// That is how two results are compared that were worked out along other ways: the new
// value is twice the old one, always, and not by chance of the numbers that are given.
func Ratio(a, b syntax.Expr) (float64, bool) {
	f := normalizer{}.fraction(binary(syntax.Div, a, b))
	if f.over.lost() {
		return 0, false
	}
	f.reduce()
	value := 1.0
	for i, s := range append([]sum{f.over}, f.under...) {
		v, ok := s.value()
		switch {
		case !ok:
			return 0, false
		case i == 0:
			value = v
		default:
			value /= v
		}
	}
	return value, value-value == 0
}

// value is the number that a sum is, if no name and no quantity is left in it.
//
// π is a number here, to the precision of float64.
//
// A written number or π under a root is a factor; anything else has a unit or may mean
// any number.
func (s sum) value() (float64, bool) {
	all := 0.0
	for _, t := range s {
		v, _ := t.coef.Float64()
		for _, f := range t.factors {
			switch x := syntax.Unbracket(f.base).(type) {
			case *syntax.Pi:
				v *= math.Pow(math.Pi, f.exp.Float())
			case *syntax.Number:
				v *= math.Pow(x.Value.Float(), f.exp.Float())
			default:
				return 0, false
			}
		}
		all += v
	}
	return all, true
}

// Level tells whether the difference of the sides is the same all along wherever it goes
// on without a jump: its derivative by the unknown is 0. So is that of atan(x) + atan(1/x),
// which is 90° for each x above 0, and -90° below.
//
// Where a root of the unknown is left in the derivative, nothing is told: the normal form
// takes √(x²) for x, which it is not below 0.
func (eq Equation) Level(unknown string) bool {
	n := normalizer{unknown: unknown}
	d, ok := deriver{n}.of(binary(syntax.Sub, eq.Left, eq.Right), 0)
	rooted := func(x syntax.Expr) bool {
		base, e, is := powerOf(x)
		return is && !e.IsInt() && n.holds(base)
	}
	return ok && !syntax.Any(d, rooted) && len(n.fraction(d).over) == 0
}

// ZeroAt tells whether an expression is 0 where a name is 0, whatever the other
// names mean.
//
// Where it has no value there, as sin(x)/x at 0, it is not 0: no limit is taken.
func ZeroAt(x syntax.Expr, name string) bool {
	return len(normalizer{}.sum(Substitute(x, map[string]syntax.Expr{name: zeroExpr()}))) == 0
}
