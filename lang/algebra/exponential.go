package algebra

import (
	"cmp"
	"maps"
	"math/big"
	"slices"

	"steelyard/lang/syntax"
	"steelyard/units"
)

const (
	// maxMultiple bounds how many times one exponent another may be.
	maxMultiple = 6
	// maxPrime bounds the prime factors of a base; one with greater ones is taken
	// as a whole.
	maxPrime = 1000
)

// euler is the base of exp among others.
const euler = "e"

// exponents are exponents of which none is a multiple of another, with the bases that
// are raised to them.
//
// t/τ and 2·t/τ are one exponent, by 1 and by 2; t/τ and t/T are two, for all that is
// known. Which exponent comes first in the line is the measure of those that follow.
type exponents struct {
	*isolator
	of    []sum
	bases map[string]syntax.Expr
}

// exponential writes exponentials of multiples of one argument, and hyperbolic
// functions of it, as powers of one exponential: by e, by the prime factors of written
// bases, else by the bases themselves.
//
// 2^(x+1) + 4^x = 3 is 2·A + A² = 3 with A for 2^x: once all exponentials are powers
// of one, the equation is one in powers of a thing, which the other rules solve, and a
// logarithm undoes A in the end.
//
// The work is done on exact numbers. Bases that are multiples of each other by chance
// of rounding would make an equation of another degree, with roots that do not exist.
func (s *isolator) exponential(eq sum, kinds []factor, depth int) ([]root, bool) {
	e := &exponents{isolator: s, bases: map[string]syntax.Expr{}}
	var all []growth
	for _, t := range eq {
		one, ok := e.term(t, kinds)
		if !ok {
			return nil, false
		}
		all = append(all, one...)
	}
	if !slices.ContainsFunc(all, func(g growth) bool { return len(g.by) > 0 }) {
		eq = nil // they cancel
		for _, g := range all {
			eq = eq.plus(g.coef)
		}
		return s.collected(eq, depth+1)
	}
	step, powers, ok := common(all)
	if !ok {
		return nil, false
	}
	one, ok := e.power(step)
	if !ok {
		return nil, false
	}
	eq = nil
	for i, g := range all {
		with := g.coef
		if powers[i] != 0 {
			with = with.by(factorTerm(factor{one.key, one.base, units.NewExp(int(powers[i]), 1)}))
		}
		eq = append(eq, with...)
	}
	eq = collect(eq)
	return s.onward(eq.by(eq.below(one)), depth, oneExponential)
}

// term is a term as a sum of exponentials; false if the unknown is left in it.
//
// A power of several exponentials, as cosh(x)², is multiplied out up to maxPower; a
// power of one of them needs no multiplying, and may be a fraction or negative.
func (e *exponents) term(t term, kinds []factor) ([]growth, bool) {
	out := []growth{{coef: sum{{coef: t.coef}}, by: rates{}}}
	for _, f := range t.factors {
		var one []growth
		switch times := f.exp.Num(); {
		case !e.holds(f.base):
			one = []growth{{coef: sum{factorTerm(f)}}}
		case !slices.ContainsFunc(kinds, func(k factor) bool { return k.key == f.key }):
			return nil, false
		default:
			once, ok := e.growths(f.base)
			one = once
			switch {
			case !ok:
				return nil, false
			case len(once) == 1:
				one = once[0].raised(f)
			case f.exp.IsInt() && times > 0 && times <= maxPower:
				for range times - 1 {
					one = product(one, once)
				}
			default:
				return nil, false
			}
		}
		out = product(out, one)
	}
	return out, true
}

// growths are the exponentials that a power or a function is a sum of.
//
// sinh and cosh are half the difference and half the sum of exp(x) and exp(-x), by
// which they are defined (ISO 80000-2). tanh is their quotient, and no such sum: alone
// it is undone by its inverse.
func (e *exponents) growths(x syntax.Expr) ([]growth, bool) {
	switch x := x.(type) {
	case *syntax.Call:
		if len(x.Args) != 1 {
			return nil, false
		}
		without, to, times, ok := e.multiple(x.Args[0].X)
		if !ok || len(without) > 0 && x.Func != "exp" {
			return nil, false
		}
		e.bases[euler] = call("exp", numberExpr(big.NewRat(1, 1)))
		half := func(n int64, by *big.Rat) growth { return growth{sum{number(n, 2)}, rates{{euler, to}: by}} }
		switch x.Func {
		case "exp":
			out := growth{sum{number(1, 1)}, rates{{euler, to}: times}}
			if len(without) > 0 {
				out.coef = sum{atomTerm(call("exp", sumExpr(without)))}
			}
			return []growth{out}, true
		case "sinh":
			return []growth{half(1, times), half(-1, new(big.Rat).Neg(times))}, true
		case "cosh":
			return []growth{half(1, times), half(1, new(big.Rat).Neg(times))}, true
		}
	case *syntax.Binary:
		if x.Op != syntax.Pow || e.holds(x.X) {
			return nil, false
		}
		without, to, times, ok := e.multiple(x.Y)
		if !ok {
			return nil, false
		}
		out := growth{sum{number(1, 1)}, e.factored(x.X, to, times)}
		if len(without) > 0 {
			out.coef = normalizer{}.sum(binary(syntax.Pow, x.X, sumExpr(without)))
		}
		return []growth{out}, true
	}
	return nil, false
}

// multiple is how many times which of the exponents an exponent is, and what is added
// to that.
//
// What is added goes before the exponential as a coefficient: exp(k·t + 1) is
// exp(1)·exp(k·t), a multiple of what exp(k·t) is.
func (e *exponents) multiple(x syntax.Expr) (without sum, to int, times *big.Rat, ok bool) {
	without, with := e.apart(e.sum(x))
	if len(with) == 0 {
		return nil, 0, nil, false
	}
	for to, of := range e.of {
		if times, ok := with.multipleOf(of); ok {
			return without, to, times, true
		}
	}
	e.of = append(e.of, with)
	return without, len(e.of) - 1, big.NewRat(1, 1), true
}

// factored is a base to a power as its prime factors, if it is a written number or a
// root of one.
//
// A base with a name in it stays whole, since its factors are not known; so does a
// negative one, of which a power has no real value but for some exponents.
func (e *exponents) factored(base syntax.Expr, to int, times *big.Rat) rates {
	out := rates{}
	s := normalizer{}.sum(base)
	if len(s) == 1 && s[0].coef.Sign() > 0 && e.primes(out, s[0].coef, to, times) {
		ok := true
		for _, f := range s[0].factors {
			n, written := f.base.(*syntax.Number)
			ok = ok && written && e.primes(out, n.Value.Rat(), to, new(big.Rat).Mul(times, expRat(f.exp)))
		}
		if ok {
			return out
		}
	}
	key := syntax.PrintExpr(base)
	e.bases[key] = base
	return rates{{key, to}: times}
}

// primes adds the prime factors of a positive number to a power.
//
// By trial division up to maxPrime. What is left is a prime or a product of great
// ones, and is taken as one base; that two of these share a factor is missed, and then
// a search solves the line.
func (e *exponents) primes(out rates, n *big.Rat, to int, times *big.Rat) bool {
	for i, side := range [2]*big.Int{n.Num(), n.Denom()} {
		left := new(big.Int).Set(side)
		add := func(p *big.Int) { out.add(raise{e.prime(p), to}, times, int64(1-2*i)) }
		for p := big.NewInt(2); left.BitLen() > 1 && p.Cmp(big.NewInt(maxPrime)) <= 0; {
			next, rest := new(big.Int).QuoRem(left, p, new(big.Int))
			if rest.Sign() != 0 {
				p.Add(p, big.NewInt(1))
				continue
			}
			left = next
			add(p)
		}
		if left.BitLen() > 1 {
			add(left)
		}
	}
	return n.Sign() > 0
}

// prime is a whole number among the bases.
func (e *exponents) prime(n *big.Int) string {
	e.bases[n.String()] = written(n.String())
	return n.String()
}

// power is what all exponentials are powers of: one base to a power, a product of
// written ones if all are raised to the same exponent, else exp.
//
// (5/2)^x is what a reader expects of 5^x over 2^x, and exp(-t/τ) of a discharge.
// Bases are put under logarithms only where their exponents differ or e is one of
// them, as in 2^x·exp(3·x): then exp of one sum is the shortest that says it.
func (e *exponents) power(step rates) (factor, bool) {
	var exponentOf, logarithms sum
	unit := new(big.Rat)
	all := slices.SortedFunc(maps.Keys(step), func(a, b raise) int {
		return cmp.Or(cmp.Compare(a.base, b.base), cmp.Compare(a.to, b.to))
	})
	first, last := all[0], all[len(all)-1]
	alike := true // all are raised to one exponent
	for _, r := range all {
		by := step[r]
		to := e.of[r.to].by(term{coef: by})
		exponentOf = exponentOf.plus(to)
		if r.base != euler {
			to = to.by(atomTerm(call("ln", e.bases[r.base])))
		}
		logarithms = logarithms.plus(to)
		alike = alike && r.to == first.to && r.base != euler
		unit = gcdRat(unit, by)
	}
	switch {
	case first.base == last.base && first.base == euler:
		return e.called("exp", e.once(exponentOf))
	case first.base == last.base:
		return e.raised(e.bases[first.base], exponentOf), true
	case !alike:
		return e.called("exp", e.once(logarithms))
	}
	base := sum{number(1, 1)}
	for _, r := range all {
		times := new(big.Rat).Quo(step[r], unit)
		if times.Num().CmpAbs(big.NewInt(maxMultiple*maxMultiple)) > 0 {
			return factor{}, false
		}
		base = base.times(normalizer{}.power(e.bases[r.base], units.NewExp(int(times.Num().Int64()), 1)))
	}
	return e.raised(sumExpr(base), e.of[first.to].by(term{coef: unit})), !base.lost()
}

// once is an exponent with the unknown written once, if it grows in a line with that.
//
// With t·k + t·λ the unknown stands twice, and no undoing would lead to it; in (k +
// λ)·t it stands once.
func (e *exponents) once(s sum) syntax.Expr {
	by, line := e.slopeOf(s)
	if !line || len(by) < 2 {
		return sumExpr(s)
	}
	return times(closedExpr(sumExpr(by), false), &syntax.Name{Name: e.unknown})
}

// raised is a base to an exponent as a factor.
func (e *exponents) raised(base syntax.Expr, to sum) factor {
	x := &syntax.Binary{Op: syntax.Pow, X: closedExpr(base, true), Y: closedExpr(e.once(to), false)}
	return factor{syntax.PrintExpr(x), x, expOne}
}
