package algebra

import (
	"math/big"
	"slices"

	"steelyard/lang/syntax"
	"steelyard/units"
)

// conic is the functions of an angle, or of a hyperbolic argument, that each other's
// squares give: cos² + sin² = 1, cosh² - sinh² = 1.
//
// The points (cos A, sin A) lie on the circle x² + y² = 1, the points (cosh A, sinh A)
// on the hyperbola x² - y² = 1.
type conic struct {
	sine, cosine, tangent string
	minus                 bool // the square of the cosine is 1 less that of the sine
	reason                Reason
}

var (
	circle    = conic{"sin", "cos", "tan", true, unitCircle}
	hyperbola = conic{"sinh", "cosh", "tanh", false, unitHyperbola}
)

// has tells whether all of some calls are of these functions.
//
// A call of another function, or what is no call at all (nil), makes the identity
// useless: one kind too many would be left.
func (c conic) has(calls []*syntax.Call) bool {
	return !slices.ContainsFunc(calls, func(x *syntax.Call) bool {
		return x == nil || x.Func != c.sine && x.Func != c.cosine && x.Func != c.tangent
	})
}

// identities solves an equation in several functions of one argument that are all
// powers of one: in the sine, or the cosine, of an angle by sin² + cos² = 1, in those
// of a hyperbolic argument, and in one exponential.
func (s *isolator) identities(eq sum, kinds []factor, depth int) ([]root, bool) {
	calls := make([]*syntax.Call, len(kinds))
	for i, f := range kinds {
		calls[i], _ = f.base.(*syntax.Call)
	}
	if out, some := s.complements(eq, calls); some {
		return s.onward(out, depth, rightAngle)
	}
	before := len(s.steps)
	for _, c := range [2]conic{circle, hyperbola} {
		if !c.has(calls) {
			continue
		}
		if roots, ok := s.onConic(c, eq, calls, depth); ok {
			return roots, true
		}
		s.steps = s.steps[:before]
	}
	return s.exponential(eq, kinds, depth)
}

// complements writes the angle with a cosine as 90° less the one with that sine, where
// both stand in an equation.
func (s *isolator) complements(eq sum, calls []*syntax.Call) (sum, bool) {
	for _, c := range calls {
		for _, other := range calls {
			if c == nil || other == nil || c.Func != "acos" || other.Func != "asin" || !s.alike(c.Args[0].X, other.Args[0].X) {
				continue
			}
			of, ok1 := s.called("acos", c.Args[0].X)
			sine, ok2 := s.called("asin", other.Args[0].X)
			right := atomTerm(&syntax.Pi{})
			right.coef = big.NewRat(1, 2)
			out, ok := eq.replaced(of.key, expOne, sum{right, factorTerm(sine).neg()})
			return out, ok1 && ok2 && ok
		}
	}
	return nil, false
}

// onConic writes tangents as quotients, functions of multiples of an argument by those
// of the argument itself, and the even powers of a cosine by the sine. What is left of
// the cosine is a factor, or nothing is solved; else the even powers of the sine are
// written by the cosine.
//
// One way is enough. An equation with odd powers of both, such as sin(A)·cos(A) = 1/4,
// is not solved here; a square root in the place of one of them would add roots of the
// wrong sign.
func (s *isolator) onConic(c conic, eq sum, calls []*syntax.Call, depth int) ([]root, bool) {
	argument, times, ok := s.multiples(calls)
	if !ok {
		return nil, false
	}
	sine, ok1 := s.called(c.sine, argument)
	cosine, ok2 := s.called(c.cosine, argument)
	if !ok1 || !ok2 {
		return nil, false
	}
	tangent := false
	for i, call := range calls {
		of, ok := s.called(call.Func, call.Args[0].X)
		if ok && of.key != sine.key && of.key != cosine.key {
			eq, ok = eq.replaced(of.key, expOne, c.multiple(sine, cosine, call.Func, times[i]))
		}
		if !ok {
			return nil, false
		}
		tangent = tangent || call.Func == c.tangent
	}
	if _, below := s.divisor(eq); below && s.alone {
		return s.onward(eq, depth, oneTangent)
	}
	below := number(1, 1)
	for _, f := range [2]factor{cosine, sine} {
		by := eq.below(f)
		eq, below = eq.by(by), below.mul(by)
	}
	for i, of := range [2][2]factor{{cosine, sine}, {sine, cosine}} {
		out, ok := eq.evenly(of[0], c.square(of[1], i == 1))
		switch {
		case ok && len(out.minus(eq)) == 0:
			return s.onward(out, depth, oneAngle)
		case ok:
			return s.onward(out, depth, c.reason)
		}
	}
	switch {
	case !s.alone:
	case tangent:
		return s.onward(eq, depth, oneTangent)
	case !below.isOne():
		return s.onward(eq, depth, multiplyBoth, termExpr(below))
	}
	return nil, false
}

// square is the square of the cosine by the sine, or that of the sine by the cosine.
func (c conic) square(other factor, ofSine bool) sum {
	one, square := number(1, 1), factorTerm(factor{other.key, other.base, expTwo})
	switch {
	case c.minus:
		square = square.neg()
	case ofSine:
		one = one.neg()
	}
	return sum{one, square}
}

// multiples are the greatest argument of which those of all calls are whole multiples,
// and which.
func (s *isolator) multiples(calls []*syntax.Call) (argument syntax.Expr, times []int64, ok bool) {
	var first sum
	all := make([]*big.Rat, len(calls))
	for i, c := range calls {
		x := s.sum(c.Args[0].X)
		if len(x) == 0 || x.lost() {
			return nil, nil, false
		}
		if first == nil {
			first = x
		}
		if all[i], ok = x.multipleOf(first); !ok {
			return nil, nil, false
		}
	}
	unit, times, ok := wholeTimes(all, maxPower)
	if !ok {
		return nil, nil, false
	}
	if unit.Cmp(big.NewRat(1, 1)) == 0 {
		return calls[0].Args[0].X, times, true
	}
	return sumExpr(first.by(term{coef: unit})), times, true
}

// multiple is a function of some times an argument by the sine and the cosine of it:
// each more by the addition theorems.
func (c conic) multiple(sine, cosine factor, name string, times int64) sum {
	one, other := sum{factorTerm(cosine)}, sum{factorTerm(sine)}
	at, beside := one, other // the cosine and the sine of n times the argument
	for range max(times, -times) - 1 {
		squares := beside.times(other)
		if c.minus {
			squares = squares.neg()
		}
		at, beside = at.times(one).plus(squares), beside.times(one).plus(at.times(other))
	}
	switch {
	case name == c.cosine:
		return at
	case name == c.tangent && times < 0:
		return beside.neg().by(asTerm(at).inv())
	case name == c.tangent:
		return beside.by(asTerm(at).inv())
	case times < 0:
		return beside.neg()
	}
	return beside
}

// called is a function of one argument as a factor.
func (n normalizer) called(name string, x syntax.Expr) (factor, bool) {
	s := n.call(call(name, x))
	if len(s) != 1 || len(s[0].factors) != 1 {
		return factor{}, false
	}
	return s[0].factors[0], true
}

// replaced puts a sum in the place of a power of a factor, in all terms; false if one
// has another power of it than a whole multiple, or is divided by it and the sum is no
// single term.
//
// cos⁴ is (cos²)², so that it is replaced twice; cos³ has one cosine left over, and
// nothing is gained.
func (s sum) replaced(key string, e units.Exp, by sum) (sum, bool) {
	var out sum
	for _, t := range s {
		of := t.exponentOf(key)
		n := of.Num() / e.Num()
		if !of.IsInt() || of.Num()%e.Num() != 0 || max(n, -n) > maxPower || n < 0 && len(by) != 1 {
			return nil, false
		}
		one, each := sum{t.without(key)}, by
		if n < 0 {
			each = sum{by[0].inv()}
		}
		for range max(n, -n) {
			one = one.times(each)
		}
		out = append(out, one...)
	}
	return collect(out), len(out) <= maxTerms
}

// evenly puts a sum in the place of the square of a factor, in all its even powers; false
// if an odd one is left in some terms, and not in all.
func (s sum) evenly(f factor, square sum) (sum, bool) {
	var out sum
	odd, even := 0, 0
	for _, t := range s {
		of := t.exponentOf(f.key)
		if !of.IsInt() || of.Num() < 0 || of.Num() > maxPower {
			return nil, false
		}
		one := sum{t.without(f.key)}
		for range of.Num() / 2 {
			one = one.times(square)
		}
		if of.Num()%2 != 0 {
			one = one.by(factorTerm(f))
		}
		out = append(out, one...)
	}
	out = collect(out)
	for _, t := range out {
		if t.exponentOf(f.key).IsZero() {
			even++
		} else {
			odd++
		}
	}
	return out, len(out) <= maxTerms && (odd == 0 || even == 0)
}

// below is the power of a factor by which an equation is multiplied so that it is
// divided by it no more.
//
// What was divided by can't be 0, or there was no value before: a root that makes it 0
// is found out when roots are put back into the equation.
func (s sum) below(f factor) term {
	least := s.least(f.key)
	if least.Num() >= 0 {
		return number(1, 1)
	}
	return factorTerm(factor{f.key, f.base, least.Neg()})
}

// least is the least exponent that a term of a sum has of a key; 0 for no terms.
func (s sum) least(key string) (out units.Exp) {
	for i, t := range s {
		if e := t.exponentOf(key); i == 0 || e.Float() < out.Float() {
			out = e
		}
	}
	return out
}

// multipleOf is how many times another sum one is, as an exact number.
//
// Compared term by term in exact numbers, so that 0.3·t is three times 0.1·t, which it
// is not in binary fractions.
func (s sum) multipleOf(o sum) (*big.Rat, bool) {
	for _, t := range s {
		if t.key() == o[0].key() {
			r := new(big.Rat).Quo(t.coef, o[0].coef)
			return r, len(s.minus(o.by(term{coef: r}))) == 0
		}
	}
	return nil, false
}
