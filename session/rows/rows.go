// Package rows breaks text into rows of a number of cells, the places that a
// terminal or a page of plain text has for characters.
//
// A row ends at a blank. A number is not parted from its unit, a sign not from
// what it stands before, nor are the words of a short piece between backquotes. Nothing is done to the characters
// themselves: text of strange origin is made safe before, by writing.Clean.
package rows

import (
	"strings"
	"unicode"

	"github.com/mattn/go-runewidth"

	"steelyard/units"
)

// Wrap breaks a text into rows of at most width cells. A word that is wider has
// a row of its own, unbroken, so that it can be copied.
func Wrap(text string, width int) []string { return Hang(text, 0, width) }

// Hang is Wrap with the rows below the first so many cells in. Blanks stay, but
// for those where a row ends.
func Hang(text string, hang, width int) []string {
	if text == "" {
		return nil
	}
	f := filler{hang: strings.Repeat(" ", hang), width: width}
	f.row, _ = splitBlanks(text)
	f.used = len(f.row)
	for _, p := range pieces(text[len(f.row):]) {
		f.add(p, runewidth.StringWidth(p))
	}
	return append(f.rows, f.row)
}

// Fit breaks a text into rows that are never wider than width: a word that has
// no room is broken. Blanks in a row count as one.
func Fit(text string, width int) []string {
	width = max(width, 2) // the widest character takes two cells
	if isRow(text) && runewidth.StringWidth(text) <= width {
		return []string{text}
	}
	f := filler{width: width}
	for _, p := range pieces(strings.Join(strings.Fields(text), " ")) {
		cells := runewidth.StringWidth(p)
		for cells > width {
			if f.begun {
				f.next()
			}
			head := runewidth.Truncate(p, width, "")
			if head == "" {
				break // characters that no row has room for
			}
			f.rows, p = append(f.rows, head), p[len(head):]
			cells = runewidth.StringWidth(p)
		}
		if p != "" {
			f.add(p, cells)
		}
	}
	if f.begun {
		f.next()
	}
	return f.rows
}

// isRow tells whether a text has single blanks between its words, and no other
// space.
func isRow(text string) bool {
	before := ' '
	for _, r := range text {
		if r < ' ' || r > '~' && unicode.IsSpace(r) || r == ' ' && before == ' ' {
			return false
		}
		before = r
	}
	return before != ' '
}

// filler puts pieces into rows, one after the other.
type filler struct {
	rows  []string
	row   string // the row that is being filled
	used  int    // its cells
	begun bool   // it has a piece
	hang  string // what the rows below begin with
	width int
}

// add puts a piece of so many cells into the row, or into the next one.
func (f *filler) add(piece string, cells int) {
	if f.begun && f.used+1+cells > f.width {
		f.next()
	}
	switch {
	case f.begun:
		piece, cells = " "+piece, cells+1
	case piece == "":
		return // a row below the first begins with no more blanks than hang
	}
	f.row, f.used, f.begun = f.row+piece, f.used+cells, true
}

// next ends the row and begins another.
func (f *filler) next() {
	f.rows = append(f.rows, strings.TrimRight(f.row, " "))
	f.row, f.used, f.begun = f.hang, len(f.hang), false
}

// splitBlanks parts the blanks that a text begins with from the rest.
func splitBlanks(text string) (blanks, rest string) {
	rest = strings.TrimLeft(text, " ")
	return text[:len(text)-len(rest)], rest
}

// longestPiece is the most cells of words that are kept together.
const longestPiece = 32

// pieces splits a text at the blanks where a row may end.
func pieces(text string) []string {
	var out []string
	open := false // between backquotes
	for word := range strings.SplitSeq(text, " ") {
		last := len(out) - 1
		together := last >= 0 && (open || isNumber(out[last]) && isUnit(word) || out[last] == "line" && isNumber(word) || out[last] == "-" || out[last] == "+")
		if together && runewidth.StringWidth(out[last])+runewidth.StringWidth(word) < longestPiece {
			out[last] += " " + word
		} else {
			out = append(out, word)
		}
		if strings.Count(word, "`")%2 == 1 {
			open = !open
		}
	}
	return out
}

// isNumber tells whether a piece is a number, so that a unit may follow.
func isNumber(word string) bool {
	word = strings.TrimLeft(word[strings.LastIndexAny(word, "(√")+1:], "-−±`(")
	return word != "" && word[0] >= '0' && word[0] <= '9' && !strings.Contains(word, " ")
}

// isUnit tells whether a word after a number is its unit.
func isUnit(word string) bool {
	word, _, _ = strings.Cut(word, ")")
	word = strings.TrimRight(word, ".,;:?`")
	if strings.ContainsAny(word, "/·^²³⁻°%") {
		return !isNumber(word)
	}
	return units.NewTable().Has(word)
}
