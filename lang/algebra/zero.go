package algebra

import (
	"steelyard/lang/syntax"
	"steelyard/units"
)

// isZeroValue tells whether a value is 0, with a unit or without.
//
// A bare 0 is no term at all; 0 N is one, whose quantity is a factor.
func isZeroValue(value sum) bool {
	for _, t := range value {
		zero := false
		for _, f := range t.factors {
			q, ok := f.base.(*syntax.Quantity)
			zero = zero || ok && f.exp == expOne && isNothing(q)
		}
		if !zero {
			return false
		}
	}
	return true
}

// isNothing tells whether a written quantity is 0 of its unit, which 0 °C is not.
func isNothing(q *syntax.Quantity) bool {
	if q.Value.Float() != 0 {
		return false
	}
	u, bad := units.NewTable().Parse(q.Unit.Text, units.AloneInPlace)
	return bad == nil && !u.Affine()
}

// zeroProduct finds where an expression is 0 of which a factor must be 0 then: a
// product, where one of its factors is; a quotient, where its upper side is; a
// power or a root, where what it is taken of is. It returns false where that says
// nothing new, and where a factor can't be solved.
//
// The factors without the unknown are what was divided by: where one of them is 0, any
// number is a solution, which lead keeps.
func (s *isolator) zeroProduct(x syntax.Expr, depth int) ([]root, bool) {
	factors := s.zeroFactors(x, nil)
	if len(factors) == 0 || len(factors) == 1 && (factors[0] == x || occurrences(x, s.unknown) == 1) {
		return nil, false
	}
	var all []root
	for _, f := range factors {
		roots, ok := s.branch(f, nil, factorZero, depth)
		if !ok {
			return nil, false
		}
		all = append(all, roots...)
	}
	if lead := (sum{number(1, 1)}); len(all) > 0 {
		for _, f := range s.besides(x, nil) {
			lead = normalizer{}.product(lead, normalizer{}.sum(f))
		}
		if lead.lost() {
			return nil, false
		}
		all = dividedBy(all, lead, nil)
	}
	return all, len(all) > 0
}

// besides lists the factors without the unknown.
func (s *isolator) besides(x syntax.Expr, all []syntax.Expr) []syntax.Expr {
	x = syntax.Unbracket(x)
	b, ok := x.(*syntax.Binary)
	switch {
	case !s.holds(x):
		return append(all, x)
	case ok && b.Op == syntax.Mul:
		return s.besides(b.Y, s.besides(b.X, all))
	case ok && b.Op == syntax.Div:
		return s.besides(b.X, all)
	}
	return all
}

// zeroFactors lists the factors with the unknown of which one must be 0.
//
// A denominator is never one of them. exp has no zeros at all.
func (s *isolator) zeroFactors(x syntax.Expr, all []syntax.Expr) []syntax.Expr {
	x = syntax.Unbracket(x)
	if !s.holds(x) {
		return all
	}
	if base, e, ok := rootOf(x); ok && e.Num() > 0 {
		return s.zeroFactors(base, all)
	}
	switch t := x.(type) {
	case *syntax.Unary:
		return s.zeroFactors(t.X, all)
	case *syntax.Call:
		if t.Func == "exp" {
			return all // never 0
		}
	case *syntax.Binary:
		switch t.Op {
		case syntax.Mul:
			return s.zeroFactors(t.Y, s.zeroFactors(t.X, all))
		case syntax.Div:
			return s.zeroFactors(t.X, all)
		case syntax.Pow:
			if e, ok := syntax.Rational(t.Y); ok && e.Num() > 0 {
				return s.zeroFactors(t.X, all)
			}
		}
	}
	return append(all, x)
}
