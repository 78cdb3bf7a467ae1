package algebra

import (
	"math/big"

	"steelyard/units"
)

// maxDivisor bounds the whole numbers of which a fraction is tried as a root.
const maxDivisor = 1000

// rationalRoot solves an equation with written numbers in powers of something by one
// root that is a fraction: the whole coefficients of the lowest and the highest power
// are multiples of its upper and its lower part. What is left without that factor is
// solved too.
//
// There is a formula for a cubic equation, and none that anyone reads. A fraction is
// the root that problems are made with, and by this theorem on rational roots few need
// be tried.
func (s *isolator) rationalRoot(kind factor, powers []units.Exp, by map[units.Exp]sum, depth int) ([]root, bool) {
	top := powers[len(powers)-1]
	if !top.IsInt() || powers[0].Num() < 0 || top.Num() > maxMultiple*maxPower {
		return nil, false
	}
	all := make([]*big.Rat, top.Num()+1)
	for i := range all {
		all[i] = new(big.Rat)
	}
	for e, c := range by {
		if !e.IsInt() || !c.isNumber() {
			return nil, false
		}
		all[e.Num()] = c[0].coef
	}
	x := fractionRoot(all)
	if x == nil {
		return nil, false
	}
	// Dividing by A - x leaves the coefficients of Horner's rule.
	var rest sum
	carry := new(big.Rat)
	for i := len(all) - 1; i > 0; i-- {
		carry = new(big.Rat).Add(new(big.Rat).Mul(carry, x), all[i])
		t := term{coef: carry}
		if i > 1 {
			t.factors = []factor{{kind.key, kind.base, units.NewExp(i-1, 1)}}
		}
		rest = append(rest, t)
	}
	rest = collect(rest)
	in := sumExpr(sum{factorTerm(factor{kind.key, kind.base, expOne}), {coef: new(big.Rat).Neg(x)}})
	s.note(times(in, group(sumExpr(rest))), zeroExpr(), takeFactorOut)
	roots, ok := s.branch(kind.base, sum{{coef: x}}, factorZero, depth+1)
	if !ok {
		return nil, false
	}
	b := s.fork()
	others, ok := b.collected(rest, depth+1)
	b.lead(others)
	return append(roots, others...), ok
}

// fractionRoot finds a fraction at which a polynomial is 0, by the coefficients of its
// powers from 0 on; nil if there is none of small whole numbers.
//
// The value is worked out by Horner's rule in exact numbers: a root is one where
// nothing at all is left.
func fractionRoot(all []*big.Rat) *big.Rat {
	under := big.NewInt(1)
	for _, c := range all {
		under.Mul(under, new(big.Int).Quo(c.Denom(), new(big.Int).GCD(nil, nil, under, c.Denom())))
	}
	whole := func(c *big.Rat) *big.Int { return new(big.Int).Mul(c.Num(), new(big.Int).Quo(under, c.Denom())) }
	for _, q := range divisors(whole(all[len(all)-1])) {
		for _, p := range divisors(whole(all[0])) {
			for _, x := range [2]*big.Rat{big.NewRat(p, q), big.NewRat(-p, q)} {
				value := new(big.Rat)
				for i := len(all) - 1; i >= 0; i-- {
					value.Add(value.Mul(value, x), all[i])
				}
				if value.Sign() == 0 {
					return x
				}
			}
		}
	}
	return nil
}

// divisors are the small ones of a whole number.
//
// Those above maxDivisor are left out. A root that has one is missed here, and found
// by a search.
func divisors(n *big.Int) (out []int64) {
	for d := int64(1); d <= maxDivisor && n.CmpAbs(big.NewInt(d)) >= 0; d++ {
		if new(big.Int).Rem(n, big.NewInt(d)).Sign() == 0 {
			out = append(out, d)
		}
	}
	return out
}
