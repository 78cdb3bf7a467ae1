package draw

import (
	"math"
	"strings"

	"steelyard/session/entry"
)

const (
	figureWidth = 640.0
	plotHeight  = 300.0 // least height of the plot area
	edge        = 8.0   // kept free around everything
	tickLength  = 5.0
)

// figureLayout is a figure with the places of all that is drawn of it.
type figureLayout struct {
	sheet
	*entry.Graph
	place
	xTicks, yTicks ticks
	xLabel, yLabel []label
	labels         []label     // the names of the curves
	seen           [][][]point // the visible pieces of each curve
	names          []name
	keyed          []int // curves named in a key below
	across, down   int   // squares of blank axes
	below          float64
	height         float64
}

func newFigureLayout(g *entry.Graph) *figureLayout {
	s := &figureLayout{Graph: g, labels: curveLabels(g)}
	s.x, s.y = newSpan(g.X.From, g.X.To), newSpan(Height(g))
	s.xTicks, s.yTicks = s.x.ticks(8), s.y.ticks(6)
	if g.Blank {
		s.x, s.xTicks, s.across = squared(s.x, 560/int(square))
		s.y, s.yTicks, s.down = squared(s.y, int(plotHeight)/int(square))
	}
	s.layout()
	if !g.Blank {
		s.seen = make([][][]point, len(g.Curves))
		for i, c := range g.Curves {
			for _, line := range s.visible(c.Runs, 0.25) {
				s.seen[i] = append(s.seen[i], simplify(line, 0.2))
			}
		}
		s.placeNames()
	}
	s.height = s.below + edge + lineHeight*float64(s.keyLines())
	return s
}

// layout places the plot area so that no label is cut.
func (s *figureLayout) layout() {
	left := 0.0
	for _, text := range s.yTicks.texts {
		left = math.Max(left, textWidth(text))
	}
	left += edge + tickLength + 4
	right := edge + 4
	if n := len(s.xTicks.texts); n > 0 {
		right = math.Max(right, edge+textWidth(s.xTicks.texts[n-1])/2)
	}
	for _, l := range s.labels {
		if w := textWidth(l.text); w <= figureWidth/4 {
			right = math.Max(right, w+6+edge)
		}
	}
	s.yLabel = axisLabel(s.Y, s.yTicks).rows(figureWidth - 2*edge)
	s.xLabel = axisLabel(s.X, s.xTicks).rows(figureWidth - 2*edge)
	top := edge + lineHeight*float64(len(s.yLabel)) + 14
	w, h := figureWidth-left-right, plotHeight
	if s.Blank {
		w, h = square*float64(s.across), square*float64(s.down)
	} else {
		h = math.Max(h, lineHeight*float64(len(s.labels)))
	}
	s.box = box{left, top, left + w, top + h}
	s.below = s.box.bottom + tickLength + lineHeight*float64(1+len(s.xLabel)) + 8
}

// draw writes the figure.
func (s *figureLayout) draw(on vector) {
	s.vector = on
	spoken, description := told(s.Graph)
	s.begin(figureWidth, s.height, spoken, description, 0)
	if s.Blank {
		s.rules(gridInk, s.grid())
	}
	s.axes()
	if !s.Blank {
		for i, lines := range s.seen {
			s.curves(curveInk(i), lines)
		}
		for _, n := range s.names {
			s.text(n.x, n.y, n.anchor, n.label)
		}
		s.writeKey(s.below)
	}
	s.end()
}

// axes draws the axes, their ticks and labels, and the thin zero lines.
func (s *figureLayout) axes() {
	b := s.box
	zero := s.at(0, 0)
	var zeros [][]point
	if s.x.holdsZero() {
		zeros = append(zeros, []point{{zero.X, b.top}, {zero.X, b.bottom}})
	}
	if s.y.holdsZero() {
		zeros = append(zeros, []point{{b.left, zero.Y}, {b.right, zero.Y}})
	}
	s.rules(zeroInk, zeros)
	axis := [][]point{{{b.left, b.top}, {b.left, b.bottom}, {b.right, b.bottom}}}
	for _, v := range s.xTicks.at {
		x := s.at(v, s.y.from).X
		axis = append(axis, []point{{x, b.bottom}, {x, b.bottom + tickLength}})
	}
	for _, v := range s.yTicks.at {
		y := s.at(s.x.from, v).Y
		axis = append(axis, []point{{b.left, y}, {b.left - tickLength, y}})
	}
	s.rules(axisInk, axis)
	s.axisTexts()
}

func (s *figureLayout) axisTexts() {
	b := s.box
	free := 0.0
	y := b.bottom + tickLength + ascent + 4
	for i, v := range s.xTicks.at {
		text := s.xTicks.texts[i]
		x := s.at(v, s.y.from).X
		if t := textBox(x, y, middle, text); t.left > free {
			s.text(x, y, middle, numberLabel(text))
			free = t.right + 4
		}
	}
	for i, v := range s.yTicks.at {
		s.text(b.left-tickLength-4, s.at(s.x.from, v).Y+ascent/2-0.5, end, numberLabel(s.yTicks.texts[i]))
	}
	for i, line := range s.yLabel {
		s.text(edge, b.top-14-descent-lineHeight*float64(len(s.yLabel)-1-i), start, line)
	}
	for _, line := range s.xLabel {
		y += lineHeight
		x, at := b.right, end
		if textWidth(line.text) > b.right-edge {
			x, at = edge, start
		}
		s.text(x, y, at, line)
	}
}

// told says in words what a graph is and what can be seen in it, for readers who
// can't see it. Of blank axes nothing is told that would give a curve away.
func told(g *entry.Graph) (spoken, description string) {
	x, y := g.X.Label.String(), g.Y.Label.String()
	if g.Blank {
		return "Axes to draw on: " + y + " against " + x, "Axes to draw on: " + x + " and " + y + "."
	}
	return "Graph of " + y + " against " + x, strings.Join(g.Shapes, " ")
}
