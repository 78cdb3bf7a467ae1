package view

import (
	"strings"

	"github.com/mattn/go-runewidth"

	"steelyard/units"
)

// Wrap breaks a text into rows of at most width cells, as findings are.
func Wrap(text string, width int) []string { return wrap(text, width) }

// wrap breaks a text into rows of at most width cells. A number is not parted
// from its unit, nor a short piece in quotes.
func wrap(text string, width int) []string {
	if text == "" {
		return nil
	}
	width = max(width, 20)
	var rows []string
	row, cells := "", 0
	for _, word := range pieces(text) {
		w := runewidth.StringWidth(word)
		switch {
		case row == "":
			row, cells = word, w
		case cells+1+w <= width:
			row += " " + word
			cells += 1 + w
		default:
			rows = append(rows, row)
			row, cells = word, w
		}
	}
	return append(rows, row)
}

// pieces splits a text at blanks where a row may end.
func pieces(text string) []string {
	var out []string
	open := false // within backquotes
	for word := range strings.SplitSeq(text, " ") {
		last := len(out) - 1
		join := last >= 0 && (open || isNumber(out[last]) && isUnit(word) || out[last] == "line" && isNumber(word))
		if join && runewidth.StringWidth(out[last])+runewidth.StringWidth(word) < 32 {
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
	word = strings.TrimLeft(word[strings.LastIndexAny(word, "(√")+1:], "-−`(")
	return word != "" && word[0] >= '0' && word[0] <= '9' && !strings.Contains(word, " ")
}

// isUnit tells whether a word after a number is its unit.
func isUnit(word string) bool {
	word, _, _ = strings.Cut(word, ")")
	word = strings.TrimRight(word, ".,;:?`")
	if strings.ContainsAny(word, "/·^²³⁻°%") {
		return true
	}
	_, ok := units.Lookup(word)
	return ok
}
