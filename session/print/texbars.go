package print

import (
	"math"
	"unicode/utf8"

	"steelyard/session/draw"
)

// Lengths of a bar chart, in millimetres.
const (
	barWide  = 8.0
	barsHigh = 42.0
	barsWide = 150.0 // a chart wider than this is drawn as text
)

// texBars is a bar chart on its way to LaTeX.
type texBars struct {
	picture
	*draw.Bars
	low, high float64
	slot      float64
	kinds     map[string]int
}

func (p *paper) bars(b *EnergyBars) {
	if b.Bars == nil {
		return
	}
	p.text("\\par\\addvspace{8pt}\\begin{minipage}{\\linewidth}\\raggedright\n")
	t := texBars{Bars: b.Bars, kinds: map[string]int{}}
	if t.draw() {
		if title := oneLine(t.Title); title != "" {
			p.text(`{\small\bfseries `, escapeTeX(title), "}\\par\\smallskip\n")
		}
		p.text("{\\small\\setlength\\unitlength{1mm}%\n", t.String(), "}\\par\n")
	} else {
		p.typewriter(b.Bars.Text(78, true))
	}
	if b.Books != "" {
		p.small([]string{b.Books})
	}
	p.text("\\end{minipage}\\par\\addvspace{8pt}\n")
}

// groups gives the stages with the work as one of its own before the last.
func (t *texBars) groups() []draw.Stage {
	if t.Work == nil {
		return t.Stages
	}
	work := draw.Stage{Name: "work done on the system", Bars: []draw.Bar{*t.Work}}
	n := max(0, len(t.Stages)-1)
	if len(t.Stages) == 1 {
		n = 1
	}
	groups := append([]draw.Stage(nil), t.Stages[:n]...)
	return append(append(groups, work), t.Stages[n:]...)
}

// measure finds the scale and the width of a bar with its texts, and tells
// whether the chart fits.
func (t *texBars) measure() bool {
	bars, words := 0, 0
	for _, g := range t.groups() {
		for _, b := range g.Bars {
			if math.IsNaN(b.Value) || math.Abs(b.Value) > 1e200 {
				return false
			}
			t.low, t.high = math.Min(t.low, b.Value), math.Max(t.high, b.Value)
			words = max(words, utf8.RuneCountInString(b.Text), utf8.RuneCountInString(b.Name))
			if _, known := t.kinds[b.Name]; !known {
				t.kinds[b.Name] = len(t.kinds)
			}
			bars++
		}
	}
	t.slot = math.Max(barWide+4, 1.9*float64(words)+3)
	across := t.slot*float64(bars) + 8*float64(len(t.groups()))
	return bars > 0 && t.high-t.low > 1e-200 && across <= barsWide
}

func (t *texBars) y(v float64) float64 { return (v - t.low) / (t.high - t.low) * barsHigh }

func (t *texBars) draw() bool {
	if !t.measure() {
		return false
	}
	groups := t.groups()
	bars := 0
	for _, g := range groups {
		bars += len(g.Bars)
	}
	across := t.slot*float64(bars) + 8*float64(len(groups))
	below := 19.0
	if t.low < 0 {
		below += 4
	}
	t.WriteString(`\begin{picture}` + at(across, barsHigh+6+below) + at(0, -below) + "\n\\linethickness{0.5pt}\n")
	t.line(0, t.y(0), across, 0)
	names := -3.0
	if t.low < 0 {
		names = -7
	}
	left := 4.0
	for _, g := range groups {
		wide := t.slot * float64(len(g.Bars))
		for i, b := range g.Bars {
			t.bar(b, left+t.slot*(float64(i)+0.5), names)
		}
		t.box(left+wide/2, names-5, "t", `\parbox[t]{`+mm(wide+4)+`mm}{\centering `+escapeTeX(oneLine(g.Name))+` \\ `+escapeTeX(oneLine(g.Sum))+`}`)
		left += wide + 8
	}
	t.WriteString("\\end{picture}")
	return true
}

// bar draws one bar around x: its value at its end, its name beneath all bars.
func (t *texBars) bar(b draw.Bar, x, names float64) {
	zero, end := t.y(0), t.y(b.Value)
	low, high := math.Min(zero, end), math.Max(zero, end)
	if high-low > 0.05 {
		l, r := x-barWide/2, x+barWide/2
		t.line(l, low, 0, high-low)
		t.line(r, low, 0, high-low)
		t.line(l, low, barWide, 0)
		t.line(l, high, barWide, 0)
		t.fill(t.kinds[b.Name], l, low, r, high)
	}
	value := "$" + setShown(b.Text).LaTeX() + "$"
	if !isValue(oneLine(b.Text)) {
		value = escapeTeX(oneLine(b.Text))
	}
	if b.Value < 0 {
		t.box(x, end-1, "t", value)
	} else {
		t.box(x, end+1, "b", value)
	}
	t.box(x, names, "", texHead(b.Name))
}

// fill tells bars of different kinds apart by lines in them.
func (t *texBars) fill(kind int, l, low, r, high float64) {
	t.WriteString("\\linethickness{0.2pt}\n")
	across := [...]float64{0.8, 0, 2, 0, 1.4}[kind%5]
	up := [...]float64{0, 0, 0, 1.6, 1.4}[kind%5]
	for y := low + across; across > 0 && y < high; y += across {
		t.line(l, y, r-l, 0)
	}
	for x := l + up; up > 0 && x < r-0.1; x += up {
		t.line(x, low, 0, high-low)
	}
	t.WriteString("\\linethickness{0.5pt}\n")
}
