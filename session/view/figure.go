package view

import (
	"strings"

	"steelyard/session/draw"
	"steelyard/session/entry"
	"steelyard/session/rows"
)

// graphRows is the height of a graph where the window's is not known.
const graphRows = 22

// Graph prints a graph, and what its curves are.
func (p *page) Graph(g *entry.Graph) {
	rows := p.drawingRows()
	indent, columns := p.room()
	p.block(indent, draw.Graph(g).Text(min(columns, 100), rows, p.o.ASCII))
	if g.Residuals != nil {
		p.block(indent, draw.Graph(g.Residuals).Text(min(columns, 100), rows/2, p.o.ASCII))
	}
	if !g.Blank {
		p.Lines(g.Shapes)
	}
}

// drawingRows is how many rows a drawing may take.
func (p *page) drawingRows() int {
	if p.o.Height > 0 {
		return max(10, min(30, p.o.Height-6))
	}
	return graphRows
}

// Table prints a table in columns, or, where the page is too narrow for them, row by row
// with the heads before the values.
func (p *page) Table(t *entry.Table) {
	columns, indent := draw.Columns(t.Cells()), p.margin+2
	if across := rows.Width(columns[0]); across <= p.o.Width-2 {
		for _, row := range columns {
			p.row(min(indent, p.o.Width-across), strings.TrimRight(row, " "))
		}
		return
	}
	cells := t.Cells()
	for n, row := range cells[1:] {
		if n > 0 {
			p.row(0, "")
		}
		for i, cell := range row {
			if cell != "" {
				p.told(cells[0][i] + ": " + cell)
			}
		}
	}
}

// Budget prints a budget, and what was asked for beside it.
func (p *page) Budget(b *entry.Budget) {
	p.Table(&b.Table)
	p.Lines(b.Told)
}

// Bars prints an energy bar chart; what is wrong with its books is a finding.
func (p *page) Bars(b *entry.Bars) {
	indent, columns := p.room()
	p.block(indent, draw.Bars(b).Text(columns, 0, p.o.ASCII))
	if b.Holds {
		p.told(b.Books.String())
	}
	if b.Scale != nil {
		p.told(b.Scale.String())
	}
}

// Arrows prints vectors to scale, or the axes to draw them on, and what they are.
func (p *page) Arrows(a *entry.Arrows) {
	indent, columns := p.room()
	if a.Axes != nil {
		p.block(indent, draw.Graph(a.Axes).Text(min(columns, 100), p.drawingRows(), p.o.ASCII))
		return
	}
	p.block(indent, draw.Arrows(a).Text(min(columns, 100), p.drawingRows(), p.o.ASCII))
	p.Lines(a.Told)
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
