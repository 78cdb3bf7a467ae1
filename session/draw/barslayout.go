package draw

import (
	"math"
	"strings"

	"steelyard/session/entry"
	"steelyard/units"
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
	*entry.Bars
	groups []groupLayout
	span   span
	ticks  ticks
	unit   []label
	box    box // of the bars: from the axis on, between the ends of the scale
	names  float64
	stages float64
	width  float64
	height float64
	fills  map[string]int // by the name of the bar
}

// groupLayout is one stage with the places of its texts.
type groupLayout struct {
	group
	left, width float64
	slot        float64 // width of one bar with its texts
	texts       []label // below the bars: the stage and its sum
}

func newBarsLayout(b *entry.Bars) *barsLayout {
	groups := groupsOf(b)
	s := &barsLayout{Bars: b, fills: map[string]int{}}
	v := spanOf(groups)
	s.span = newSpan(NiceRange(v.from, v.to))
	s.ticks = s.span.ticks(5)
	left := 0.0
	for _, text := range s.ticks.texts {
		left = math.Max(left, textWidth(text))
	}
	s.box.left = edge + left + tickLength + 4
	x := s.box.left + stageGap/2
	slot := commonSlot(groups)
	for _, g := range groups {
		group := newGroupLayout(g, slot)
		group.left = x
		x += group.width + stageGap
		s.groups = append(s.groups, group)
	}
	s.width = math.Max(x-stageGap/2+edge, 320)
	s.box.right = s.width - edge
	s.unit = label{text: unitText(b.Unit, s.ticks.power)}.rows(s.width - 2*edge)
	s.rows()
	return s
}

// unitText says what the numbers of the scale count.
func unitText(unit *units.Unit, power int) string {
	text := clean(unit.Screen())
	if power != 0 {
		text = powerOfTen(power) + " " + text
	}
	return "in " + text
}

// commonSlot gives the width of a bar with its texts, the same in all stages
// so that they can be compared at a glance.
func commonSlot(groups []group) float64 {
	slot := barWidth
	for _, g := range groups {
		for _, b := range g.bars {
			slot = math.Max(slot, math.Min(mostSlot, math.Max(textWidth(b.name.text), textWidth(b.value.text))))
		}
	}
	return slot
}

func newGroupLayout(g group, slot float64) groupLayout {
	s := groupLayout{group: g, slot: slot}
	s.width = math.Max(90, s.across())
	if !g.work {
		s.width = math.Max(s.width, math.Min(mostSlot, math.Max(textWidth(g.name), textWidth(g.sum))))
	}
	s.texts = append(label{text: g.name}.rows(s.width), label{text: g.sum}.rows(s.width)...)
	return s
}

// across is the width of the bars of a group.
func (g *groupLayout) across() float64 {
	return g.slot*float64(len(g.bars)) + slotGap*float64(len(g.bars)-1)
}

// rows shares out the height: values above and below the bars, then names,
// stages and sums.
func (s *barsLayout) rows() {
	above, below, names, stages := 0, 0, 0, 0
	for _, g := range s.groups {
		for _, b := range g.bars {
			n := len(b.value.rows(g.slot))
			if b.size < 0 {
				below = max(below, n)
			} else {
				above = max(above, n)
			}
			names = max(names, len(b.name.rows(g.slot)))
		}
		stages = max(stages, len(g.texts))
	}
	y := edge + lineHeight*float64(len(s.unit)) + 8
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
	s.begin(s.width, s.height, s.spoken(), s.Books, s.choose())
	s.block(edge, edge, s.unit)
	s.scale()
	for i := range s.groups {
		s.group(&s.groups[i])
	}
	s.end()
}

// choose gives each name of a bar a fill of its own, in turn, and tells how many
// are used.
func (s *barsLayout) choose() int {
	used := 0
	for _, g := range s.groups {
		for _, b := range g.bars {
			if _, known := s.fills[b.name.text]; !known && !g.work {
				s.fills[b.name.text] = len(s.fills) % fillKinds
				used = max(used, s.fills[b.name.text]+1)
			}
		}
	}
	return used
}

// scale draws the axis of values and the zero line all bars stand on.
func (s *barsLayout) scale() {
	b := s.box
	lines := [][]point{{{b.left, b.top}, {b.left, b.bottom}}}
	for i, v := range s.ticks.at {
		y := s.y(v)
		lines = append(lines, []point{{b.left, y}, {b.left - tickLength, y}})
		s.text(b.left-tickLength-4, y+ascent/2-0.5, end, numberLabel(s.ticks.texts[i]))
	}
	lines = append(lines, []point{{b.left, s.y(0)}, {b.right, s.y(0)}})
	s.rules(axisInk, lines)
}

func (s *barsLayout) group(g *groupLayout) {
	x := g.left + (g.width-g.across())/2 + g.slot/2
	for _, b := range g.bars {
		s.column(b, x, g)
		x += g.slot + slotGap
	}
	s.centred(g.left+g.width/2, s.stages+ascent+2, g.texts)
}

// column draws one bar around x with its value at its end and its name beneath.
func (s *barsLayout) column(b bar, x float64, g *groupLayout) {
	zero, end := s.y(0), s.y(0)
	if isFinite(b.size) {
		end = s.y(b.size)
	}
	if zero != end {
		s.bar(box{x - barWidth/2, math.Min(zero, end), x + barWidth/2, math.Max(zero, end)}, s.fills[b.name.text], g.work)
	}
	texts := b.value.rows(g.slot)
	y := end - 6 - lineHeight*float64(len(texts)-1)
	if b.size < 0 {
		y = end + ascent + 5
	}
	s.centred(x, y, texts)
	s.centred(x, s.names+ascent+2, b.name.rows(g.slot))
}

// centred writes rows of text around x, the first at y.
func (s *barsLayout) centred(x, y float64, rows []label) {
	for _, row := range rows {
		s.text(x, y, middle, row)
		y += lineHeight
	}
}

// spoken is the title that a screen reader says.
func (s *barsLayout) spoken() string {
	var names []string
	for _, s := range s.Stages {
		names = append(names, s.Name)
	}
	return "Energy bars: " + strings.Join(names, ", ")
}
