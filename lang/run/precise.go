package run

import (
	"math"
	"math/big"
	"strconv"
	"strings"

	"steelyard/lang/ops"
)

const (
	// preciseBits is to how many bits precise numbers are worked out, and simpleBits
	// to how many one is known that is a decimal or a fraction.
	preciseBits, simpleBits = ops.DigitsBits, 200
	// simpleDigits is how many digits a decimal has that a number is taken for, and
	// mostUnder the greatest divisor of a fraction.
	simpleDigits, mostUnder = 12, 999
	// unsettled is by how great a part of what it is made of a number may be off of
	// which it is told whether it is 0.
	unsettled = 1e-12
)

// precise is a number worked out to many digits, and how far it may be off because
// of what it was worked out from.
type precise struct {
	v   *big.Float
	off float64
}

func newBig() *big.Float { return new(big.Float).SetPrec(preciseBits) }

func magnitude(v *big.Float) float64 { x, _ := v.Float64(); return math.Abs(x) }

// exactly is a number that is off by nothing but the bits behind its last.
func exactly(v *big.Float) precise { return precise{v, math.Ldexp(magnitude(v), -simpleBits)} }

// simplest is what a number within an interval is meant to be: 0, a decimal of up to
// twelve digits, such a number of degrees, or a fraction of whole numbers below a thousand
// times a power of ten; else what lies in the middle.
//
// 1/3 of the givens is held as 0.333…, with sixteen digits; taken for the fraction it cancels
// to a true 0, which tells equations that depend on each other from ones that nearly do.
func simplest(x ops.Interval) precise {
	middle := x.Lo + (x.Hi-x.Lo)/2
	if x.HoldsZero() {
		return exactly(newBig())
	}
	if x.Hi-x.Lo <= unsettled*math.Abs(middle) {
		if v, _ := nearestDecimal(middle, simpleDigits); within(v, x) {
			return exactly(v)
		}
		if v, _ := nearestDegrees(middle, simpleDigits); within(v, x) {
			return exactly(v)
		}
		mantissa, power, _ := strings.Cut(strconv.FormatFloat(middle, 'e', simpleDigits-1, 64), "e")
		m, _ := strconv.ParseFloat(mantissa, 64)
		for under := 3.0; under <= mostUnder; under++ {
			over := math.Round(m * under)
			if math.Abs(m*under-over) > 1e-9 {
				continue
			}
			v := decimal(strconv.FormatFloat(over, 'f', 0, 64) + "e" + power)
			if v.Quo(v, newBig().SetFloat64(under)); within(v, x) {
				return exactly(v)
			}
		}
	}
	return precise{newBig().SetFloat64(middle), (x.Hi - x.Lo) / 2}
}

// nearestDecimal is the decimal of some digits that is nearest to a number, and tells whether
// the number is nearest to that.
func nearestDecimal(x float64, digits int) (*big.Float, bool) {
	v := decimal(strconv.FormatFloat(x, 'e', digits-1, 64))
	return v, within(v, ops.Point(x))
}

// nearestDegrees is nearestDecimal for an angle, in degrees.
func nearestDegrees(x float64, digits int) (*big.Float, bool) {
	degree := newBig().Quo(ops.Pi(), newBig().SetInt64(180))
	of, _ := newBig().Quo(newBig().SetFloat64(x), degree).Float64()
	v, _ := nearestDecimal(of, digits)
	v.Mul(v, degree)
	return v, within(v, ops.Point(x))
}

func decimal(text string) *big.Float { v, _ := newBig().SetString(text); return v }

// within tells whether the nearest float64 of a number lies in an interval.
func within(v *big.Float, x ops.Interval) bool {
	near, _ := v.Float64()
	return x.Lo <= near && near <= x.Hi
}

// isZero tells whether a number is 0 and nothing else.
func (x precise) isZero() bool { return x.v.Sign() == 0 && x.off == 0 }

// certainty is how many times its error a number is away from 0; 0 if it may be 0.
// One that is surely not 0 is as good as another.
func (x precise) certainty() float64 {
	size := magnitude(x.v)
	if size <= x.off {
		return 0
	}
	return min(size/x.off, 1/unsettled)
}

// settled tells whether a number that may be 0 is taken for 0, among others of a
// size.
func (x precise) settled(size float64) bool {
	return x.certainty() > 0 || x.off <= unsettled*size
}

func (x precise) negative() precise { return precise{newBig().Neg(x.v), x.off} }

func (x precise) minus(y precise) precise { return precise{newBig().Sub(x.v, y.v), x.off + y.off} }

// times adds up what both may be off by, the small product of both too, so that off stays a
// bound.
func (x precise) times(y precise) precise {
	a, b := magnitude(x.v), magnitude(y.v)
	return precise{newBig().Mul(x.v, y.v), float64(a*y.off) + float64(b*x.off) + float64(x.off*y.off)}
}

// over divides by a number that is surely not 0.
func (x precise) over(y precise) precise {
	a, b := magnitude(x.v), magnitude(y.v)
	return precise{newBig().Quo(x.v, y.v), (x.off + float64(a/b*y.off)) / (b - y.off)}
}

// shifted is a number times a power of two.
func (x precise) shifted(power int) precise {
	return precise{newBig().SetMantExp(x.v, power), math.Ldexp(x.off, power)}
}

// float is the nearest number of the usual kind; 0 for what may be 0.
func (x precise) float() float64 {
	if x.certainty() == 0 {
		return 0
	}
	v, _ := x.v.Float64()
	return v
}
