package help

import (
	"strings"

	"steelyard/session/rows"
)

// width is the most cells of a row: a screen of 80, less an indent of eight.
const width = 72

// goesOn marks a row that goes on with the one above, until rows are fitted to a
// screen.
const goesOn = "\x01"

// fold breaks a text into rows; all but the first begin with the indent.
func fold(indent, text string) []string {
	out := rows.Hang(text, len(indent), width)
	for i := 1; i < len(out); i++ {
		out[i] = goesOn + out[i]
	}
	return out
}

// under folds a text that stands two blanks in.
func under(text string) []string { return fold("    ", "  "+text) }

// beside sets a word and what it means side by side, the meaning at a column.
func beside(word string, column int, meaning string) []string {
	gap := max(1, column-rows.Width(word))
	blank := strings.Repeat(" ", column)
	return fold(blank, word+strings.Repeat(" ", gap)+meaning)
}

// table sets words and their meanings in two columns.
func table(words, meanings []string) []string {
	column := 0
	for _, w := range words {
		column = max(column, rows.Width(w)+2)
	}
	column = min(column, 26)
	var out []string
	for i, w := range words {
		out = append(out, beside("  "+w, column+2, meanings[i])...)
	}
	return out
}

// fit breaks rows anew for a screen of fewer cells; a wider one shows them as
// they are.
func fit(lines []string, cells int) []string {
	out := make([]string, 0, len(lines))
	if cells >= width {
		for _, row := range lines {
			out = append(out, strings.TrimPrefix(row, goesOn))
		}
		return out
	}
	for i := 0; i < len(lines); i++ {
		text, hang := lines[i], -1
		for i+1 < len(lines) && strings.HasPrefix(lines[i+1], goesOn) {
			i++
			words := strings.TrimLeft(lines[i][len(goesOn):], " ")
			hang = len(lines[i]) - len(goesOn) - len(words)
			text += " " + words
		}
		out = append(out, narrow(text, hang, max(cells, 24))...)
	}
	return out
}

// narrow breaks one text into rows of at most so many cells. The rows below the
// first hang where they did before, or, where they had none, under what stands
// beside a first word; in a narrow screen less far in.
func narrow(text string, hang, cells int) []string {
	if rows.Width(text) <= cells {
		return []string{text}
	}
	head := len(text) - len(strings.TrimLeft(text, " "))
	if hang < 0 {
		hang = head + 2
		if gap := strings.Index(text[head:], "  "); gap > 0 {
			rest := strings.TrimLeft(text[head+gap:], " ")
			hang = rows.Width(text[:len(text)-len(rest)])
		}
	}
	if hang > cells/2 {
		hang = min(head+2, cells/2)
	}
	return rows.Hang(text, hang, cells)
}
