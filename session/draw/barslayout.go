package draw

import (
	"math"
	"strings"

	"steelyard/session/entry"
	"steelyard/units"
)

const (
	barWidth   = 32.0
	barsHeight = 200.0 // most height of the bars of a row
	barsPart   = 0.45  // and as a part of the width
	slotGap    = 10.0  // between neighbouring bars' texts
	stageGap   = 26.0  // between stages
	mostSlot   = 120.0 // texts wider than this are wrapped
)

// chart is what is the same of energy bars at every width.
//
// Which number is at which height is settled here once, so that a page shows the same scale on a
// phone as on a desk.
type chart struct {
	*entry.Bars
	groups              []group
	kinds               []kind
	span                span
	ticks               ticks
	numbers             []label // at the ticks
	unit                label
	left                float64 // of the bars: where the axis is
	spoken, description string
}

// The unit is written once above the scale, with the power of ten if there is one, and not at each
// number.
func newChart(b *entry.Bars) *chart {
	c := &chart{Bars: b, groups: groupsOf(b), spoken: spoken(b), description: b.Told().String()}
	c.kinds = kindsOf(c.groups)
	v := spanOf(c.groups)
	c.span = newSpan(NiceRange(v.from, v.to))
	c.ticks = c.span.ticks(5)
	c.numbers = c.ticks.labels()
	c.unit = label{text: unitText(b.Unit, c.ticks.power)}
	for _, text := range c.ticks.texts {
		c.left = math.Max(c.left, textWidth(text))
	}
	c.left += edge + tickLength + 4
	return c
}

// barsLayout is a chart with the places of all that is drawn of it: its stages side by
// side, in as many rows as the width asks for.
type barsLayout struct {
	sheet
	*chart
	rows   []rowLayout
	title  []label // the unit
	width  float64
	legend float64 // where it begins
	height float64
}

// rowLayout is a row of stages over one zero line.
//
// A row is as high as the longest texts of its bars ask for; all rows have the same scale.
type rowLayout struct {
	groups        []groupLayout
	top, bottom   float64 // ends of the scale
	right         float64
	names, stages float64 // where the texts of the bars and of the stages begin
}

// groupLayout is one stage with the places of its texts.
//
// A stage is at least as wide as its name needs, in reason: a long name is broken into rows.
type groupLayout struct {
	group
	left, width float64
	slot        float64 // width of one bar with its texts
	texts       []label // below the bars: the stage and its sum
	columns     []column
}

// column is a bar with the rows of its texts.
type column struct {
	bar
	name, value []label
}

// layout finds the places at a width.
//
// A stage that does not fit beside the one before begins a new row. One alone that is too wide
// makes the whole drawing wider, which the page then scrolls or shrinks.
func (c *chart) layout(most float64) *barsLayout {
	s := &barsLayout{chart: c, width: most}
	slot := s.slot()
	x := s.left + stageGap/2
	for i, g := range c.groups {
		group := newGroupLayout(g, slot)
		if i == 0 || x+group.width+edge > most {
			s.rows = append(s.rows, rowLayout{})
			x = s.left + stageGap/2
		}
		group.left = x
		x += group.width + stageGap
		row := &s.rows[len(s.rows)-1]
		row.groups = append(row.groups, group)
		row.right = math.Max(x-stageGap/2, s.left+100)
		s.width = math.Max(s.width, row.right+edge)
	}
	s.title = s.unit.rows(s.width - 2*edge)
	s.legend = edge + lineHeight*float64(len(s.title)) + 8
	for i := range s.rows {
		s.legend = s.rows[i].place(s.legend, math.Min(barsHeight, barsPart*most)) + 8
	}
	s.height = s.legend + lineHeight*float64(s.legendOf().lines()) + edge
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

// slot gives the width of a bar with its texts, the same in all stages so that they can
// be compared at a glance. It is less where the widest stage would not fit.
func (s *barsLayout) slot() float64 {
	slot, bars := barWidth, 1
	for _, g := range s.groups {
		bars = max(bars, len(g.bars))
		for _, b := range g.bars {
			slot = math.Max(slot, math.Min(mostSlot, math.Max(textWidth(b.name.text), textWidth(b.value.text))))
		}
	}
	room := (s.width-s.left-stageGap-edge+slotGap)/float64(bars) - slotGap
	return math.Max(barWidth, math.Min(slot, room))
}

// The work between two stages is no wider than its bar asks for: its name goes below it in several rows.
func newGroupLayout(g group, slot float64) groupLayout {
	s := groupLayout{group: g, slot: slot}
	s.width = math.Max(76, s.across())
	if !g.work {
		s.width = math.Max(s.width, math.Min(mostSlot, math.Max(textWidth(g.name), textWidth(g.sum))))
	}
	s.texts = append(label{text: g.name}.rows(s.width), label{text: g.sum}.rows(s.width)...)
	s.columns = make([]column, len(g.bars))
	for i, b := range g.bars {
		s.columns[i] = column{b, b.name.rows(slot), b.value.rows(slot)}
	}
	return s
}

// across is the width of the bars of a group.
func (g *groupLayout) across() float64 {
	return g.slot*float64(len(g.bars)) + slotGap*float64(len(g.bars)-1)
}

// place shares out the height of a row from y downward: values above and below the
// bars, which are so high, then names, stages and sums. It gives the y below it.
//
// Values of negative bars are below them. A row keeps the rows of text free that its fullest
// column needs, so that names of all stages begin at one height.
func (r *rowLayout) place(y, high float64) float64 {
	above, below, names, stages := 0, 0, 0, 0
	for _, g := range r.groups {
		for _, b := range g.columns {
			n := len(b.value)
			if b.size < 0 {
				below = max(below, n)
			} else {
				above = max(above, n)
			}
			names = max(names, len(b.name))
		}
		stages = max(stages, len(g.texts))
	}
	r.top = y + lineHeight*float64(above)
	r.bottom = r.top + high
	r.names = r.bottom + 4 + lineHeight*float64(below)
	r.stages = r.names + lineHeight*float64(names) + 6
	return r.stages + lineHeight*float64(stages)
}

func (s *barsLayout) y(r *rowLayout, v float64) float64 {
	part := math.Max(0, math.Min(1, s.span.part(v)))
	return r.bottom - part*(r.bottom-r.top)
}

func (s *barsLayout) breadth() float64 { return s.width }

// draw writes the chart.
func (s *barsLayout) draw(on vector) {
	s.vector = on
	s.begin(s.width, s.height, s.spoken, s.description, min(len(s.kinds), fillKinds))
	s.block(edge, edge, s.title)
	for i := range s.rows {
		r := &s.rows[i]
		s.scale(r)
		for k := range r.groups {
			s.group(r, &r.groups[k])
		}
	}
	key := s.legendOf()
	key.write(&s.sheet, s.legend, func(i int, x, y float64) {
		s.bar(box{x, y + 2, x + key.sample, y + lineHeight - 2}, i%fillKinds, false)
	})
	s.end()
}

// scale draws the axis of values and the zero line that all bars of a row begin at.
func (s *barsLayout) scale(r *rowLayout) {
	lines := [][]point{{{s.left, r.top}, {s.left, r.bottom}}}
	for i, v := range s.ticks.at {
		y := s.y(r, v)
		lines = append(lines, []point{{s.left, y}, {s.left - tickLength, y}})
		s.text(s.left-tickLength-4, y+ascent/2-0.5, end, s.numbers[i])
	}
	lines = append(lines, []point{{s.left, s.y(r, 0)}, {r.right, s.y(r, 0)}})
	s.rules(axisInk, lines)
}

func (s *barsLayout) group(r *rowLayout, g *groupLayout) {
	x := g.left + (g.width-g.across())/2 + g.slot/2
	for _, b := range g.columns {
		s.column(b, x, r, g.work)
		x += g.slot + slotGap
	}
	s.centred(g.left+g.width/2, r.stages+ascent+2, g.texts)
}

// column draws one bar around x with its value at its end and its name beneath.
//
// A bar of no length is not drawn, as its line would look like a value; its number says 0.
func (s *barsLayout) column(b column, x float64, r *rowLayout, work bool) {
	zero, end := s.y(r, 0), s.y(r, 0)
	if isFinite(b.size) {
		end = s.y(r, b.size)
	}
	if zero != end {
		s.bar(box{x - barWidth/2, math.Min(zero, end), x + barWidth/2, math.Max(zero, end)}, s.fill(b.bar), work)
	}
	y := end - 6 - lineHeight*float64(len(b.value)-1)
	if b.size < 0 {
		y = end + ascent + 5
	}
	s.centred(x, y, b.value)
	s.centred(x, r.names+ascent+2, b.name)
}

// centred writes rows of text around x, the first at y.
func (s *barsLayout) centred(x, y float64, rows []label) {
	for _, row := range rows {
		s.text(x, y, middle, row)
		y += lineHeight
	}
}

// spoken is the title that a screen reader says.
func spoken(b *entry.Bars) string {
	var names []string
	for _, s := range b.Stages {
		names = append(names, s.Name)
	}
	return "Energy bars: " + strings.Join(names, ", ")
}
