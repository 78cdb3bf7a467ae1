package draw

import (
	"math"
	"strings"
)

const (
	svgWidth   = 640.0
	svgPlot    = 300.0 // least height of the plot area
	edge       = 8.0   // kept free around everything
	tickLength = 5.0
)

// SVG draws the figure as one svg element, for a page or a file of its own.
func (f *Figure) SVG() string { return f.SVGID("g") }

// SVGID is SVG with a prefix for the element's ids, which must differ between
// the figures of one page. The element has a size of its own; a page for narrow
// screens lets it shrink by its style sheet.
func (f *Figure) SVGID(prefix string) string {
	s := newSVGFigure(f)
	s.draw(prefix)
	return s.String()
}

func (s *svgFigure) draw(prefix string) {
	s.open(prefix, s.spoken(), s.Description, svgWidth, s.height)
	s.lines(edge, edge, svgWidth-2*edge, ` font-weight="bold"`, s.Title)
	if s.Blank {
		s.grid()
	}
	s.axes()
	if !s.Blank {
		s.curves()
		s.marks()
		s.writeNames()
		s.lines(edge, s.writeKey(s.below), svgWidth-2*edge, "", s.Caption...)
	}
	s.WriteString("</svg>\n")
}

// svgFigure is a figure on its way to SVG.
type svgFigure struct {
	svgOut
	*Figure
	place
	xTicks, yTicks ticks
	xLabel, yLabel []string
	seen           [][][]Point // the visible pieces of each curve
	names          []name
	keyed          []int // curves named in a key below
	across, down   int   // squares of a blank figure
	below          float64
	height         float64
}

func newSVGFigure(f *Figure) *svgFigure {
	s := &svgFigure{Figure: f, place: place{x: newSpan(f.X.From, f.X.To), y: newSpan(f.Y.From, f.Y.To)}}
	s.xTicks, s.yTicks = s.x.ticks(8), s.y.ticks(6)
	if f.Blank {
		s.x, s.xTicks, s.across = squared(s.x, 560/int(square))
		s.y, s.yTicks, s.down = squared(s.y, int(svgPlot)/int(square))
	}
	s.layout()
	if !f.Blank {
		s.seen = make([][][]Point, len(f.Curves))
		for i, c := range f.Curves {
			for _, line := range s.visible(c.Runs, 0.25) {
				s.seen[i] = append(s.seen[i], simplify(line, 0.2))
			}
		}
		s.placeNames()
	}
	s.height = s.below + edge
	if !f.Blank {
		s.height += lineHeight * float64(s.keyLines()+countLines(svgWidth-2*edge, f.Caption...))
	}
	return s
}

// layout places the plot area so that no label is cut.
func (s *svgFigure) layout() {
	left := 0.0
	for _, text := range s.yTicks.texts {
		left = math.Max(left, textWidth(text))
	}
	left += edge + tickLength + 4
	right := edge + 4
	if n := len(s.xTicks.texts); n > 0 {
		right = math.Max(right, edge+textWidth(s.xTicks.texts[n-1])/2)
	}
	if !s.Blank {
		for _, c := range s.Curves {
			if w := textWidth(clean(c.Name)); w <= svgWidth/4 {
				right = math.Max(right, w+6+edge)
			}
		}
	}
	s.yLabel = wrap(label(s.Y.Label, s.yTicks.power), charactersIn(svgWidth-2*edge))
	s.xLabel = wrap(label(s.X.Label, s.xTicks.power), charactersIn(svgWidth-2*edge))
	top := edge + lineHeight*float64(countLines(svgWidth-2*edge, s.Title)+len(s.yLabel)) + 14
	w, h := svgWidth-left-right, svgPlot
	if s.Blank {
		w, h = square*float64(s.across), square*float64(s.down)
	} else {
		h = math.Max(h, lineHeight*float64(len(s.Curves)))
	}
	s.box = box{left, top, left + w, top + h}
	s.below = s.box.bottom + tickLength + lineHeight*float64(1+len(s.xLabel)) + 8
}

// axes draws the axes, their ticks and labels, and the thin zero lines.
func (s *svgFigure) axes() {
	b := s.box
	var zero, axis strings.Builder
	if s.x.inside(0) {
		zero.WriteString("M" + num(s.at(Point{0, s.y.from}).X) + " " + num(b.top) + "V" + num(b.bottom))
	}
	if s.y.inside(0) {
		zero.WriteString("M" + num(b.left) + " " + num(s.at(Point{s.x.from, 0}).Y) + "H" + num(b.right))
	}
	if zero.Len() > 0 {
		s.WriteString(`<path d="` + zero.String() + `" fill="none" stroke="currentColor" stroke-width="0.6"/>` + "\n")
	}
	axis.WriteString("M" + num(b.left) + " " + num(b.top) + "V" + num(b.bottom) + "H" + num(b.right))
	for _, v := range s.xTicks.at {
		axis.WriteString("M" + num(s.at(Point{v, s.y.from}).X) + " " + num(b.bottom) + "v" + num(tickLength))
	}
	for _, v := range s.yTicks.at {
		axis.WriteString("M" + num(b.left) + " " + num(s.at(Point{s.x.from, v}).Y) + "h" + num(-tickLength))
	}
	s.WriteString(`<path d="` + axis.String() + `" fill="none" stroke="currentColor" stroke-width="1.2"/>` + "\n")
	s.axisTexts()
}

func (s *svgFigure) axisTexts() {
	b := s.box
	free := 0.0
	y := b.bottom + tickLength + ascent + 4
	for i, v := range s.xTicks.at {
		text := s.xTicks.texts[i]
		x := s.at(Point{v, s.y.from}).X
		if t := textBox(x, y, "middle", text); t.left > free {
			s.plain(x, y, "middle", text)
			free = t.right + 4
		}
	}
	for i, v := range s.yTicks.at {
		s.plain(b.left-tickLength-4, s.at(Point{s.x.from, v}).Y+ascent/2-0.5, "end", s.yTicks.texts[i])
	}
	for i, line := range s.yLabel {
		s.text(edge, b.top-14-descent-lineHeight*float64(len(s.yLabel)-1-i), "start", "", line, labelMarkup(line))
	}
	for _, line := range s.xLabel {
		y += lineHeight
		x, anchor := b.right, "end"
		if textWidth(line) > b.right-edge {
			x, anchor = edge, "start"
		}
		s.text(x, y, anchor, "", line, labelMarkup(line))
	}
}

// Dashes of the curves in turn; further rounds are drawn thicker.
var strokes = []string{"", "2 4", "9 5", "10 4 2 4", "5 3", "14 4 2 4 2 4"}

func stroke(i int) string {
	attributes := ` fill="none" stroke="currentColor" stroke-linejoin="round" stroke-linecap="`
	if dash := strokes[i%len(strokes)]; dash != "" {
		attributes += `butt" stroke-dasharray="` + dash
	} else {
		attributes += "round"
	}
	return attributes + `" stroke-width="` + num(1.8+0.9*float64(min(i/len(strokes), 4))) + `"`
}

func (s *svgFigure) curves() {
	for i := range s.seen {
		s.path(stroke(i), s.seen[i])
	}
}

// marks draws the measured points as dots with their error bars.
func (s *svgFigure) marks() {
	var bars [][]Point
	var spots strings.Builder
	for _, m := range s.Marks {
		if !isFinite(m.X) || !isFinite(m.Y) {
			continue
		}
		bars = append(bars, s.visible(m.bars(), 1e-9)...)
		if at := s.at(Point{m.X, m.Y}); s.box.holds(at) {
			spots.WriteString("M" + num(at.X-3) + " " + num(at.Y) + "a3 3 0 1 0 6 0a3 3 0 1 0 -6 0z")
		}
	}
	s.path(` fill="none" stroke="currentColor" stroke-width="1.2"`, bars)
	if spots.Len() > 0 {
		s.WriteString(`<path d="` + spots.String() + `"/>` + "\n")
	}
}
