package entry

import (
	"steelyard/lang/syntax"
	"steelyard/session/graph"
	"steelyard/units"
)

// Graph is what a graph shows, in the units of its axes. The range of the y axis is
// that of the values worth showing.
type Graph struct {
	X, Y   Axis
	Curves []Curve
	// Shapes says of each curve what it is.
	Shapes []Said
	// Blank asks for the axes alone.
	Blank bool
	// Path tells that the curves are paths, which may turn back.
	Path bool
	// Points are readings, which the curves may fit, and Residuals is the graph of what a
	// curve leaves of them, if that is asked for.
	Points    []Reading
	Residuals *Graph
}

// Reading is a point with how far it may be off on either side, up and across; 0 where
// that is not known.
type Reading struct {
	graph.Point
	UX, UY float64
}

// Axis is one axis: quantity over unit, and its range in that unit.
type Axis struct {
	Label    Head
	From, To float64
	Log      bool // equal ratios are equally long; From is above 0
}

// Curve is one curve of a graph; Runs are its connected pieces.
type Curve struct {
	Of   syntax.Expr
	Runs [][]graph.Point
	// Dots are the ends of the pieces at jumps, and Poles the places where it runs off.
	Dots  []graph.Dot
	Poles []float64
	// Shape is what the curve is, in coherent SI units; that of a function by
	// intervals is Other.
	Shape graph.Shape
}

// Bars is an energy bar chart, all in one unit.
type Bars struct {
	Unit   *units.Unit
	Stages []Stage
	// Books says what the sums come to, and Scale which bars are too short to be seen, if
	// any is.
	Books, Scale Said
	// Holds tells whether the books balance.
	Holds bool
}

// Told is what is said of the chart as a whole.
func (b *Bars) Told() Said {
	if len(b.Scale) == 0 {
		return b.Books
	}
	return b.Books.And(" …", b.Scale)
}

// Stage is one place or moment of an energy bar chart.
type Stage struct {
	Name string
	Work *Bar // done on the system on the way there, or nil
	Bars []Bar
	Sum  Value
}

// Bar is one energy, in the chart's unit.
type Bar struct {
	Of    syntax.Expr
	Value Value
}
