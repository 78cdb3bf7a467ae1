package draw

import (
	"strings"
	"sync"
	"unicode"

	"steelyard/session/rows"
	"steelyard/units/writing"
)

// clean makes one line of a text that is safe to draw.
//
// A title or a unit of somebody else's file may hold control characters, which would move the
// cursor of a terminal or break the source of an image.
func clean(text string) string { return writing.Clean(text, writing.Screen) }

// noWidth says whether a rune takes no cell of its own.
//
// These are accents and joiners, which go with the letter before them; counted as cells they would
// push a table out of line.
func noWidth(r rune) bool {
	return r >= 0x300 && unicode.In(r, unicode.Mn, unicode.Me, unicode.Cf)
}

// width counts the cells of a text.
//
// A Chinese character takes two.
func width(text string) int { return rows.Width(text) }

// wrap breaks a text into rows of at most so many cells.
func wrap(text string, columns int) []string { return rows.Fit(clean(text), columns) }

// plain is how signs are written with bytes below 128, Greek letters apart.
var plain = sync.OnceValue(func() map[rune]string {
	return map[rune]string{
		'−': "-", '–': "-", '—': "-", '‐': "-", '×': "*", '·': "*", '⋅': "*", '÷': "/", '√': "sqrt", '±': "+/-",
		'≈': "~", '≤': "<=", '≥': ">=", '≠': "!=", '→': "->", '…': "...", '°': "deg", '′': "'", '″': "\"",
		'“': "\"", '”': "\"", '‘': "'", '’': "'", '½': "1/2", '\u00B5': "u", 'μ': "u", 'Ω': "ohm", '\u2126': "ohm",
		'∞': "inf", 'é': "e", 'è': "e", 'Å': "A", '\u00A0': " ", '\u202F': " ", '\u2009': " ",
	}
})

// toASCII writes a text with bytes below 128 only: exponents as ^2, Greek
// letters by name, what has no such form as "?".
//
// The result can be typed as it is read: m/s² becomes m/s^2.
func toASCII(text string) string {
	var b strings.Builder
	mark := byte(0) // that the characters before are raised or lowered with
	for _, r := range clean(text) {
		was := mark
		if mark = 0; r < 128 {
			b.WriteRune(r)
		} else if c := writing.Unraised(r); c != 0 {
			mark = '^'
			writeIndex(&b, was, mark, c)
		} else if c := writing.Unlowered(r); c != 0 {
			mark = '_'
			writeIndex(&b, was, mark, c)
		} else if s, ok := plain()[r]; ok {
			b.WriteString(s)
		} else if s := writing.GreekName(r); s != "" {
			b.WriteString(s)
		} else if !noWidth(r) {
			b.WriteByte('?')
		}
	}
	return b.String()
}

// writeIndex writes a raised or lowered character, the first after a mark.
//
// The mark comes once, so that 10⁻¹² is 10^-12.
func writeIndex(b *strings.Builder, was, mark, c byte) {
	if was != mark {
		b.WriteByte(mark)
	}
	b.WriteByte(c)
}

// texts are what a drawing of characters is made of: in Unicode, or in ASCII alone.
type texts struct{ ascii bool }

func (t texts) text(s string) string {
	if t.ascii {
		return toASCII(s)
	}
	return clean(s)
}

// grain gives how many dots across and down a cell of a drawing has.
//
// Braille has 2 by 4 dots in a cell, in which a curve looks smooth; a letter is one dot as large
// as the cell.
func (t texts) grain() (across, down int) {
	if t.ascii {
		return 1, 1
	}
	return 2, 4
}

// signs are what lines, dots, bars and arrows are drawn with, and standIns what stands for each
// in ASCII. One table serves graphs, bars and arrows, so that a dot looks alike in all of them.
const (
	signs    = "│─┼┤┬└┊·●○█→↗↘←↖↙↑↓"
	standIns = "|-++++:.@O#>>><<<^v"
)

// sign is a sign, or what stands for it in ASCII; a letter is its own.
func (t texts) sign(r rune) rune {
	n := 0
	for _, sign := range signs {
		if t.ascii && sign == r {
			return rune(standIns[n])
		}
		n++
	}
	return r
}
