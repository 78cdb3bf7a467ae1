package referee

import (
	"fmt"
	"math"
	"math/big"
)

// prec is how many bits the referee's numbers have.
const prec = 200

// between is a closed interval that holds a number. Its ends are never changed once
// they are set, so that intervals may share them.
type between struct{ lo, hi *big.Float }

func down() *big.Float { return new(big.Float).SetPrec(prec).SetMode(big.ToNegativeInf) }
func up() *big.Float   { return new(big.Float).SetPrec(prec).SetMode(big.ToPositiveInf) }

func exactly(x *big.Rat) between        { return between{down().SetRat(x), up().SetRat(x)} }
func float(x float64) between           { return between{down().SetFloat64(x), up().SetFloat64(x)} }
func whole(n int64) between             { return between{down().SetInt64(n), up().SetInt64(n)} }
func hull(a, b between) between         { return between{least(a.lo, b.lo), most(a.hi, b.hi)} }
func (a between) neg() between          { return between{down().Neg(a.hi), up().Neg(a.lo)} }
func (a between) add(b between) between { return between{down().Add(a.lo, b.lo), up().Add(a.hi, b.hi)} }
func (a between) sub(b between) between { return between{down().Sub(a.lo, b.hi), up().Sub(a.hi, b.lo)} }

func least(a, b *big.Float) *big.Float {
	if a.Cmp(b) <= 0 {
		return a
	}
	return b
}

func most(a, b *big.Float) *big.Float {
	if a.Cmp(b) >= 0 {
		return a
	}
	return b
}

// mul multiplies the ends that the signs tell are the outermost, or all of them where a
// factor may have either sign.
func (a between) mul(b between) between {
	switch x, y := a.sign(), b.sign(); {
	case x > 0 && y > 0:
		return between{down().Mul(a.lo, b.lo), up().Mul(a.hi, b.hi)}
	case x < 0 && y != 0:
		return a.neg().mul(b).neg()
	case x > 0 && y < 0:
		return b.mul(a)
	}
	var out between
	for i, x := range [2]*big.Float{a.lo, a.hi} {
		for k, y := range [2]*big.Float{b.lo, b.hi} {
			lo, hi := down().Mul(x, y), up().Mul(x, y)
			if i == 0 && k == 0 {
				out = between{lo, hi}
				continue
			}
			out = between{least(out.lo, lo), most(out.hi, hi)}
		}
	}
	return out
}

// div has no answer where the divisor may be 0.
func (a between) div(b between) (between, bool) {
	if b.holdsZero() {
		return between{}, false
	}
	inverse := between{down().Quo(big.NewFloat(1), b.hi), up().Quo(big.NewFloat(1), b.lo)}
	return a.mul(inverse), true
}

// sign is that of every number in the interval, or 0.
func (a between) sign() int {
	switch {
	case a.lo.Sign() > 0:
		return 1
	case a.hi.Sign() < 0:
		return -1
	}
	return 0
}

func (a between) holdsZero() bool { return a.sign() == 0 }

func (a between) holds(x *big.Float) bool { return a.lo.Cmp(x) <= 0 && a.hi.Cmp(x) >= 0 }

func (a between) meets(b between) bool { return a.lo.Cmp(b.hi) <= 0 && b.lo.Cmp(a.hi) <= 0 }

// isZero tells whether the number is 0, as far as 200 bits tell: no page is built
// with a number so small beside its terms.
func (a between) isZero() bool { return a.holdsZero() && a.size() < 1e-40 }

// size is the greatest absolute value in it.
func (a between) size() float64 {
	lo, hi := a.float()
	return math.Max(math.Abs(lo), math.Abs(hi))
}

func (a between) float() (lo, hi float64) {
	lo, _ = a.lo.Float64()
	hi, _ = a.hi.Float64()
	return lo, hi
}

func (a between) mid() float64 {
	lo, hi := a.float()
	return lo/2 + hi/2
}

func (a between) middle() between {
	m := new(big.Float).SetPrec(prec).Add(a.lo, a.hi)
	m.Quo(m, big.NewFloat(2))
	return between{m, m}
}

// wider moves both ends out by a distance.
func (a between) wider(by float64) between {
	return between{down().Sub(a.lo, big.NewFloat(by)), up().Add(a.hi, big.NewFloat(by))}
}

// loosened allows for the rounding of numbers of 53 bits, as a part.
func (a between) loosened(part float64) between {
	by := new(big.Float).SetPrec(prec).Abs(a.lo)
	if other := new(big.Float).SetPrec(prec).Abs(a.hi); other.Cmp(by) > 0 {
		by = other
	}
	by.Mul(by, big.NewFloat(part))
	return between{down().Sub(a.lo, by), up().Add(a.hi, by)}
}

func (a between) abs() between {
	switch a.sign() {
	case 1:
		return a
	case -1:
		return a.neg()
	}
	return between{down(), most(a.hi, up().Neg(a.lo))}
}

func (a between) sqrt() (between, bool) {
	if a.lo.Sign() < 0 {
		return between{}, false
	}
	return between{rootOf(a.lo, down()), rootOf(a.hi, up())}, true
}

// rootOf is the square root with a bit more room than its rounding takes.
func rootOf(x, into *big.Float) *big.Float {
	wide := new(big.Float).SetPrec(prec + 64).Set(x)
	wide.Sqrt(wide)
	out := outward(wide, prec+32)
	if into.Mode() == big.ToNegativeInf {
		return out.lo
	}
	return out.hi
}

// outward is the interval round a number that is right to so many bits.
func outward(x *big.Float, bits int) between {
	by := new(big.Float).SetPrec(prec).Abs(x)
	by.SetMantExp(by, -bits)
	return between{down().Sub(x, by), up().Add(x, by)}
}

func (a between) min(b between) between { return between{least(a.lo, b.lo), least(a.hi, b.hi)} }
func (a between) max(b between) between { return between{most(a.lo, b.lo), most(a.hi, b.hi)} }

// rising is the interval of a function that rises throughout.
func (a between) rising(f func(*big.Float) between) between {
	lo := f(a.lo)
	if a.lo == a.hi || a.lo.Cmp(a.hi) == 0 {
		return lo
	}
	return between{lo.lo, f(a.hi).hi}
}

// whole powers by squaring, kept tight for even ones.
func (a between) power(n int) (between, bool) {
	if n < 0 {
		p, ok := a.power(-n)
		if !ok {
			return p, false
		}
		return whole(1).div(p)
	}
	if n%2 == 0 {
		a = a.abs()
	}
	out := whole(1)
	for range n {
		out = out.mul(a)
	}
	return out, true
}

// beyond tells whether the number is too large or too small for 53 bits and their
// exponent.
func (a between) beyond() bool {
	size := a.abs().hi
	return size.Sign() != 0 && (size.MantExp(nil) > 1020 || size.MantExp(nil) < -1020)
}

// text is the number for a message.
func (a between) text() string {
	if a.beyond() {
		return fmt.Sprintf("about 2^%d", a.hi.MantExp(nil))
	}
	return a.middle().lo.Text('g', 12)
}
func (a between) width() float64 {
	w, _ := up().Sub(a.hi, a.lo).Float64()
	return w
}
