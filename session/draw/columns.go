package draw

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Columns sets the cells of a table, its heads first, in columns: each at the right
// of its column, the decimal points of numbers under each other. A column without numbers
// alone, such as one of names or of values with their units, is set at the left.
func Columns(table [][]string) []string {
	heads := len(table[0])
	wide, behind := make([]int, heads), make([]int, heads) // in all, and from the point on
	words := make([]bool, heads)
	for i := range words {
		words[i] = worded(table[1:], i)
	}
	for n, row := range table {
		for i, cell := range row {
			if row[i] = clean(cell); n > 0 {
				behind[i] = max(behind[i], width(fromPoint(row[i])))
			}
		}
	}
	for n, row := range table {
		for i, cell := range row {
			if n > 0 && !words[i] {
				row[i] += strings.Repeat(" ", behind[i]-width(fromPoint(cell)))
			}
			wide[i] = max(wide[i], width(row[i]))
		}
	}
	lines := make([]string, len(table))
	for n, row := range table {
		for i, cell := range row {
			if fill := strings.Repeat(" ", wide[i]-width(cell)); words[i] {
				row[i] += fill
			} else {
				row[i] = fill + cell
			}
		}
		lines[n] = strings.Join(row, "   ")
	}
	return lines
}

// worded tells whether no cell of a column is a number alone.
func worded(rows [][]string, column int) bool {
	return len(rows) > 0 && !slices.ContainsFunc(rows, func(row []string) bool {
		first, _ := utf8.DecodeRuneInString(row[column])
		return row[column] != "" && !unicode.IsLetter(first) && !strings.Contains(row[column], " ")
	})
}

// fromPoint is what a number has from its decimal point on.
func fromPoint(cell string) string {
	if i := strings.IndexByte(cell, '.'); i >= 0 {
		return cell[i:]
	}
	return ""
}
