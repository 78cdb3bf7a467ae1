package print

import (
	"fmt"
	"strings"

	"github.com/mattn/go-runewidth"
)

// table writes a table in columns, or, where it is too wide for that, row by row
// with its heads before the values.
func (t *plainText) table(table *Table) {
	heads, rows := texts(table.Heads), make([][]string, len(table.Rows))
	for i, row := range table.Rows {
		rows[i] = texts(row)
	}
	widths, across := make([]int, len(heads)), 2*(len(heads)-1)
	for i := range heads {
		widths[i] = runewidth.StringWidth(heads[i])
		for _, row := range rows {
			widths[i] = max(widths[i], runewidth.StringWidth(row[i]))
		}
		across += widths[i]
	}
	if across > t.columns {
		t.rowByRow(heads, rows)
		return
	}
	t.row(table, heads, widths)
	t.out(strings.Repeat("-", across))
	for _, row := range rows {
		t.row(table, row, widths)
	}
	t.gap()
}

func (t *plainText) row(table *Table, cells []string, widths []int) {
	line := ""
	for i, cell := range cells {
		fill := runewidth.FillRight
		if table.numbers(i) {
			fill = runewidth.FillLeft
		}
		if i > 0 {
			line += "  "
		}
		line += fill(cell, widths[i])
	}
	t.out(line)
}

func (t *plainText) rowByRow(heads []string, rows [][]string) {
	for _, row := range rows {
		for i, cell := range row {
			t.wrapped("  ", "    ", heads[i]+": "+cell)
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
