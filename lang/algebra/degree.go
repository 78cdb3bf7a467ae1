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

// degreeOf finds the degree of an expression; false if it is not known to have one.
func (n normalizer) degreeOf(x syntax.Expr) (degree, bool) {
	s := n.sum(x)
	if s.lost() {
		return degree{}, false
	}
	out := degree{zero: true}
	for _, t := range s {
		d, ok := n.degreeOfTerm(t)
		if out, ok = out.alike(d, ok); !ok {
			return out, false
		}
	}
	return out, true
}

// alike is the degree of two terms that have one degree.
func (d degree) alike(o degree, ok bool) (degree, bool) {
	if d.zero || !ok {
		return o, ok
	}
	return d, o.zero || d.exp == o.exp
}

// degreeOfTerm adds up the degrees of factors.
//
// Degrees of factors add up, and a power multiplies them.
func (n normalizer) degreeOfTerm(t term) (out degree, ok bool) {
	for _, f := range t.factors {
		d, ok := n.degreeOfBase(f.base)
		if !ok {
			return out, false
		}
		e, ok1 := d.exp.Mul(f.exp)
		sum, ok2 := out.exp.Add(e)
		if !ok1 || !ok2 {
			return out, false
		}
		out = degree{sum, out.zero || d.zero}
	}
	return out, true
}

// A sum within brackets has a degree of its own, if its terms agree; what does not
// hold the unknown has the degree 0.
func (n normalizer) degreeOfBase(x syntax.Expr) (degree, bool) {
	switch q := x.(type) {
	case *syntax.Quantity:
		return degree{zero: isNothing(q)}, true
	case *syntax.Call:
		if n.holds(x) {
			return n.degreeOfCall(q)
		}
	case *syntax.Binary:
		if q.Op != syntax.Pow && n.holds(x) {
			return n.degreeOf(x)
		}
	}
	if isName(x, n.unknown) {
		return degree{exp: expOne}, true
	}
	return degree{}, !n.holds(x)
}

// degreeOfCall goes by what a function takes: one that takes quantities of one kind
// keeps their degree or loses it; one of pure numbers takes what does not grow.
// An angle or a logarithm of what grows has no degree, but a ratio of two things that
// grow alike does not grow: sin(x/(2·x)) is a number.
func (n normalizer) degreeOfCall(x *syntax.Call) (degree, bool) {
	f, known := ops.Named(x.Func)
	if !known || !f.Ready {
		return degree{}, false
	}
	if f.Op == ops.Exp {
		return n.degreeOfExp(x.Args[0].X)
	}
	out := degree{zero: true}
	for _, a := range x.Args {
		d, ok := n.degreeOf(a.X)
		if out, ok = out.alike(d, ok); !ok {
			return out, false
		}
	}
	switch {
	case f.Takes == ops.AnyToSame, f.Takes == ops.SameToSame, f.Takes == ops.RoundTo && len(x.Args) > 1:
		return out, true
	case f.Takes == ops.AnyToPure, f.Takes == ops.SameToAngle:
		return degree{}, true
	}
	return degree{}, out.exp.IsZero()
}

// degreeOfExp is that of an exponential: each logarithm in a sum is a factor again,
// as exp(2·ln(x)) is x².
func (n normalizer) degreeOfExp(x syntax.Expr) (out degree, ok bool) {
	s := n.sum(x)
	ok = !s.lost()
	for _, t := range s {
		d, known := n.degreeOfTerm(t)
		if known && d.exp.IsZero() {
			continue
		}
		if len(t.factors) != 1 || t.factors[0].exp != expOne {
			return out, false
		}
		call, ok := t.factors[0].base.(*syntax.Call)
		if !ok || call.Func != "ln" {
			return out, false
		}
		inner, ok1 := n.degreeOf(call.Args[0].X)
		times, ok2 := syntax.Rational(ratExpr(t.coef))
		e, ok3 := inner.exp.Mul(times)
		if out.exp, ok = out.exp.Add(e); !ok || !ok1 || !ok2 || !ok3 || inner.zero {
			return out, false
		}
	}
	return out, ok
}
