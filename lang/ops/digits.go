package ops

import (
	"math"
	"math/big"
)

// DigitsBits is to how many bits an operation is worked out by Digits.
const DigitsBits = 320

const (
	// mostTurned and mostGrown are the largest angle and exponent that Digits takes, and
	// leastLeft the least value that it tells of what has cancelled, all as powers of 2:
	// beyond them too few of the bits are right.
	mostTurned, mostGrown, leastLeft = 100, 17, -60
	// halved is how often the argument of a series is halved, so that it needs few terms.
	halved = 40
)

// piDigits is π to 118 decimals (mpmath 1.3, mp.pi).
var piDigits, _ = num(0).SetString("3.1415926535897932384626433832795028841971693993751058209749445923078164062862089986280348253421170679821480865132823066")

// Pi is π to DigitsBits.
func Pi() *big.Float { return num(0).Set(piDigits) }

// Digits is the value of an operation to some sixty digits, for where sixteen don't tell it
// from 0. It is nil where there is no value, and where too few digits are left.
//
// Functions are worked out by their series and by Newton's method, as in any course of
// numerical analysis (from memory).
func (op Op) Digits(a, b *big.Float, k float64) *big.Float {
	f := table[op].many
	if f == nil {
		return nil
	}
	v := f(a, b, k)
	if v == nil || v.IsInf() {
		return nil
	}
	return v
}

func num(v float64) *big.Float { return new(big.Float).SetPrec(DigitsBits).SetFloat64(v) }

func plus(a, b *big.Float) *big.Float  { return num(0).Add(a, b) }
func minus(a, b *big.Float) *big.Float { return num(0).Sub(a, b) }
func times(a, b *big.Float) *big.Float { return num(0).Mul(a, b) }

// over is nil for a divisor of 0, and for operands that are nil.
func over(a, b *big.Float) *big.Float {
	if a == nil || b == nil || b.Sign() == 0 {
		return nil
	}
	return num(0).Quo(a, b)
}

// opposite is nil for nil.
func opposite(a *big.Float) *big.Float {
	if a == nil {
		return nil
	}
	return num(0).Neg(a)
}

// kept is a value that operands of its size have left, nil where too few digits of it are.
func kept(v *big.Float) *big.Float {
	if v == nil || v.Sign() != 0 && v.MantExp(nil) < leastLeft {
		return nil
	}
	return v
}

// expDigits is the series of exp for a part of the number, squared as often.
func expDigits(a *big.Float) *big.Float {
	if a.MantExp(nil) > mostGrown {
		return nil
	}
	x, sum, term := num(0).SetMantExp(a, -halved), num(1), num(1)
	for n := 1.0; n < 16; n++ {
		term = over(times(term, x), num(n))
		sum = plus(sum, term)
	}
	for range halved {
		sum = times(sum, sum)
	}
	return sum
}

// lnDigits finds it by Newton's method, which doubles the digits with each step: 16 of a float64,
// 32, 64, and once more.
func lnDigits(a *big.Float) *big.Float {
	v, _ := a.Float64()
	if x := math.Log(v); x-x == 0 {
		x := num(x)
		for range 3 {
			x = plus(x, minus(over(a, expDigits(x)), num(1)))
		}
		return x
	}
	return nil
}

// sineAndCosine are the series for a part of the angle within a turn, doubled as often.
func sineAndCosine(a *big.Float) (sin, cos *big.Float) {
	if a.MantExp(nil) > mostTurned {
		return nil, nil
	}
	turn := times(num(2), piDigits)
	turns, _ := plus(over(a, turn), num(math.Copysign(0.5, float64(a.Sign())))).Int(nil)
	x := num(0).SetMantExp(minus(a, times(num(0).SetInt(turns), turn)), -halved)
	term := num(1)
	sin, cos = num(0), num(1)
	for n := 1; n < 10; n++ {
		if term = over(times(term, x), num(float64(n))); n%2 == 1 {
			sin = plus(sin, term)
			term = num(0).Neg(term)
		} else {
			cos = plus(cos, term)
		}
	}
	for range halved {
		sin, cos = times(num(2), times(sin, cos)), minus(times(cos, cos), times(sin, sin))
	}
	return sin, cos
}

// angleDigits is the angle of the point (x, y): the sine of what is left of it is added, which trebles
// the digits with each step.
func angleDigits(y, x *big.Float) *big.Float {
	if y == nil || x == nil {
		return nil
	}
	far := num(0).Abs(x)
	if high := num(0).Abs(y); high.Cmp(far) > 0 {
		far = high
	}
	switch {
	case far.Sign() == 0:
		return far
	case y.Sign() == 0 && x.Sign() < 0:
		return piDigits
	}
	x, y = over(x, far), over(y, far)
	near, _ := y.Float64()
	beside, _ := x.Float64()
	angle := num(math.Atan2(near, beside))
	for range 2 {
		sin, cos := sineAndCosine(angle)
		angle = plus(angle, over(minus(times(y, cos), times(x, sin)), plus(times(x, cos), times(y, sin))))
	}
	return angle
}

// beside is the other short side of a right triangle whose long side is 1.
func beside(a *big.Float) *big.Float {
	return rootDigits(times(minus(num(1), a), plus(num(1), a)), 2)
}

// powerDigits is a power, of a negative number for whole exponents alone.
func powerDigits(a, b *big.Float) *big.Float {
	n, exact := b.Int64()
	switch {
	case exact == big.Exact && n >= 0:
		out := num(1)
		for ; n > 0; n >>= 1 {
			if n&1 == 1 {
				out = times(out, a)
			}
			if a = times(a, a); a.IsInf() {
				return nil
			}
		}
		return out
	case exact == big.Exact && n > math.MinInt64:
		return over(num(1), powerDigits(a, opposite(b)))
	case a.Sign() == 0 && b.Sign() > 0:
		return num(0)
	}
	if ln := lnDigits(a); ln != nil {
		return expDigits(times(b, ln))
	}
	return nil
}

// exponentDigits is a written exponent: a fraction is held as the nearest number.
func exponentDigits(k float64) *big.Float {
	const mostUnder = 1000
	for under := 1.0; under <= mostUnder; under++ {
		if of := math.Round(k * under); of/under == k {
			return over(num(of), num(under))
		}
	}
	return num(k)
}

// rootDigits is a root of a number, below 0 for an odd one.
func rootDigits(a *big.Float, degree float64) *big.Float {
	switch {
	case a.Sign() < 0 && math.Mod(degree, 2) == 0, degree <= 0:
		return nil
	case a.Sign() < 0:
		return opposite(rootDigits(opposite(a), degree))
	case degree == 2:
		return num(0).Sqrt(a)
	case a.Sign() == 0:
		return num(0)
	}
	return powerDigits(a, over(num(1), num(degree)))
}

// hyperbolic are the sum and the difference of exp of a number and of its negative.
func hyperbolic(a *big.Float) (sum, difference *big.Float) {
	up := expDigits(a)
	if up == nil {
		return nil, nil
	}
	down := over(num(1), up)
	return plus(up, down), kept(minus(up, down))
}

// ofOne is an operation of one operand, ofTwo of two, without a constant.
func ofOne(f func(a *big.Float) *big.Float) func(a, b *big.Float, k float64) *big.Float {
	return func(a, _ *big.Float, _ float64) *big.Float { return f(a) }
}

func ofTwo(f func(a, b *big.Float) *big.Float) func(a, b *big.Float, k float64) *big.Float {
	return func(a, b *big.Float, _ float64) *big.Float { return f(a, b) }
}

func sineDigits(a *big.Float) *big.Float    { sin, _ := sineAndCosine(a); return sin }
func cosineDigits(a *big.Float) *big.Float  { _, cos := sineAndCosine(a); return cos }
func tangentDigits(a *big.Float) *big.Float { return over(sineAndCosine(a)) }

func lesser(a, b *big.Float) *big.Float {
	if a.Cmp(b) > 0 {
		return b
	}
	return a
}

func greater(a, b *big.Float) *big.Float { return opposite(lesser(opposite(a), opposite(b))) }
