package algebra

import (
	"math/big"
	"slices"
	"strings"

	"steelyard/lang/syntax"
	"steelyard/units"
)

// term is a product: an exact number times powers, no two of the same base.
//
// Exact numbers keep 1/3·3 at 1, so that terms cancel which ought to.
//
// A product that was divided by 0, or that grew beyond what is worked with, is lost, and
// so is whatever it goes into. So only who takes a result asks whether there is one.
type term struct {
	coef    *big.Rat
	factors []factor
	lost    bool
}

// factor is a power of something that is not taken apart further: a name, π, a
// written quantity, a call, or a sum in brackets. Two factors are of one base
// if they have one key.
//
// A key is text, and not the tree: sums in another order and calls of arguments that
// are alike have one key, though their trees differ.
type factor struct {
	key  string
	base syntax.Expr
	exp  units.Exp
}

// lost is a term without a value.
var lost = term{coef: new(big.Rat), lost: true}

var (
	expOne   = units.NewExp(1, 1)
	expHalf  = units.NewExp(1, 2)
	expThird = units.NewExp(1, 3)
	expTwo   = units.NewExp(2, 1)
	expMinus = units.NewExp(-1, 1)
)

// oneRat is the number 1. No number of a term is changed in place, so that terms share them.
var oneRat = big.NewRat(1, 1)

func isOneRat(r *big.Rat) bool { return r.IsInt() && r.Num().IsInt64() && r.Num().Int64() == 1 }

// timesRat multiplies numbers, most of which are 1.
func timesRat(a, b *big.Rat) *big.Rat {
	switch {
	case isOneRat(a):
		return b
	case isOneRat(b):
		return a
	}
	return new(big.Rat).Mul(a, b)
}

func number(n, d int64) term { return term{coef: big.NewRat(n, d)} }

// factorTerm is one factor as a product.
func factorTerm(f factor) term { return term{coef: oneRat, factors: []factor{f}} }

// atomTerm is one thing to the first power.
func atomTerm(x syntax.Expr) term { return factorTerm(factor{syntax.PrintExpr(x), x, expOne}) }

// isNumber tells whether a term has no factors.
func (t term) isNumber() bool { return len(t.factors) == 0 }

// isOne tells whether a term is the number 1.
func (t term) isOne() bool { return t.isNumber() && isOneRat(t.coef) }

// mul multiplies two terms.
//
// What comes to the power 0 is dropped; that x may be 0 there is told by those who
// divide.
func (t term) mul(o term) term {
	out := term{timesRat(t.coef, o.coef), append([]factor{}, t.factors...), t.lost || o.lost}
	for _, f := range o.factors {
		i := out.find(f.key)
		if i < 0 {
			out.factors = append(out.factors, f)
			continue
		}
		e := out.factors[i].exp.Add(f.exp)
		out.lost = out.lost || e.Lost()
		out.factors[i].exp = e
		if e.IsZero() {
			out.factors = append(out.factors[:i], out.factors[i+1:]...)
		}
	}
	return out
}

// find is the place of the factor with a key; -1 if there is none.
func (t term) find(key string) int {
	return slices.IndexFunc(t.factors, func(f factor) bool { return f.key == key })
}

// exponentOf is the exponent that a term has of a key.
func (t term) exponentOf(key string) units.Exp {
	if i := t.find(key); i >= 0 {
		return t.factors[i].exp
	}
	return units.Exp{}
}

// without is a term without its factor of a key.
func (t term) without(key string) term {
	return term{t.coef, slices.DeleteFunc(slices.Clone(t.factors), func(f factor) bool { return f.key == key }), t.lost}
}

// pow raises a term to a rational power. A number that has no exact root stays
// a factor of its own under the root. (c²)^(1/4) is √|c|, and not √c.
func (t term) pow(e units.Exp) term {
	coef, rest, ok := powRat(t.coef, e)
	if !ok || t.lost {
		return lost
	}
	out := term{coef: coef}
	for _, f := range t.factors {
		p := f.exp.Mul(e)
		if p.Lost() {
			return lost
		}
		switch {
		case p.IsZero():
		case f.exp.Num()%2 == 0 && p.Den()%2 == 0:
			out.factors = append(out.factors, f.size(p))
		default:
			out.factors = append(out.factors, factor{f.key, f.base, p})
		}
	}
	if rest != nil {
		x := ratExpr(rest)
		under := term{coef: coef, factors: []factor{{syntax.PrintExpr(x), x, e}}}
		return under.mul(term{coef: oneRat, factors: out.factors})
	}
	return out
}

// size is a power of the size of what a factor is of.
func (f factor) size(e units.Exp) factor {
	switch x := f.base.(type) {
	case *syntax.Number, *syntax.Pi, *syntax.Quantity:
		return factor{f.key, f.base, e}
	case *syntax.Call:
		if x.Func == "abs" {
			return factor{f.key, f.base, e}
		}
	}
	return factor{"abs(=" + f.key + ")", call("abs", f.base), e}
}

// The factors are shared with the term that it is the opposite of; no rule changes
// factors in place without a copy.
func (t term) neg() term { return term{new(big.Rat).Neg(t.coef), t.factors, t.lost} }

// inv is the reciprocal, which is lost for zero.
func (t term) inv() term {
	if t.coef.Sign() == 0 {
		return lost
	}
	return t.pow(expMinus)
}

// key tells which terms are alike: those with the same factors.
func (t term) key() string {
	keys := make([]string, len(t.factors))
	for i, f := range t.factors {
		keys[i] = f.key + "^" + f.exp.String()
	}
	slices.Sort(keys)
	return strings.Join(keys, "*")
}
