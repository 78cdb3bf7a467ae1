package units

import (
	"strconv"
	"strings"

	"steelyard/units/rounding"
	"steelyard/units/writing"
)

// Rounding tells what becomes of a five with nothing after it, and of uncertainties.
type Rounding uint8

const (
	// HalfAway rounds it away from zero, as textbooks do.
	HalfAway Rounding = iota
	// HalfEven rounds it to the even digit (NIST SP 811, B.7).
	HalfEven
	// OffUp is added to either where uncertainties are rounded up (JCGM 100:2008, 7.2.6).
	OffUp
)

// even tells whether a five goes to the even digit.
func (r Rounding) even() bool { return r&HalfEven != 0 }

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
	// Off tells that the number is an uncertainty.
	Off bool
}

// digits are those that a number is shown with.
func (f Figures) digits(v float64, r Rounding) rounding.Digits {
	if f.Off && r&OffUp != 0 {
		return rounding.Up(v, f.figures())
	}
	return rounding.Decimal(v, f.figures(), r.even())
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

const sixFigures = 6

// figures returns how many digits are printed, within what a float64 holds.
func (f Figures) figures() int {
	if f.N <= 0 {
		return sixFigures
	}
	return min(f.N+int(f.Guard), rounding.Held)
}

// RoundsUp tells whether a number is rounded up to a power of ten.
func RoundsUp(v float64, f Figures, r Rounding) bool {
	x := f.digits(v, r)
	return x.Carried
}

// LastPlace is the power of ten of the last figure with which a number is shown.
func (f Figures) LastPlace(v float64, r Rounding) int {
	x := f.digits(v, r)
	for ; !f.Keep && x.N > 1 && x.D[x.N-1] == '0'; x.N-- {
	}
	if f.Decimals && x.Carried {
		x.N++
	}
	return x.Exp - x.N + 1
}

// ToPlace are the figures with which a number is shown to a decimal place.
func (f Figures) ToPlace(v float64, place int) Figures {
	f.N, f.Keep, f.Guard, f.Decimals = rounding.Decimal(v, rounding.Held, false).Exp-place+1, true, 0, true
	return f
}

// FormatNumber writes a number: its fifteen-digit decimal, rounded to the
// figures wished, in plain digits from 0.001 to 999 999 and with a power of
// ten otherwise. Minus zero is 0.
func FormatNumber(v float64, f Figures, r Rounding, form Form) string {
	var buf [64]byte
	return string(appendNumber(buf[:0], v, f, r, form))
}

// appendNumber writes a power of ten outside 10^-3 to 10^6, and within it only where zeros
// would look like figures: 1200 that keeps two figures is 1.2×10^3.
func appendNumber(out []byte, v float64, f Figures, r Rounding, form Form) []byte {
	switch {
	case v == 0 && f.Decimals && f.N > 1: // 0.00 is known to its hundredths
		return append(append(out, "0."...), strings.Repeat("0", f.figures()-1)...)
	case v == 0:
		return append(out, '0')
	case v != v:
		return append(out, "not a number"...)
	case !finite(v):
		return append(out, "infinite"...)
	}
	x := f.digits(v, r)
	keep := f.Keep && f.N > 0
	if f.Decimals && x.Carried {
		x.D[x.N] = '0'
		x.N++
	}
	if !keep {
		for x.N > 1 && x.D[x.N-1] == '0' {
			x.N--
		}
	}
	switch {
	case x.Neg && form == Drawn:
		out = append(out, "−"...)
	case x.Neg:
		out = append(out, '-')
	}
	if x.Exp < -3 || x.Exp > 5 || keep && x.Exp >= x.N {
		return appendPower(out, x, form)
	}
	return appendPlain(out, x)
}

// appendPlain puts zeros before the figures of a small number, and behind those of a large one
// up to the point.
func appendPlain(out []byte, x rounding.Digits) []byte {
	if x.Exp < 0 {
		out = append(out, "0."...)
		for range -x.Exp - 1 {
			out = append(out, '0')
		}
		return append(out, x.D[:x.N]...)
	}
	whole := x.Exp + 1
	out = append(out, x.D[:min(whole, x.N)]...)
	for range whole - x.N {
		out = append(out, '0')
	}
	if x.N > whole {
		out = append(out, '.')
		out = append(out, x.D[whole:x.N]...)
	}
	return out
}

// appendPower writes the e that can be typed and read again in a file, and elsewhere the power
// of ten that is printed.
func appendPower(out []byte, x rounding.Digits, form Form) []byte {
	out = append(out, x.D[0])
	if x.N > 1 {
		out = append(out, '.')
		out = append(out, x.D[1:x.N]...)
	}
	if form == File {
		out = append(out, 'e')
		return strconv.AppendInt(out, int64(x.Exp), 10)
	}
	out = append(out, "×10"...)
	return append(out, writing.Raised(strconv.Itoa(x.Exp))...)
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
