package draw

import (
	"math"
	"strings"
)

// Bar is one bar: the symbol or word it stands for ("K"), its value in the
// chart's unit, and the text of the value with its unit ("0.462 J"). A value
// that isn't finite draws no bar.
type Bar struct {
	Name  string
	Value float64
	Text  string
}

// Stage is one moment of what happens, such as `at "released"`, with its bars
// and the text of their total.
type Stage struct {
	Name string
	Bars []Bar
	Sum  string
}

// Bars is a bar chart of several stages to one scale, in Unit. Work is the work
// done on the system between the first and the last stage, if any.
type Bars struct {
	Description, Unit string
	Stages            []Stage
	Work              *Bar
}

const workName = "work done on the system"

// groups gives the stages in the order they are drawn, the work as one of its
// own before the last.
func (b *Bars) groups() []Stage {
	if b.Work == nil {
		return b.Stages
	}
	work := Stage{Name: workName, Bars: []Bar{*b.Work}}
	n := len(b.Stages)
	at := n
	if n > 1 {
		at = n - 1
	}
	groups := append([]Stage(nil), b.Stages[:at]...)
	return append(append(groups, work), b.Stages[at:]...)
}

// isWork says whether the i-th group is the work.
func (b *Bars) isWork(i int) bool {
	n := len(b.Stages)
	return b.Work != nil && (i == n-1 && n > 1 || i == n && n <= 1)
}

// span gives the range of all values and 0.
func (b *Bars) span() span {
	low, high := 0.0, 0.0
	for _, g := range b.groups() {
		for _, bar := range g.Bars {
			if isFinite(bar.Value) {
				low, high = math.Min(low, bar.Value), math.Max(high, bar.Value)
			}
		}
	}
	low, high = finite(low, 0), finite(high, 0)
	if high-low < 1e-280 {
		return span{0, 1}
	}
	return span{low, high}
}

// Text draws the chart with characters, at most columns wide: the bars lie, one
// in a row, grouped by stage and to one scale. The ASCII form uses bytes below
// 128 only.
func (b *Bars) Text(columns int, ascii bool) string {
	t := newTextBars(b, max(1, min(columns, mostCells)), ascii)
	var lines []string
	for i, g := range b.groups() {
		if i > 0 {
			lines = append(lines, "")
		}
		lines = append(lines, wrap(t.text(g.Name), t.columns)...)
		for _, bar := range g.Bars {
			lines = append(lines, t.bar(bar)...)
		}
		lines = append(lines, t.indented(t.text(g.Sum))...)
	}
	return strings.Join(lines, "\n") + "\n"
}

// textBars is a chart on its way to text.
type textBars struct {
	columns      int
	ascii        bool
	indent       int
	name, value  int // cells for the bars' names and values; name 0: on lines of their own
	below, above int // cells left and right of the zero line
	span         span
}

func newTextBars(b *Bars, columns int, ascii bool) *textBars {
	t := &textBars{columns: columns, ascii: ascii, span: b.span()}
	if columns >= 20 {
		t.indent = 2
	}
	for _, g := range b.groups() {
		for _, bar := range g.Bars {
			t.name = max(t.name, width(t.text(bar.Name)))
			t.value = max(t.value, width(t.text(bar.Text)))
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

func (t *textBars) text(s string) string {
	if t.ascii {
		return toASCII(s)
	}
	return clean(s)
}

func (t *textBars) indented(text string) []string {
	lines := wrap(text, t.columns-t.indent)
	for i := range lines {
		lines[i] = strings.Repeat(" ", t.indent) + lines[i]
	}
	return lines
}

// bar draws one bar beside its name and value.
func (t *textBars) bar(b Bar) []string {
	name, value := t.text(b.Name), t.text(b.Text)
	if t.below+t.above == 0 {
		return t.indented(name + " " + value)
	}
	var lines []string
	if t.name == 0 {
		lines, name = t.indented(name), ""
	}
	left, right := strings.Repeat(" ", t.below), ""
	if isFinite(b.Value) && b.Value > 0 {
		right = t.rightward(b.Value / t.span.to * float64(t.above))
	} else if isFinite(b.Value) && b.Value < 0 {
		left = t.leftward(b.Value / t.span.from * float64(t.below))
	}
	zero := "│"
	if t.ascii {
		zero = "|"
	}
	line := strings.Repeat(" ", t.indent) + name + strings.Repeat(" ", max(0, t.name-width(name)))
	if t.name > 0 {
		line += " "
	}
	return append(lines, strings.TrimRight(line+left+zero+right+" "+value, " "))
}

// rightward draws a bar of the given length in cells, to an eighth of one; none
// that isn't zero vanishes.
func (t *textBars) rightward(length float64) string {
	length = math.Min(length, float64(t.above))
	if t.ascii {
		return strings.Repeat("#", max(1, int(length+0.5)))
	}
	eighths := max(1, int(length*8+0.5))
	bar := strings.Repeat("█", eighths/8)
	if rest := eighths % 8; rest > 0 {
		bar += string([]rune("▏▎▍▌▋▊▉")[rest-1])
	}
	return bar
}

// leftward draws a bar that ends at the zero line, to half a cell.
func (t *textBars) leftward(length float64) string {
	length = math.Min(length, float64(t.below))
	full, half, cells := "#", "", max(1, int(length+0.5))
	if !t.ascii {
		full = "█"
		halves := max(1, int(length*2+0.5))
		if cells = halves / 2; halves%2 == 1 {
			half = "▐"
		}
	}
	return strings.Repeat(" ", max(0, t.below-cells-width(half))) + half + strings.Repeat(full, cells)
}
