package algebra

import (
	"math/big"

	"steelyard/lang/syntax"
	"steelyard/units"
)

// Exponent returns the exact power with which an expression grows with a name;
// false if it is no power of it.
func Exponent(x syntax.Expr, name string) (units.Exp, bool) {
	n := normalizer{unknown: name}
	s, ok := n.sum(x)
	if !ok || len(s) != 1 {
		return units.Exp{}, ok && !n.holds(x)
	}
	var e units.Exp
	for _, f := range s[0].factors {
		switch {
		case isUnknown(f.base, name):
			e = f.exp
		case n.holds(f.base):
			return units.Exp{}, false
		}
	}
	return e, true
}

// Power writes a power of a name as on paper: L, √L, L².
func Power(name string, e units.Exp) string {
	return Display(termExpr(term{coef: big.NewRat(1, 1), factors: []factor{{name, &syntax.Name{Name: name}, e}}}))
}
