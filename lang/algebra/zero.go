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
	factors, others := s.zeroFactors(x)
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
		for _, f := range others {
			lead = normalizer{}.product(lead, normalizer{}.sum(f))
		}
		if lead.lost() {
			return nil, false
		}
		all = dividedBy(all, lead, nil)
	}
	return all, len(all) > 0
}

// zeroFactors lists the factors of which one must be 0 where an expression is: those
// with the unknown, and the others.
//
// What stands below a bar is never one of them, and exp has no zeros at all.
func (s *isolator) zeroFactors(x syntax.Expr) (with, without []syntax.Expr) {
	for _, f := range syntax.Factors(x) {
		x := syntax.Unbracket(f.X)
		inner := zeroWith(x)
		switch {
		case f.Below:
		case !s.holds(x):
			without = append(without, x)
		case inner != nil:
			more, others := s.zeroFactors(inner)
			with, without = append(with, more...), append(without, others...)
		default:
			if c, ok := x.(*syntax.Call); !ok || c.Func != "exp" {
				with = append(with, x)
			}
		}
	}
	return with, without
}

// zeroWith is what is 0 where an expression is: what a root or a power is taken of, or
// a sign stands before; nil for any other.
func zeroWith(x syntax.Expr) syntax.Expr {
	if base, e, ok := powerOf(x); ok && e.Num() > 0 {
		return base
	}
	if x, ok := x.(*syntax.Unary); ok {
		return x.X
	}
	return nil
}
