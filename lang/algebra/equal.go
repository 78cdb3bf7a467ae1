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

// ZeroAt tells whether an expression is 0 where a name is 0, whatever the other
// names mean.
//
// Where it has no value there, as sin(x)/x at 0, it is not 0: no limit is taken.
func ZeroAt(x syntax.Expr, name string) bool {
	return len(normalizer{}.sum(Substitute(x, map[string]syntax.Expr{name: zeroExpr()}))) == 0
}
