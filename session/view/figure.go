package view

import (
	"strings"

	"github.com/mattn/go-runewidth"

	"steelyard/session/draw"
	"steelyard/session/entry"
)

// graphRows is the height of a graph where the window's is not known.
const graphRows = 22

// Graph prints a graph, and what its curves are.
func (p *page) Graph(g *entry.Graph) {
	rows := graphRows
	if p.o.Height > 0 {
		rows = max(10, min(30, p.o.Height-6))
	}
	indent, columns := p.room()
	p.block(indent, draw.GraphText(g, min(columns, 100), rows, p.o.ASCII))
	if !g.Blank {
		p.Lines(g.Shapes)
	}
}

// Table prints a table.
func (p *page) Table(t *entry.Table) { p.block(p.margin+2, tableText(t)) }

// Bars prints an energy bar chart; what is wrong with its books is a finding.
func (p *page) Bars(b *entry.Bars) {
	indent, columns := p.room()
	p.block(indent, draw.BarsText(b, columns, p.o.ASCII))
	if b.Holds {
		p.told(b.Books)
	}
}

// room is where a drawing begins and how many columns it may take.
func (p *page) room() (indent, columns int) {
	indent = p.margin - 4
	return indent, max(20, p.o.Width-indent-1)
}

// block prints lines at an indent.
func (p *page) block(indent int, text string) {
	for _, line := range strings.Split(strings.TrimRight(text, "\n"), "\n") {
		p.row(indent, strings.TrimRight(line, " "))
	}
}

// tableText sets the columns of a table under their heads, the decimal points
// under each other.
func tableText(t *entry.Table) string {
	heads := texts(t.Heads)
	rows := make([][]string, len(t.Rows))
	for i, row := range t.Rows {
		rows[i] = texts(row)
	}
	widths := make([]int, len(heads))
	before, after := make([]int, len(heads)), make([]int, len(heads))
	for _, row := range rows {
		for i, cell := range row {
			whole, part := splitPoint(cell)
			before[i], after[i] = max(before[i], runewidth.StringWidth(whole)), max(after[i], runewidth.StringWidth(part))
		}
	}
	for i, head := range heads {
		widths[i] = max(runewidth.StringWidth(head), before[i]+after[i])
	}
	var b strings.Builder
	line := func(cells []string) {
		for i, cell := range cells {
			if i > 0 {
				b.WriteString("   ")
			}
			b.WriteString(strings.Repeat(" ", max(0, widths[i]-runewidth.StringWidth(cell))) + cell)
		}
		b.WriteByte('\n')
	}
	line(heads)
	for _, row := range rows {
		cells := make([]string, len(row))
		for i, cell := range row {
			_, part := splitPoint(cell)
			cells[i] = cell + strings.Repeat(" ", after[i]-runewidth.StringWidth(part))
		}
		line(cells)
	}
	return b.String()
}

// splitPoint parts a number before its decimal point.
func splitPoint(cell string) (whole, part string) {
	if i := strings.IndexByte(cell, '.'); i >= 0 {
		return cell[:i], cell[i:]
	}
	return cell, ""
}
