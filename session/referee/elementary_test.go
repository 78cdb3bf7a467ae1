package referee

import (
	"math"
	"math/big"
	"sync"
)

// The elementary functions of one number are worked out with work bits, by series
// whose remainder lies far below 2^-good, and rounded outward from there.
const (
	work = 320
	good = 260
)

func wide(x float64) *big.Float             { return new(big.Float).SetPrec(work).SetFloat64(x) }
func widen(x *big.Float) *big.Float         { return new(big.Float).SetPrec(work).Set(x) }
func times(a, b *big.Float) *big.Float      { return new(big.Float).SetPrec(work).Mul(a, b) }
func plus(a, b *big.Float) *big.Float       { return new(big.Float).SetPrec(work).Add(a, b) }
func less(a, b *big.Float) *big.Float       { return new(big.Float).SetPrec(work).Sub(a, b) }
func over(a, b *big.Float) *big.Float       { return new(big.Float).SetPrec(work).Quo(a, b) }
func scaled(a *big.Float, n int) *big.Float { return new(big.Float).SetPrec(work).SetMantExp(a, n) }

// arctanInverse is arctan(1/n) by its series.
func arctanInverse(n int64) *big.Float {
	sum, term := wide(0), over(wide(1), wide(float64(n)))
	square := wide(float64(n * n))
	for k := 0; k < 500; k++ {
		part := over(term, wide(float64(2*k+1)))
		if k%2 == 1 {
			part.Neg(part)
		}
		sum = plus(sum, part)
		term = over(term, square)
	}
	return sum
}

// pi is π by Machin's formula, π/4 = 4 arctan(1/5) - arctan(1/239).
var pi = sync.OnceValue(func() *big.Float {
	return times(wide(4), less(times(wide(4), arctanInverse(5)), arctanInverse(239)))
})

// ln2 is 2 artanh(1/3).
var ln2 = sync.OnceValue(func() *big.Float {
	sum, term := wide(0), over(wide(2), wide(3))
	for k := 0; k < 200; k++ {
		sum = plus(sum, over(term, wide(float64(2*k+1))))
		term = over(term, wide(9))
	}
	return sum
})

var piBetween = sync.OnceValue(func() between { return outward(pi(), good) })

// factorials are 1/n!, as many as a series of work bits may need.
var factorials = sync.OnceValue(func() []*big.Float {
	all := []*big.Float{wide(1)}
	for n := 1; n < 72; n++ {
		all = append(all, over(all[n-1], wide(float64(n))))
	}
	return all
})

// powers sums the terms x^k/n! for every n that is first, first + step, …, with x^k for
// the k-th of them and the sign of x. Terms below 2^-work of the first are left out.
// Two numbers hold what is added up in turn, so that nothing is made anew for each term.
func powers(x *big.Float, first, step int) *big.Float {
	count, size := 1, x.MantExp(nil) // |x| < 2^size
	for n := first; x.Sign() != 0 && n+step < len(factorials()); n += step {
		if size*count+factorials()[n].MantExp(nil) < -work {
			break
		}
		count++
	}
	sum, product := wide(0), wide(0)
	for k := count - 1; k >= 0; k-- {
		sum.Add(factorials()[first+k*step], product)
		if k > 0 {
			product.Mul(sum, x)
		}
	}
	return sum
}

// expOf is e to a power. Beyond ±1e6 it is not asked for.
func expOf(x *big.Float) *big.Float {
	f, _ := x.Float64()
	if f < -1e6 {
		return wide(0)
	}
	k := math.Round(f / math.Ln2)
	r := scaled(less(widen(x), times(wide(k), ln2())), -8)
	sum, square := powers(r, 0, 1), wide(0)
	for range 8 {
		square.Mul(sum, sum)
		sum, square = square, sum
	}
	return scaled(sum, int(k))
}

// lnOf is the natural logarithm, by Halley's method on expOf: each step has three times
// the right bits of the one before.
func lnOf(x *big.Float) *big.Float {
	mant := new(big.Float).SetPrec(work)
	exp := x.MantExp(mant)
	f, _ := mant.Float64()
	y := wide(math.Log(f))
	for range 2 {
		e := expOf(y)
		// y + 2 (m - e)/(m + e)
		y = plus(y, over(scaled(less(mant, e), 1), plus(mant, e)))
	}
	return plus(y, times(wide(float64(exp)), ln2()))
}

// sinCos are sine and cosine of an angle below 10^12.
func sinCos(x *big.Float) (sin, cos *big.Float) {
	r, quarter := reduced(x)
	square := times(r, r)
	square.Neg(square)
	s, c := times(powers(square, 1, 2), r), powers(square, 0, 2)
	switch quarter {
	case 1:
		return c, s.Neg(s)
	case 2:
		return s.Neg(s), c.Neg(c)
	case 3:
		return c.Neg(c), s
	}
	return s, c
}

// sinOf is the sine alone.
func sinOf(x *big.Float) *big.Float {
	r, quarter := reduced(x)
	square := times(r, r)
	square.Neg(square)
	var s *big.Float
	if quarter%2 == 0 {
		s = times(powers(square, 1, 2), r)
	} else {
		s = powers(square, 0, 2)
	}
	if quarter >= 2 {
		s.Neg(s)
	}
	return s
}

// reduced is what is left of an angle beside the nearest of four quarter turns.
func reduced(x *big.Float) (r *big.Float, quarter int) {
	f, _ := x.Float64()
	k := math.Round(f / (math.Pi / 2))
	return less(widen(x), times(wide(k), scaled(pi(), -1))), int(math.Mod(math.Mod(k, 4)+4, 4))
}

// atanOf is the arc tangent, by the tangent of what it is off by: each step has three
// times the right bits of the one before.
func atanOf(x *big.Float) *big.Float {
	f, _ := x.Float64()
	y := wide(math.Atan(f))
	for range 2 {
		s, c := sinCos(y)
		y = less(y, over(less(s, times(widen(x), c)), plus(c, times(widen(x), s))))
	}
	return y
}

// near rounds a result of the series outward, with an absolute bound too: a sine
// close to 0 has lost digits in the reduction of its angle.
func near(x *big.Float) between {
	by := new(big.Float).SetPrec(prec).SetMantExp(big.NewFloat(1), -good+20)
	out := outward(x, good-20)
	return between{down().Sub(out.lo, by), up().Add(out.hi, by)}
}

func (a between) exp() between {
	return a.rising(func(x *big.Float) between {
		e := expOf(x)
		if e.Sign() == 0 { // far below what a number of 53 bits can be
			return between{down(), up().SetMantExp(big.NewFloat(1), -1e6)}
		}
		return outward(e, good-20)
	})
}

func (a between) ln() (between, bool) {
	if a.lo.Sign() <= 0 {
		return between{}, false
	}
	return a.rising(func(x *big.Float) between { return near(lnOf(x)) }), true
}

func (a between) atan() between {
	return a.rising(func(x *big.Float) between { return near(atanOf(x)) })
}

// asin is atan(x/√(1 - x²)), and ±π/2 at the ends.
func (a between) asin() (between, bool) {
	one := whole(1)
	if a.hi.Cmp(big.NewFloat(1)) > 0 || a.lo.Cmp(big.NewFloat(-1)) < 0 {
		// What rounding outward puts past the end is the end.
		if a.lo.Cmp(one.wider(1e-40).hi) > 0 || a.hi.Cmp(one.neg().wider(1e-40).lo) < 0 {
			return between{}, false
		}
		a = a.max(one.neg()).min(one)
	}
	return a.rising(func(x *big.Float) between {
		p := between{x, x}
		rest, ok := one.sub(p.mul(p)).max(whole(0)).sqrt()
		if !ok || rest.holdsZero() {
			half := outward(scaled(pi(), -1), good-20)
			if x.Sign() < 0 {
				return half.neg()
			}
			return half
		}
		q, _ := p.div(rest)
		return q.atan()
	}), true
}

// sin over an interval: its ends, and ±1 where a crest or a trough lies between.
func (a between) sin() between {
	width := up().Sub(a.hi, a.lo)
	if w, _ := width.Float64(); w > 6.2 {
		return between{whole(-1).lo, whole(1).hi}
	}
	at := func(x *big.Float) between { return near(sinOf(x)) }
	out := hull(at(a.lo), at(a.hi))
	if a.lo.Cmp(a.hi) == 0 {
		return out
	}
	// Quarter turns from -π/2: a crest where one is passed.
	quarters := func(x *big.Float) float64 {
		q, _ := over(plus(widen(x), scaled(pi(), -1)), pi()).Float64()
		return q
	}
	first, last := math.Ceil(quarters(a.lo)-1e-12), math.Floor(quarters(a.hi)+1e-12)
	for k := first; k <= last; k++ {
		if math.Mod(math.Abs(k), 2) == 1 {
			out.hi = whole(1).hi
		} else {
			out.lo = whole(-1).lo
		}
	}
	return out
}

func (a between) cos() between {
	return a.add(outward(scaled(pi(), -1), good)).sin()
}

// rational powers of a positive number, by exp and ln; 0 to a positive one is 0.
func (a between) rational(p *big.Rat) (between, bool) {
	if p.IsInt() && p.Num().IsInt64() && p.Num().Int64() < 64 && p.Num().Int64() > -64 {
		return a.power(int(p.Num().Int64()))
	}
	if p.Cmp(big.NewRat(1, 2)) == 0 {
		return a.sqrt()
	}
	odd := p.Denom().Bit(0) == 1
	if a.sign() < 0 && odd {
		out, ok := a.neg().rational(p)
		if p.Num().Bit(0) == 1 {
			out = out.neg()
		}
		return out, ok
	}
	if a.lo.Sign() == 0 && a.hi.Sign() == 0 && p.Sign() > 0 {
		return whole(0), true
	}
	if l, ok := a.ln(); ok {
		return l.mul(exactly(p)).exp(), true
	}
	if p.Sign() > 0 && (a.lo.Sign() == 0 || odd) {
		top, ok := between{a.hi, a.hi}.abs().max(a.neg().max(whole(0))).rational(p)
		if !ok {
			return top, false
		}
		if a.lo.Sign() == 0 || p.Num().Bit(0) == 0 {
			return between{down(), top.hi}, true
		}
		return between{top.neg().lo, top.hi}, true
	}
	return between{}, false
}
