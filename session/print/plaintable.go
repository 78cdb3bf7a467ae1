package print

import (
	"strings"

	"steelyard/session/draw"
	"steelyard/session/rows"
)

// table writes a table in columns, or, where it is too wide for that, row by row
// with its heads before the values.
func (t *plainText) table(table *table) {
	columns := draw.Columns(table.Cells())
	if across := rows.Width(columns[0]); across <= t.columns {
		t.out(columns[0])
		t.out(strings.Repeat("-", across))
		for _, row := range columns[1:] {
			t.out(row)
		}
		t.gap()
		return
	}
	cells := table.Cells()
	for _, row := range cells[1:] {
		for i, cell := range row {
			if cell != "" {
				t.wrapped("  ", "    ", oneLine(cells[0][i]+": "+cell))
			}
		}
		t.gap()
	}
}
