package draw

import (
	"math"
	"strconv"
	"strings"

	"steelyard/lang/typeset"
)

const (
	texUnit    = 0.25   // millimetres of a drawing unit: texts are as large as \footnotesize
	texLine    = 0.42   // points of the width of a line, for each of SVG's
	mostPieces = 6000   // pieces of lines in a picture: each costs TeX some memory
	widestTeX  = 1500.0 // a chart is made smaller to fit a line, but must be read
)

// texWriter is a drawing on its way to LaTeX.
type texWriter struct {
	strings.Builder
	unit   float64 // millimetres of a drawing unit
	height float64
	pieces int
}

// at writes a place. TeX counts upward.
func (w *texWriter) at(p point) {
	var buffer [48]byte
	to := append(appendNum(append(buffer[:0], '('), p.X), ',')
	w.Write(append(appendNum(to, w.height-p.Y), ')'))
}

func (w *texWriter) put(p point, what string) {
	w.WriteString(`\put`)
	w.at(p)
	w.WriteString("{" + what + "}\n")
}

func (w *texWriter) begin(width, height float64, _, _ string, _ int) {
	w.height = height
	w.WriteString(`{\footnotesize\setlength\unitlength{` + num(w.unit) + "mm}%\n" + `\begin{picture}(` + num(width) + "," + num(height) + ")\n")
}

func (w *texWriter) end() { w.WriteString("\\end{picture}}") }

func (w *texWriter) thickness(k ink) {
	width := k.width * texLine
	if k.faint {
		width /= 2
	}
	w.WriteString(`\linethickness{` + num(width) + "pt}\n")
}

func (w *texWriter) rules(k ink, lines [][]point) {
	if len(lines) == 0 {
		return
	}
	w.thickness(k)
	for _, line := range lines {
		for i, to := range line[1:] {
			w.rule(line[i], to)
		}
	}
}

// rule draws a level or upright line.
func (w *texWriter) rule(a, b point) {
	dx, dy := b.X-a.X, a.Y-b.Y
	direction := "(1,0)"
	switch {
	case dx < 0:
		direction = "(-1,0)"
	case dy > 0:
		direction = "(0,1)"
	case dy < 0:
		direction = "(0,-1)"
	}
	w.put(a, `\line`+direction+"{"+num(math.Abs(dx)+math.Abs(dy))+"}")
}

func (w *texWriter) curves(k ink, lines [][]point) {
	if len(lines) == 0 {
		return
	}
	w.thickness(k)
	for _, line := range lines {
		if len(line) == 1 {
			w.disc(line[0], k.width)
		}
		w.dashed(k.dash, line)
	}
}

func (w *texWriter) arrow(k ink, from, to point) {
	w.curves(k, [][]point{{from, to}})
	k.dash = nil
	w.curves(k, [][]point{barbs(from, to)})
}

// dashed draws a line with a pattern of strokes and gaps.
//
// The pattern goes on from piece to piece of a line, as it does in SVG. A drawing that has used up
// its pieces is given up, and ends early.
func (w *texWriter) dashed(pattern []float64, line []point) {
	phase, left := 0, math.Inf(1)
	if len(pattern) > 0 {
		left = pattern[0]
	}
	for i := 1; i < len(line) && w.pieces <= mostPieces; i++ {
		a, b := line[i-1], line[i]
		long := math.Hypot(b.X-a.X, b.Y-a.Y)
		for gone := 0.0; gone < long; {
			next := math.Min(long, gone+left)
			if phase%2 == 0 {
				w.stroke(along(a, b, gone/long), along(a, b, next/long))
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

// along gives the point between two that is part of the way from the first.
func along(a, b point, part float64) point {
	return point{a.X + float64(part*(b.X-a.X)), a.Y + float64(part*(b.Y-a.Y))}
}

// stroke draws a straight piece of a curve. The number of dots that it is made of
// is told, since LaTeX can't work it out for very short ones.
func (w *texWriter) stroke(a, b point) {
	long := math.Hypot(b.X-a.X, b.Y-a.Y)
	if long < 0.08 {
		return
	}
	w.pieces++
	w.WriteString(`\qbezier[` + strconv.Itoa(max(2, int(long/0.32))) + "]")
	w.at(a)
	w.at(along(a, b, 0.5))
	w.at(b)
	w.WriteByte('\n')
}

func (w *texWriter) dot(at point, open bool) {
	if !open {
		w.disc(at, 2*dotRadius)
		return
	}
	w.thickness(axisInk)
	w.put(at, `\circle{`+num(2*dotRadius)+"}")
}

func (w *texWriter) disc(p point, across float64) {
	w.pieces++
	w.put(p, `\circle*{`+num(across)+"}")
}

// texFills are the distances of the level and of the upright lines that bars are
// filled with, 0 for none.
var texFills = [fillKinds]struct{ level, upright float64 }{{level: 4}, {}, {level: 8}, {upright: 6}, {6, 6}, {upright: 3}, {3, 3}}

func (w *texWriter) bar(b box, fill int, dashed bool) {
	outline := []point{{b.left, b.bottom}, {b.left, b.top}, {b.right, b.top}, {b.right, b.bottom}, {b.left, b.bottom}}
	if dashed {
		w.curves(ink{width: 1.4, dash: []float64{5, 3}}, [][]point{outline})
		return
	}
	w.rules(ink{width: 1.4}, [][]point{outline})
	var lines [][]point
	how := texFills[fill]
	for y := b.bottom - how.level; how.level > 0 && y > b.top; y -= how.level {
		lines = append(lines, []point{{b.left, y}, {b.right, y}})
	}
	for x := b.left + how.upright; how.upright > 0 && x < b.right-0.5; x += how.upright {
		lines = append(lines, []point{{x, b.bottom}, {x, b.top}})
	}
	w.rules(gridInk, lines)
}

// line puts a text on its baseline.
func (w *texWriter) line(t textLine) {
	text := "$" + t.math.LaTeX() + "$"
	if t.math.IsEmpty() {
		text = typeset.TeXText(t.text)
	}
	switch t.anchor {
	case middle:
		text = `\makebox[0pt]{` + text + "}"
	case end:
		text = `\makebox[0pt][r]{` + text + "}"
	}
	w.put(point{t.x, t.y}, text)
}
