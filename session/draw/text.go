package draw

import (
	"math"
	"sort"
	"strings"

	"steelyard/session/entry"
)

const (
	leastPlotColumns = 10
	leastPlotRows    = 5
	mostCells        = 500 // columns and rows beyond this are of no use
)

// graphText draws a graph with characters. Where even the tick labels leave no room for a
// plot, the text says so instead.
func graphText(g *entry.Graph, columns, rows int, ascii bool) []string {
	t := textFigure{Graph: g, columns: columns, rows: rows, texts: texts{ascii}}
	t.x, t.y = spansOf(g)
	for _, l := range curveLabels(g) {
		t.labels = append(t.labels, t.text(l.text))
	}
	t.layout()
	if t.plotColumns < leastPlotColumns {
		return wrap(t.text("This graph needs a wider window."), t.columns)
	}
	return append(t.plot(), t.key()...)
}

// textFigure is a figure on its way to text.
type textFigure struct {
	*entry.Graph
	texts
	columns, rows int
	labels        []string // the names of the curves
	x, y          span
	xTicks        ticks
	yTicks        ticks
	margin        int // cells left of the axis, for its tick labels
	names         int // cells right of the plot, for the curves' names
	plotColumns   int
	plotRows      int
	ends          []string // the name at the right end of each row
	ended         []bool   // curves whose name stands at their end
}

// layout shares out rows and columns.
func (t *textFigure) layout() {
	others := 4
	if len(t.labels) > 0 {
		others++
	}
	t.plotRows = max(leastPlotRows, t.rows-others)
	t.yTicks = t.y.ticks(max(2, min(t.plotRows/3, 10)))
	for _, s := range t.yTicks.texts {
		t.margin = max(t.margin, width(t.text(s)))
	}
	t.plotColumns = t.columns - t.margin - 2
	if t.columns >= 40 {
		for _, l := range t.labels {
			t.names = max(t.names, width(l)+1)
		}
		if t.names > t.columns/4 {
			t.names = 0 // the key has room for long names
		}
		t.plotColumns -= t.names
	}
	if oneScale(t.Graph) { // a row is about as high as two columns are wide
		true := int(float64(t.plotRows) * lineHeight / (emPart * fontSize) * (t.x.to - t.x.from) / (t.y.to - t.y.from))
		if true >= leastPlotColumns {
			t.plotColumns = min(t.plotColumns, true)
		}
	}
	t.xTicks = t.fittingTicks()
}

// fittingTicks gives the most ticks of the x axis whose labels stay apart.
func (t *textFigure) fittingTicks() ticks {
	for about := max(1, min(t.plotColumns/8, 12)); about > 1; about-- {
		ticks := t.x.ticks(about)
		if _, ok := t.tickLabels(ticks); ok {
			return ticks
		}
	}
	return t.x.ticks(1)
}

// tickColumn gives the column of the plot where a value of x lies.
func (t *textFigure) tickColumn(v float64) int {
	across, _ := t.grain()
	return tickCell(t.x.part(v), t.plotColumns, across)
}

func (t *textFigure) tickRow(v float64) int {
	_, down := t.grain()
	return tickCell(1-t.y.part(v), t.plotRows, down)
}

func tickCell(part float64, cells, grain int) int {
	dot := int(math.Floor(part*float64(cells*grain-1) + 0.5))
	return max(0, min(dot/grain, cells-1))
}

// tickLabels writes the labels of the x ticks under their ticks; ok is false
// where two would touch. Labels that don't fit are moved inward at the ends.
func (t *textFigure) tickLabels(ticks ticks) (line string, ok bool) {
	cells, ok := "", true
	used := 0
	for i, v := range ticks.at {
		s := t.text(ticks.texts[i])
		if s == "" {
			continue
		}
		n := width(s)
		at := t.margin + 1 + t.tickColumn(v) - (n-1)/2
		at = max(0, min(at, t.columns-n))
		if used > 0 && at < used+2 {
			ok = false
			continue
		}
		cells += strings.Repeat(" ", at-used) + s
		used = at + n
	}
	return cells, ok
}

// plot draws the axes with their labels and what is between them.
func (t *textFigure) plot() []string {
	c := t.drawn()
	lines := wrap(t.text(axisText(t.Y, t.yTicks.power)), t.columns)
	labels := make(map[int]string)
	for i, v := range t.yTicks.at {
		if text := t.text(t.yTicks.texts[i]); text != "" {
			labels[t.tickRow(v)] = text
		}
	}
	for row := 0; row < t.plotRows; row++ {
		text, axis := labels[row], '│'
		if text != "" {
			axis = '┤'
		}
		cells := c.row(row)
		if len(t.ends) > row && t.ends[row] != "" {
			cells += " " + t.ends[row]
		}
		lines = append(lines, strings.TrimRight(strings.Repeat(" ", t.margin-width(text))+text+string(t.sign(axis))+cells, " "))
	}
	lines = append(lines, strings.Repeat(" ", t.margin)+string(t.sign('└'))+t.bottomLine())
	under, _ := t.tickLabels(t.xTicks)
	lines = append(lines, under)
	for _, s := range wrap(t.text(axisText(t.X, t.xTicks.power)), t.columns) {
		indent := t.margin + 1 + t.plotColumns - width(s)
		lines = append(lines, strings.Repeat(" ", max(0, indent))+s)
	}
	return lines
}

func (t *textFigure) bottomLine() string {
	c := t.canvas(t.plotColumns, 1)
	c.across(0, '─')
	for _, v := range t.xTicks.at {
		c.set(t.tickColumn(v), 0, '┬')
	}
	return c.row(0)
}

// canvas draws what is between the axes and finds the places of the names.
func (t *textFigure) drawn() *canvas {
	c := t.canvas(t.plotColumns, t.plotRows)
	t.ends, t.ended = make([]string, t.plotRows), make([]bool, len(t.Curves))
	if t.Blank {
		t.grid(c)
	}
	t.zeroLines(c)
	if t.Blank {
		return c
	}
	p := place{t.x, t.y, c.box()}
	last := make([][]point, len(t.Curves))
	var room []point
	t.asymptotes(c, p)
	for i := len(t.Curves) - 1; i >= 0; i-- { // the first curve on top
		pen := newPen(i)
		for _, line := range p.visible(stretches(p.x, p.y, t.Curves[i].Runs), 1, 0, &room) {
			c.line(pen, line)
			last[i] = line
		}
	}
	t.dots(c, p)
	t.readings(c, p)
	t.nameEnds(c, last)
	return c
}

// asymptotes draws a broken line where a curve runs off.
func (t *textFigure) asymptotes(c *canvas, p place) {
	for _, curve := range t.Curves {
		for _, x := range curve.Poles {
			column, _ := c.cell(p.at(x, t.y.from))
			if column > 0 {
				c.down(column, '┊')
			}
		}
	}
}

// dots marks the ends of pieces at jumps.
func (t *textFigure) dots(c *canvas, p place) {
	for _, curve := range t.Curves {
		for _, d := range curve.Dots {
			if at := p.at(d.X, d.Y); p.box.holds(at) {
				c.put(at, dotSign(d.Open))
			}
		}
	}
}

// grid puts dots where the ticks of both axes and their middles cross.
func (t *textFigure) grid(c *canvas) {
	rows := withMiddles(t.yTicks.at, t.tickRow)
	for _, column := range withMiddles(t.xTicks.at, t.tickColumn) {
		for _, row := range rows {
			c.set(column, row, '·')
		}
	}
}

func withMiddles(at []float64, cell func(float64) int) []int {
	var cells []int
	for i, v := range at {
		if i > 0 {
			cells = append(cells, cell((v+at[i-1])/2))
		}
		cells = append(cells, cell(v))
	}
	return cells
}

func (t *textFigure) zeroLines(c *canvas) {
	column, row := -1, -1
	if t.x.holdsZero() {
		column = t.tickColumn(0)
		c.down(column, '│')
	}
	if t.y.holdsZero() {
		row = t.tickRow(0)
		c.across(row, '─')
	}
	if column >= 0 && row >= 0 {
		c.set(column, row, '┼')
	}
}

// nameEnds puts the names of curves that run to the right end of the plot
// beside their ends: each in a row of its own, in the order in which the curves
// come in, never further than one row off. The key tells the others.
func (t *textFigure) nameEnds(c *canvas, last [][]point) {
	if t.names == 0 {
		return
	}
	var ends []name
	for i, line := range last {
		n := name{curve: i, label: label{text: strings.TrimSpace(t.labels[i])}}
		if len(line) == 0 || n.text == "" {
			continue
		}
		end := line[len(line)-1]
		if column, _ := c.cell(end); column == c.columns-1 {
			n.y = end.Y
			n.order = end.Y + 0.3*(before(line, float64(c.columns)/10)-end.Y)
			ends = append(ends, n)
		}
	}
	sort.SliceStable(ends, func(i, j int) bool { return ends[i].order < ends[j].order })
	free := 0
	for _, n := range ends {
		_, wish := c.cell(point{0, n.y})
		if row := max(wish, free); row <= wish+1 && row < c.rows {
			t.ends[row], t.ended[n.curve] = n.text, true
			free = row + 1
		}
	}
}

// key tells which curve is drawn how; a single curve named at its end needs
// none.
func (t *textFigure) key() []string {
	if len(t.labels) == 0 || len(t.labels) == 1 && t.ended[0] {
		return nil
	}
	var lines []string
	line, used := "", 0
	for i, l := range t.labels {
		name := strings.TrimSpace(l)
		if name == "" {
			continue
		}
		entry := name + " " + t.sample(i)
		n := width(entry)
		if used > 0 && used+3+n <= t.columns {
			line, used = line+"   "+entry, used+3+n
			continue
		}
		if used > 0 {
			lines = append(lines, line)
		}
		line, used = entry, n
		if n > t.columns {
			lines = append(lines, wrap(entry, t.columns)...)
			line, used = "", 0
		}
	}
	if used > 0 {
		lines = append(lines, line)
	}
	return lines
}

// sample draws a short piece of the i-th curve's line.
func (t *textFigure) sample(i int) string {
	if t.ascii {
		return strings.Repeat(string(newPen(i).mark), 3)
	}
	c := t.canvas(6, 1)
	c.line(newPen(i), []point{{0, 1}, {11, 1}})
	return strings.TrimRight(c.row(0), " ")
}
