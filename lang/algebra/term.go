// Package algebra rearranges equations. It works on trees: an equation goes in
// with the name of an unknown, and the roots come out as trees of their own,
// with every rewriting on the way and its reason. Numbers are exact rationals
// throughout. The package knows no values, no dimensions and no printing.
package algebra

import (
	"math/big"
	"sort"
	"strings"

	"steelyard/lang/syntax"
	"steelyard/units"
)

// term is a product: an exact number times powers of factors, no two of the
// same base.
type term struct {
	coef    *big.Rat
	factors []factor
}

// factor is a power of something that is not taken apart further: a name, π, a
// written quantity, a call, or a sum in brackets. Two factors are of one base
// if they print alike.
type factor struct {
	key  string
	base syntax.Expr
	exp  units.Exp
}

// sum is terms that are added.
type sum []term

var (
	expOne, _  = units.NewExp(1, 1)
	expHalf, _ = units.NewExp(1, 2)
)

func number(n, d int64) term { return term{coef: big.NewRat(n, d)} }

// isNumber tells whether a term has no factors.
func (t term) isNumber() bool { return len(t.factors) == 0 }

// atomTerm is one thing to the first power.
func atomTerm(x syntax.Expr) term {
	return term{coef: big.NewRat(1, 1), factors: []factor{{key: syntax.PrintExpr(x), base: x, exp: expOne}}}
}

// mul multiplies two terms. It returns false if an exponent grows too large.
func (t term) mul(o term) (term, bool) {
	out := term{coef: new(big.Rat).Mul(t.coef, o.coef), factors: append([]factor{}, t.factors...)}
	for _, f := range o.factors {
		found := false
		for i := range out.factors {
			if out.factors[i].key != f.key {
				continue
			}
			e, ok := out.factors[i].exp.Add(f.exp)
			if !ok {
				return out, false
			}
			out.factors[i].exp, found = e, true
			if e.IsZero() {
				out.factors = append(out.factors[:i], out.factors[i+1:]...)
			}
			break
		}
		if !found {
			out.factors = append(out.factors, f)
		}
	}
	return out, true
}

// pow raises a term to a rational power. A number that has no exact root stays
// a factor of its own under the root.
func (t term) pow(e units.Exp) (term, bool) {
	coef, rest, ok := powRat(t.coef, e)
	if !ok {
		return t, false
	}
	out := term{coef: coef}
	for _, f := range t.factors {
		p, ok := f.exp.Mul(e)
		if !ok {
			return t, false
		}
		if !p.IsZero() {
			out.factors = append(out.factors, factor{f.key, f.base, p})
		}
	}
	if rest != nil {
		x := ratExpr(rest)
		under := term{coef: coef, factors: []factor{{syntax.PrintExpr(x), x, e}}}
		return under.mul(term{coef: big.NewRat(1, 1), factors: out.factors})
	}
	return out, true
}

func (t term) neg() term { return term{coef: new(big.Rat).Neg(t.coef), factors: t.factors} }

// inv is the reciprocal; false for zero.
func (t term) inv() (term, bool) {
	minus, _ := units.NewExp(-1, 1)
	if t.coef.Sign() == 0 {
		return t, false
	}
	return t.pow(minus)
}

// key tells which terms are alike: those with the same factors.
func (t term) key() string {
	keys := make([]string, len(t.factors))
	for i, f := range t.factors {
		keys[i] = f.key + "^" + f.exp.String()
	}
	sort.Strings(keys)
	return strings.Join(keys, "*")
}

// powRat raises a number to a rational power where that is exact; otherwise it
// returns the number as it is, to stand under the root.
func powRat(r *big.Rat, e units.Exp) (coef, under *big.Rat, ok bool) {
	if r.Sign() == 0 {
		if e.Num() < 0 {
			return nil, nil, false
		}
		return new(big.Rat), nil, true
	}
	if e.Den() != 1 {
		n, ok1 := rootInt(r.Num(), e.Den())
		d, ok2 := rootInt(r.Denom(), e.Den())
		if !ok1 || !ok2 {
			return big.NewRat(1, 1), r, true
		}
		r = new(big.Rat).SetFrac(n, d)
	}
	n := e.Num()
	if n < 0 {
		r, n = new(big.Rat).Inv(r), -n
	}
	out := big.NewRat(1, 1)
	for range n {
		out.Mul(out, r)
		if out.Num().BitLen() > 4096 || out.Denom().BitLen() > 4096 {
			return nil, nil, false
		}
	}
	return out, nil, true
}

// rootInt is the exact whole root of a whole number, if there is one.
func rootInt(n *big.Int, degree int) (*big.Int, bool) {
	if n.Sign() < 0 {
		return nil, false
	}
	lo, hi := big.NewInt(0), new(big.Int).Lsh(big.NewInt(1), uint(n.BitLen()/degree+1))
	for lo.Cmp(hi) < 0 {
		mid := new(big.Int).Add(lo, hi)
		mid.Rsh(mid.Add(mid, big.NewInt(1)), 1)
		if new(big.Int).Exp(mid, big.NewInt(int64(degree)), nil).Cmp(n) <= 0 {
			lo = mid
		} else {
			hi = mid.Sub(mid, big.NewInt(1))
		}
	}
	return lo, new(big.Int).Exp(lo, big.NewInt(int64(degree)), nil).Cmp(n) == 0
}

// collect adds terms that are alike and drops those that cancel.
func collect(s sum) sum {
	at := make(map[string]int, len(s))
	var out sum
	for _, t := range s {
		k := t.key()
		if i, ok := at[k]; ok {
			out[i].coef = new(big.Rat).Add(out[i].coef, t.coef)
			continue
		}
		at[k] = len(out)
		out = append(out, term{coef: new(big.Rat).Set(t.coef), factors: t.factors})
	}
	kept := out[:0]
	for _, t := range out {
		if t.coef.Sign() != 0 {
			kept = append(kept, t)
		}
	}
	return kept
}
