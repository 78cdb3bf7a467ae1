package draw

import (
	"strings"

	"steelyard/lang/typeset"
	"steelyard/session/rows"
)

// vector is what a drawing is written on: SVG for a page, a picture of TeX for
// paper. It writes lines, dots and texts at the places that a layout gives them,
// in drawing units with y downward, and decides nothing.
//
// What is drawn, and where, is thus the same in all formats; a new format is one more vector.
type vector interface {
	// begin opens a drawing of a size, with what it is in words. So many of the
	// fills of bars are used in it.
	begin(w, h float64, spoken, description string, fills int)
	// curves draws lines from point to point; one with a single point is a dot.
	curves(k ink, lines [][]point)
	// arrow draws a line with a head at its end; the head is never dashed.
	arrow(k ink, from, to point)
	// dot draws a small circle, filled or open.
	dot(at point, open bool)
	// rules draws lines whose steps are all level or upright.
	rules(k ink, lines [][]point)
	// bar draws a box with one of the fills, or a dashed one without.
	bar(b box, fill int, dashed bool)
	// line writes one line of text at its baseline.
	line(t textLine)
	end()
}

// ink is how a line is drawn.
//
// There are no colours: a worksheet is copied in black and white, and not everybody sees colours.
type ink struct {
	width float64
	dash  []float64 // strokes and gaps; none for a solid line
	faint bool
	curve bool // joined and ended softly
	drawn bool // of a curve that has a name
}

var (
	axisInk   = ink{width: 1.2}
	zeroInk   = ink{width: 0.6}
	barInk    = ink{width: 1}
	gridInk   = ink{width: 0.5, faint: true}
	poleInk   = ink{width: 0.8, dash: []float64{5, 4}, curve: true}
	leaderInk = ink{width: 0.6, curve: true}
	anchorInk = ink{width: 4, curve: true} // the dot of a leader on its curve
)

// lines are how the curves are drawn in turn; further rounds are drawn thicker. No two
// have both like strokes and like gaps, and the two that are most alike, the whole line
// and the whole thick line, come far from one another.
var lines = [...]ink{
	{width: 1.6}, {width: 1.6, dash: []float64{9, 5}}, {width: 1.8, dash: []float64{2, 4}},
	{width: 1.6, dash: []float64{14, 4, 2, 4}}, {width: 3}, {width: 2.6, dash: []float64{4, 3}},
}

// curveInk is how the i-th curve is drawn.
func curveInk(i int) ink {
	k := lines[i%len(lines)]
	k.curve, k.drawn, k.width = true, true, k.width+0.9*float64(min(i/len(lines), 4))
	return k
}

const dotRadius = 3.2

// fillKinds is how many ways there are to fill a bar.
const fillKinds = 7

// anchor is which end of a text stands at its place.
type anchor uint8

const (
	start anchor = iota
	middle
	end
)

// textLine is one line of text at its baseline.
type textLine struct {
	x, y   float64
	anchor anchor
	label
}

const (
	fontSize   = 12.0
	emPart     = 0.6 // the width of a character in font sizes, estimated high
	lineHeight = 15.0
	ascent     = 9.5 // of capitals and most of all else above the baseline
	descent    = 3.5
)

// textWidth estimates the width of a text in drawing units.
//
// No font is at hand where a drawing is made, and none is the same on all machines.
func textWidth(text string) float64 { return float64(width(text)) * emPart * fontSize }

// textBox gives the box of a text at its place.
func textBox(x, y float64, a anchor, text string) box {
	w := textWidth(text)
	switch a {
	case middle:
		x -= w / 2
	case end:
		x -= w
	}
	return box{x, y - ascent, x + w, y + descent}
}

func charactersIn(w float64) int { return max(1, int(w/(emPart*fontSize)+1e-6)) }

// rows breaks a label into rows of some width: mathematics at its signs, where that
// is enough, all else between words.
func (l label) rows(w float64) []label {
	most := charactersIn(w)
	if rows.Fits(l.text, most) {
		return []label{l}
	}
	texts := rows.Fit(l.text, most)
	if lines := l.math.Lines(func(b typeset.Box) bool { return width(mathText(b)) <= most }); lines != nil {
		out := make([]label, len(lines))
		for i, line := range lines {
			out[i] = label{text: mathText(line), math: line, names: l.names}
		}
		return out
	}
	out := make([]label, len(texts))
	for i, text := range texts {
		out[i].text, out[i].names = text, l.names
	}
	return out
}

// mathText is mathematics as characters.
func mathText(b typeset.Box) string { return strings.TrimSpace(clean(b.Page())) }

// sheet is a vector on which a layout writes.
type sheet struct{ vector }

func (s *sheet) text(x, y float64, a anchor, l label) {
	if strings.TrimSpace(l.text) == "" {
		return
	}
	s.line(textLine{x: x, y: y, anchor: a, label: l})
}

// named writes names, each with its leader if it has one.
func (s *sheet) named(all []name) {
	for _, n := range all {
		if n.leader != nil {
			s.curves(leaderInk, [][]point{n.leader})
			s.curves(anchorInk, [][]point{n.leader[:1]})
		}
		s.text(n.x, n.y, n.anchor, n.label)
	}
}

// block writes rows of text from y downward; it gives the y below it.
func (s *sheet) block(x, y float64, rows []label) float64 {
	for _, row := range rows {
		s.text(x, y+ascent+2, start, row)
		y += lineHeight
	}
	return y
}
