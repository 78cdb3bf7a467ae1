package units

import (
	"strconv"

	"steelyard/units/writing"
)

// Rounding tells what becomes of a five with nothing after it.
type Rounding uint8

const (
	// HalfAway rounds it away from zero, as textbooks do.
	HalfAway Rounding = iota
	// HalfEven rounds it to the even digit (NIST SP 811, B.7).
	HalfEven
)

// Figures is how many significant figures are printed. Its zero value is six,
// zeros at the end dropped. With Keep, exactly N are printed, and a power of
// ten is used where a zero would only hold a place.
type Figures struct {
	N    int
	Keep bool
	// Usual tells that no one asked for them: a printed page has so many.
	Usual bool
	// Givens tells that they are those that the givens support, and Guard is how many more
	// are shown of what others are worked out from.
	Givens bool
	Guard  int8
	// Decimals tells that they were counted by the place of the last: what is rounded up
	// to a power of ten has one more, as 9.96 to tenths is 10.0.
	Decimals bool
}

// Form tells what a quantity is written for.
type Form uint8

const (
	// File is what can be typed back: "4.63e6 N m", "9.8 m/s^2".
	File Form = iota
	// Screen is what is printed: "4.63×10⁶ N·m", "9.8 m/s²".
	Screen
	// Drawn is Screen with the sign of print: "−0.1 J".
	Drawn
)

const (
	sixFigures = 6
	// held is the number of digits of a float64 that are relied on: a value
	// is written with as many first, and that decimal is rounded.
	held = 15
)

// figures returns how many digits are printed, within what a float64 holds.
func (f Figures) figures() int {
	if f.N <= 0 {
		return sixFigures
	}
	return min(f.N+int(f.Guard), held)
}

// digits is a decimal number: 0.d₁d₂d₃… × 10^(exp+1).
type digits struct {
	neg bool
	d   [held + 1]byte
	n   int // digits in use
	exp int // power of ten of the first
	// carried tells that it was rounded up to a power of ten.
	carried bool
}

// decimalDigits writes a value with fifteen digits and rounds that decimal.
func decimalDigits(v float64, n int, r Rounding) digits {
	var buf [32]byte
	text := strconv.AppendFloat(buf[:0], v, 'e', held-1, 64)
	var out digits
	if text[0] == '-' {
		out.neg, text = true, text[1:]
	}
	out.d[0] = text[0]
	copy(out.d[1:held], text[2:held+1])
	e := text[held+2:]
	for _, c := range e[1:] {
		out.exp = out.exp*10 + int(c-'0')
	}
	if e[0] == '-' {
		out.exp = -out.exp
	}
	out.n = held
	out.round(n, r)
	return out
}

// round keeps n digits.
func (x *digits) round(n int, r Rounding) {
	if n >= x.n {
		return
	}
	up := x.d[n] > '5'
	if x.d[n] == '5' {
		up = r == HalfAway || (x.d[n-1]-'0')%2 == 1
		for _, c := range x.d[n+1 : x.n] {
			up = up || c != '0'
		}
	}
	x.n = n
	if !up {
		return
	}
	for i := n - 1; i >= 0; i-- {
		if x.d[i] != '9' {
			x.d[i]++
			return
		}
		x.d[i] = '0'
	}
	x.d[0], x.carried = '1', true
	x.exp++
}

// RoundsUp tells whether a number is rounded up to a power of ten.
func RoundsUp(v float64, f Figures, r Rounding) bool {
	x := decimalDigits(v, f.figures(), r)
	return x.carried
}

// LastPlace is the power of ten of the last figure with which a number is shown.
func (f Figures) LastPlace(v float64, r Rounding) int {
	x := decimalDigits(v, f.figures(), r)
	for ; !f.Keep && x.n > 1 && x.d[x.n-1] == '0'; x.n-- {
	}
	if f.Decimals && x.carried {
		x.n++
	}
	return x.exp - x.n + 1
}

// ToPlace are the figures with which a number is shown to a decimal place.
func (f Figures) ToPlace(v float64, place int) Figures {
	f.N, f.Keep, f.Guard, f.Decimals = decimalDigits(v, held, HalfAway).exp-place+1, true, 0, true
	return f
}

// FormatNumber writes a number: its fifteen-digit decimal, rounded to the
// figures wished, in plain digits from 0.001 to 999 999 and with a power of
// ten otherwise. Minus zero is 0.
func FormatNumber(v float64, f Figures, r Rounding, form Form) string {
	var buf [64]byte
	return string(appendNumber(buf[:0], v, f, r, form))
}

func appendNumber(out []byte, v float64, f Figures, r Rounding, form Form) []byte {
	switch {
	case v == 0:
		return append(out, '0')
	case v != v:
		return append(out, "not a number"...)
	case !finite(v):
		return append(out, "infinite"...)
	}
	x := decimalDigits(v, f.figures(), r)
	keep := f.Keep && f.N > 0
	if f.Decimals && x.carried {
		x.d[x.n] = '0'
		x.n++
	}
	if !keep {
		for x.n > 1 && x.d[x.n-1] == '0' {
			x.n--
		}
	}
	switch {
	case x.neg && form == Drawn:
		out = append(out, "−"...)
	case x.neg:
		out = append(out, '-')
	}
	if x.exp < -3 || x.exp > 5 || keep && x.exp >= x.n {
		return x.appendPower(out, form)
	}
	return x.appendPlain(out)
}

func (x *digits) appendPlain(out []byte) []byte {
	if x.exp < 0 {
		out = append(out, "0."...)
		for range -x.exp - 1 {
			out = append(out, '0')
		}
		return append(out, x.d[:x.n]...)
	}
	whole := x.exp + 1
	out = append(out, x.d[:min(whole, x.n)]...)
	for range whole - x.n {
		out = append(out, '0')
	}
	if x.n > whole {
		out = append(out, '.')
		out = append(out, x.d[whole:x.n]...)
	}
	return out
}

func (x *digits) appendPower(out []byte, form Form) []byte {
	out = append(out, x.d[0])
	if x.n > 1 {
		out = append(out, '.')
		out = append(out, x.d[1:x.n]...)
	}
	if form == File {
		out = append(out, 'e')
		return strconv.AppendInt(out, int64(x.exp), 10)
	}
	out = append(out, "×10"...)
	return append(out, writing.Raised(strconv.Itoa(x.exp))...)
}

// FormatQuantity writes a number that is already in a unit, with the unit:
// "256.889 N/m". A pure number is just the number; ° ′ ″ follow without a
// blank. In a unit with nothing above the solidus the power is written,
// 5 s^-1, because 1/s can't stand behind a number.
func FormatQuantity(v float64, u *Unit, f Figures, r Rounding, form Form) string {
	var buf [96]byte
	out := appendNumber(buf[:0], v, f, r, form)
	text := u.Behind(form)
	if text != "" && !tight(text) {
		out = append(out, ' ')
	}
	return string(append(out, text...))
}

// Behind is the text of numbers with their unit behind it.
func Behind(numbers string, u *Unit, form Form) string {
	unit := u.Behind(form)
	if unit != "" && !tight(unit) {
		numbers += " "
	}
	return numbers + unit
}

// tight tells whether a unit stands against its number: ° ′ ″ alone (SI
// Brochure, 5.4.3).
func tight(text string) bool { return text == "°" || text == "′" || text == "″" }
