package algebra

import (
	"math/big"
	"slices"
	"strings"

	"steelyard/lang/syntax"
)

// fraction is a sum over a product of sums.
//
// It is apart from the normal form of a sum, in which each term has its own
// denominator. The lower side is kept as factors: they cancel one by one, which they
// would not do once multiplied out.
type fraction struct {
	over  sum
	under []sum
}

const (
	// maxFractionTerms is the most terms of the upper side of a fraction, and
	// maxUnder the most factors of the lower one.
	maxFractionTerms = 48
	maxUnder         = 8
)

// OneFraction writes an expression as one fraction without fractions in it, with
// what both sides share taken out; false if that makes it no shorter.
//
// Shorter is a matter of letters: a step of a working that makes a line longer teaches
// nothing, unless it takes a stroke out of it.
func OneFraction(x syntax.Expr) (syntax.Expr, bool) {
	f := normalizer{}.fraction(x)
	if f.over.lost() {
		return nil, false
	}
	f.reduce()
	out := arrange(f.expr(), x)
	now, was := syntax.PrintExpr(out), syntax.PrintExpr(x)
	return out, len(now) < len(was) || len(now) <= len(was)+2 && strings.Count(now, "/") < strings.Count(was, "/")
}

// fraction brings an expression into one fraction; where that is lost, its upper side is.
func (n normalizer) fraction(x syntax.Expr) fraction {
	switch x := x.(type) {
	case *syntax.Paren:
		return n.fraction(x.X)
	case *syntax.Unary:
		f := n.fraction(x.X)
		if x.Op == syntax.Sub {
			f.over = f.over.neg()
		}
		return f
	case *syntax.Binary:
		if x.Op == syntax.Pow {
			break
		}
		a, b := n.fraction(x.X), n.fraction(x.Y)
		switch x.Op {
		case syntax.Mul:
			return a.times(b)
		case syntax.Div:
			return a.dividedBy(b)
		case syntax.Sub:
			b.over = b.over.neg()
		}
		return a.plus(b)
	}
	return fraction{over: n.sum(x)}
}

func (f fraction) times(o fraction) fraction {
	return fraction{f.over.times(o.over), slices.Concat(f.under, o.under)}.checked()
}

func (f fraction) dividedBy(o fraction) fraction {
	if len(o.over) == 0 {
		return fraction{over: sum{lost}}
	}
	for _, u := range o.under {
		f.over = f.over.times(u)
	}
	return fraction{f.over, append(slices.Clone(f.under), o.over)}.checked()
}

// plus adds two fractions over the factors of both, those they share once.
//
// a/(p·q) + b/(p·r) is (a·r + b·q)/(p·q·r): only what the other lacks is multiplied
// with.
func (f fraction) plus(o fraction) fraction {
	under := slices.Clone(f.under)
	mine := slices.Clone(f.under) // what the other has not
	for _, u := range o.under {
		i := slices.IndexFunc(mine, func(m sum) bool { return len(u.minus(m)) == 0 })
		if i >= 0 {
			mine = slices.Delete(mine, i, i+1)
			continue
		}
		f.over, under = f.over.times(u), append(under, u)
	}
	for _, u := range mine {
		o.over = o.over.times(u)
	}
	return fraction{f.over.plus(o.over), under}.checked()
}

// checked is a fraction, which is lost if it grew too large.
func (f fraction) checked() fraction {
	if len(f.over) > maxFractionTerms || len(f.under) > maxUnder {
		return fraction{over: sum{lost}}
	}
	return f
}

// reduce takes out what both sides share.
//
// First whole brackets by exact division, then the factors of single terms, then what
// the terms of a bracket share with those above.
func (f *fraction) reduce() {
	f.divide()
	f.cancel()
	f.share()
}

// divide takes out the brackets below that the upper side is a multiple of.
func (f *fraction) divide() {
	for i := 0; i < len(f.under); i++ {
		if q, exact := f.over.over(f.under[i]); exact {
			f.over, f.under = q, slices.Delete(slices.Clone(f.under), i, i+1)
			i--
		}
	}
}

// cancel moves the factors of one term below up, and leaves below what the terms
// above then would be divided by.
//
// (a/b + c)/d is (a + b·c)/(b·d): no fraction is left within a fraction.
func (f *fraction) cancel() {
	var under []sum
	for _, u := range f.under {
		if len(u) != 1 {
			under = append(under, u)
			continue
		}
		over := f.over.by(u[0].inv())
		below := over.divisors().inv()
		if over = over.by(below); over.lost() {
			under = append(under, u)
			continue
		}
		if f.over = over; !below.isOne() {
			under = append(under, sum{below})
		}
	}
	f.under = under
}

// divisors is the product of the lowest negative power of each factor that the
// terms of a sum have.
func (s sum) divisors() term {
	out := number(1, 1)
	for _, t := range s {
		for _, f := range t.factors {
			if f.exp.Num() >= 0 {
				continue
			}
			if i := out.find(f.key); i < 0 {
				out.factors = append(out.factors, f)
			} else if f.exp.Float() < out.factors[i].exp.Float() {
				out.factors[i].exp = f.exp
			}
		}
	}
	return out
}

// share takes out what every term above and every term of a bracket below have
// in common.
func (f *fraction) share() {
	for i, u := range f.under {
		if len(u) < 2 || len(f.over) == 0 {
			continue
		}
		inv := f.over.content().common(u.content()).inv()
		if over, under := f.over.by(inv), u.by(inv); !over.lost() && !under.lost() {
			f.over, f.under[i] = over, under
		}
	}
}

// expr is the tree of a fraction, numbers without fractions in it.
func (f fraction) expr() syntax.Expr {
	d := big.NewInt(1) // what the numbers above have below
	for _, t := range f.over {
		g := new(big.Int).GCD(nil, nil, d, t.coef.Denom())
		d.Mul(d, new(big.Int).Quo(t.coef.Denom(), g))
	}
	over := f.over.by(term{coef: new(big.Rat).SetInt(d)})
	top := sumExpr(over)
	var bottom syntax.Expr
	if d.Cmp(big.NewInt(1)) != 0 {
		bottom = numberExpr(new(big.Rat).SetInt(d))
	}
	for _, u := range f.under {
		x := sumExpr(u)
		if len(u) > 1 {
			x = &syntax.Paren{X: x}
		}
		bottom = times(bottom, x)
	}
	if bottom == nil {
		return top
	}
	if len(over) > 1 {
		top = &syntax.Paren{X: top}
	}
	return &syntax.Binary{Op: syntax.Div, X: top, Y: group(bottom)}
}
