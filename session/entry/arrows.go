package entry

import (
	"steelyard/lang/syntax"
	"steelyard/session/graph"
	"steelyard/units"
)

// Arrows is vectors of the plane as they are drawn to scale, all in one unit.
type Arrows struct {
	Unit   *units.Unit
	Arrows []Arrow
	// Chained tells that each begins where the one before it ends; else all begin at one
	// point, which is a box if Boxed is set, and a dot if not.
	Chained, Boxed bool
	// Components asks for those of each arrow, and Angles for its direction from +x.
	Components, Angles bool
	// Axes are blank ones to draw on in the place of the arrows, or nil.
	Axes *Graph
	// Told says what the arrows are.
	Told []Said
}

// Arrow is one vector. Its ends are in the unit of the drawing, with y upward.
type Arrow struct {
	Of       syntax.Expr
	Value    Value
	From, To graph.Point
	// Sum tells that it is the sum of others that are drawn.
	Sum bool
}
