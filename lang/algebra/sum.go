package algebra

import (
	"slices"

	"math/big"
	"steelyard/units/each"
)

// sum is terms that are added, no two of them alike and none 0, so that an empty sum is
// 0 and two sums are the same if their difference is empty.
type sum []term

// maxTerms is the most terms that a sum may grow to when brackets are
// multiplied out.
const maxTerms = 64

// collect adds terms that are alike and drops those that cancel.
//
// The first of those that are alike keeps its place, so that a line stays in the order
// in which it was written. No term of the sum that is given changes. What holds a lost
// term is lost.
func collect(s sum) sum {
	if len(s) == 1 && !s[0].lost && s[0].coef.Sign() != 0 {
		return s
	}
	at := make(map[string]int, len(s))
	var out sum
	for _, t := range s {
		if t.lost {
			return sum{lost}
		}
		k := t.key()
		if i, ok := at[k]; ok {
			out[i].coef = new(big.Rat).Add(out[i].coef, t.coef)
			continue
		}
		at[k] = len(out)
		out = append(out, term{coef: t.coef, factors: t.factors})
	}
	left := out[:0]
	for _, t := range out {
		if t.coef.Sign() != 0 {
			left = append(left, t)
		}
	}
	return left
}

// plus adds two sums, minus takes one from the other.
func (s sum) plus(o sum) sum  { return collect(append(append(sum{}, s...), o...)) }
func (s sum) minus(o sum) sum { return s.plus(o.neg()) }

func (s sum) neg() sum { return each.Of(s, term.neg) }

// times multiplies two sums out, unless that makes too many terms.
func (s sum) times(o sum) sum {
	if len(s)*len(o) > maxTerms || s.lost() || o.lost() {
		return sum{lost}
	}
	var out sum
	for _, a := range s {
		for _, b := range o {
			out = append(out, a.mul(b))
		}
	}
	return collect(out)
}

// by multiplies a sum with a term.
func (s sum) by(t term) sum { return s.times(sum{t}) }

// lost tells whether a sum has no value.
func (s sum) lost() bool { return len(s) > 0 && s[0].lost }

// isNumber tells whether a sum is one number other than 0.
func (s sum) isNumber() bool { return len(s) == 1 && s[0].isNumber() }

// allNegative tells whether every term is subtracted.
func (s sum) allNegative() bool {
	return !slices.ContainsFunc(s, func(t term) bool { return t.coef.Sign() > 0 })
}

// hasDivisor tells whether a factor of a sum has a negative exponent.
//
// A sum that has one is no polynomial, and long division would never end with it.
func (s sum) hasDivisor() bool {
	return !s.divisors().isNumber()
}

// over divides a sum by another exactly, the greatest power first; false if a
// remainder is left.
//
// This is long division of polynomials in several names. It ends, since each step
// takes the leading term away and brings in lower ones alone; a divisor in what is
// found means that the division does not come out.
func (s sum) over(o sum) (sum, bool) {
	if len(o) == 0 {
		return nil, false
	}
	inv := o.leading().inv()
	if len(o) == 1 {
		out := s.by(inv)
		return out, !out.lost() && !out.hasDivisor()
	}
	var out sum
	for range maxFractionTerms {
		if len(s) == 0 {
			return out, true
		}
		q := s.leading().mul(inv)
		if q.lost || (sum{q}).hasDivisor() {
			return nil, false
		}
		out, s = append(out, q), s.minus(o.by(q))
	}
	return nil, false
}

// leading is the first term of a sum in an order that multiplication keeps: that
// of the exponents of its factors, the factors in the order of their keys.
// (A monomial order, as computer algebra calls it: a·b < a·c wherever b < c.)
func (s sum) leading() term {
	best := s[0]
	for _, t := range s[1:] {
		if t.before(best) {
			best = t
		}
	}
	return best
}

// before tells whether a term has the greater exponent of the first key in which
// two terms differ.
func (t term) before(o term) bool {
	at, difference := "", 0.0
	for _, fs := range [2][]factor{t.factors, o.factors} {
		for _, f := range fs {
			d := t.exponentOf(f.key).Float() - o.exponentOf(f.key).Float()
			if d != 0 && (at == "" || f.key < at) {
				at, difference = f.key, d
			}
		}
	}
	return difference > 0
}

// content is what all terms of a sum have in common: a number, and whole positive
// powers.
//
// Whole powers alone: of √x and x, the root could be taken out as well, and no reader
// would.
func (s sum) content() term {
	out := term{coef: new(big.Rat).Abs(s[0].coef)}
	for _, f := range s[0].factors {
		if f.exp.Num() > 0 && f.exp.IsInt() {
			out.factors = append(out.factors, f)
		}
	}
	for _, t := range s[1:] {
		out = out.common(t)
	}
	return out
}

// common is what two terms have in common: the greatest number of which both
// are whole multiples, and the lower of each positive whole power.
func (t term) common(o term) term {
	out := term{coef: gcdRat(t.coef, o.coef)}
	for _, f := range t.factors {
		e := o.exponentOf(f.key)
		if e.Num() <= 0 || !e.IsInt() {
			continue
		}
		if e.Float() < f.exp.Float() {
			f.exp = e
		}
		out.factors = append(out.factors, f)
	}
	return out
}
