package algebra

import (
	"math/big"
	"strings"

	"steelyard/lang/syntax"
)

// ratio is a fraction of a sum over a product of sums.
type ratio struct {
	over  sum
	under []sum
}

const (
	// maxRatio is the most terms of the upper side of a fraction, and maxUnder
	// the most factors of the lower one.
	maxRatio = 48
	maxUnder = 8
)

// OneFraction writes an expression as one fraction without fractions in it, with
// what both sides share taken out; false if that makes it no shorter.
func OneFraction(x syntax.Expr) (syntax.Expr, bool) {
	n := normalizer{}
	r, ok := n.ratio(x)
	if !ok {
		return nil, false
	}
	for i := 0; i < len(r.under); i++ {
		if q, exact := divide(r.over, r.under[i]); exact {
			r.over = q
			r.under = append(r.under[:i:i], r.under[i+1:]...)
			i--
		}
	}
	r.cancel()
	r.share()
	var bottom syntax.Expr
	if d := r.clear(); d.Cmp(big.NewInt(1)) != 0 {
		bottom = numberExpr(new(big.Rat).SetInt(d))
	}
	out := sumExpr(r.over)
	for _, u := range r.under {
		f := sumExpr(u)
		if len(u) > 1 {
			f = &syntax.Paren{X: f}
		}
		bottom = times(bottom, f)
	}
	if bottom != nil {
		top := out
		if len(r.over) > 1 {
			top = &syntax.Paren{X: out}
		}
		out = &syntax.Binary{Op: syntax.Div, X: top, Y: group(bottom)}
	}
	out = Arrange(out, x)
	now, was := syntax.PrintExpr(out), syntax.PrintExpr(x)
	plainer := len(now) < len(was) || len(now) <= len(was)+2 && strings.Count(now, "/") < strings.Count(was, "/")
	return out, plainer && alike(out, x)
}

// ratio brings an expression into one fraction.
func (n normalizer) ratio(x syntax.Expr) (ratio, bool) {
	switch x := x.(type) {
	case *syntax.Paren:
		return n.ratio(x.X)
	case *syntax.Unary:
		r, ok := n.ratio(x.X)
		if x.Op == syntax.Sub {
			r.over = negate(r.over)
		}
		return r, ok
	case *syntax.Binary:
		if x.Op != syntax.Pow {
			return n.ratioOf(x)
		}
	}
	s, ok := n.sum(x)
	return ratio{over: s}, ok
}

// ratioOf joins the fractions of both operands.
func (n normalizer) ratioOf(x *syntax.Binary) (ratio, bool) {
	a, ok1 := n.ratio(x.X)
	b, ok2 := n.ratio(x.Y)
	if !ok1 || !ok2 {
		return ratio{}, false
	}
	switch x.Op {
	case syntax.Mul:
		over, ok := spread(a.over, b.over)
		return ratio{over, append(append([]sum{}, a.under...), b.under...)}.checked(ok)
	case syntax.Div:
		if len(b.over) == 0 {
			return ratio{}, false
		}
		over := a.over
		ok := true
		for _, u := range b.under {
			var good bool
			over, good = spread(over, u)
			ok = ok && good
		}
		return ratio{over, append(append([]sum{}, a.under...), b.over)}.checked(ok)
	}
	if x.Op == syntax.Sub {
		b.over = negate(b.over)
	}
	return joined(a, b)
}

// joined adds two fractions over the factors of both, those they share once.
func joined(a, b ratio) (ratio, bool) {
	under := append([]sum{}, a.under...)
	left := append([]sum{}, a.under...) // not met in b yet
	ok := true
	for _, u := range b.under {
		found := false
		for i, o := range left {
			if same(u, o) {
				left = append(left[:i:i], left[i+1:]...)
				found = true
				break
			}
		}
		if !found { // what b has and a lacks
			var good bool
			a.over, good = spread(a.over, u)
			under = append(under, u)
			ok = ok && good
		}
	}
	for _, u := range left { // what a has and b lacks
		var good bool
		b.over, good = spread(b.over, u)
		ok = ok && good
	}
	return ratio{collect(append(append(sum{}, a.over...), b.over...)), under}.checked(ok)
}

func (r ratio) checked(ok bool) (ratio, bool) {
	return r, ok && len(r.over) <= maxRatio && len(r.under) <= maxUnder
}

// same tells whether two sums are equal.
func same(a, b sum) bool {
	return len(collect(append(append(sum{}, a...), negate(b)...))) == 0
}

// divide divides a sum by another exactly; false if it does not go without a
// remainder.
func divide(a, b sum) (sum, bool) {
	a, b = collect(a), collect(b)
	if len(b) == 0 {
		return nil, false
	}
	if len(b) == 1 {
		inv, ok := b[0].inv()
		if !ok {
			return nil, false
		}
		out, ok := spread(a, sum{inv})
		return out, ok && whole0(out)
	}
	var out sum
	lead := leading(b)
	inv, ok := lead.inv()
	if !ok {
		return nil, false
	}
	for range maxRatio {
		if len(a) == 0 {
			return collect(out), true
		}
		q, ok := leading(a).mul(inv)
		if !ok || !whole0(sum{q}) {
			return nil, false
		}
		part, ok := spread(b, sum{q})
		if !ok {
			return nil, false
		}
		out = append(out, q)
		a = collect(append(append(sum{}, a...), negate(part)...))
	}
	return nil, false
}

// whole0 tells whether no factor of a sum has a negative exponent.
func whole0(s sum) bool {
	for _, t := range s {
		for _, f := range t.factors {
			if f.exp.Num() < 0 {
				return false
			}
		}
	}
	return true
}

// leading is the first term of a sum in an order that multiplication keeps: that
// of the exponents of its factors, the factors in the order of their keys.
func leading(s sum) term {
	keys := map[string]bool{}
	for _, t := range s {
		for _, f := range t.factors {
			keys[f.key] = true
		}
	}
	best := s[0]
	for _, t := range s[1:] {
		if before(t, best, keys) {
			best = t
		}
	}
	return best
}

// before tells whether a term comes before another.
func before(a, b term, keys map[string]bool) bool {
	at, difference := "", 0.0
	for k := range keys {
		if d := exponentOf(a, k) - exponentOf(b, k); d != 0 && (at == "" || k < at) {
			at, difference = k, d
		}
	}
	return difference > 0
}

func exponentOf(t term, key string) float64 {
	for _, f := range t.factors {
		if f.key == key {
			return f.exp.Float()
		}
	}
	return 0
}

// cancel takes out what all terms above and a factor below share, and the signs
// and numbers that a factor of one term below has.
func (r *ratio) cancel() {
	for i := 0; i < len(r.under); i++ {
		u := r.under[i]
		if len(u) != 1 {
			continue
		}
		// One term: it may go up as a whole, where termExpr makes a fraction of
		// it only if it stays below.
		inv, ok := u[0].inv()
		if !ok {
			continue
		}
		over, ok := spread(r.over, sum{inv})
		if !ok {
			continue
		}
		if whole0(over) {
			r.over = over
			r.under = append(r.under[:i:i], r.under[i+1:]...)
			i--
			continue
		}
		common := shared(over)
		if len(common.factors) == 0 {
			continue
		}
		up, ok1 := common.inv()
		rest, ok2 := spread(over, sum{up})
		if ok1 && ok2 {
			r.over, r.under[i] = rest, sum{up}
		}
	}
}

// shared is the product of the negative powers that the terms of a sum need
// below: the lowest of each.
func shared(s sum) term {
	low := map[string]factor{}
	for _, t := range s {
		for _, f := range t.factors {
			if o, ok := low[f.key]; f.exp.Num() < 0 && (!ok || f.exp.Float() < o.exp.Float()) {
				low[f.key] = f
			}
		}
	}
	out := term{coef: big.NewRat(1, 1)}
	for _, t := range s {
		for _, f := range t.factors {
			if o, ok := low[f.key]; ok {
				out.factors = append(out.factors, o)
				delete(low, f.key)
			}
		}
	}
	return out
}

// clear multiplies the upper side by what its numbers have below, and returns
// that.
func (r *ratio) clear() *big.Int {
	d := big.NewInt(1)
	for _, t := range r.over {
		g := new(big.Int).GCD(nil, nil, d, t.coef.Denom())
		d.Mul(d, new(big.Int).Quo(t.coef.Denom(), g))
	}
	by := new(big.Rat).SetInt(d)
	over := make(sum, len(r.over))
	for i, t := range r.over {
		over[i] = term{coef: new(big.Rat).Mul(t.coef, by), factors: t.factors}
	}
	r.over = over
	return d
}

// share takes out what every term above and every term of a factor below have in
// common: numbers and whole powers.
func (r *ratio) share() {
	for i, u := range r.under {
		if len(u) < 2 || len(r.over) == 0 {
			continue
		}
		a, b := content(r.over), content(u)
		common := term{coef: ratGCD(a.coef, b.coef)}
		for _, f := range a.factors {
			for _, g := range b.factors {
				if f.key == g.key {
					if g.exp.Float() < f.exp.Float() {
						f.exp = g.exp
					}
					common.factors = append(common.factors, f)
				}
			}
		}
		inv, ok := common.inv()
		if !ok {
			continue
		}
		over, ok1 := spread(r.over, sum{inv})
		under, ok2 := spread(u, sum{inv})
		if ok1 && ok2 {
			r.over, r.under[i] = over, under
		}
	}
}

// content is what all terms of a sum have in common.
func content(s sum) term {
	out := term{coef: new(big.Rat).Abs(s[0].coef)}
	for _, f := range s[0].factors {
		if f.exp.Num() > 0 && f.exp.IsInt() {
			out.factors = append(out.factors, f)
		}
	}
	for _, t := range s[1:] {
		out.coef = ratGCD(out.coef, t.coef)
		var kept []factor
		for _, f := range out.factors {
			for _, g := range t.factors {
				if g.key == f.key && g.exp.Num() > 0 && g.exp.IsInt() {
					if g.exp.Float() < f.exp.Float() {
						f.exp = g.exp
					}
					kept = append(kept, f)
				}
			}
		}
		out.factors = kept
	}
	return out
}

// ratGCD is the greatest number of which both are whole multiples.
func ratGCD(a, b *big.Rat) *big.Rat {
	num := new(big.Int).GCD(nil, nil, new(big.Int).Abs(new(big.Int).Mul(a.Num(), b.Denom())), new(big.Int).Abs(new(big.Int).Mul(b.Num(), a.Denom())))
	if num.Sign() == 0 {
		return big.NewRat(1, 1)
	}
	return new(big.Rat).SetFrac(num, new(big.Int).Mul(a.Denom(), b.Denom()))
}
