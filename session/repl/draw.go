package repl

import (
	"io"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/mattn/go-runewidth"

	"steelyard/session/rows"
)

// frame is what is to be seen of the line that is being typed.
type frame struct {
	prompt string // before the first row
	more   string // before each further one
	text   string
	at     int // the cursor, in bytes of the text
	slants []Span
	below  []string // rows under it
	dim    bool     // they are faint
}

// Span is a part of a text, in bytes.
type Span struct{ From, To int }

// drawing shows frames, one in the place of the other.
type drawing interface {
	// draw shows a frame on a screen of so many columns and rows; where the rows are 0,
	// all of it, though it be longer than the screen.
	draw(f *frame, columns, rows int)
	// leave ends with the frame that is shown, which stays; what is printed then stands
	// under it.
	leave()
	// erase takes the frame off the screen.
	erase()
	// forget begins anew: what was drawn is gone.
	forget()
}

// style is how a cell is set.
type style byte

const (
	plain style = iota
	slanted
	faint
)

// plainType ends all styles.
const plainType = "\x1b[0m"

// sgr is what switches a style on and off (ECMA-48, 8.3.117). Bold type is never set
// here, so that 22 ends nothing else.
var sgr = map[style][2]string{slanted: {"\x1b[3m", "\x1b[23m"}, faint: {"\x1b[2m", "\x1b[22m"}}

// cell is one place of a row. A wide character has a second, empty one.
type cell struct {
	text  string
	style style
}

// row is one row of the screen. One that follows softly goes on with the row above, as a
// terminal breaks text that is too long.
type row struct {
	cells []cell
	soft  bool
}

// painter draws rows on a screen and writes only what has changed.
type painter struct {
	to      io.Writer
	columns int
	rows    []row // as they are on the screen
	cut     bool  // there are more than it has room for
	y, x    int   // the cursor there; x is columns where the next character goes to the next row
	style   style
	out     []byte
}

// draw implements drawing.
func (p *painter) draw(f *frame, columns, height int) {
	if columns != p.columns {
		p.resized(columns, height)
	}
	now, y, x := layOut(f, columns)
	cut := height > 0 && len(now) > height
	if p.cut && !cut {
		p.erase()
	}
	if p.cut = cut; cut {
		now, y = window(now, y, height)
	}
	for i := range now {
		p.row(i, now)
	}
	if len(p.rows) > len(now) {
		p.goTo(len(now), 0)
		p.put("\x1b[J")
	}
	p.rows = now
	p.goTo(y, x)
	p.flush()
}

// window cuts what is higher than the screen to the rows about the cursor.
func window(rows []row, y, height int) ([]row, int) {
	top := max(0, min(y-height/2, len(rows)-height))
	rows = slices.Clone(rows[top : top+height])
	rows[0].soft = false
	return rows, y - top
}

// row brings one of the rows up to date.
func (p *painter) row(i int, rows []row) {
	now := rows[i]
	var was row
	if i < len(p.rows) {
		was = p.rows[i]
	}
	first, last := 0, len(now.cells)
	for first < min(len(was.cells), last) && was.cells[first] == now.cells[first] {
		first++
	}
	joins := now.soft && !was.soft
	switch {
	case joins:
		// Written across the end of the row above, the two are one line to the terminal.
		p.end(i-1, rows[i-1].cells)
		first = 0
	case first == last && len(was.cells) <= last:
		if i >= len(p.rows) {
			p.goTo(i, 0)
		}
		return
	case len(was.cells) == last:
		for last > first && was.cells[last-1] == now.cells[last-1] {
			last--
		}
	}
	for first > 0 && first < last && now.cells[first].text == "" {
		first-- // the second half of a wide character
	}
	for last < len(now.cells) && now.cells[last].text == "" {
		last++
	}
	if !joins {
		p.goTo(i, first)
	}
	for ; first < last; first++ {
		p.cell(now.cells[first])
	}
	if len(was.cells) > len(now.cells) {
		p.put("\x1b[K")
	}
}

// end goes behind the last cell of a row, so that the next character is written at the
// beginning of the next.
func (p *painter) end(y int, cells []cell) {
	if p.y == y && p.x == p.columns {
		return
	}
	at := len(cells) - 1
	for at > 0 && cells[at].text == "" {
		at--
	}
	p.goTo(y, at)
	for ; at < len(cells); at++ {
		p.cell(cells[at])
	}
}

// cell writes one cell at the cursor.
func (p *painter) cell(c cell) {
	if p.x >= p.columns {
		p.y, p.x = p.y+1, 0
	}
	p.x++
	if c.text == "" {
		return // written with the one before
	}
	p.set(c.style)
	p.put(c.text)
}

func (p *painter) set(s style) {
	if s == p.style {
		return
	}
	p.put(sgr[p.style][1])
	p.put(sgr[s][0])
	p.style = s
}

func (p *painter) put(s string) { p.out = append(p.out, s...) }

// goTo moves the cursor to a place. A row that is not there yet is made.
func (p *painter) goTo(y, x int) {
	if p.x >= p.columns {
		p.put("\r") // the terminal waits to break the row
		p.x = 0
	}
	if up := p.y - y; up > 0 {
		p.csi(up, 'A')
	}
	for ; p.y < y; p.y++ {
		p.put("\n")
		p.x = 0
	}
	p.y = y
	switch {
	case x == p.x:
	case x == 0:
		p.put("\r")
	case x == p.x-1:
		p.put("\b")
	case x < p.x:
		p.csi(p.x-x, 'D')
	default:
		p.csi(x-p.x, 'C')
	}
	p.x = x
}

// csi writes a sequence of control with a number.
func (p *painter) csi(n int, final byte) {
	p.out = append(p.out, "\x1b["...)
	if n > 1 {
		p.out = strconv.AppendInt(p.out, int64(n), 10)
	}
	p.out = append(p.out, final)
}

// flush sends what was written. A terminal that is gone needs nothing.
func (p *painter) flush() {
	if len(p.out) > 0 {
		_, _ = p.to.Write(p.out)
	}
	p.out = p.out[:0]
}

// leave implements drawing.
func (p *painter) leave() {
	if len(p.rows) > 0 {
		p.set(plain)
		p.goTo(len(p.rows)-1, 0)
		p.put("\n")
	}
	p.flush()
	p.forget()
}

// erase implements drawing.
func (p *painter) erase() {
	p.set(plain)
	if len(p.rows) > 0 {
		p.goTo(0, 0)
		p.put("\x1b[J")
	}
	p.flush()
	p.forget()
}

// forget implements drawing.
func (p *painter) forget() { p.rows, p.y, p.x, p.style = nil, 0, 0, plain }

// resized takes what was drawn for another width off the screen. Terminals break a text
// anew that is one line to them; the cursor stays at its character.
func (p *painter) resized(columns, height int) {
	if len(p.rows) > 0 {
		up, line := 0, 0 // rows above the cursor, and cells of the line so far
		for i := range p.rows[:p.y+1] {
			if !p.rows[i].soft && i > 0 {
				up += max(1, (line+columns-1)/columns)
				line = 0
			}
			if i < p.y {
				line += len(p.rows[i].cells)
			}
		}
		if up += (line + p.x) / columns; height > 0 {
			up = min(up, height-1)
		}
		p.set(plain)
		p.put("\r")
		if up > 0 {
			p.csi(up, 'A')
		}
		p.put("\x1b[J")
	}
	p.forget()
	p.columns = columns
}

// leastHung is the least number of columns in which the rows below the first are indented.
const leastHung = 20

// layOut breaks a frame into rows, and says where its cursor is. A row of the text ends at
// a blank, as where a statement is shown again.
func layOut(f *frame, columns int) (all []row, y, x int) {
	l := layout{columns: columns, rows: []row{{}}}
	if columns >= leastHung {
		l.hang = len(f.prompt)
	}
	l.write(f.prompt, plain)
	slants, folds := f.slants, l.folds(f.text, 0)
	for i := 0; i < len(f.text); {
		r, n := utf8.DecodeRuneInString(f.text[i:])
		if len(folds) > 0 && i == folds[0] {
			l.next()
			folds = folds[1:]
		}
		if i == f.at {
			if y, x = l.place(); r == '\n' || r == ' ' && l.full() || runewidth.RuneWidth(r) == 0 {
				y = len(l.rows) - 1
				x = min(len(l.rows[y].cells), columns-1)
			}
		}
		for len(slants) > 0 && i >= slants[0].To {
			slants = slants[1:]
		}
		set := plain
		if len(slants) > 0 && i >= slants[0].From {
			set = slanted
		}
		switch {
		case r == '\n':
			l.rows = append(l.rows, row{})
			l.write(f.more, plain)
			folds = l.folds(f.text, i+n)
		case r == ' ' && l.full():
			// A blank where a row ends may have no cell.
		default:
			l.rune(r, f.text[i:i+n], set)
		}
		i += n
	}
	if f.at >= len(f.text) {
		if l.full() {
			l.next() // for the cursor
			l.write(" ", plain)
			y, x = len(l.rows)-1, l.hang
		} else {
			y, x = l.place()
		}
	}
	set := plain
	if f.dim {
		set = faint
	}
	for _, text := range f.below {
		l.rows = append(l.rows, row{})
		l.write(runewidth.Truncate(text, columns-1, ""), set)
	}
	return l.rows, y, x
}

// layout is a text that is being broken into rows.
type layout struct {
	columns int
	hang    int // cells before the rows that go on with one above
	rows    []row
}

// folds are the places at which the line of a text that begins here is broken.
func (l *layout) folds(text string, from int) []int {
	line, _, _ := strings.Cut(text[from:], "\n")
	at := rows.Folds(line, len(l.rows[len(l.rows)-1].cells), l.hang, l.columns)
	for i := range at {
		at[i] += from
	}
	return at
}

// full tells that the last row has no cell left.
func (l *layout) full() bool { return len(l.rows[len(l.rows)-1].cells) >= l.columns }

// next goes on in a new row. The one above is filled, so that the two are one line to the
// terminal.
func (l *layout) next() {
	last := &l.rows[len(l.rows)-1]
	for len(last.cells) < l.columns {
		last.cells = append(last.cells, cell{text: " "})
	}
	l.rows = append(l.rows, row{soft: true})
	l.write(strings.Repeat(" ", l.hang), plain)
}

// place is where the next character goes.
func (l *layout) place() (y, x int) {
	y = len(l.rows) - 1
	if x = len(l.rows[y].cells); x >= l.columns {
		return y + 1, l.hang
	}
	return y, x
}

func (l *layout) write(text string, set style) {
	for _, r := range text {
		l.rune(r, string(r), set)
	}
}

// rune adds one character; one without a width of its own joins the one before.
func (l *layout) rune(r rune, text string, set style) {
	last := &l.rows[len(l.rows)-1]
	w := runewidth.RuneWidth(r)
	if w == 0 {
		for i := len(last.cells) - 1; i >= 0; i-- {
			if last.cells[i].text != "" {
				last.cells[i].text += text
				break
			}
		}
		return
	}
	if len(last.cells)+w > l.columns {
		l.next()
		last = &l.rows[len(l.rows)-1]
	}
	last.cells = append(last.cells, cell{text: text, style: set})
	for ; w > 1; w-- {
		last.cells = append(last.cells, cell{})
	}
}
