package help

import (
	"strings"

	"github.com/mattn/go-runewidth"
)

// width is the most cells of a row: a screen of 80, less an indent of eight.
const width = 72

// fold breaks a text into rows; all but the first begin with the indent.
func fold(indent, text string) []string {
	var rows []string
	row, empty := "", true
	for word := range strings.SplitSeq(text, " ") {
		switch {
		case empty:
			row += word
		case runewidth.StringWidth(row)+1+runewidth.StringWidth(word) <= width:
			row += " " + word
		default:
			rows = append(rows, row)
			row = indent + word
		}
		empty = false
	}
	return append(rows, row)
}

// under folds a text that stands two blanks in.
func under(text string) []string { return fold("    ", "  "+text) }

// beside sets a word and what it means side by side, the meaning at a column.
func beside(word string, column int, meaning string) []string {
	gap := max(1, column-runewidth.StringWidth(word))
	blank := strings.Repeat(" ", column)
	return fold(blank, word+strings.Repeat(" ", gap)+meaning)
}

// table sets words and their meanings in two columns.
func table(words, meanings []string) []string {
	column := 0
	for _, w := range words {
		column = max(column, runewidth.StringWidth(w)+2)
	}
	column = min(column, 26)
	var out []string
	for i, w := range words {
		out = append(out, beside("  "+w, column+2, meanings[i])...)
	}
	return out
}
