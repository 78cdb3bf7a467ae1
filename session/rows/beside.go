package rows

import "strings"

// Beside sets columns of rows side by side, each to begin so many cells behind the one before it.
func Beside(columns [][]string, apart int) []string {
	var out []string
	for k, column := range columns {
		for i, row := range column {
			if i == len(out) {
				out = append(out, "")
			}
			out[i] += strings.Repeat(" ", max(0, k*apart-Width(out[i]))) + row
		}
	}
	return out
}
