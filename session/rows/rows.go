// Package rows breaks text into rows of a number of cells, the places that a
// terminal or a page of plain text has for characters.
//
// A row ends at a blank. A number is not parted from its unit, a sign not from
// what it stands before, nor are the words of a short piece between backquotes. Nothing is done to the characters
// themselves: text of strange origin is made safe before, by writing.Clean.
package rows

import (
	"iter"
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
	f := filler{text: text, hang: strings.Repeat(" ", hang), width: width}
	blanks := len(text) - len(strings.TrimLeft(text, " "))
	f.to, f.used = blanks, blanks
	for from, to := range pieces(text, blanks) {
		f.add(from, to, Width(text[from:to]))
	}
	return append(f.rows, f.row())
}

// Fit breaks a text into rows that are never wider than width: a word that has
// no room is broken. Blanks in a row count as one.
func Fit(text string, width int) []string {
	if Fits(text, width) {
		return []string{text}
	}
	width = max(width, 2) // the widest character takes two cells
	text = strings.Join(strings.Fields(text), " ")
	f := filler{text: text, width: width}
	for from, to := range pieces(text, 0) {
		cells := Width(text[from:to])
		for cells > width {
			if f.begun {
				f.next()
			}
			head := runewidth.Truncate(text[from:to], width, "")
			if head == "" {
				break // characters that no row has room for
			}
			f.rows = append(f.rows, head)
			from += len(head)
			cells = Width(text[from:to])
		}
		if from < to {
			f.add(from, to, cells)
		}
	}
	if f.begun {
		f.next()
	}
	return f.rows
}

// Fits tells whether Fit leaves a text as it is, in one row.
func Fits(text string, width int) bool { return isRow(text) && Width(text) <= max(width, 2) }

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

// filler puts pieces of a text into rows, one after the other. One blank is
// between a piece and the next.
type filler struct {
	text     string
	rows     []string
	from, to int    // the row that is being filled
	used     int    // its cells
	begun    bool   // it has a piece
	hang     string // what the rows below the first begin with
	width    int
}

// add puts a piece of so many cells into the row, or into the next one.
func (f *filler) add(from, to, cells int) {
	if f.begun && f.used+1+cells > f.width {
		f.next()
	}
	switch {
	case f.begun:
		cells++
	case from == to:
		return // a row below the first begins with no more blanks than hang
	case len(f.rows) > 0:
		f.from = from
	}
	f.to, f.used, f.begun = to, f.used+cells, true
}

// next ends the row and begins another.
func (f *filler) next() {
	f.rows = append(f.rows, strings.TrimRight(f.row(), " "))
	f.from, f.used, f.begun = f.to, len(f.hang), false
}

// row is the row as it is filled so far.
func (f *filler) row() string {
	if len(f.rows) == 0 {
		return f.text[f.from:f.to]
	}
	return f.hang + f.text[f.from:f.to]
}

// longestPiece is the most cells of words that are kept together.
const longestPiece = 32

// pieces goes through the pieces of a text from a place on, from and to of each: a
// row may end at the blank behind one.
func pieces(text string, from int) iter.Seq2[int, int] {
	return func(yield func(int, int) bool) {
		open := false  // between backquotes
		to := from - 1 // of the piece, which may go on
		for word := range strings.SplitSeq(text[from:], " ") {
			if next := to + 1; next > from && !together(text[from:to], word, open) {
				if !yield(from, to) {
					return
				}
				from = next
			}
			to += 1 + len(word)
			if strings.Count(word, "`")%2 == 1 {
				open = !open
			}
		}
		yield(from, to)
	}
}

// together tells whether a word belongs to the piece before it. A unit may be several
// words: 12 kg m/s, 4186 J/(kg K).
func together(piece, word string, quoted bool) bool {
	number, _, _ := strings.Cut(piece, " ")
	if !quoted && !(isNumber(number) && isUnit(word)) && !(piece == "line" && isNumber(word)) && piece != "-" && piece != "−" && piece != "+" {
		return false
	}
	return Width(piece)+Width(word) < longestPiece
}

// isNumber tells whether a piece is a number, so that a unit may follow.
func isNumber(word string) bool {
	if !strings.ContainsFunc(word, func(r rune) bool { return r >= '0' && r <= '9' }) {
		return false
	}
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
