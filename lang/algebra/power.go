package algebra

import (
	"slices"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// Exponent returns the exact power with which an expression grows with a name, where
// that is positive; lost if it is not known to be a power of it.
//
// Where the exponent is 0 the name must be gone from the normal form, too: sgn(x) and
// x/|x| have the degree 0 and still change.
func Exponent(x syntax.Expr, name string) units.Exp {
	n := normalizer{unknown: name}
	d := n.degreeOf(x)
	switch {
	case !d.exp.IsZero():
		if d.zero {
			return units.LostExp()
		}
	default: // sgn(x) has jumps
		if s := n.sum(x); s.lost() || n.holds(sumExpr(s)) {
			return units.LostExp()
		}
	}
	return d.exp
}

// inTerm tells whether a factor of a term holds the unknown.
//
// Within brackets and calls, too: a factor such as sin(x) holds x.
func (n normalizer) inTerm(t term) bool {
	return slices.ContainsFunc(t.factors, func(f factor) bool { return n.holds(f.base) })
}

// Factor is a power of something in a product.
//
// The exponent is a fraction where there was a root: √k is k to the power 1/2.
type Factor struct {
	X   syntax.Expr
	Exp units.Exp
}

// Factors lists the powers that an expression is a product of, numbers left
// out, in the order in which they are in it. It returns false if the expression
// is a sum.
//
// A bracket with a sum in it is one factor, with the sum as its X.
func Factors(x syntax.Expr) ([]Factor, bool) {
	s := normalizer{}.sum(x)
	if len(s) != 1 || s.lost() {
		return nil, false
	}
	var out []Factor
	for _, f := range s[0].factors {
		out = append(out, Factor{f.base, f.exp})
	}
	return out, true
}

// Power is a power of a name as on paper: L, √L, L^2.
//
// So that a sentence such as "T goes as √L" is set as the lines of a worksheet are.
func Power(name string, e units.Exp) syntax.Expr {
	return termExpr(factorTerm(factor{name, &syntax.Name{Name: name}, e}))
}
