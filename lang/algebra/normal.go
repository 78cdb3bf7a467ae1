package algebra

import (
	"math/big"

	"steelyard/lang/syntax"
	"steelyard/units"
)

// maxTerms is the most terms that a sum may grow to when brackets are
// multiplied out.
const maxTerms = 64

// normalizer brings an expression into sums of products, as far as the unknown
// reaches; what does not hold the unknown keeps its brackets.
type normalizer struct {
	unknown string
}

// holds tells whether an expression holds the unknown.
func (n normalizer) holds(x syntax.Expr) bool {
	found := false
	syntax.Walk(x, func(x syntax.Expr) bool {
		name, ok := x.(*syntax.Name)
		found = found || ok && name.Name == n.unknown && name.Line == 0
		return !found
	})
	return found
}

// sum returns an expression as a sum of terms; false if it can't be brought
// into that form.
func (n normalizer) sum(x syntax.Expr) (sum, bool) {
	switch x := x.(type) {
	case *syntax.Paren:
		return n.sum(x.X)
	case *syntax.Number:
		return sum{{coef: x.Value.Rat()}}, true
	case *syntax.Unary:
		s, ok := n.sum(x.X)
		if x.Op == syntax.Sub {
			s = negate(s)
		}
		return s, ok
	case *syntax.Binary:
		return n.binary(x)
	case *syntax.Root:
		return n.power(x.X, expHalf)
	case *syntax.Call:
		return n.call(x)
	}
	return sum{atomTerm(x)}, true
}

func negate(s sum) sum {
	out := make(sum, len(s))
	for i, t := range s {
		out[i] = t.neg()
	}
	return out
}

// binary returns an operator's result as a sum.
func (n normalizer) binary(x *syntax.Binary) (sum, bool) {
	if x.Op == syntax.Pow {
		e, ok := syntax.Rational(x.Y)
		if !ok {
			return n.opaquePower(x)
		}
		return n.power(x.X, e)
	}
	a, ok1 := n.sum(x.X)
	b, ok2 := n.sum(x.Y)
	if !ok1 || !ok2 {
		return nil, false
	}
	switch x.Op {
	case syntax.Add:
		return collect(append(append(sum{}, a...), b...)), len(a)+len(b) <= maxTerms
	case syntax.Sub:
		return collect(append(append(sum{}, a...), negate(b)...)), len(a)+len(b) <= maxTerms
	case syntax.Mul:
		return n.product(x.X, x.Y, a, b)
	}
	minus, _ := units.NewExp(-1, 1)
	inv, ok := n.power(x.Y, minus)
	if !ok {
		return nil, false
	}
	return n.product(x.X, nil, a, inv)
}

// opaquePower is a power whose exponent is worked out: one factor of its own.
func (n normalizer) opaquePower(x *syntax.Binary) (sum, bool) {
	return sum{atomTerm(x)}, true
}

// product multiplies two sums. Brackets without the unknown stay closed.
func (n normalizer) product(x, y syntax.Expr, a, b sum) (sum, bool) {
	a, b = n.closed(a), n.closed(b)
	return spread(a, b)
}

// spread multiplies two sums out.
func spread(a, b sum) (sum, bool) {
	if len(a)*len(b) > maxTerms {
		return nil, false
	}
	var out sum
	for _, s := range a {
		for _, t := range b {
			p, ok := s.mul(t)
			if !ok {
				return nil, false
			}
			out = append(out, p)
		}
	}
	return collect(out), true
}

// closed turns a sum of several terms without the unknown into one factor.
func (n normalizer) closed(s sum) sum {
	if len(s) < 2 {
		return s
	}
	x := sumExpr(s)
	if n.holds(x) {
		return s
	}
	return sum{atomTerm(x)}
}

// power raises an expression to a rational power.
func (n normalizer) power(x syntax.Expr, e units.Exp) (sum, bool) {
	s, ok := n.sum(x)
	if !ok {
		return nil, false
	}
	s = n.closed(s)
	switch {
	case len(s) == 0:
		return nil, e.Num() > 0
	case len(s) == 1:
		t, ok := s[0].pow(e)
		return sum{t}, ok
	case e.Num() == 1 && e.Den() == 1:
		return s, true
	}
	inner := sumExpr(s)
	return sum{{coef: big.NewRat(1, 1), factors: []factor{{syntax.PrintExpr(inner), inner, e}}}}, true
}

// call returns a call as a sum: roots are powers, any other call is a factor.
func (n normalizer) call(x *syntax.Call) (sum, bool) {
	switch {
	case x.Func == "sqrt" && len(x.Args) == 1:
		return n.power(x.Args[0].X, expHalf)
	case x.Func == "cbrt" && len(x.Args) == 1:
		third, _ := units.NewExp(1, 3)
		return n.power(x.Args[0].X, third)
	case x.Func == "root" && len(x.Args) == 2:
		if e, ok := syntax.Rational(x.Args[1].X); ok {
			if inv, ok := e.Inv(); ok {
				return n.power(x.Args[0].X, inv)
			}
		}
	}
	return sum{atomTerm(x)}, true
}
