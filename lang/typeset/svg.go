package typeset

import "strconv"

// SVG appends a box to a page as what stands in a text element of SVG, on one line.
//
// A drawing has no layout of mathematics: an index is a piece of text a little lower, and a
// fraction has a stroke.
func (b Box) SVG(page []byte) []byte {
	w := svgWriter{out: page}
	w.box(&b, 0)
	return w.out
}

// svgWriter writes pieces of text, each so many units below the line.
type svgWriter struct {
	out   []byte
	level int // of the piece before
}

// How far an index is lowered and an exponent raised, in units of the drawing,
// where the text is 14 high.
const (
	lowered = 3
	raised  = -5
)

// Letters of quantities slope on the line alone: in an index or an exponent of this size
// italics are hard to read.
func (w *svgWriter) box(b *Box, level int) {
	switch b.kind {
	case row, group:
		w.all(b.parts, level)
	case fence:
		w.text(b.text[:1], level, false)
		w.all(b.parts, level)
		w.text(b.text[1:], level, false)
	case fraction:
		w.box(&b.parts[0], level)
		w.text("/", level, false)
		w.box(&b.parts[1], level)
	case root:
		w.box(&b.parts[1], raised)
		w.text("√(", level, false)
		w.box(&b.parts[0], level)
		w.text(")", level, false)
	case withBelow, withAbove, withBoth:
		below, above := b.scripts()
		w.box(&b.parts[0], level)
		w.box(below, lowered)
		w.box(above, raised)
	case arrowed:
		w.text(b.parts[0].text+"\u20d7", level, level == 0)
	case symbol:
		w.text(proper(b.text), level, level == 0)
	case function:
		w.text(spaced(b.text), level, false)
	case infix, continued, relation:
		w.text(" "+b.text+" ", level, false)
	case dot:
		w.text(" ⋅ ", level, false)
	case comma:
		w.text(", ", level, false)
	case times, thin, gap:
		w.text(" ", level, false)
	case nothing, apply, hair:
	default:
		w.text(proper(b.text), level, false)
	}
}

func (w *svgWriter) all(parts []Box, level int) {
	for i := range parts {
		w.box(&parts[i], level)
	}
}

// text writes one piece, which says by how much it is off from the piece before.
//
// dy moves the text from where the piece before it ended, so that each piece must undo what
// that one has moved.
func (w *svgWriter) text(s string, level int, italics bool) {
	if level == 0 && w.level == 0 && !italics {
		w.out = appendXML(w.out, s)
		return
	}
	w.out = append(w.out, "<tspan"...)
	if level != w.level {
		w.out = append(strconv.AppendInt(append(w.out, ` dy="`...), int64(level-w.level), 10), '"')
	}
	if level != 0 {
		w.out = append(w.out, ` font-size="11"`...)
	}
	if italics {
		w.out = append(w.out, ` font-style="italic"`...)
	}
	w.out = append(appendXML(append(w.out, '>'), s), "</tspan>"...)
	w.level = level
}
