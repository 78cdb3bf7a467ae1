package draw

import (
	"math"
	"strings"
)

const (
	barWidth   = 36.0
	barsHeight = 220.0
	slotGap    = 12.0  // between neighbouring bars' texts
	stageGap   = 30.0  // between stages
	mostSlot   = 160.0 // texts wider than this are wrapped
)

// barsLayout is a chart with the places of all that is drawn of it.
type barsLayout struct {
	sheet
	*Bars
	groups []groupLayout
	span   span
	ticks  ticks
	unit   string
	box    box // of the bars: from the axis on, between the ends of the scale
	names  float64
	stages float64
	width  float64
	height float64
	kinds  map[string]int // the fill of each name of a bar
}

// groupLayout is one stage with the places of its texts.
type groupLayout struct {
	Stage
	work        bool
	left, width float64
	slot        float64 // width of one bar with its texts
	name, sum   []string
}

func newBarsLayout(b *Bars) *barsLayout {
	s := &barsLayout{Bars: b, kinds: map[string]int{}}
	v := b.span()
	s.span = newSpan(NiceRange(v.from, v.to))
	s.ticks = s.span.ticks(5)
	s.unit = unitText(b.Unit, s.ticks.power)
	left := 0.0
	for _, text := range s.ticks.texts {
		left = math.Max(left, textWidth(text))
	}
	s.box.left = edge + left + tickLength + 4
	x := s.box.left + stageGap/2
	slot := commonSlot(b.groups())
	for i, g := range b.groups() {
		group := newGroupLayout(g, b.isWork(i), slot)
		group.left = x
		x += group.width + stageGap
		s.groups = append(s.groups, group)
	}
	s.width = math.Max(x-stageGap/2+edge, 320)
	s.box.right = s.width - edge
	s.rows()
	return s
}

// unitText says what the numbers of the scale count.
func unitText(unit string, power int) string {
	unit = strings.TrimSpace(clean(unit))
	if power != 0 {
		unit = strings.TrimSpace(powerOfTen(power) + " " + unit)
	}
	if unit == "" {
		return ""
	}
	return "in " + unit
}

// commonSlot gives the width of a bar with its texts, the same in all stages
// so that they can be compared at a glance.
func commonSlot(groups []Stage) float64 {
	slot := barWidth
	for _, g := range groups {
		for _, bar := range g.Bars {
			slot = math.Max(slot, math.Min(mostSlot, math.Max(textWidth(clean(bar.Name)), textWidth(clean(bar.Text)))))
		}
	}
	return slot
}

func newGroupLayout(g Stage, work bool, slot float64) groupLayout {
	s := groupLayout{Stage: g, work: work, slot: slot}
	s.width = math.Max(90, slot*float64(len(g.Bars))+slotGap*float64(len(g.Bars)-1))
	least := math.Min(mostSlot, math.Max(textWidth(clean(g.Name)), textWidth(clean(g.Sum))))
	if work {
		least = 90
	}
	s.width = math.Max(s.width, least)
	s.name = wrap(g.Name, charactersIn(s.width))
	s.sum = wrap(g.Sum, charactersIn(s.width))
	return s
}

// rows shares out the height: values above and below the bars, then names,
// stages and sums.
func (s *barsLayout) rows() {
	above, below, names, stages := 0, 0, 0, 0
	for _, g := range s.groups {
		for _, bar := range g.Bars {
			n := len(wrap(bar.Text, charactersIn(g.slot)))
			if bar.Value < 0 {
				below = max(below, n)
			} else {
				above = max(above, n)
			}
			names = max(names, len(wrap(bar.Name, charactersIn(g.slot))))
		}
		stages = max(stages, len(g.name)+len(g.sum))
	}
	y := edge + lineHeight*float64(countLines(s.width-2*edge, s.unit)) + 8
	s.box.top = y + lineHeight*float64(above)
	s.box.bottom = s.box.top + barsHeight
	s.names = s.box.bottom + 4 + lineHeight*float64(below)
	s.stages = s.names + lineHeight*float64(names) + 6
	s.height = s.stages + lineHeight*float64(stages) + edge
}

func (s *barsLayout) y(v float64) float64 {
	part := math.Max(0, math.Min(1, s.span.part(v)))
	return s.box.bottom - part*(s.box.bottom-s.box.top)
}

// draw writes the chart.
func (s *barsLayout) draw(on vector) {
	s.vector = on
	s.begin(s.width, s.height, s.spoken(), s.Description, s.choose())
	s.block(edge, edge, s.width-2*edge, words, s.unit)
	s.scale()
	for _, g := range s.groups {
		s.group(g)
	}
	s.end()
}

// choose gives each name of a bar a fill of its own, in turn, and tells how many
// are used.
func (s *barsLayout) choose() int {
	used := 0
	for _, g := range s.groups {
		for _, bar := range g.Bars {
			if _, known := s.kinds[bar.Name]; !known && !g.work {
				s.kinds[bar.Name] = len(s.kinds) % fillKinds
				used = max(used, s.kinds[bar.Name]+1)
			}
		}
	}
	return used
}

// scale draws the axis of values and the zero line all bars stand on.
func (s *barsLayout) scale() {
	b := s.box
	lines := [][]Point{{{b.left, b.top}, {b.left, b.bottom}}}
	for i, v := range s.ticks.at {
		y := s.y(v)
		lines = append(lines, []Point{{b.left, y}, {b.left - tickLength, y}})
		s.text(b.left-tickLength-4, y+ascent/2-0.5, end, valueText, s.ticks.texts[i])
	}
	lines = append(lines, []Point{{b.left, s.y(0)}, {b.right, s.y(0)}})
	s.rules(axisInk, lines)
}

func (s *barsLayout) group(g groupLayout) {
	bars := g.slot*float64(len(g.Bars)) + slotGap*float64(len(g.Bars)-1)
	x := g.left + (g.width-bars)/2 + g.slot/2
	for _, bar := range g.Bars {
		s.column(bar, x, g)
		x += g.slot + slotGap
	}
	y := s.stages + ascent + 2
	for _, line := range append(g.name[:len(g.name):len(g.name)], g.sum...) {
		s.text(g.left+g.width/2, y, middle, words, line)
		y += lineHeight
	}
}

// column draws one bar around x with its value at its end and its name beneath.
func (s *barsLayout) column(b Bar, x float64, g groupLayout) {
	zero, end := s.y(0), s.y(0)
	if isFinite(b.Value) {
		end = s.y(b.Value)
	}
	if zero != end {
		s.bar(box{x - barWidth/2, math.Min(zero, end), x + barWidth/2, math.Max(zero, end)}, s.kinds[b.Name], g.work)
	}
	texts := wrap(b.Text, charactersIn(g.slot))
	y := end - 6 - lineHeight*float64(len(texts)-1)
	if b.Value < 0 {
		y = end + ascent + 5
	}
	for _, line := range texts {
		s.text(x, y, middle, valueText, line)
		y += lineHeight
	}
	y = s.names + ascent + 2
	for _, line := range wrap(b.Name, charactersIn(g.slot)) {
		s.text(x, y, middle, nameText, line)
		y += lineHeight
	}
}

// spoken is the title that a screen reader says.
func (b *Bars) spoken() string {
	var names []string
	for _, s := range b.Stages {
		names = append(names, s.Name)
	}
	return "Energy bars: " + strings.Join(names, ", ")
}
