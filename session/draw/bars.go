package draw

import (
	"math"
	"strings"

	"steelyard/session/entry"
	"steelyard/units"
)

// group is what is drawn side by side: the bars of one stage, or the work.
type group struct {
	name, sum string
	bars      []bar
	work      bool // done on the system on the way to the next stage
}

// bar is one bar with its texts: the symbol or words that it stands for, and its
// value. A value that isn't finite draws no bar.
type bar struct {
	name, value label
	kind        kind
	size        float64 // in the chart's unit
}

// A bar without a kind is a number that was typed, such as 20 J: its value is all that there is to
// say.
func newBar(b *entry.Bar) bar {
	out := bar{size: b.Value.InUnit, kind: kindOf(b.Of), value: mathLabel(b.Value.Shown(units.Drawn), b.Value.Box(), false)}
	if out.kind.key != "" { // a bare number is its own name
		out.name = nameOf(b.Of)
	}
	return out
}

// groupsOf are the groups of a chart in the order in which they are drawn, the work on
// the way to a stage before it.
//
// So a reader adds from left to right: what there was, what was done on it, what there is now. The
// sum of each stage is written below it, to be compared with the next.
func groupsOf(b *entry.Bars) []group {
	var out []group
	for i := range b.Stages {
		s := &b.Stages[i]
		if s.Work != nil {
			out = append(out, group{name: "work done on the system", bars: []bar{newBar(s.Work)}, work: true})
		}
		g := group{name: clean(s.Name), sum: clean("sum " + s.Sum.Shown(units.Drawn))}
		for k := range s.Bars {
			g.bars = append(g.bars, newBar(&s.Bars[k]))
		}
		out = append(out, g)
	}
	return out
}

// spanOf gives the range of all values and 0.
//
// Zero belongs to it always, since the lengths of bars are compared, and a bar that begins
// elsewhere lies about them. Where all bars are 0 the scale ends at 1.
func spanOf(groups []group) span {
	low, high := 0.0, 0.0
	for _, g := range groups {
		for _, b := range g.bars {
			if isFinite(b.size) {
				low, high = math.Min(low, b.size), math.Max(high, b.size)
			}
		}
	}
	low, high = finite(low, 0), finite(high, 0)
	if high-low < 1e-280 {
		return span{to: 1}
	}
	return span{from: low, to: high}
}

// barsText draws a chart with characters: the bars lie, one in a row, grouped by stage and
// to one scale.
//
// Bars that lie have their names and values on their own row, which takes any number of bars and
// the narrowest window.
func barsText(b *entry.Bars, columns int, ascii bool) []string {
	groups := groupsOf(b)
	t := newTextBars(groups, columns, ascii)
	var lines []string
	for i, g := range groups {
		if i > 0 {
			lines = append(lines, "")
		}
		lines = append(lines, wrap(t.text(g.name), t.columns)...)
		for _, bar := range g.bars {
			lines = append(lines, t.bar(bar)...)
		}
		lines = append(lines, t.indented(t.text(g.sum))...)
	}
	return lines
}

// textBars is a chart on its way to text.
//
// Names and values have columns as wide as the widest; bars have what is left, shared by the signs
// that they have.
type textBars struct {
	texts
	columns      int
	indent       int
	name, value  int // cells for the bars' names and values; name 0: on lines of their own
	below, above int // cells left and right of the zero line
	span         span
}

// Names that would take more than a third of the width have a row of their own. Bars that would
// have fewer than four cells are left out, and the numbers tell all.
func newTextBars(groups []group, columns int, ascii bool) *textBars {
	t := &textBars{columns: columns, texts: texts{ascii}, span: spanOf(groups)}
	if columns >= 20 {
		t.indent = 2
	}
	for _, g := range groups {
		for _, b := range g.bars {
			t.name = max(t.name, width(t.text(b.name.text)))
			t.value = max(t.value, width(t.text(b.value.text)))
		}
	}
	if t.name > columns/3 {
		t.name = 0
	}
	room := min(columns-t.indent-t.name-t.value-3, 60)
	if room < 4 {
		return t // too narrow for bars
	}
	part := -t.span.from / (t.span.to - t.span.from)
	t.below = int(math.Ceil(part * float64(room)))
	if t.above = room - t.below; t.span.to > 0 {
		t.above = max(1, t.above)
		t.below = room - t.above
	}
	return t
}

func (t *textBars) indented(text string) []string {
	lines := wrap(text, t.columns-t.indent)
	for i := range lines {
		lines[i] = strings.Repeat(" ", t.indent) + lines[i]
	}
	return lines
}

// bar draws one bar beside its name and value.
//
// A value that isn't finite has no length, and its text says what it is.
func (t *textBars) bar(b bar) []string {
	name, value := t.text(b.name.text), t.text(b.value.text)
	if t.below+t.above == 0 {
		return t.indented(name + " " + value)
	}
	var lines []string
	if t.name == 0 {
		lines, name = t.indented(name), ""
	}
	left, right := strings.Repeat(" ", t.below), ""
	if isFinite(b.size) && b.size > 0 {
		right = t.rightward(b.size / t.span.to * float64(t.above))
	} else if isFinite(b.size) && b.size < 0 {
		left = t.leftward(b.size / t.span.from * float64(t.below))
	}
	line := strings.Repeat(" ", t.indent) + name + strings.Repeat(" ", max(0, t.name-width(name)))
	if t.name > 0 {
		line += " "
	}
	return append(lines, strings.TrimRight(line+left+string(t.sign('│'))+right+" "+value, " "))
}

// rightward draws a bar of the given length in cells, to an eighth of one; none
// that isn't zero vanishes.
//
// Blocks of Unicode have eighths of a cell on this side. A bar of less than the smallest is drawn
// as that, since no bar means zero.
func (t *textBars) rightward(length float64) string {
	length = math.Min(length, float64(t.above))
	if t.ascii {
		return t.full(max(1, int(length+0.5)))
	}
	eighths := max(1, int(length*8+0.5))
	bar := t.full(eighths / 8)
	if rest := eighths % 8; rest > 0 {
		bar += string([]rune("▏▎▍▌▋▊▉")[rest-1])
	}
	return bar
}

// full is a bar of whole cells.
func (t *textBars) full(cells int) string { return strings.Repeat(string(t.sign('█')), cells) }

// leftward draws a bar that ends at the zero line, to half a cell.
//
// There is no block of less than a half that is full at its right, so a bar to the left can end at
// a half or a whole cell.
func (t *textBars) leftward(length float64) string {
	length = math.Min(length, float64(t.below))
	half, cells := "", max(1, int(length+0.5))
	if !t.ascii {
		halves := max(1, int(length*2+0.5))
		if cells = halves / 2; halves%2 == 1 {
			half = "▐"
		}
	}
	return strings.Repeat(" ", max(0, t.below-cells-width(half))) + half + t.full(cells)
}
