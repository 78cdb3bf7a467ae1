package units

import (
	"strconv"

	"steelyard/units/writing"
)

// FormatSpread writes a number with its standard uncertainty: that to so many figures, and
// the number to the same place (JCGM 100:2008, 7.2.6). Both have the same power of ten,
// where one is needed: "256.9 ± 4.3", "4.63e6 ± 0.12e6", on a screen "(4.63 ± 0.12)×10⁶".
//
// Two figures of the uncertainty are usual, and one would hide up to half of it where it begins
// with 1 (JCGM 100:2008, 7.2.6, has no more than two). A power of ten is taken out where
// the larger of the two needs one, or where the last place is left of the point.
func FormatSpread(v, u float64, figures int, r Rounding, form Form) string {
	off := decimalDigits(u, min(max(figures, 1), held), r)
	place := off.exp - off.n + 1
	x, first := toPlace(v, place, r), off.exp
	if v != 0 {
		first = max(first, x.exp)
	}
	shift, plain := first, first <= 5 && place <= 0 && first >= -3
	if plain {
		shift = 0
	}
	value, spread := x.decimals(shift, place, form), off.decimals(shift, place, form)
	switch {
	case plain:
		return value + " ± " + spread
	case form == File:
		e := "e" + strconv.Itoa(shift)
		return value + e + " ± " + spread + e
	}
	return "(" + value + " ± " + spread + ")×10" + writing.Raised(strconv.Itoa(shift))
}

// toPlace is a number rounded to a decimal place: to 0 where it is less than half of that.
//
// A value that is smaller than its uncertainty has no figures of its own: 0.001 ± 0.20 is
// 0.00 ± 0.20.
func toPlace(v float64, place int, r Rounding) digits {
	x := decimalDigits(v, held, r)
	switch n := x.exp - place + 1; {
	case v == 0 || n < 0 || n == 0 && x.d[0] < '5':
		x.d[0], x.n, x.exp, x.neg = '0', 1, place, false
	case n == 0:
		x.d[0], x.n, x.exp = '1', 1, place
	case n < held:
		if x.round(n, r); x.carried {
			x.d[x.n] = '0'
			x.n++
		}
	}
	return x
}

// decimals writes a number that is known to a place, divided by a power of ten.
func (x digits) decimals(shift, place int, form Form) string {
	x.exp -= shift
	var out []byte
	if x.neg {
		sign := "-"
		if form == Drawn {
			sign = "−"
		}
		out = append(out, sign...)
	}
	if x.d[0] == '0' { // the point of 0 is where its place needs it
		return string(out) + strconv.FormatFloat(0, 'f', max(shift-place, 0), 64)
	}
	return string(x.appendPlain(out))
}

// FormatUncertain is FormatSpread with a unit.
func FormatUncertain(v, u float64, unit *Unit, figures int, r Rounding, form Form) string {
	out, text := FormatSpread(v, u, figures, r, form), unit.Behind(form)
	if text != "" && !tight(text) {
		out += " "
	}
	return out + text
}
