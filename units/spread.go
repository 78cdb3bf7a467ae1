package units

import (
	"math/big"
	"strconv"

	"steelyard/units/rounding"
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
	if !finite(v) || !finite(u) { // in words
		return FormatNumber(v, Figures{N: figures}, r, form) + " ± " + FormatNumber(u, Figures{N: figures}, r, form)
	}
	off := Figures{N: max(figures, 1), Off: true}.digits(u, r)
	place := off.Exp - off.N + 1
	x, first := rounding.ToPlace(v, place, r.even()), off.Exp
	if v != 0 {
		first = max(first, x.Exp)
	}
	shift, plain := first, first <= 5 && place <= 0 && first >= -3
	if plain {
		shift = 0
	}
	value, spread := decimals(x, shift, place, form), decimals(off, shift, place, form)
	switch {
	case plain:
		return value + " ± " + spread
	case form == File:
		e := "e" + strconv.Itoa(shift)
		return value + e + " ± " + spread + e
	}
	return "(" + value + " ± " + spread + ")×10" + writing.Raised(strconv.Itoa(shift))
}

// decimals writes a number that is known to a place, divided by a power of ten.
//
// Both numbers end at the same place, so that zeros are kept at the end of either.
func decimals(x rounding.Digits, shift, place int, form Form) string {
	x.Exp -= shift
	var out []byte
	if x.Neg {
		sign := "-"
		if form == Drawn {
			sign = "−"
		}
		out = append(out, sign...)
	}
	if x.D[0] == '0' { // the point of 0 is where its place needs it
		return string(out) + strconv.FormatFloat(0, 'f', max(shift-place, 0), 64)
	}
	return string(appendPlain(out, x))
}

// FormatUncertain is FormatSpread with a unit.
//
// FormatSpread puts a bracket round both numbers only where they have a power of ten.
func FormatUncertain(v, u float64, unit *Unit, figures int, r Rounding, form Form) string {
	out, text := FormatSpread(v, u, figures, r, form), unit.Behind(form)
	if text != "" && !tight(text) {
		out += " "
	}
	return out + text
}

// IsRounded tells whether a number, rounded at the last digit of a written one, is that,
// zeros included.
//
// It is compared exactly, as a fraction: a float64 of 0.1 is not 0.1.
func (d Decimal) IsRounded(v float64, r Rounding) bool {
	place := int(d.LastPlace)
	x := rounding.ToPlace(v, place, r.even())
	if x.N < x.Exp-place+1 { // more digits than a float64 holds for certain
		return d.Hi == v
	}
	text := string(x.D[:x.N]) + "e" + strconv.Itoa(place)
	if x.Neg {
		text = "-" + text
	}
	got, ok := new(big.Rat).SetString(text)
	return ok && got.Cmp(d.Rat()) == 0
}
