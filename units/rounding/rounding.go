// Package rounding has the one rule by which numbers are rounded, wherever that is: a number
// is written with fifteen digits, and that decimal is rounded. A five with nothing after it
// is rounded away from zero, as textbooks do, or to the even digit (NIST SP 811, B.7). The
// package knows nothing of units, and prints nothing.
package rounding

import (
	"math"
	"strconv"
)

// Held is the number of digits of a float64 that are relied on.
const Held = 15

// Digits is a decimal number: 0.d₁d₂d₃… × 10^(Exp+1).
type Digits struct {
	Neg bool
	D   [Held + 1]byte
	N   int // digits in use
	Exp int // power of ten of the first
	// Carried tells that it was rounded up to a power of ten.
	Carried bool
}

// Decimal writes a finite number with fifteen digits, and rounds that decimal to n of them.
func Decimal(v float64, n int, even bool) Digits {
	var buf [32]byte
	text := strconv.AppendFloat(buf[:0], v, 'e', Held-1, 64)
	var out Digits
	if text[0] == '-' {
		out.Neg, text = true, text[1:]
	}
	out.D[0] = text[0]
	copy(out.D[1:Held], text[2:Held+1])
	e := text[Held+2:]
	for _, c := range e[1:] {
		out.Exp = out.Exp*10 + int(c-'0')
	}
	if e[0] == '-' {
		out.Exp = -out.Exp
	}
	out.N = Held
	out.Round(n, even)
	return out
}

// Up is Decimal of an uncertainty, rounded up: 10.47 to two figures is 11. Less than a tenth
// of the last figure is cut off, as 28.05 is 28 (both are examples of JCGM 100:2008, 7.2.6).
func Up(v float64, n int) Digits {
	x := Decimal(v, Held, false)
	if n < Held && x.D[n] != '0' {
		x.D[n] = '9'
	}
	x.Round(n, false)
	return x
}

// Round keeps n digits.
func (x *Digits) Round(n int, even bool) {
	if n >= x.N {
		return
	}
	up := x.D[n] > '5'
	if x.D[n] == '5' {
		up = !even || (x.D[n-1]-'0')%2 == 1
		for _, c := range x.D[n+1 : x.N] {
			up = up || c != '0'
		}
	}
	x.N = n
	if !up {
		return
	}
	for i := n - 1; i >= 0; i-- {
		if x.D[i] != '9' {
			x.D[i]++
			return
		}
		x.D[i] = '0'
	}
	x.D[0], x.Carried = '1', true
	x.Exp++
}

// ToPlace is a finite number rounded to a decimal place: to 0 where it is less than half of
// that.
//
// A value that is smaller than its uncertainty has no figures of its own: 0.001 ± 0.20 is
// 0.00 ± 0.20.
func ToPlace(v float64, place int, even bool) Digits {
	x := Decimal(v, Held, even)
	n := x.Exp - place + 1
	half := n == 0 && x.D[0] >= '5'
	if half && even { // a five alone goes to the even one, which is 0
		half = x.D[0] > '5' || string(x.D[1:Held]) != zeros
	}
	switch {
	case half:
		x.D[0], x.N, x.Exp = '1', 1, place
	case v == 0 || n <= 0:
		x.D[0], x.N, x.Exp, x.Neg = '0', 1, place, false
	case n < Held:
		if x.Round(n, even); x.Carried {
			x.D[x.N] = '0'
			x.N++
		}
	}
	return x
}

const zeros = "00000000000000"

// mostWhole is from where fifteen digits have no decimals.
const mostWhole = 1e14

// tie is how far from a half a number of one digit before the point may be, and have a half
// in its fifteen digits, as a part of it.
const tie = 1e-14

// Whole is the whole number that a number is rounded to.
func Whole(v float64, even bool) float64 {
	size := math.Abs(v)
	off := size - math.Floor(size) - 0.5
	if !(math.Abs(off) <= float64(tie*size)) || size >= mostWhole { // not a number is itself
		return Steps(v, even)
	}
	x := ToPlace(size, 0, even)
	whole, _ := strconv.ParseFloat(string(x.D[:x.N]), 64)
	return math.Copysign(whole, v)
}

// Steps is the whole number that a quotient is rounded to: one that is a half but for the
// rounding of the quotient is one.
func Steps(q float64, even bool) float64 {
	size := math.Abs(q)
	down, half := math.Floor(size), 0.0
	if size < 1<<47 {
		half = 0x1p-51 * size
	}
	switch off := size - down - 0.5; {
	case off > half, off >= -half && (!even || math.Mod(down, 2) == 1):
		down++
	}
	return math.Copysign(down, q)
}

// LastPlace is what one in the last of n figures of a number is worth, of one at least; 1
// of 0, which has no figures.
func LastPlace(v float64, n int) float64 {
	switch {
	case v-v != 0:
		return math.NaN()
	case v == 0:
		return 1
	}
	x := Decimal(v, Held, false)
	return math.Pow10(x.Exp - max(n, 1) + 1)
}
