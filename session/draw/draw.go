// Package draw draws graphs of curves and bar charts of energies from plain
// numbers: as text for a terminal, and laid out once to be written as SVG for a
// page or as a picture of TeX for paper. It computes nothing about the quantities
// themselves: the caller gives numbers, ranges and texts.
//
// Nothing is told apart by colour, no text is ever cut short, and the same
// figure always gives the same bytes.
package draw

import "math"

// Axis is one axis: its label, the quantity over its unit ("x / cm", SI
// Brochure 5.4.1), and the range shown, in the axis's unit. A range that can't
// be drawn (not finite, or of no length) is replaced by one near it that can.
type Axis struct {
	Label    string
	From, To float64
}

// Point is one point of a curve, in the units of the axes.
type Point struct{ X, Y float64 }

// Curve is one curve. Name is its direct label, such as "K(x)". Runs are its
// connected pieces: between two runs is a gap, such as a pole, and no line is
// drawn across it. A point that isn't finite makes a gap too.
type Curve struct {
	Name string
	Runs [][]Point
}

// Figure is a graph: curves over two axes. Description says in words what can be
// seen, for readers who can't see it. Blank leaves out the curves and draws the
// axes over a light square grid, to draw on by hand.
type Figure struct {
	Description string
	X, Y        Axis
	Curves      []Curve
	Blank       bool
}

// span is a range that can be drawn: finite, from < to, and not so short that
// neighbouring floating-point numbers would show.
type span struct{ from, to float64 }

const largest = 1e300 // beyond this, sums of two values overflow

func newSpan(from, to float64) span {
	from, to = finite(from, 0), finite(to, 1)
	if from > to {
		from, to = to, from
	}
	least := 1e-9 * math.Max(math.Abs(from), math.Abs(to))
	if to-from < math.Max(least, 1e-290) {
		from, to = NiceRange(from, to)
	}
	return span{from, to}
}

func finite(v, otherwise float64) float64 {
	if math.IsNaN(v) {
		return otherwise
	}
	return math.Max(-largest, math.Min(largest, v))
}

// part gives where v lies in the span: 0 at from, 1 at to. It is bounded, so
// that what follows can't overflow.
func (s span) part(v float64) float64 {
	const far = 1e9
	t := (v - s.from) / (s.to - s.from)
	if t != t {
		return far
	}
	return math.Max(-far, math.Min(far, t))
}

// inside says whether v lies strictly between the ends, clear of both.
func (s span) inside(v float64) bool {
	t := s.part(v)
	return t > 1e-9 && t < 1-1e-9
}

func isFinite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
