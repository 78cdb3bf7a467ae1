package draw

import "math"

const (
	figureWidth = 640.0
	plotHeight  = 300.0 // least height of the plot area
	edge        = 8.0   // kept free around everything
	tickLength  = 5.0
)

// figureLayout is a figure with the places of all that is drawn of it.
type figureLayout struct {
	sheet
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

func newFigureLayout(f *Figure) *figureLayout {
	s := &figureLayout{Figure: f, place: place{x: newSpan(f.X.From, f.X.To), y: newSpan(f.Y.From, f.Y.To)}}
	s.xTicks, s.yTicks = s.x.ticks(8), s.y.ticks(6)
	if f.Blank {
		s.x, s.xTicks, s.across = squared(s.x, 560/int(square))
		s.y, s.yTicks, s.down = squared(s.y, int(plotHeight)/int(square))
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
		s.height += lineHeight * float64(s.keyLines())
	}
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
	if !s.Blank {
		for _, c := range s.Curves {
			if w := textWidth(clean(c.Name)); w <= figureWidth/4 {
				right = math.Max(right, w+6+edge)
			}
		}
	}
	s.yLabel = wrap(label(s.Y.Label, s.yTicks.power), charactersIn(figureWidth-2*edge))
	s.xLabel = wrap(label(s.X.Label, s.xTicks.power), charactersIn(figureWidth-2*edge))
	top := edge + lineHeight*float64(len(s.yLabel)) + 14
	w, h := figureWidth-left-right, plotHeight
	if s.Blank {
		w, h = square*float64(s.across), square*float64(s.down)
	} else {
		h = math.Max(h, lineHeight*float64(len(s.Curves)))
	}
	s.box = box{left, top, left + w, top + h}
	s.below = s.box.bottom + tickLength + lineHeight*float64(1+len(s.xLabel)) + 8
}

// draw writes the figure.
func (s *figureLayout) draw(on vector) {
	s.vector = on
	s.begin(figureWidth, s.height, s.spoken(), s.Description, 0)
	if s.Blank {
		s.rules(gridInk, s.grid())
	}
	s.axes()
	if !s.Blank {
		for i, lines := range s.seen {
			s.curves(curveInk(i), lines)
		}
		for _, n := range s.names {
			s.text(n.x, n.y, n.anchor, nameText, n.text)
		}
		s.writeKey(s.below)
	}
	s.end()
}

// axes draws the axes, their ticks and labels, and the thin zero lines.
func (s *figureLayout) axes() {
	b := s.box
	zero := s.at(Point{0, 0})
	var zeros [][]Point
	if s.x.inside(0) {
		zeros = append(zeros, []Point{{zero.X, b.top}, {zero.X, b.bottom}})
	}
	if s.y.inside(0) {
		zeros = append(zeros, []Point{{b.left, zero.Y}, {b.right, zero.Y}})
	}
	s.rules(zeroInk, zeros)
	axis := [][]Point{{{b.left, b.top}, {b.left, b.bottom}, {b.right, b.bottom}}}
	for _, v := range s.xTicks.at {
		x := s.at(Point{v, s.y.from}).X
		axis = append(axis, []Point{{x, b.bottom}, {x, b.bottom + tickLength}})
	}
	for _, v := range s.yTicks.at {
		y := s.at(Point{s.x.from, v}).Y
		axis = append(axis, []Point{{b.left, y}, {b.left - tickLength, y}})
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
		x := s.at(Point{v, s.y.from}).X
		if t := textBox(x, y, middle, text); t.left > free {
			s.text(x, y, middle, valueText, text)
			free = t.right + 4
		}
	}
	for i, v := range s.yTicks.at {
		s.text(b.left-tickLength-4, s.at(Point{s.x.from, v}).Y+ascent/2-0.5, end, valueText, s.yTicks.texts[i])
	}
	for i, line := range s.yLabel {
		s.text(edge, b.top-14-descent-lineHeight*float64(len(s.yLabel)-1-i), start, axisText, line)
	}
	for _, line := range s.xLabel {
		y += lineHeight
		x, at := b.right, end
		if textWidth(line) > b.right-edge {
			x, at = edge, start
		}
		s.text(x, y, at, axisText, line)
	}
}

// spoken is the title that a screen reader says.
func (f *Figure) spoken() string {
	if f.Blank {
		return "Axes to draw on: " + f.Y.Label + " against " + f.X.Label
	}
	return "Graph of " + f.Y.Label + " against " + f.X.Label
}
