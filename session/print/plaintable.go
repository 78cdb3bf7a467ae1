package print

import (
	"strings"

	"github.com/mattn/go-runewidth"
)

// table writes a table in columns, or, where it is too wide for that, row by row
// with its heads before the values.
func (t *plainText) table(table *Table) {
	columns := len(table.Heads)
	for _, row := range table.Rows {
		columns = max(columns, len(row))
	}
	if columns == 0 {
		return
	}
	widths, across := make([]int, columns), 2*(columns-1)
	for _, row := range append([][]string{table.Heads}, table.Rows...) {
		for i, cell := range row {
			widths[i] = max(widths[i], runewidth.StringWidth(oneLine(cell)))
		}
	}
	for _, w := range widths {
		across += w
	}
	if across > t.columns {
		t.rowByRow(table)
		return
	}
	if len(table.Heads) > 0 {
		t.row(table, table.Heads, widths)
		t.out(strings.Repeat("-", across))
	}
	for _, row := range table.Rows {
		t.row(table, row, widths)
	}
	t.gap()
}

func (t *plainText) row(table *Table, cells []string, widths []int) {
	line := ""
	for i, w := range widths {
		cell := ""
		if i < len(cells) {
			cell = oneLine(cells[i])
		}
		if table.align(i) == "" {
			cell = runewidth.FillRight(cell, w)
		} else {
			cell = runewidth.FillLeft(cell, w)
		}
		if i > 0 {
			line += "  "
		}
		line += cell
	}
	t.out(line)
}

func (t *plainText) rowByRow(table *Table) {
	for _, row := range table.Rows {
		for i, cell := range row {
			head := ""
			if i < len(table.Heads) {
				head = oneLine(table.Heads[i]) + ": "
			}
			t.wrapped("  ", "    ", head+oneLine(cell))
		}
		t.gap()
	}
}
