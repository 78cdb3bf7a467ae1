package algebra

import (
	"steelyard/lang/ops"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// degree is how an expression grows with the unknown x: f(λ·x) = λ^exp·f(x) for
// every λ above 0, which makes it a power of x. Anything may have a zero for a term:
// that has every degree.
//
// This is what a question like "how does T grow with L" asks for. By Euler's theorem
// on homogeneous functions a sum has a degree where all its terms have one and the
// same; so √(L/g) has 1/2 in L, and L + 1 m has none.
type degree struct {
	exp  units.Exp
	zero bool
}

// noDegree is that of an expression which is not known to have one.
func noDegree() degree { return degree{exp: units.LostExp()} }

// degreeOf finds the degree of an expression; its exponent is lost if it is not known to
// have one.
func (n normalizer) degreeOf(x syntax.Expr) degree {
	s := n.sum(x)
	if s.lost() {
		return noDegree()
	}
	out := degree{zero: true}
	for _, t := range s {
		out = out.alike(n.degreeOfTerm(t))
	}
	return out
}

// alike is the degree of two terms that have one degree.
func (d degree) alike(o degree) degree {
	switch {
	case d.exp.Lost():
		return d
	case o.exp.Lost(), d.zero:
		return o
	case o.zero, d.exp == o.exp:
		return d
	}
	return noDegree()
}

// degreeOfTerm adds up the degrees of factors.
//
// Degrees of factors add up, and a power multiplies them.
func (n normalizer) degreeOfTerm(t term) (out degree) {
	for _, f := range t.factors {
		d := n.degreeOfBase(f.base)
		out = degree{out.exp.Add(d.exp.Mul(f.exp)), out.zero || d.zero}
	}
	return out
}

// A sum within brackets has a degree of its own, if its terms agree; what does not
// hold the unknown has the degree 0.
func (n normalizer) degreeOfBase(x syntax.Expr) degree {
	q, isQuantity := x.(*syntax.Quantity)
	call, isCall := x.(*syntax.Call)
	sum, isSum := x.(*syntax.Binary)
	switch {
	case isQuantity:
		return degree{zero: isNothing(q)}
	case isName(x, n.unknown):
		return degree{exp: expOne}
	case !n.holds(x):
		return degree{}
	case isCall:
		return n.degreeOfCall(call)
	case isSum && sum.Op != syntax.Pow:
		return n.degreeOf(x)
	}
	return noDegree()
}

// degreeOfCall goes by what a function takes: one that takes quantities of one kind
// keeps their degree or loses it; one of pure numbers takes what does not grow.
// An angle or a logarithm of what grows has no degree, but a ratio of two things that
// grow alike does not grow: sin(x/(2·x)) is a number.
func (n normalizer) degreeOfCall(x *syntax.Call) degree {
	f, known := ops.Named(x.Func)
	if !known {
		return noDegree()
	}
	if f.Op == ops.Exp {
		return n.degreeOfExp(x.Args[0].X)
	}
	out := degree{zero: true}
	for _, a := range x.Args {
		out = out.alike(n.degreeOf(a.X))
	}
	switch {
	case out.exp.Lost(), f.Takes == ops.AnyToSame, f.Takes == ops.SameToSame, f.Takes == ops.RoundTo && len(x.Args) > 1:
		return out
	case f.Takes == ops.AnyToPure, f.Takes == ops.SameToAngle, out.exp.IsZero():
		return degree{}
	}
	return noDegree()
}

// degreeOfExp is that of an exponential: each logarithm in a sum is a factor again,
// as exp(2·ln(x)) is x².
func (n normalizer) degreeOfExp(x syntax.Expr) (out degree) {
	s := n.sum(x)
	if s.lost() {
		return noDegree()
	}
	for _, t := range s {
		if n.degreeOfTerm(t).exp.IsZero() {
			continue
		}
		if len(t.factors) != 1 || t.factors[0].exp != expOne {
			return noDegree()
		}
		call, ok := t.factors[0].base.(*syntax.Call)
		if !ok || call.Func != "ln" {
			return noDegree()
		}
		inner := n.degreeOf(call.Args[0].X)
		if inner.zero {
			return noDegree()
		}
		out.exp = out.exp.Add(inner.exp.Mul(syntax.Rational(ratExpr(t.coef))))
	}
	return out
}
