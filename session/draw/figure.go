package draw

import (
	"math"
	"strings"

	"steelyard/session/entry"
	"steelyard/units/each"
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
	leastTicks = 3    // on the x axis, where there is room: one or two don't tell a scale
)

// figure is what is the same of a graph at every width.
//
// The height of a plot may change with the width, but not what its y axis says, nor where a curve breaks.
type figure struct {
	*entry.Graph
	across, up          span // of the axes
	upTicks             ticks
	upNumbers           []label     // at its ticks
	xTitle, yTitle      label       // of the axes
	labels              []label     // the names of the curves
	stretches           [][][]point // of each curve
	room                []point     // for a stretch that is being thinned
	spoken, description string
}

// The power of ten of the x axis doesn't depend on the number of ticks; only how many there are
// does depend on the width.
func newFigure(g *entry.Graph) *figure {
	f := &figure{Graph: g, labels: curveLabels(g)}
	f.across, f.up = spansOf(g)
	f.upTicks = f.up.ticks(6)
	f.upNumbers = f.upTicks.labels()
	f.xTitle, f.yTitle = axisLabel(g.X, f.across.commonPower()), axisLabel(g.Y, f.upTicks.power)
	f.spoken, f.description = told(g)
	for _, c := range g.Curves {
		f.stretches = append(f.stretches, stretches(f.across, f.up, c.Runs))
	}
	return f
}

// figureLayout is a figure with the places of all that is drawn of it.
//
// It is made whole before a line is drawn, so that the height of the drawing is known at its
// beginning, where formats want it.
type figureLayout struct {
	sheet
	*figure
	place
	ground
	xTicks, yTicks ticks
	xLabel, yLabel []label
	poles          [][]point // the asymptotes of all
	dots           []dot     // the ends of pieces at jumps
	keyed          []int     // curves named in a key below
	square         float64   // side of the squares of blank axes
	below          float64
	width          float64
	height         float64
}

// layout finds the places at a width.
//
// Curves are cut to the box before names look for their places, and the height comes last, when it
// is known how many rows the key takes.
func (f *figure) layout(width float64) *figureLayout {
	s := &figureLayout{figure: f, place: place{x: f.across, y: f.up}, yTicks: f.upTicks, width: width}
	about := int(width / acrossTick)
	s.xTicks = s.x.ticks(about)
	for more := about + 1; len(s.xTicks.at) < leastTicks && more <= 2*about; more++ {
		s.xTicks = s.x.ticks(more) // the step that is the next round one may be far longer
	}
	s.places()
	if !s.Blank {
		s.see()
		s.placeNames()
	}
	s.height = s.below + edge + lineHeight*float64(s.key().lines())
	return s
}

// dot is an end of a piece at a jump, open where the curve has another value there.
type dot struct {
	at   point
	open bool
}

// see finds what is seen of the curves.
//
// Thinning to a quarter of a unit and leaving out points within a fifth of one can't be seen, and keeps pages small.
func (s *figureLayout) see() {
	s.seen = make([][][]point, len(s.Curves))
	for i, c := range s.Curves {
		s.seen[i] = s.visible(s.stretches[i], 0.25, 0.2, &s.room)
		for _, d := range c.Dots {
			if at := s.at(d.X, d.Y); s.box.holds(at) {
				s.dots = append(s.dots, dot{at, d.Open})
				if d.Open {
					s.seen[i] = cutBack(s.seen[i], at)
				}
			}
		}
		for _, x := range c.Poles {
			if at := s.at(x, s.y.from); at.X > s.box.left+1 && at.X < s.box.right-1 {
				s.poles = append(s.poles, []point{{at.X, s.box.top}, {at.X, s.box.bottom}})
			}
		}
	}
}

// cutBack ends the lines that run to an open dot at its edge.
//
// The line would else go through the ring, which would then look like a point that belongs to the
// curve.
func cutBack(lines [][]point, at point) [][]point {
	off := func(p point) float64 { return math.Hypot(p.X-at.X, p.Y-at.Y) }
	for i, line := range lines {
		for len(line) > 1 && off(line[0]) < dotRadius && off(line[1]) < dotRadius {
			line = line[1:]
		}
		for n := len(line); n > 1 && off(line[n-1]) < dotRadius && off(line[n-2]) < dotRadius; n = len(line) {
			line = line[:n-1]
		}
		if n := len(line); n > 1 {
			line = append([]point(nil), line...)
			if d := off(line[1]); off(line[0]) < dotRadius {
				line[0] = along(at, line[1], dotRadius/d)
			}
			if d := off(line[n-2]); off(line[n-1]) < dotRadius {
				line[n-1] = along(at, line[n-2], dotRadius/d)
			}
		}
		lines[i] = line
	}
	return lines
}

// places places the plot area so that no label is cut.
//
// Room at the right is for the last number of the x axis and for names that are put at the ends of
// curves; the left is for the longest number of the y axis.
func (s *figureLayout) places() {
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
	s.yLabel = s.yTitle.rows(s.width - 2*edge)
	s.xLabel = s.xTitle.rows(s.width - 2*edge)
	top := edge + lineHeight*float64(len(s.yLabel)) + 14
	left := s.leftOf(s.yTicks)
	w := s.width - left - right
	h := math.Min(plotHeight, plotPart*s.width)
	if oneScale(s.Graph) {
		w, h = s.trueShape(w, h)
	}
	if s.Blank {
		left, w, h = s.squares(right, h)
	}
	s.box = box{left, top, left + w, top + h}
	s.area, s.zero = s.box, s.at(0, 0)
	s.below = s.box.bottom + tickLength + lineHeight*float64(1+len(s.xLabel)) + 8
}

// trueShape is the size of a plot area in which a metre across is as long as a metre up,
// so that a circle is one; the size that is usual where it would be too flat or narrow.
func (s *figureLayout) trueShape(w, h float64) (float64, float64) {
	part := (s.y.to - s.y.from) / (s.x.to - s.x.from)
	most := math.Max(1.4*h, math.Min(w, 1.4*h))
	switch true := part * w; {
	case true >= h/2 && true <= most:
		return w, true
	case true > most && true < 3*most:
		return most / part, most
	}
	return w, h
}

// leftOf is the room left of the y axis for the texts of its ticks.
//
// Numbers are estimated high, so that none touches the edge with any font that a reader's machine
// has.
func (s *figureLayout) leftOf(t ticks) float64 {
	left := 0.0
	for _, text := range t.texts {
		left = math.Max(left, textWidth(text))
	}
	return left + edge + tickLength + 4
}

func (s *figureLayout) breadth() float64 { return s.width }

// draw writes the figure.
//
// From back to front: squares, axes, asymptotes, curves, rings and dots, readings, names. Blank
// axes end after the axes, since all else would give the curves away.
func (s *figureLayout) draw(on vector) {
	s.vector = on
	s.begin(s.width, s.height, s.spoken, s.description, 0)
	if s.Blank {
		s.rules(gridInk, s.grid())
	}
	s.axes()
	if !s.Blank {
		s.curves(poleInk, s.poles)
		for i, lines := range s.seen {
			s.curves(curveInk(i), lines)
		}
		for _, d := range s.dots {
			s.dot(d.at, d.open)
		}
		s.readings()
		s.named(s.names)
		key := s.key()
		key.write(&s.sheet, s.below, func(i int, x, y float64) {
			level := y + lineHeight/2 - 1
			s.curves(curveInk(s.keyed[i]), [][]point{{{x, level}, {x + key.sample, level}}})
		})
	}
	s.end()
}

// axes draws the axes, their ticks and labels, and the thin zero lines.
//
// A tick goes outward, where it can't be taken for a part of a curve. Lines at 0 are drawn only
// inside the box; at its edge they would double the axis.
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
	ticks := len(s.xTicks.at) + len(s.yTicks.at)
	ends, axis := make([]point, 0, 2*ticks), make([][]point, 0, 1+ticks)
	axis = append(axis, []point{{b.left, b.top}, {b.left, b.bottom}, {b.right, b.bottom}})
	tick := func(from, to point) {
		ends = append(ends, from, to)
		axis = append(axis, ends[len(ends)-2:])
	}
	for _, v := range s.xTicks.at {
		x := s.at(v, s.y.from).X
		tick(point{x, b.bottom}, point{x, b.bottom + tickLength})
	}
	for _, v := range s.yTicks.at {
		y := s.at(s.x.from, v).Y
		tick(point{b.left, y}, point{b.left - tickLength, y})
	}
	s.rules(axisInk, axis)
	s.axisTexts()
}

func (s *figureLayout) axisTexts() {
	b := s.box
	free := 0.0
	y := b.bottom + tickLength + ascent + 4
	for i, l := range s.xTicks.labels() {
		x := s.at(s.xTicks.at[i], s.y.from).X
		if t := textBox(x, y, middle, l.text); t.left > free && l.text != "" {
			s.text(x, y, middle, l)
			free = t.right + 4
		}
	}
	numbers := s.upNumbers
	if s.Blank { // its squares may have other ticks
		numbers = s.yTicks.labels()
	}
	for i, v := range s.yTicks.at {
		s.text(b.left-tickLength-4, s.at(s.x.from, v).Y+ascent/2-0.5, end, numbers[i])
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
//
// The shapes in words, such as rising to a maximum, are what a sighted reader sees first.
func told(g *entry.Graph) (spoken, description string) {
	x, y := g.X.Label.String(), g.Y.Label.String()
	if g.Blank {
		return "Axes to draw on: " + y + " against " + x, "Axes to draw on: " + x + " and " + y + "."
	}
	return "Graph of " + y + " against " + x, strings.Join(each.Of(g.Shapes, entry.Said.String), " ")
}
