// Package draw draws the graphs and the bar charts of a session: as text for a
// terminal, and laid out once to be written as SVG for a page or as a picture of
// TeX for paper. It sets tables in columns of text, too. It works nothing out about
// the quantities themselves.
//
// Nothing is told apart by colour, no text is ever cut short, and the same drawing
// always gives the same bytes.
package draw

import (
	"math"

	"steelyard/lang/syntax"
	"steelyard/lang/typeset"
	"steelyard/session/entry"
	"steelyard/session/graph"
)

// point is a place on a drawing, y downward.
type point struct{ X, Y float64 }

func (p point) plus(d point) point  { return point{p.X + d.X, p.Y + d.Y} }
func (p point) off(q point) float64 { return math.Hypot(q.X-p.X, q.Y-p.Y) }

// label is a text of a drawing: as characters, by which it is measured, and laid
// out where it is mathematics.
type label struct {
	text string
	math typeset.Box
	// names tells that it names a curve or a kind of energy.
	names bool
}

func exprLabel(x syntax.Expr) label {
	return mathLabel(typeset.Expr(x).Page(), typeset.Line(x), true)
}

// mathLabel is mathematics with what it is as characters; one with characters that have
// no place in a drawing is text.
func mathLabel(page string, math typeset.Box, names bool) label {
	l := label{text: clean(page), names: names}
	if l.text == page {
		l.math = math
	}
	return l
}

// labels are the texts of ticks, set.
func (t ticks) labels() []label {
	out := make([]label, len(t.texts))
	for i, text := range t.texts {
		out[i] = label{text: text, math: typeset.Value(text, "")}
	}
	return out
}

// axisLabel is what stands at an axis: the quantity over its unit ("x / cm", SI
// Brochure 5.4.1), with the power of ten taken out of the texts of its ticks.
func axisLabel(a entry.Axis, power int) label {
	a.Label.Power = power
	return mathLabel(axisText(a, power), a.Label.Box(typeset.Line), false)
}

// axisText is that as characters.
func axisText(a entry.Axis, power int) string {
	a.Label.Power = power
	return a.Label.String()
}

// curveLabels are the names of the curves of a graph that shows them. The axis names a
// single one.
func curveLabels(g *entry.Graph) []label {
	if g.Blank || len(g.Curves) == 1 && len(g.Y.Label.Of) == 1 {
		return nil
	}
	out := make([]label, len(g.Curves))
	for i, c := range g.Curves {
		out[i] = exprLabel(c.Of)
	}
	return out
}

// spansOf are the ranges in which the axes of a graph are drawn.
func spansOf(g *entry.Graph) (x, y span) {
	x, y = newSpan(g.X.From, g.X.To), newSpan(Height(g))
	if oneScale(g) && g.X.From == g.Y.From && g.X.To == g.Y.To {
		x = y
	} else if g.Path {
		x = newSpan(roomy(g.X))
	}
	x.log, y.log = g.X.Log && x.from > 0, g.Y.Log && y.from > 0
	return x, y
}

// oneScale tells whether a graph has places of one unit on both axes, so that a metre
// across is to be as long as a metre up.
func oneScale(g *entry.Graph) bool {
	u, v := g.X.Label.Unit, g.Y.Label.Unit
	return g.Path && u != nil && v != nil && u.Screen() == v.Screen()
}

// headRoom is what is left free above and below the curves, as a part of their height.
const headRoom = 0.05

// Height is the range in which the y axis is drawn: that of the curves with some head
// room. It begins at zero where that leaves most of the height to the curves. That of
// blank axes has round ends.
func Height(g *entry.Graph) (lo, hi float64) {
	lo, hi = g.Y.From, g.Y.To
	if g.Y.Log && lo > 0 && isFinite(hi) {
		room := math.Pow(hi/lo, headRoom)
		if lo == hi {
			room = 3 // about a power of ten in all
		}
		return lo / room, hi * room
	}
	if !g.Blank {
		return roomy(g.Y)
	}
	return NiceRange(fromZero(lo, hi))
}

// roomy is the range of an axis with head room.
func roomy(a entry.Axis) (lo, hi float64) {
	lo, hi = fromZero(a.From, a.To)
	room := headRoom * (hi - lo)
	if !(room < graph.Largest) {
		return NiceRange(lo, hi)
	}
	if lo != 0 {
		lo -= room
	}
	if hi != 0 {
		hi += room
	}
	return lo, hi
}

// fromZero lets a range begin or end at zero where that leaves most of it to the values.
func fromZero(lo, hi float64) (float64, float64) {
	if lo > 0 && lo < hi/2 {
		lo = 0
	}
	if hi < 0 && hi > lo/2 {
		hi = 0
	}
	return lo, hi
}

// span is a range that can be drawn: finite, from < to, and not so short that
// neighbouring floating-point numbers would show.
type span struct {
	from, to float64
	log      bool // equal ratios are equally long; from is above 0
}

func newSpan(from, to float64) span {
	from, to = finite(from, 0), finite(to, 1)
	if from > to {
		from, to = to, from
	}
	least := 1e-9 * math.Max(math.Abs(from), math.Abs(to))
	if to-from < math.Max(least, 1e-290) {
		from, to = NiceRange(from, to)
	}
	return span{from: from, to: to}
}

func finite(v, otherwise float64) float64 {
	if math.IsNaN(v) {
		return otherwise
	}
	return math.Max(-graph.Largest, math.Min(graph.Largest, v))
}

// part gives where v lies in the span: 0 at from, 1 at to. It is bounded, so
// that what follows can't overflow.
func (s span) part(v float64) float64 {
	const far = 1e9
	t := (v - s.from) / (s.to - s.from)
	if s.log {
		t = math.Log(v/s.from) / math.Log(s.to/s.from)
	}
	if t != t {
		return far
	}
	return max(-far, min(far, t))
}

// holdsZero says whether 0 lies strictly between the ends, clear of both.
func (s span) holdsZero() bool {
	if s.log {
		return false
	}
	t := s.part(0)
	return t > 1e-9 && t < 1-1e-9
}

func isFinite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
