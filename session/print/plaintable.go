package print

import (
	"fmt"
	"strings"

	"github.com/mattn/go-runewidth"
)

// table writes a table in columns, or, where it is too wide for that, row by row
// with its heads before the values.
func (t *plainText) table(table *Table) {
	columns := table.columns()
	widths, across := make([]int, columns), 2*(columns-1)
	heads, rows := texts(table.Heads), make([][]string, len(table.Rows))
	for i, row := range table.Rows {
		rows[i] = texts(row)
	}
	for _, row := range append([][]string{heads}, rows...) {
		for i, cell := range row {
			widths[i] = max(widths[i], runewidth.StringWidth(cell))
		}
	}
	for _, w := range widths {
		across += w
	}
	if across > t.columns {
		t.rowByRow(heads, rows)
		return
	}
	if len(heads) > 0 {
		t.row(table, heads, widths)
		t.out(strings.Repeat("-", across))
	}
	for _, row := range rows {
		t.row(table, row, widths)
	}
	t.gap()
}

func (t *plainText) row(table *Table, cells []string, widths []int) {
	line := ""
	for i, w := range widths {
		cell := ""
		if i < len(cells) {
			cell = cells[i]
		}
		if table.numbers(i) {
			cell = runewidth.FillLeft(cell, w)
		} else {
			cell = runewidth.FillRight(cell, w)
		}
		if i > 0 {
			line += "  "
		}
		line += cell
	}
	t.out(line)
}

func (t *plainText) rowByRow(heads []string, rows [][]string) {
	for _, row := range rows {
		for i, cell := range row {
			head := ""
			if i < len(heads) {
				head = heads[i] + ": "
			}
			t.wrapped("  ", "    ", head+cell)
		}
		t.gap()
	}
}

// texts are heads or cells as text.
func texts[T fmt.Stringer](all []T) []string {
	out := make([]string, len(all))
	for i, x := range all {
		out[i] = oneLine(x.String())
	}
	return out
}
