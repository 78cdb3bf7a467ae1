package algebra

import (
	"maps"
	"math/big"
	"slices"
)

// raise is a base to an exponent that holds the unknown.
//
// Prime factors are kept apart, since only then is it plain that 6^x, 2^x and 3^x
// belong together, and 4^x is the square of 2^x.
type raise struct {
	base string
	to   int // which of the exponents
}

// rates are by how many times an exponent each base is raised: 6^(2·x) is 2 to the x
// by 2 and 3 to the x by 2, exp(-x) is e to the x by -1.
type rates map[raise]*big.Rat

// growth is an exponential: what does not hold the unknown, times bases to a power.
//
// Multiplied, the rates of two of them add up, and so do those of a power: this is why
// exponents are rates, and not trees.
type growth struct {
	coef sum
	by   rates
}

// Rates of 0 are dropped, so that rates without any base are those of a plain number.
func (r rates) add(base raise, by *big.Rat, sign int64) {
	at, some := r[base]
	if !some {
		at = new(big.Rat)
	}
	at = new(big.Rat).Add(at, new(big.Rat).Mul(by, big.NewRat(sign, 1)))
	if r[base] = at; at.Sign() == 0 {
		delete(r, base)
	}
}

// minus is how much more often each base is raised.
func (r rates) minus(o rates) rates {
	out := maps.Clone(r)
	if out == nil {
		out = rates{}
	}
	for base, by := range o {
		out.add(base, by, -1)
	}
	return out
}

// over is how many times other rates these are.
//
// All bases must agree on one factor: 2^(2·x)·3^(2·x) is twice 2^x·3^x, and
// 2^(2·x)·3^x is no multiple of it.
func (r rates) over(o rates) (*big.Rat, bool) {
	times := new(big.Rat)
	for base, by := range o {
		if mine, some := r[base]; some {
			times.Quo(mine, by)
		}
		break
	}
	for base := range o {
		if _, some := r[base]; !some && times.Sign() != 0 {
			return nil, false
		}
	}
	for base, by := range r {
		if of, some := o[base]; !some || new(big.Rat).Mul(of, times).Cmp(by) != 0 {
			return nil, false
		}
	}
	return times, true
}

// raised is a power of an exponential.
func (g growth) raised(f factor) []growth {
	out := growth{normalizer{}.raised(g.coef, f.exp), rates{}}
	for base, by := range g.by {
		out.by.add(base, new(big.Rat).Mul(by, expRat(f.exp)), 1)
	}
	return []growth{out}
}

// product multiplies sums of exponentials out.
//
// As for sums, there is a bound on the terms: a product of long sums takes more time
// than a search for the root.
func product(a, b []growth) (out []growth) {
	for _, x := range a {
		for _, y := range b {
			if len(out) > maxTerms {
				return []growth{{coef: sum{lost}}}
			}
			out = append(out, growth{x.coef.times(y.coef), x.by.minus(rates{}.minus(y.by))})
		}
	}
	return out
}

// common finds rates of which those of all exponentials, of which one has some, are
// whole multiples, but for some that all share, and the multiples.
//
// 2^x = 3·5^x has two bases that are no powers of one. Divided by 2^x it is 1 =
// 3·(5/2)^x, with one base: an exponential is never 0, so that this loses and adds no
// root.
func common(all []growth) (step rates, powers []int64, ok bool) {
	var shared rates
	times := make([]*big.Rat, len(all))
	first := slices.IndexFunc(all, func(g growth) bool { return len(g.by) > 0 })
	step = all[first].by
	if !multiples(all, shared, step, times) {
		// Not powers of one: what the first has is divided by.
		other := slices.IndexFunc(all, func(g growth) bool { return len(g.by.minus(all[0].by)) > 0 })
		if other < 0 {
			return nil, nil, false
		}
		shared = all[0].by
		step = all[other].by.minus(shared)
		if !multiples(all, shared, step, times) {
			return nil, nil, false
		}
	}
	unit, powers, ok := wholeTimes(times, maxMultiple)
	if !ok {
		return nil, nil, false
	}
	scaled := rates{}
	for base, by := range step {
		scaled.add(base, new(big.Rat).Mul(by, unit), 1)
	}
	return scaled, powers, true
}

// multiples tells whether the rates of all, less those shared, are multiples of a step.
func multiples(all []growth, shared, step rates, times []*big.Rat) (ok bool) {
	for i, g := range all {
		if times[i], ok = g.by.minus(shared).over(step); !ok {
			return false
		}
	}
	return true
}
