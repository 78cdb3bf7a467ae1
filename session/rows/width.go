package rows

import "github.com/mattn/go-runewidth"

// Width counts the cells of a text. The library is asked for unusual characters alone:
// its first answer fills a table of 2 MB, which takes longer than most worksheets do.
func Width(text string) int {
	cells := 0
	for _, r := range text {
		if !usual(r) {
			return runewidth.StringWidth(text)
		}
		cells++
	}
	return cells
}

// usual tells whether a character takes one cell, whatever is beside it. Where terminals
// are set to a language of East Asia, those beyond ASCII may take two.
func usual(r rune) bool {
	switch {
	case r < 0x7F:
		return r >= ' '
	case runewidth.DefaultCondition.EastAsianWidth:
		return false
	}
	return r >= 0xA0 && r < 0x300 && r != 0xAD || // Latin letters, without the soft hyphen
		r >= 0x391 && r <= 0x3C9 || // Greek letters
		r >= 0x2010 && r <= 0x2027 || r == 0x2032 || r == 0x2033 || // dashes, quotes, … and primes
		r >= 0x2070 && r <= 0x2094 || // raised and lowered digits and signs
		r >= 0x2190 && r <= 0x22FF || // arrows, −, √, ≈ and other signs of mathematics
		r >= 0x2500 && r <= 0x259F || r >= 0x2800 && r <= 0x28FF // what graphs are drawn with
}
