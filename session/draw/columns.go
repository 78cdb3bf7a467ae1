package draw

import "strings"

// Columns sets the cells of a table, its heads first, in columns: each at the right
// of its column, the decimal points of numbers under each other.
func Columns(table [][]string) []string {
	heads := len(table[0])
	wide, behind := make([]int, heads), make([]int, heads) // in all, and from the point on
	for n, row := range table {
		for i, cell := range row {
			if row[i] = clean(cell); n > 0 {
				behind[i] = max(behind[i], width(fromPoint(row[i])))
			}
		}
	}
	for n, row := range table {
		for i, cell := range row {
			if n > 0 {
				row[i] += strings.Repeat(" ", behind[i]-width(fromPoint(cell)))
			}
			wide[i] = max(wide[i], width(row[i]))
		}
	}
	lines := make([]string, len(table))
	for n, row := range table {
		for i, cell := range row {
			row[i] = strings.Repeat(" ", wide[i]-width(cell)) + cell
		}
		lines[n] = strings.Join(row, "   ")
	}
	return lines
}

// fromPoint is what a number has from its decimal point on.
func fromPoint(cell string) string {
	if i := strings.IndexByte(cell, '.'); i >= 0 {
		return cell[i:]
	}
	return ""
}
