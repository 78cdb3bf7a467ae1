package draw

import (
	"strings"

	"steelyard/session/entry"
)

// Drawing is a graph or a chart that can be drawn in every form.
type Drawing struct {
	// plan finds what is the same at every width, and says what a layout then is.
	plan func() func(width float64) laidOut
	text func(columns, rows int, ascii bool) []string
}

// laidOut is a drawing with the places of all that is drawn of it.
type laidOut interface {
	draw(on vector)
	// breadth is how wide it has become, in drawing units.
	breadth() float64
}

// Graph is the drawing of a graph.
func Graph(g *entry.Graph) Drawing {
	return Drawing{
		plan: func() func(float64) laidOut {
			f := newFigure(g)
			return func(width float64) laidOut { return f.layout(width) }
		},
		text: func(columns, rows int, ascii bool) []string { return graphText(g, columns, rows, ascii) },
	}
}

// Bars is the drawing of an energy bar chart.
func Bars(b *entry.Bars) Drawing {
	return Drawing{
		plan: func() func(float64) laidOut {
			c := newChart(b)
			return func(width float64) laidOut { return c.layout(width) }
		},
		text: func(columns, _ int, ascii bool) []string { return barsText(b, columns, ascii) },
	}
}

// leastArrowColumns is how many columns arrows and their names need.
const leastArrowColumns = 18

// Arrows is the drawing of vectors to scale. As text it has the same layout, in which a
// character is as wide as the widest that are expected.
func Arrows(a *entry.Arrows) Drawing {
	return Drawing{
		plan: func() func(float64) laidOut {
			f := newArrowsFigure(a, plotHeight, clean)
			return func(width float64) laidOut { return f.layout(width) }
		},
		text: func(columns, rows int, ascii bool) []string {
			if columns < leastArrowColumns {
				return wrap("These arrows need a wider window.", columns)
			}
			w := textSheet{texts: texts{ascii}}
			f := newArrowsFigure(a, max(6, float64(rows)-3)*lineHeight, w.text)
			f.layout(float64(columns) * emPart * fontSize).draw(&w)
			return w.rows
		},
	}
}

// SVG appends the drawing to a page as svg elements, one for each class of widths: the
// page's style sheet shows the one that fits. Their ids begin with a prefix, which must
// differ between the drawings of one page.
func (d Drawing) SVG(page []byte, prefix string) []byte {
	w := svgWriter{prefix: identifier(prefix), out: page}
	layout := d.plan()
	for _, each := range [...]struct {
		class string
		width float64
	}{{"wide", wide}, {"medium", medium}, {"narrow", narrow}} {
		w.class = each.class
		layout(each.width).draw(&w)
	}
	return w.out
}

// File is the drawing as a file of SVG of its own: wide, black on white.
func (d Drawing) File() string {
	w := svgWriter{prefix: "drawing"}
	d.plan()(wide).draw(&w)
	return string(w.out)
}

// TeX is the drawing as a picture of LaTeX, which needs no package and is as wide as a
// line of text of 160 mm. It is false for one that would cost TeX too much, such as one
// with many long dashed curves, or that would be too small to be read.
func (d Drawing) TeX() (string, bool) {
	w := texWriter{unit: texUnit}
	layout := d.plan()(wide)
	layout.draw(&w)
	return w.String(), w.pieces <= mostPieces && layout.breadth() <= widestTeX
}

// Text is the drawing with characters, at most columns wide, in as near to the given
// number of rows as its texts and a readable drawing allow; a chart takes the rows that it
// needs. The ASCII form uses bytes below 128 only.
func (d Drawing) Text(columns, rows int, ascii bool) string {
	return strings.Join(d.text(max(1, min(columns, mostCells)), max(1, min(rows, mostCells)), ascii), "\n") + "\n"
}
