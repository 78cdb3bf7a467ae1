package algebra

import (
	"math/big"

	"steelyard/lang/syntax"
	"steelyard/units"
)

// identities solves an equation in several functions of one argument that are all
// powers of one: in the sine, or the cosine, of an angle by sin² + cos² = 1, and in
// one exponential.
func (s *isolator) identities(eq sum, kinds []factor, depth int) ([]root, bool) {
	calls := make([]*syntax.Call, len(kinds))
	angles, powers := 0, 0
	for i, f := range kinds {
		c, ok := f.base.(*syntax.Call)
		if !ok || len(c.Args) != 1 {
			return nil, false
		}
		switch c.Func {
		case "sin", "cos", "tan":
			angles++
		case "exp", "sinh", "cosh":
			powers++
		}
		calls[i] = c
	}
	switch len(kinds) {
	case angles:
		return s.circular(eq, calls, depth)
	case powers:
		return s.exponential(eq, calls, depth)
	}
	return nil, false
}

// circular writes tangents as quotients, and the even powers of a cosine by the sine,
// or those of a sine by the cosine.
func (s *isolator) circular(eq sum, calls []*syntax.Call, depth int) ([]root, bool) {
	angle := calls[0].Args[0].X
	for _, c := range calls[1:] {
		if !s.alike(c.Args[0].X, angle) {
			return nil, false
		}
	}
	sine, ok1 := s.called("sin", angle)
	cosine, ok2 := s.called("cos", angle)
	tangent, ok3 := s.called("tan", angle)
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
	for _, of := range [2][2]factor{{cosine, sine}, {sine, cosine}} {
		square := factorTerm(factor{of[1].key, of[1].base, expTwo}).neg()
		if out, ok := eq.replaced(of[0].key, expTwo, sum{number(1, 1), square}); ok {
			l, r := s.sides(out)
			s.note(l, r, unitCircle)
			return s.collected(out, depth+1)
		}
	}
	return nil, false
}

// exponential writes exponentials of multiples of one argument, and hyperbolic
// functions of it, as powers of one exponential.
func (s *isolator) exponential(eq sum, calls []*syntax.Call, depth int) ([]root, bool) {
	var base sum // what one exponent is a multiple of
	ratios := make([]*big.Rat, len(calls))
	unit := new(big.Rat)
	for i, c := range calls {
		arg, ok := s.sum(c.Args[0].X)
		if !ok {
			return nil, false
		}
		_, with := s.apart(collect(arg))
		if len(with) == 0 {
			return nil, false
		}
		if base == nil {
			base = with
		}
		if ratios[i], ok = with.multipleOf(base); !ok {
			return nil, false
		}
		if unit.Sign() == 0 {
			unit.Abs(ratios[i])
		} else {
			unit = gcdRat(unit, ratios[i])
		}
	}
	one, ok := s.called("exp", sumExpr(base.scaled(unit)))
	if !ok {
		return nil, false
	}
	for i, c := range calls {
		power := new(big.Rat).Quo(ratios[i], unit)
		if !power.IsInt() || !power.Num().IsInt64() || power.Num().Int64() > maxMultiple || power.Num().Int64() < -maxMultiple {
			return nil, false
		}
		f, ok1 := s.called(c.Func, c.Args[0].X)
		by, ok2 := s.asExponential(c, one, int(power.Num().Int64()))
		if !ok1 || !ok2 {
			return nil, false
		}
		if eq, ok = eq.replaced(f.key, expOne, by); !ok {
			return nil, false
		}
	}
	if eq, ok = s.upwards(eq, one); !ok {
		return nil, false
	}
	l, r := s.sides(eq)
	s.note(l, r, oneExponential)
	return s.collected(eq, depth+1)
}

// maxMultiple bounds how many times one exponent another may be.
const maxMultiple = 6

// asExponential is a call by a power of one exponential.
func (s *isolator) asExponential(c *syntax.Call, one factor, power int) (sum, bool) {
	arg, ok := s.sum(c.Args[0].X)
	if !ok {
		return nil, false
	}
	without, _ := s.apart(collect(arg))
	up, down := factorTerm(factor{one.key, one.base, exponent(power, 1)}), factorTerm(factor{one.key, one.base, exponent(-power, 1)})
	if len(without) > 0 {
		if c.Func != "exp" {
			return nil, false
		}
		up, ok = up.mul(atomTerm(call("exp", sumExpr(without))))
		return sum{up}, ok
	}
	half := func(t term) term { t.coef = new(big.Rat).Mul(t.coef, big.NewRat(1, 2)); return t }
	switch c.Func {
	case "sinh":
		return sum{half(up), half(down.neg())}, true
	case "cosh":
		return sum{half(up), half(down)}, true
	}
	return sum{up}, true
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
func (s *isolator) upwards(eq sum, f factor) (sum, bool) {
	least := units.Exp{}
	for _, t := range eq {
		if e := t.exponentOf(f.key); e.Float() < least.Float() {
			least = e
		}
	}
	return eq.times(sum{factorTerm(factor{f.key, f.base, least.Neg()})})
}

// multipleOf is how many times another sum one is, as an exact number.
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
