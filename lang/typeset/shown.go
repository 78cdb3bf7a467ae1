package typeset

import (
	"strings"

	"steelyard/units/writing"
)

// Quantity lays out a value as it is shown: "4.63e6 N m", "4.63×10⁶ N·m", "30°" or
// plain "257". What is no number is taken for a unit.
func Quantity(text string) Box {
	plain, n := shownNumber(text)
	if n == 0 {
		return Unit(text)
	}
	return Row(unitAfter(number(nil, plain), strings.TrimLeft(text[n:], " "))...)
}

// Unit lays out a product of units as it is written: "N m", "m/s^2", "kg·m²/s³".
// Its symbols are upright (SI Brochure, 5.2).
func Unit(text string) Box { return Row(unit(nil, text)...) }

// shownNumber reads a number at the start of a text, and returns it in plain
// ASCII with its length there.
func shownNumber(text string) (plain string, n int) {
	for _, sign := range [...]string{"-", "−"} {
		if strings.HasPrefix(text, sign) {
			plain, n = "-", len(sign)
			break
		}
	}
	size := digitsEnd(text[n:])
	if size == 0 {
		return "", 0
	}
	if rest, ok := strings.CutPrefix(text[n+size:], "."); ok && digitsEnd(rest) > 0 {
		size += 1 + digitsEnd(rest)
	}
	plain += text[n : n+size]
	n += size
	if power, size := shownPower(text[n:]); size > 0 {
		return plain + "e" + power, n + size
	}
	return plain, n
}

func digitsEnd(s string) int { return len(s) - len(strings.TrimLeft(s, "0123456789")) }

// shownPower reads e-19 or ×10⁻¹⁹.
func shownPower(text string) (power string, n int) {
	if up, ok := strings.CutPrefix(text, "×10"); ok {
		end := strings.IndexFunc(up, func(r rune) bool { return writing.Unraised(r) == 0 })
		if end < 0 {
			end = len(up)
		}
		if end > 0 {
			return writing.OnTheLine(up[:end]), len("×10") + end
		}
	} else if up, ok := strings.CutPrefix(text, "e"); ok {
		digits := strings.TrimPrefix(up, "-")
		if end := digitsEnd(digits); end > 0 {
			end += len(up) - len(digits)
			return up[:end], len("e") + end
		}
	}
	return "", 0
}
