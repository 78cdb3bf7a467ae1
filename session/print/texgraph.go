package print

import (
	"math"
	"sort"
	"strconv"
	"strings"
	"unicode/utf8"

	"steelyard/session/draw"
)

// The plot area of a graph, in millimetres.
const (
	plotWide = 108.0
	plotHigh = 62.0
)

// mm writes a length in millimetres.
func mm(v float64) string {
	v = math.Round(v*100) / 100
	if v == 0 {
		return "0"
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

func at(x, y float64) string { return "(" + mm(x) + "," + mm(y) + ")" }

// picture is a drawing on its way to LaTeX.
type picture struct {
	strings.Builder
	// bent is how many pieces of curves it has: each costs LaTeX some memory.
	bent int
}

// line draws a level or upright line.
func (p *picture) line(x, y, dx, dy float64) {
	p.WriteString(`\put` + at(x, y) + `{\line`)
	switch {
	case dx > 0:
		p.WriteString("(1,0){" + mm(dx))
	case dx < 0:
		p.WriteString("(-1,0){" + mm(-dx))
	case dy > 0:
		p.WriteString("(0,1){" + mm(dy))
	default:
		p.WriteString("(0,-1){" + mm(-dy))
	}
	p.WriteString("}}\n")
}

// box puts something at a place; where is how it lies to it, as for \makebox.
func (p *picture) box(x, y float64, where, what string) {
	p.WriteString(`\put` + at(x, y) + `{\makebox(0,0)[` + where + `]{` + what + "}}\n")
}

// stroke draws a straight piece of a curve. The number of dots that it is made of
// is told, since LaTeX can't work it out for very short ones.
func (p *picture) stroke(a, b draw.Point) {
	long := math.Hypot(b.X-a.X, b.Y-a.Y)
	if long < 0.02 {
		return
	}
	p.bent++
	p.WriteString(`\qbezier[` + strconv.Itoa(max(2, int(long/0.08))) + "]" + at(a.X, a.Y) + at((a.X+b.X)/2, (a.Y+b.Y)/2) + at(b.X, b.Y) + "\n")
}

// mostStrokes bounds what a picture may cost; a figure with more is drawn as text.
const mostStrokes = 6000

// texFigure is a graph with its ticks.
type texFigure struct {
	picture
	*draw.Figure
	xs, ys           []float64
	xTexts, yTexts   []string
	fromX, fromY     float64
	toX, toY         float64
	left, below, top float64
}

func (p *paper) graph(g *Graph) {
	if g.Figure == nil {
		return
	}
	f := texFigure{Figure: g.Figure}
	p.text("\\par\\addvspace{8pt}\\begin{minipage}{\\linewidth}\\raggedright\n")
	if f.draw() {
		if title := oneLine(f.Title); title != "" {
			p.text(`{\small\bfseries `, escapeTeX(title), "}\\par\\smallskip\n")
		}
		p.text("{\\small\\setlength\\unitlength{1mm}%\n", f.String(), "}\\par\n")
		if !f.Blank {
			p.small(f.Caption)
		}
	} else {
		p.typewriter(g.Figure.Text(78, 24, true))
	}
	if !g.Figure.Blank {
		p.small(g.Shapes)
	}
	p.text("\\end{minipage}\\par\\addvspace{8pt}\n")
}

// small writes lines below a drawing.
func (p *paper) small(lines []string) {
	for _, line := range lines {
		p.text(`{\small `, escapeTeX(oneLine(line)), "\\par}\n")
	}
}

// typewriter writes a drawing made of characters.
func (p *paper) typewriter(drawing string) {
	p.text("{\\footnotesize\\parskip=0pt\n")
	for line := range strings.SplitSeq(strings.TrimRight(drawing, "\n"), "\n") {
		p.text(`\mbox{\texttt{`, strings.ReplaceAll(escapeCode(line), `\allowbreak{}`, ""), "}}\\par\n")
	}
	p.text("}\n")
}

// draw makes the picture, and tells whether that can be done.
func (f *texFigure) draw() bool {
	f.fromX, f.toX, f.fromY, f.toY = f.X.From, f.X.To, f.Y.From, f.Y.To
	f.xs, f.xTexts = draw.Ticks(f.fromX, f.toX, 8)
	f.ys, f.yTexts = draw.Ticks(f.fromY, f.toY, 6)
	if len(f.xs) == 0 || len(f.ys) == 0 || !(f.fromX < f.toX) || !(f.fromY < f.toY) {
		return false
	}
	for _, text := range f.yTexts {
		f.left = max(f.left, 1.9*float64(utf8.RuneCountInString(text))+3)
	}
	f.below, f.top = 11, 7
	f.WriteString(`\begin{picture}` + at(f.left+plotWide+22, f.below+plotHigh+f.top) + at(-f.left, -f.below) + "\n")
	if f.Blank {
		f.grid()
	}
	f.axes()
	if !f.Blank {
		f.curves()
		f.marks()
	}
	f.WriteString("\\end{picture}")
	return f.bent <= mostStrokes
}

func (f *texFigure) place(p draw.Point) draw.Point {
	return draw.Point{X: (p.X - f.fromX) / (f.toX - f.fromX) * plotWide, Y: (p.Y - f.fromY) / (f.toY - f.fromY) * plotHigh}
}

func (f *texFigure) axes() {
	f.WriteString("\\linethickness{0.25pt}\n")
	if zero := f.place(draw.Point{}); true {
		if zero.X > 0.1 && zero.X < plotWide-0.1 {
			f.line(zero.X, 0, 0, plotHigh)
		}
		if zero.Y > 0.1 && zero.Y < plotHigh-0.1 {
			f.line(0, zero.Y, plotWide, 0)
		}
	}
	f.WriteString("\\linethickness{0.5pt}\n")
	f.line(0, 0, plotWide, 0)
	f.line(0, 0, 0, plotHigh)
	free := -1e9
	for i, v := range f.xs {
		x := f.place(draw.Point{X: v}).X
		f.line(x, 0, 0, -1.2)
		if half := float64(utf8.RuneCountInString(f.xTexts[i])); x-half > free {
			f.box(x, -2, "t", tick(f.xTexts[i]))
			free = x + half
		}
	}
	for i, v := range f.ys {
		y := f.place(draw.Point{Y: v}).Y
		f.line(0, y, -1.2, 0)
		f.box(-2, y, "r", tick(f.yTexts[i]))
	}
	f.box(-f.left, plotHigh+3, "bl", texHead(f.Y.Label))
	f.box(plotWide, -7, "tr", texHead(f.X.Label))
}

func tick(text string) string { return "$" + setShown(text).LaTeX() + "$" }

// grid draws squares to plot on, five to a tick or four to one of an even step.
func (f *texFigure) grid() {
	f.WriteString("\\linethickness{0.12pt}\n")
	for _, x := range between(f.xs, f.fromX, f.toX) {
		f.line(f.place(draw.Point{X: x}).X, 0, 0, plotHigh)
	}
	for _, y := range between(f.ys, f.fromY, f.toY) {
		f.line(0, f.place(draw.Point{Y: y}).Y, plotWide, 0)
	}
}

// between gives the places of the lines of a grid: the ticks and equal parts
// between them, to the ends of the axis.
func between(ticks []float64, from, to float64) []float64 {
	if len(ticks) < 2 {
		return ticks
	}
	step := (ticks[1] - ticks[0]) / 5
	var all []float64
	for i := -5; i < 5*len(ticks)+5; i++ {
		if v := ticks[0] + float64(i)*step; v > from-step/100 && v < to+step/100 {
			all = append(all, v)
		}
	}
	return all
}

// dashes are the lengths of strokes and gaps of the curves in turn.
var dashes = [][]float64{nil, {0.5, 1}, {2.4, 1.3}, {2.6, 1, 0.5, 1}, {1.2, 0.8}, {3.6, 1, 0.5, 1, 0.5, 1}}

func (f *texFigure) curves() {
	type named struct {
		y    float64
		at   draw.Point
		text string
	}
	var names []named
	for i, c := range f.Curves {
		f.WriteString("\\linethickness{" + mm(0.75+0.35*float64(min(i/len(dashes), 3))) + "pt}\n")
		var last draw.Point
		seen := false
		for _, run := range c.Runs {
			for _, line := range visible(f, run) {
				f.dashed(line, dashes[i%len(dashes)])
				if end := line[len(line)-1]; !seen || end.X >= last.X {
					last, seen = end, true
				}
			}
			if f.bent > mostStrokes {
				return
			}
		}
		if name := oneLine(c.Name); seen && name != "" {
			names = append(names, named{last.Y, last, name})
		}
	}
	sort.SliceStable(names, func(i, j int) bool { return names[i].y < names[j].y })
	low := -1e9
	for _, n := range names {
		y := math.Max(n.y, low)
		low = y + 4.2
		x := n.at.X
		if y != n.y {
			x = plotWide
		}
		f.box(x+1.5, y, "l", texHead(n.text))
	}
}

// visible gives the pieces of a run inside the plot area, in millimetres, without
// points that make no difference.
func visible(f *texFigure, run []draw.Point) [][]draw.Point {
	var all [][]draw.Point
	var line []draw.Point
	flush := func() {
		if len(line) > 1 {
			all = append(all, thin(line))
		}
		line = nil
	}
	for i := 1; i < len(run); i++ {
		a, b, ok := clip(f.place(run[i-1]), f.place(run[i]))
		if !ok {
			flush()
			continue
		}
		if len(line) == 0 || line[len(line)-1] != a {
			flush()
			line = append(line, a)
		}
		line = append(line, b)
	}
	flush()
	return all
}

// clip cuts a straight piece to the plot area.
func clip(a, b draw.Point) (draw.Point, draw.Point, bool) {
	const far = 1e7
	for _, v := range [...]float64{a.X, a.Y, b.X, b.Y} {
		if !(math.Abs(v) < far) {
			return a, b, false
		}
	}
	from, to := 0.0, 1.0
	dx, dy := b.X-a.X, b.Y-a.Y
	for _, side := range [...][2]float64{{-dx, a.X}, {dx, plotWide - a.X}, {-dy, a.Y}, {dy, plotHigh - a.Y}} {
		switch {
		case side[0] == 0 && side[1] < 0:
			return a, b, false
		case side[0] < 0:
			from = math.Max(from, side[1]/side[0])
		case side[0] > 0:
			to = math.Min(to, side[1]/side[0])
		}
	}
	if from > to {
		return a, b, false
	}
	start, end := a, b
	if from > 0 {
		start = draw.Point{X: a.X + from*dx, Y: a.Y + from*dy}
	}
	if to < 1 {
		end = draw.Point{X: a.X + to*dx, Y: a.Y + to*dy}
	}
	return start, end, true
}

// thin drops points nearer to the line than can be seen.
func thin(line []draw.Point) []draw.Point {
	out := line[:1:1]
	from := 0
	for i := 2; i < len(line); i++ {
		if i-from > 40 || !straight(line[from:i+1]) {
			out = append(out, line[i-1])
			from = i - 1
		}
	}
	return append(out, line[len(line)-1])
}

// straight tells whether all points lie close to the line between the ends.
func straight(line []draw.Point) bool {
	a, b := line[0], line[len(line)-1]
	long := math.Hypot(b.X-a.X, b.Y-a.Y)
	for _, p := range line[1 : len(line)-1] {
		off := math.Hypot(p.X-a.X, p.Y-a.Y)
		if long > 1e-6 {
			off = math.Abs((b.X-a.X)*(p.Y-a.Y)-(b.Y-a.Y)*(p.X-a.X)) / long
		}
		if off > 0.05 {
			return false
		}
	}
	return true
}

// dashed draws a line with a pattern of strokes and gaps.
func (f *texFigure) dashed(line []draw.Point, pattern []float64) {
	phase, left := 0, 0.0
	if pattern != nil {
		left = pattern[0]
	}
	for i := 1; i < len(line) && f.bent <= mostStrokes; i++ {
		a, b := line[i-1], line[i]
		if pattern == nil {
			f.stroke(a, b)
			continue
		}
		long := math.Hypot(b.X-a.X, b.Y-a.Y)
		for gone := 0.0; gone < long; {
			next := math.Min(long, gone+left)
			if phase%2 == 0 {
				f.stroke(along(a, b, gone/long), along(a, b, next/long))
			}
			left -= next - gone
			gone = next
			if left < 1e-6 {
				phase = (phase + 1) % len(pattern)
				left = pattern[phase]
			}
		}
	}
}

func along(a, b draw.Point, t float64) draw.Point {
	return draw.Point{X: a.X + t*(b.X-a.X), Y: a.Y + t*(b.Y-a.Y)}
}

// marks draws measured points with their error bars.
func (f *texFigure) marks() {
	f.WriteString("\\linethickness{0.5pt}\n")
	for _, m := range f.Marks {
		p := f.place(draw.Point{X: m.X, Y: m.Y})
		if !(p.X >= 0 && p.X <= plotWide && p.Y >= 0 && p.Y <= plotHigh) {
			continue
		}
		f.WriteString(`\put` + at(p.X, p.Y) + "{\\circle*{1.4}}\n")
		f.bent++
		across := math.Abs(m.XErr) / (f.toX - f.fromX) * plotWide
		up := math.Abs(m.YErr) / (f.toY - f.fromY) * plotHigh
		if x0, x1 := math.Max(0, p.X-across), math.Min(plotWide, p.X+across); across > 0 {
			f.line(x0, p.Y, x1-x0, 0)
		}
		if y0, y1 := math.Max(0, p.Y-up), math.Min(plotHigh, p.Y+up); up > 0 {
			f.line(p.X, y0, 0, y1-y0)
		}
	}
}
