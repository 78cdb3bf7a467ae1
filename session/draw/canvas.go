package draw

import (
	"math"
	"unicode/utf8"
)

// canvas is a plot area of character cells. Unicode cells hold 2×4 Braille
// dots each; ASCII cells one letter.
//
// Signs such as axes and names are under the dots, and a dot of a curve hides the sign of its
// cell.
type canvas struct {
	texts
	columns, rows int
	cells         []rune // what stands in a cell, 0 where nothing does
	dots          []byte // Braille dots of a cell, over what stands there
}

func (t texts) canvas(columns, rows int) *canvas {
	return &canvas{t, columns, rows, make([]rune, columns*rows), make([]byte, columns*rows)}
}

// box gives the dots' coordinates: the centres of the outermost dots.
//
// A curve at the very end of its range is then drawn in the outermost dot, and not cut off beside
// it.
func (c *canvas) box() box {
	across, down := c.grain()
	return box{0, 0, float64(c.columns*across - 1), float64(c.rows*down - 1)}
}

// cell gives the cell of a point in dot coordinates.
func (c *canvas) cell(p point) (column, row int) {
	across, down := c.grain()
	return int(math.Floor(p.X+0.5)) / across, int(math.Floor(p.Y+0.5)) / down
}

// set puts a sign into a cell; one beyond the edge is left out.
func (c *canvas) set(column, row int, r rune) {
	if column >= 0 && column < c.columns && row >= 0 && row < c.rows {
		c.cells[row*c.columns+column] = c.sign(r)
	}
}

// down and across fill a column or a row with a sign.
func (c *canvas) down(column int, r rune) {
	for row := range c.rows {
		c.set(column, row, r)
	}
}

func (c *canvas) across(row int, r rune) {
	for column := range c.columns {
		c.set(column, row, r)
	}
}

// put puts a sign over what is drawn at a point, in dot coordinates.
func (c *canvas) put(at point, r rune) {
	column, row := c.cell(at)
	c.mark(column, row, r)
}

// dotSign is the sign of a point that belongs to a curve, or of one that doesn't.
func dotSign(open bool) rune {
	if open {
		return '○'
	}
	return '●'
}

// mark puts a sign over what is drawn in a cell.
//
// A reading or the head of an arrow must be seen even where the curve goes through it.
func (c *canvas) mark(column, row int, r rune) {
	c.set(column, row, r)
	if column >= 0 && column < c.columns && row >= 0 && row < c.rows {
		c.dots[row*c.columns+column] = 0
	}
}

// pen draws one curve, dot by dot.
//
// Curves of one graph have patterns, since a terminal has no line widths. The pen counts dots
// along the curve, so that a pattern is as long on a steep part as on a level one.
type pen struct {
	mark  rune  // the letter of an ASCII curve
	dash  []int // dots drawn and left out in turn; none: all drawn
	moved int
	begun bool
	x, y  int
}

// Patterns that differ at first sight also where the lines are steep.
var dashes = [][]int{nil, {1, 2}, {5, 3}, {6, 2, 1, 2}, {2, 2}, {9, 4}, {1, 4}, {5, 2, 1, 2, 1, 2}}

const letters = "*+ox#%&=$~sz^v"

func newPen(i int) *pen {
	return &pen{mark: rune(letters[i%len(letters)]), dash: dashes[i%len(dashes)]}
}

// down says whether the pen touches the paper at its present dot.
//
// A letter needs no pattern: what is typed tells the curves apart.
func (p *pen) down() bool {
	if len(p.dash) == 0 {
		return true
	}
	total := 0
	for _, n := range p.dash {
		total += n
	}
	at := p.moved % total
	for i, n := range p.dash {
		if at < n {
			return i%2 == 0
		}
		at -= n
	}
	return true
}

// line draws a line whose points all lie in the canvas's box.
//
// Each step is one dot at most along the longer way, so that no dot of the line is missed.
func (c *canvas) line(p *pen, line []point) {
	p.begun = false
	if len(line) == 1 {
		c.dot(p, line[0])
	}
	for i := 1; i < len(line); i++ {
		from, to := line[i-1], line[i]
		dx, dy := to.X-from.X, to.Y-from.Y
		steps := math.Ceil(math.Max(math.Abs(dx), math.Abs(dy)))
		for k := 0.0; k <= steps; k++ {
			t := k / math.Max(steps, 1)
			c.dot(p, point{from.X + t*dx, from.Y + t*dy})
		}
	}
}

// A dot that was just drawn counts once: steps of half a dot would use a pattern up twice as fast.
// The eight bits of a Braille sign are numbered down the first column, then down the second, with
// the lowest row last.
func (c *canvas) dot(p *pen, at point) {
	x, y := int(math.Floor(at.X+0.5)), int(math.Floor(at.Y+0.5))
	if p.begun && x == p.x && y == p.y {
		return
	}
	if p.begun {
		p.moved++
	}
	p.begun, p.x, p.y = true, x, y
	if c.ascii {
		c.set(x, y, p.mark)
		return
	}
	if x < 0 || y < 0 || x/2 >= c.columns || y/4 >= c.rows || !p.down() {
		return
	}
	c.dots[y/4*c.columns+x/2] |= [4][2]byte{{1, 8}, {2, 16}, {4, 32}, {64, 128}}[y%4][x%2]
}

// row gives one row of cells.
//
// Dots win over signs. A Braille sign is its bits after U+2800.
func (c *canvas) row(row int) string {
	out := make([]byte, 0, 3*c.columns)
	for k := row * c.columns; k < (row+1)*c.columns; k++ {
		switch {
		case c.dots[k] != 0:
			out = utf8.AppendRune(out, 0x2800+rune(c.dots[k]))
		case c.cells[k] != 0:
			out = utf8.AppendRune(out, c.cells[k])
		default:
			out = append(out, ' ')
		}
	}
	return string(out)
}
