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

// onConic writes tangents as quotients, and the even powers of a cosine by the sine,
// or those of a sine by the cosine.
//
// One way is enough: where the cosine comes in even powers alone, all is written by
// the sine, else the other way round. An equation with odd powers of both, such as
// sin(A)·cos(A) = 1/4, is not solved here; a square root in the place of one of them
// would add roots of the wrong sign.
//
// The angle must be the same in all of them: sin(2·A) beside sin(A) is not taken
// apart.
func (s *isolator) onConic(c conic, eq sum, calls []*syntax.Call, depth int) ([]root, bool) {
	angle := calls[0].Args[0].X
	for _, c := range calls[1:] {
		if !s.alike(c.Args[0].X, angle) {
			return nil, false
		}
	}
	sine, ok1 := s.called(c.sine, angle)
	cosine, ok2 := s.called(c.cosine, angle)
	tangent, ok3 := s.called(c.tangent, angle)
	if !ok1 || !ok2 || !ok3 {
		return nil, false
	}
	quotient, _ := factorTerm(sine).mul(factorTerm(factor{cosine.key, cosine.base, expMinus}))
	eq, ok := eq.replaced(tangent.key, expOne, sum{quotient})
	if ok {
		eq, ok = s.upwards(eq, cosine)
	}
	if !ok {
		return nil, false
	}
	for i, of := range [2][2]factor{{cosine, sine}, {sine, cosine}} {
		one, square := number(1, 1), factorTerm(factor{of[1].key, of[1].base, expTwo})
		switch {
		case c.minus:
			square = square.neg()
		case i == 1:
			one = one.neg()
		}
		if out, ok := eq.replaced(of[0].key, expTwo, sum{one, square}); ok {
			l, r := s.sides(out)
			s.note(l, r, c.reason)
			return s.collected(out, depth+1)
		}
	}
	return nil, false
}

// called is a function of one argument as a factor.
func (n normalizer) called(name string, x syntax.Expr) (factor, bool) {
	s, ok := n.call(call(name, x))
	if !ok || len(s) != 1 || len(s[0].factors) != 1 {
		return factor{}, false
	}
	return s[0].factors[0], true
}

// replaced puts a sum in the place of a power of a factor, in all terms; false if one
// has another power of it than a whole multiple from 0 on.
//
// cos⁴ is (cos²)², so that it is replaced twice; cos³ has one cosine left over, and
// nothing is gained.
func (s sum) replaced(key string, e units.Exp, by sum) (sum, bool) {
	var out sum
	for _, t := range s {
		of := t.exponentOf(key)
		if !of.IsInt() || of.Num() < 0 || of.Num()%e.Num() != 0 || of.Num() > maxPower {
			return nil, false
		}
		one, ok := sum{t.without(key)}, true
		for range of.Num() / e.Num() {
			if one, ok = one.times(by); !ok {
				return nil, false
			}
		}
		out = append(out, one...)
	}
	return collect(out), len(out) <= maxTerms
}

// upwards multiplies an equation by a power of a factor so that it is divided by it
// no more.
//
// What was divided by can't be 0, or there was no value before: a root that makes it 0
// is found out when roots are put back into the equation.
func (s *isolator) upwards(eq sum, f factor) (sum, bool) {
	least := units.Exp{}
	for _, t := range eq {
		if e := t.exponentOf(f.key); e.Float() < least.Float() {
			least = e
		}
	}
	if least.IsZero() {
		return eq, true
	}
	return eq.times(sum{factorTerm(factor{f.key, f.base, least.Neg()})})
}

// multipleOf is how many times another sum one is, as an exact number.
//
// Compared term by term in exact numbers, so that 0.3·t is three times 0.1·t, which it
// is not in binary fractions.
func (s sum) multipleOf(o sum) (*big.Rat, bool) {
	for _, t := range s {
		if t.key() == o[0].key() {
			r := new(big.Rat).Quo(t.coef, o[0].coef)
			return r, len(s.minus(o.scaled(r))) == 0
		}
	}
	return nil, false
}

func (s sum) scaled(by *big.Rat) sum {
	out := make(sum, len(s))
	for i, t := range s {
		out[i] = term{coef: new(big.Rat).Mul(t.coef, by), factors: t.factors}
	}
	return out
}
