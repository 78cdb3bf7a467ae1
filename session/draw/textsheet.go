package draw

import (
	"math"
	"strings"
)

// textSheet is a drawing on its way to characters: a character is as wide and a row as high
// as a layout takes them for, so that what it keeps apart stays apart. A layout for it has
// its texts in the characters that are asked for.
type textSheet struct {
	texts
	canvas *canvas
	heads  []head
	lines  []textLine
	rows   []string
}

// head is the head of an arrow, in the place of which a sign stands.
type head struct{ from, to point }

func (w *textSheet) begin(width, height float64, _, _ string, _ int) {
	columns := min(charactersIn(width), mostCells)
	w.canvas = w.texts.canvas(columns, min(int(math.Ceil(height/lineHeight)), mostCells))
}

// at is a place in the dots of the canvas.
func (w *textSheet) at(p point) point {
	across, down := w.canvas.grain()
	return point{p.X/(emPart*fontSize)*float64(across) - 0.5, p.Y/lineHeight*float64(down) - 0.5}
}

func (w *textSheet) curves(k ink, lines [][]point) {
	p := pen{mark: '*'}
	switch {
	case k.faint || k.width < zeroInk.width+0.1:
		p.mark, p.dash = '.', dashes[1]
	case k.dash != nil:
		p.mark, p.dash = '-', dashes[2]
	}
	for _, line := range lines {
		moved := make([]point, len(line))
		for i, at := range line {
			moved[i] = w.at(at)
		}
		w.canvas.line(&p, moved)
	}
}

func (w *textSheet) rules(k ink, lines [][]point) { w.curves(ink{width: k.width}, lines) }

func (w *textSheet) arrow(k ink, from, to point) {
	w.curves(k, [][]point{{from, to}})
	w.heads = append(w.heads, head{from, to})
}

// sign is the head of an arrow as a character: which way it points, to an eighth of a turn.
func (h head) sign() rune {
	turn := math.Atan2(h.from.Y-h.to.Y, h.to.X-h.from.X)
	eighth := (int(math.Round(turn/(math.Pi/4))) + 8) % 8
	return []rune("→↗↑↖←↙↓↘")[eighth]
}

func (w *textSheet) dot(at point, open bool) {
	w.canvas.put(w.at(at), dotSign(open))
}

// bar is the outline of a bar.
func (w *textSheet) bar(b box, _ int, dashed bool) {
	w.rules(axisInk, [][]point{{{b.left, b.top}, {b.right, b.top}, {b.right, b.bottom}, {b.left, b.bottom}, {b.left, b.top}}})
}

func (w *textSheet) line(t textLine) { w.lines = append(w.lines, t) }

// end puts heads and texts over the lines.
func (w *textSheet) end() {
	for _, h := range w.heads {
		w.canvas.put(w.at(h.to), h.sign())
	}
	cells := make([][]string, w.canvas.rows)
	for i := range cells {
		for _, r := range w.canvas.row(i) {
			cells[i] = append(cells[i], string(r))
		}
	}
	taken := make([][]bool, len(cells))
	for i := range taken {
		taken[i] = make([]bool, w.canvas.columns)
	}
	for _, t := range w.lines {
		b := textBox(t.x, t.y, t.anchor, t.text)
		n := width(t.text)
		from := max(0, min(int(math.Round(b.left/(emPart*fontSize))), w.canvas.columns-n))
		put(cells, taken, freeRow(taken, int((t.y-ascent/2)/lineHeight), from, n), from, t.text)
	}
	for _, row := range cells {
		if text := strings.TrimRight(strings.Join(row, ""), " "); text != "" || w.rows != nil {
			w.rows = append(w.rows, text)
		}
	}
}

// freeRow is the row nearest to one that has room for a text of so many cells: no text is
// put over another.
func freeRow(taken [][]bool, wish, from, n int) int {
	for off := range 2 * len(taken) {
		row := wish + off/2 + off%2
		if off%2 == 0 {
			row = wish - off/2
		}
		if row < 0 || row >= len(taken) {
			continue
		}
		free := true
		for i := max(from-1, 0); i < min(from+n+1, len(taken[row])); i++ {
			free = free && !taken[row][i]
		}
		if free {
			return row
		}
	}
	return max(0, min(wish, len(taken)-1))
}

// put writes a text over what stands in a row: a sign that takes no cell goes with the one
// before it, and one that takes two leaves the next empty.
func put(cells [][]string, taken [][]bool, row, at int, text string) {
	for _, r := range text {
		n := width(string(r))
		if n == 0 && at > 0 && at <= len(cells[row]) {
			cells[row][at-1] += string(r)
			continue
		}
		for i := range n {
			if at+i < len(cells[row]) {
				cells[row][at+i], taken[row][at+i] = "", true
			}
		}
		if at < len(cells[row]) {
			cells[row][at] = string(r)
		}
		at += n
	}
}
