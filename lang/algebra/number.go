package algebra

import (
	"math"
	"math/big"
	"strings"

	"steelyard/lang/syntax"
	"steelyard/units"
)

// maxBits bounds the size of exact numbers.
//
// A number that is longer than this comes of no problem: 4096 bits are 1233 digits.
const maxBits = 4096

// powRat raises a number to a rational power where that is exact; otherwise it
// returns the number as it is, to be put under the root.
//
// Only whole roots are taken: √8 stays under its root, and is not 2·√2, as print would
// have it in a formula.
func powRat(r *big.Rat, e units.Exp) (coef, under *big.Rat, ok bool) {
	switch {
	case r.Sign() == 0:
		return new(big.Rat), nil, e.Num() >= 0
	case isOneRat(r):
		return oneRat, nil, true
	}
	if e.Den() != 1 {
		n, ok1 := rootInt(r.Num(), e.Den())
		d, ok2 := rootInt(r.Denom(), e.Den())
		if !ok1 || !ok2 {
			return oneRat, r, true
		}
		r = new(big.Rat).SetFrac(n, d)
	}
	n := e.Num()
	if n < 0 {
		r, n = new(big.Rat).Inv(r), -n
	}
	out := oneRat
	for range n {
		out = timesRat(out, r)
		if out.Num().BitLen() > maxBits || out.Denom().BitLen() > maxBits {
			return nil, nil, false
		}
	}
	return out, nil, true
}

// rootInt is the exact whole root of a whole number, if there is one. A negative
// number has none here: (-8)^(1/3) keeps its bracket.
func rootInt(n *big.Int, degree int) (*big.Int, bool) {
	if n.Sign() < 0 {
		return nil, false
	}
	if n.BitLen() < 53 { // the next whole number is the root, if there is one
		near := big.NewInt(int64(math.Round(math.Pow(float64(n.Int64()), 1/float64(degree)))))
		return near, new(big.Int).Exp(near, big.NewInt(int64(degree)), nil).Cmp(n) == 0
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

// gcdRat is the greatest number of which both are whole multiples; 1 for zeros. All
// are multiples of 0 times any number, so that a run over several starts with 0.
func gcdRat(a, b *big.Rat) *big.Rat {
	cross := func(a, b *big.Rat) *big.Int { return new(big.Int).Abs(new(big.Int).Mul(a.Num(), b.Denom())) }
	num := new(big.Int).GCD(nil, nil, cross(a, b), cross(b, a))
	if num.Sign() == 0 {
		return big.NewRat(1, 1)
	}
	return new(big.Rat).SetFrac(num, new(big.Int).Mul(a.Denom(), b.Denom()))
}

// wholeTimes is the greatest number of which all are whole multiples, and which; false if one
// is more than the most times it.
func wholeTimes(all []*big.Rat, most int64) (unit *big.Rat, times []int64, ok bool) {
	unit = new(big.Rat)
	for _, by := range all {
		if by.Sign() != 0 {
			unit = gcdRat(unit, by)
		}
	}
	for _, by := range all {
		n := new(big.Rat).Quo(by, unit)
		if n.Num().CmpAbs(big.NewInt(most)) > 0 {
			return nil, nil, false
		}
		times = append(times, n.Num().Int64())
	}
	return unit, times, true
}

// numberExpr is a number that is not negative: whole, as a short decimal, or
// else as a fraction in brackets.
//
// Twelve places are more than anyone writes; beyond that, a third is meant as 1/3.
func numberExpr(r *big.Rat) syntax.Expr {
	if r.IsInt() {
		return written(r.Num().String())
	}
	if n, exact := r.FloatPrec(); exact && n <= 12 {
		return written(r.FloatString(n))
	}
	over, under := written(r.Num().String()), written(r.Denom().String())
	if !syntax.IsNumber(over) || !syntax.IsNumber(under) { // their quotient may be held all the same
		return written(nearest(r))
	}
	return &syntax.Paren{X: &syntax.Binary{Op: syntax.Div, X: over, Y: under}}
}

// ratExpr is a number as a tree that may be negative.
func ratExpr(r *big.Rat) syntax.Expr {
	if r.Sign() < 0 {
		return &syntax.Paren{X: &syntax.Unary{Op: syntax.Sub, X: numberExpr(new(big.Rat).Neg(r))}}
	}
	return numberExpr(r)
}

// expRat is an exponent as a number.
func expRat(e units.Exp) *big.Rat { return big.NewRat(int64(e.Num()), int64(e.Den())) }

// asFraction tells whether a number is best written as a fraction of whole
// numbers: 1/3, but 0.3 and not 3/10.
//
// Long numerators come of written decimals and are read better as such.
func asFraction(r *big.Rat) bool {
	if five := big.NewInt(5); !r.IsInt() && new(big.Int).Rem(r.Denom(), five).Sign() == 0 {
		return false
	}
	return r.Num().BitLen() <= 20 && r.Denom().BitLen() <= 10
}

// written is a number without a sign, as it is written.
//
// One that no float64 holds is a multiple of a power of ten, and fails where it is worked out;
// forty digits of it are more than are held.
func written(text string) syntax.Expr {
	if d, ok := units.ParseDecimal(text); ok {
		return &syntax.Number{Value: d}
	}
	r, _ := new(big.Rat).SetString(text)
	mantissa, power, _ := strings.Cut(nearest(r), "e")
	exponent := written(strings.TrimLeft(power, "+-"))
	if power[0] == '-' {
		exponent = &syntax.Paren{X: &syntax.Unary{Op: syntax.Sub, X: exponent}}
	}
	return times(written(mantissa), binary(syntax.Pow, written("10"), exponent))
}

// nearest is a number to forty digits, whatever its size.
func nearest(r *big.Rat) string { return new(big.Float).SetPrec(256).SetRat(r).Text('e', 40) }

func zeroExpr() syntax.Expr { return numberExpr(new(big.Rat)) }
