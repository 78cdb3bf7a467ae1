package draw

import (
	"math"
	"strings"

	"steelyard/session/entry"
)

// The widths that drawings are laid out for, in CSS pixels: those of a page on a desk
// or on paper, of a tablet held upright and of a phone. Texts are of one size in all.
const (
	wide   = 640.0
	medium = 448.0
	narrow = 288.0
)

const (
	plotHeight = 300.0 // least height of a wide plot area
	plotPart   = 0.72  // and of one that is narrower, as a part of its width
	edge       = 8.0   // kept free around everything
	tickLength = 5.0
	acrossTick = 75.0 // of the width of a drawing for each tick of its x axis, about
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
	keyed          []int   // curves named in a key below
	square         float64 // side of the squares of blank axes
	below          float64
	width          float64
	height         float64
}

func newFigureLayout(g *entry.Graph, width float64) *figureLayout {
	s := &figureLayout{Graph: g, labels: curveLabels(g), width: width}
	s.x, s.y = newSpan(g.X.From, g.X.To), newSpan(Height(g))
	s.xTicks, s.yTicks = s.x.ticks(int(width/acrossTick)), s.y.ticks(6)
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
	right := edge + 4
	if n := len(s.xTicks.texts); n > 0 {
		right = math.Max(right, edge+textWidth(s.xTicks.texts[n-1])/2)
	}
	for _, l := range s.labels {
		if w := textWidth(l.text); w <= s.width/4 && len(s.labels) <= mostNamed {
			right = math.Max(right, w+nameGap+edge)
			if len(s.labels) > 1 {
				right = math.Max(right, w+leaderGap+edge)
			}
		}
	}
	s.yLabel = axisLabel(s.Y, s.yTicks).rows(s.width - 2*edge)
	s.xLabel = axisLabel(s.X, s.xTicks).rows(s.width - 2*edge)
	top := edge + lineHeight*float64(len(s.yLabel)) + 14
	left := s.leftOf(s.yTicks)
	w := s.width - left - right
	h := math.Min(plotHeight, plotPart*s.width)
	if s.Blank {
		left, w, h = s.squares(right, h)
	}
	s.box = box{left, top, left + w, top + h}
	s.below = s.box.bottom + tickLength + lineHeight*float64(1+len(s.xLabel)) + 8
}

// leftOf is the room left of the y axis for the texts of its ticks.
func (s *figureLayout) leftOf(t ticks) float64 {
	left := 0.0
	for _, text := range t.texts {
		left = math.Max(left, textWidth(text))
	}
	return left + edge + tickLength + 4
}

// draw writes the figure.
func (s *figureLayout) draw(on vector) {
	s.vector = on
	spoken, description := told(s.Graph)
	s.begin(s.width, s.height, spoken, description, 0)
	if s.Blank {
		s.rules(gridInk, s.grid())
	}
	s.axes()
	if !s.Blank {
		for i, lines := range s.seen {
			s.curves(curveInk(i), lines)
		}
		for _, n := range s.names {
			if n.leader != nil {
				s.curves(leaderInk, [][]point{n.leader})
				s.curves(anchorInk, [][]point{n.leader[:1]})
			}
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
