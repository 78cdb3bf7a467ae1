package draw

import (
	"math"
	"strconv"
	"strings"
)

const (
	barWidth   = 36.0
	barsHeight = 220.0
	slotGap    = 12.0  // between neighbouring bars' texts
	stageGap   = 30.0  // between stages
	mostSlot   = 160.0 // texts wider than this are wrapped
)

// SVG draws the chart as one svg element.
func (b *Bars) SVG() string { return b.SVGID("b") }

// SVGID is SVG with a prefix for the element's ids, which must differ between
// the figures of one page.
func (b *Bars) SVGID(prefix string) string {
	s := newSVGBars(b)
	s.draw(prefix)
	return s.String()
}

// svgBars is a chart on its way to SVG.
type svgBars struct {
	svgOut
	*Bars
	groups []svgGroup
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

// svgGroup is one stage with the places of its texts.
type svgGroup struct {
	Stage
	work        bool
	left, width float64
	slot        float64 // width of one bar with its texts
	name, sum   []string
}

func newSVGBars(b *Bars) *svgBars {
	s := &svgBars{Bars: b, kinds: map[string]int{}}
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
		group := newSVGGroup(g, b.isWork(i), slot)
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

func newSVGGroup(g Stage, work bool, slot float64) svgGroup {
	s := svgGroup{Stage: g, work: work, slot: slot}
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
func (s *svgBars) rows() {
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
	y := edge + lineHeight*float64(countLines(s.width-2*edge, s.Title)+countLines(s.width-2*edge, s.unit)) + 8
	s.box.top = y + lineHeight*float64(above)
	s.box.bottom = s.box.top + barsHeight
	s.names = s.box.bottom + 4 + lineHeight*float64(below)
	s.stages = s.names + lineHeight*float64(names) + 6
	s.height = s.stages + lineHeight*float64(stages) + edge
}

func (s *svgBars) y(v float64) float64 {
	part := math.Max(0, math.Min(1, s.span.part(v)))
	return s.box.bottom - part*(s.box.bottom-s.box.top)
}

func (s *svgBars) draw(prefix string) {
	s.open(prefix, s.spoken(), s.Description, s.width, s.height)
	s.patterns(identifier(prefix))
	y := s.lines(edge, edge, s.width-2*edge, ` font-weight="bold"`, s.Title)
	s.lines(edge, y, s.width-2*edge, "", s.unit)
	s.scale()
	for _, g := range s.groups {
		s.group(g, identifier(prefix))
	}
	s.WriteString("</svg>\n")
}

// Fills of the bars by what they stand for, in turn; the first two of most
// charts are as unlike as can be. An empty one is an outline alone.
var fills = []string{
	`<path d="M0 6L6 0M-1 1L1 -1M5 7L7 5" stroke="currentColor" stroke-width="1"/>`,
	``,
	`<circle cx="3" cy="3" r="1.1"/>`,
	`<path d="M0 3H6" stroke="currentColor" stroke-width="1"/>`,
	`<path d="M0 0L6 6M0 6L6 0" stroke="currentColor" stroke-width="0.8"/>`,
	`<path d="M3 0V6" stroke="currentColor" stroke-width="1.6"/>`,
	`<path d="M0 3H6M3 0V6" stroke="currentColor" stroke-width="0.8"/>`,
}

// patterns defines the fills this chart needs.
func (s *svgBars) patterns(prefix string) {
	used := 0
	for _, g := range s.groups {
		for _, bar := range g.Bars {
			if _, known := s.kinds[bar.Name]; !known && !g.work {
				s.kinds[bar.Name] = len(s.kinds) % len(fills)
				used = max(used, s.kinds[bar.Name]+1)
			}
		}
	}
	if used == 0 {
		return
	}
	s.WriteString("<defs>")
	for i, fill := range fills[:used] {
		if fill != "" {
			s.WriteString(`<pattern id="` + prefix + "-fill" + strconv.Itoa(i) + `" width="6" height="6" patternUnits="userSpaceOnUse">` + fill + "</pattern>")
		}
	}
	s.WriteString("</defs>\n")
}

// scale draws the axis of values and the zero line all bars stand on.
func (s *svgBars) scale() {
	b := s.box
	d := "M" + num(b.left) + " " + num(b.top) + "V" + num(b.bottom)
	for i, v := range s.ticks.at {
		d += "M" + num(b.left) + " " + num(s.y(v)) + "h" + num(-tickLength)
		s.plain(b.left-tickLength-4, s.y(v)+ascent/2-0.5, "end", s.ticks.texts[i])
	}
	d += "M" + num(b.left) + " " + num(s.y(0)) + "H" + num(b.right)
	s.WriteString(`<path d="` + d + `" fill="none" stroke="currentColor" stroke-width="1.2"/>` + "\n")
}

func (s *svgBars) group(g svgGroup, prefix string) {
	bars := g.slot*float64(len(g.Bars)) + slotGap*float64(len(g.Bars)-1)
	x := g.left + (g.width-bars)/2 + g.slot/2
	for _, bar := range g.Bars {
		s.bar(bar, x, g, prefix)
		x += g.slot + slotGap
	}
	y := s.stages + ascent + 2
	for _, line := range append(g.name[:len(g.name):len(g.name)], g.sum...) {
		s.plain(g.left+g.width/2, y, "middle", line)
		y += lineHeight
	}
}

// bar draws one bar around x with its value at its end and its name beneath.
func (s *svgBars) bar(b Bar, x float64, g svgGroup, prefix string) {
	zero, end := s.y(0), s.y(0)
	if isFinite(b.Value) {
		end = s.y(b.Value)
	}
	if top, h := math.Min(zero, end), math.Abs(end-zero); h > 0 {
		fill := "none"
		if kind := s.kinds[b.Name]; fills[kind] != "" && !g.work {
			fill = "url(#" + prefix + "-fill" + strconv.Itoa(kind) + ")"
		}
		dash := ""
		if g.work {
			dash = ` stroke-dasharray="5 3"`
		}
		s.WriteString(`<rect x="` + num(x-barWidth/2) + `" y="` + num(top) + `" width="` + num(barWidth) + `" height="` + num(h) +
			`" fill="` + fill + `" stroke="currentColor" stroke-width="1.4"` + dash + "/>\n")
	}
	texts := wrap(b.Text, charactersIn(g.slot))
	y := end - 6 - lineHeight*float64(len(texts)-1)
	if b.Value < 0 {
		y = end + ascent + 5
	}
	for _, line := range texts {
		s.plain(x, y, "middle", line)
		y += lineHeight
	}
	y = s.names + ascent + 2
	for _, line := range wrap(b.Name, charactersIn(g.slot)) {
		s.text(x, y, "middle", "", line, nameMarkup(line))
		y += lineHeight
	}
}
