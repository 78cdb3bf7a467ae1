package algebra

import (
	"math/big"
	"slices"
	"strings"

	"steelyard/lang/ops"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// normalizer brings an expression into the normal form of a sum. Brackets that
// hold the unknown are multiplied out, others stay closed as one factor. Without
// an unknown every bracket stays closed.
//
// To leave brackets closed is what makes the form short: g·(m1 + m2) stays two
// factors, as it was written, and a cancels a though both are long sums. Only what the
// unknown stands in has to be opened, to gather it.
type normalizer struct {
	unknown string
}

// occurrences counts how often a name is in an expression.
func occurrences(x syntax.Expr, name string) int {
	n := 0
	for x := range syntax.Nodes(x) {
		if isName(x, name) {
			n++
		}
	}
	return n
}

// isName tells whether an expression is a name, as the line itself means it.
//
// k@3 is the k of line 3, which is not solved for where k is.
func isName(x syntax.Expr, name string) bool {
	n, ok := x.(*syntax.Name)
	return ok && n.Name == name && n.Line == 0
}

// holds tells whether an expression holds the unknown.
func (n normalizer) holds(x syntax.Expr) bool { return occurrences(x, n.unknown) > 0 }

// sum returns an expression in normal form, which is lost if that grows too large.
//
// An exponential law needs no rule of its own, since exp(a)·exp(b) has two factors of
// other keys: what is never gathered is merely longer, and never wrong.
func (n normalizer) sum(x syntax.Expr) sum {
	switch x := x.(type) {
	case *syntax.Paren:
		return n.sum(x.X)
	case *syntax.Number:
		return collect(sum{{coef: x.Value.Rat()}})
	case *syntax.Unary:
		if x.Op == syntax.Sub {
			return n.sum(x.X).neg()
		}
		return n.sum(x.X)
	}
	if base, e, ok := powerOf(x); ok {
		return n.power(base, e)
	}
	switch x := x.(type) {
	case *syntax.Binary:
		return n.binary(x)
	case *syntax.Call:
		return n.call(x)
	}
	return sum{atomTerm(x)}
}

// rootOf reads √x, sqrt(x), cbrt(x) and root(x, n) as a power; false for any other.
func rootOf(x syntax.Expr) (base syntax.Expr, e units.Exp, ok bool) {
	switch x := x.(type) {
	case *syntax.Root:
		return x.X, expHalf, true
	case *syntax.Call:
		switch {
		case x.Func == "sqrt" && len(x.Args) == 1:
			return x.Args[0].X, expHalf, true
		case x.Func == "cbrt" && len(x.Args) == 1:
			return x.Args[0].X, expThird, true
		case x.Func == "root" && len(x.Args) == 2:
			e = syntax.Rational(x.Args[1].X).Inv()
			return x.Args[0].X, e, !e.Lost()
		}
	}
	return nil, e, false
}

// powerOf reads a power with a rational exponent, or a root; false for any other.
func powerOf(x syntax.Expr) (base syntax.Expr, e units.Exp, ok bool) {
	if b, is := x.(*syntax.Binary); is && b.Op == syntax.Pow {
		e = syntax.Rational(b.Y)
		return b.X, e, !e.Lost()
	}
	return rootOf(x)
}

// binary returns an operator's result as a sum.
func (n normalizer) binary(x *syntax.Binary) sum {
	switch x.Op {
	case syntax.Pow:
		if base := n.sum(x.X); len(base) == 1 && base[0].isOne() {
			return base
		}
		return sum{atomTerm(x)} // an exponent that is worked out: one factor of its own
	case syntax.Mul:
		return n.product(n.sum(x.X), n.sum(x.Y))
	case syntax.Div:
		return n.product(n.sum(x.X), n.power(x.Y, expMinus))
	}
	a, b := n.sum(x.X), n.sum(x.Y)
	if len(a)+len(b) > maxTerms {
		return sum{lost}
	}
	if x.Op == syntax.Sub {
		return a.minus(b)
	}
	return a.plus(b)
}

// product multiplies two sums. Brackets without the unknown stay closed.
func (n normalizer) product(a, b sum) sum { return n.closed(a).times(n.closed(b)) }

// quotient divides one sum by another; by 0 it is lost. A divisor of several terms
// becomes one factor first, with the exponent -1.
func (n normalizer) quotient(a, b sum) sum {
	if b = n.closed(b); len(b) != 1 {
		return sum{lost}
	}
	return n.product(a, sum{b[0].inv()})
}

// closed turns a sum of several terms without the unknown into one factor.
//
// (m + M)·v = p is solved for v by one division. Multiplied out it would be m·v + M·v,
// which no step of a person's working has.
func (n normalizer) closed(s sum) sum {
	if len(s) < 2 {
		return s
	}
	x := sumExpr(s)
	if n.holds(x) {
		return s
	}
	return sum{bracket(s, x, expOne)}
}

// bracket is a power of a sum as one factor. Sums of the same terms have one key,
// in whatever order these are.
//
// So (a + b) cancels (b + a), though they are written in another order.
func bracket(s sum, x syntax.Expr, e units.Exp) term {
	return factorTerm(factor{sumKey(s), x, e})
}

// sumKey tells which sums are alike.
//
// A sum that is one thing to the first power has the key of that thing, for it is
// nothing else.
func sumKey(s sum) string {
	if len(s) == 1 && isOneRat(s[0].coef) && len(s[0].factors) == 1 && s[0].factors[0].exp == expOne {
		return s[0].factors[0].key
	}
	keys := make([]string, len(s))
	for i, t := range s {
		keys[i] = t.coef.RatString() + "*" + t.key()
	}
	slices.Sort(keys)
	return "(" + strings.Join(keys, "+") + ")"
}

// power raises an expression to a rational power.
//
// Under an even root the sign of what was squared is lost, and sizes keeps that.
func (n normalizer) power(x syntax.Expr, e units.Exp) sum {
	s := n.sum(x)
	if e.Den()%2 == 0 && len(s) == 1 {
		s[0].factors = n.sizes(s[0].factors, e)
	}
	return n.raised(s, e)
}

// Sizes is an expression with |x| in the place of √(x²), with the sign of x in that of
// |x|/x, and with 2·ln(|x|) in that of ln(x²), which are the same for every number: of
// those it can be told where they rise, and x² is never too large or too small to hold.
func Sizes(x syntax.Expr) syntax.Expr {
	return syntax.Rewrite(x, func(x syntax.Expr) (syntax.Expr, bool) {
		if b, ok := x.(*syntax.Binary); ok && b.Op == syntax.Div {
			return signs(b)
		}
		if c, ok := x.(*syntax.Call); ok && (c.Func == "ln" || c.Func == "log10") && len(c.Args) == 1 {
			return logarithm(c)
		}
		base, e, ok := rootOf(x)
		if !ok || e != expHalf {
			return nil, false
		}
		base, e, ok = powerOf(syntax.Unbracket(base))
		if !ok || e != expTwo {
			return nil, false
		}
		return call("abs", Sizes(base)), true
	})
}

// logarithm takes a power out of a logarithm: an even whole one is of either sign.
func logarithm(x *syntax.Call) (syntax.Expr, bool) {
	of := syntax.Unbracket(x.Args[0].X)
	base, e, ok := powerOf(of)
	if !ok || e.IsZero() {
		return nil, false
	}
	if e.IsInt() && e.Num()%2 == 0 {
		base = call("abs", base)
	}
	out := Sizes(call(x.Func, base))
	if e.Num() != 1 {
		out = times(numberExpr(big.NewRat(int64(e.Num()), 1)), out)
	}
	if e.Den() > 1 {
		out = binary(syntax.Div, out, numberExpr(big.NewRat(int64(e.Den()), 1)))
	}
	return out, true
}

// signs puts sgn(x)/|sgn(x)| for |x|/x or x/|x| in a quotient: that has no value at 0
// either.
func signs(x *syntax.Binary) (syntax.Expr, bool) {
	all := syntax.Factors(x)
	for i, size := range all {
		c, ok := syntax.Unbracket(size.X).(*syntax.Call)
		if !ok || c.Func != "abs" || len(c.Args) != 1 {
			continue
		}
		of := syntax.PrintExpr(syntax.Unbracket(c.Args[0].X))
		for k, other := range all {
			if other.Minus == size.Minus || syntax.PrintExpr(syntax.Unbracket(other.X)) != of {
				continue
			}
			sign := call("sgn", c.Args[0].X)
			all[i].X, all[k].X = sign, call("abs", sign)
			if size.Minus {
				all[i].X, all[k].X = all[k].X, all[i].X
			}
			var over, under syntax.Expr = numberExpr(big.NewRat(1, 1)), nil
			for _, p := range all {
				if p.Minus {
					under = times(under, closedExpr(Sizes(p.X), false))
				} else {
					over = times(over, closedExpr(Sizes(p.X), false))
				}
			}
			return binary(syntax.Div, over, under), true
		}
	}
	return nil, false
}

// sizes puts |x| for what holds the unknown where an even root is taken of its even
// power, unless that leaves an even power: √(x²) is x for x above 0 alone.
func (n normalizer) sizes(fs []factor, e units.Exp) []factor {
	out := slices.Clone(fs)
	for i, f := range out {
		left := f.exp.Mul(e)
		even := f.exp.IsInt() && f.exp.Num()%2 == 0
		if !left.Lost() && even && (!left.IsInt() || left.Num()%2 != 0) && n.holds(f.base) {
			out[i] = f.size(f.exp)
		}
	}
	return out
}

// raised raises a sum to a rational power.
//
// Without the unknown a bracket stays closed and gets the exponent; with it, only the
// whole exponents can be opened, and `open` does that when nothing else helps.
func (n normalizer) raised(s sum, e units.Exp) sum {
	s = n.closed(s)
	switch {
	case len(s) == 0 && e.Num() <= 0:
		return sum{lost}
	case len(s) == 0:
		return nil
	case len(s) == 1:
		return sum{s[0].pow(e)}
	case e == expOne:
		return s
	}
	return sum{bracket(s, sumExpr(s), e)}
}

// call is a call as one factor. Calls of arguments that are alike have one key.
func (n normalizer) call(x *syntax.Call) sum {
	keys := make([]string, len(x.Args))
	for i, a := range x.Args {
		s := n.sum(a.X)
		switch {
		case s.lost():
			return s
		case len(s) == 0 && len(x.Args) == 1 && isZeroAtZero(x.Func):
			return nil
		}
		keys[i] = a.Name + "=" + sumKey(s)
	}
	return sum{factorTerm(factor{x.Func + "(" + strings.Join(keys, ",") + ")", x, expOne})}
}

// isZeroAtZero tells whether a function of one argument is 0 for 0.
//
// sin(0) goes, and so do sinh, tan, abs: by the value that the table of operations
// has, so that a new function needs no line here.
func isZeroAtZero(name string) bool {
	f, ok := ops.Named(name)
	return ok && f.Most == 1 && f.Op.Value(0, 0, 0) == 0
}
