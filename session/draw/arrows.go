package draw

import (
	"math"

	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/graph"
	"steelyard/units"
)

// Sizes of a drawing of arrows, in drawing units.
const (
	boxWide, boxHigh = 52.0, 36.0 // of the box that arrows may begin on
	laneGap          = 8.0        // between arrows that would lie on one another
	leastScale       = 50.0       // of the scale arrow
	firstArc, arcGap = 24.0, 9.0  // radii of the arcs of angles
	barb, barbHalf   = 9.0, 3.6   // length and half the width of an arrow's head
)

var (
	arrowInk     = ink{width: 1.8, curve: true}
	sumInk       = ink{width: 1.8, dash: []float64{9, 5}, curve: true}
	componentInk = ink{width: 1, dash: []float64{4, 3}, curve: true}
	scaleInk     = ink{width: 1.2, curve: true}
)

// arrowsFigure is what is the same of a drawing of arrows at every width.
//
// In ASCII, θ is theta and takes more room, so the texts must be known before names look for places.
type arrowsFigure struct {
	*entry.Arrows
	high   float64             // the most height of the arrows
	set    func(string) string // a text as it may be drawn
	spoken string
}

// What a screen reader says lists the arrows by their names; their sizes and directions are told
// below the drawing, for all readers.
func newArrowsFigure(a *entry.Arrows, high float64, set func(string) string) *arrowsFigure {
	f := &arrowsFigure{Arrows: a, high: high, set: set}
	var names []entry.Said
	for _, one := range a.Arrows {
		names = append(names, entry.Math(one.Of))
	}
	f.spoken = "Arrows to scale: " + entry.Listed(names).String()
	return f
}

// label is an expression as it stands in the drawing.
func (f *arrowsFigure) label(x syntax.Expr) label {
	l := exprLabel(x)
	l.text = f.set(l.text)
	return l
}

// valueLabel is a value as it stands there.
func (f *arrowsFigure) valueLabel(v entry.Value) label {
	return label{text: f.set(v.Shown(units.Drawn)), math: v.Box()}
}

// component names a component of an arrow that has a name itself; nothing else is called
// so on the page.
//
// A component of F1 + F2 would be called (F1 + F2)_x, which nobody writes: it is drawn without a
// name.
func (f *arrowsFigure) component(x syntax.Expr, axis int) label {
	n, ok := syntax.Unbracket(x).(*syntax.Name)
	if !ok {
		return label{}
	}
	return f.label(&syntax.Name{Name: n.Name + "_" + syntax.Axes[axis:axis+1]})
}

// reach are the ends of all arrows, in the unit of the drawing.
//
// They include the place where the arrows begin, which is 0 both ways: an arrow that points up
// leaves no room below.
func (f *arrowsFigure) reach() (least, most graph.Point) {
	for _, a := range f.Arrows.Arrows {
		for _, p := range [...]graph.Point{a.From, a.To} {
			least = graph.Point{X: math.Min(least.X, p.X), Y: math.Min(least.Y, p.Y)}
			most = graph.Point{X: math.Max(most.X, p.X), Y: math.Max(most.Y, p.Y)}
		}
	}
	return least, most
}

// scaleLength is the round length, in the unit of the drawing, that the scale arrow shows:
// the least that is long enough to be compared with.
//
// It is a step as on an axis, 1, 2 or 5 times a power of ten, as these can be counted along an
// arrow with a ruler.
func (f *arrowsFigure) scaleLength(width, perUnit float64) (length float64, l label) {
	mantissa, power := roundStep(math.Min(leastScale, width/8) / perUnit)
	length = decimal(mantissa, power)
	return length, f.valueLabel(entry.Value{InUnit: length, Unit: f.Unit})
}

// barbs are the lines of the head of an arrow, which is shorter than the arrow.
//
// On a short arrow a head of the usual size would hide the arrow: it takes half of the length at
// most, with the same shape.
func barbs(from, to point) []point {
	long := math.Hypot(to.X-from.X, to.Y-from.Y)
	if long == 0 {
		return nil
	}
	back := math.Min(barb, long/2)
	half := barbHalf * back / barb
	u := point{(to.X - from.X) / long, (to.Y - from.Y) / long}
	base := point{to.X - back*u.X, to.Y - back*u.Y}
	return []point{{base.X - half*u.Y, base.Y + half*u.X}, to, {base.X + half*u.Y, base.Y - half*u.X}}
}

// leavesBox is where a line from the middle of the box in a direction leaves it.
//
// It is the nearer of the two sides that the direction leads to. y of a drawing goes down, so that
// the sign of the second component changes.
func leavesBox(v []float64) point {
	t := math.Inf(1)
	if v[0] != 0 {
		t = boxWide / 2 / math.Abs(v[0])
	}
	if v[1] != 0 {
		t = math.Min(t, boxHigh/2/math.Abs(v[1]))
	}
	if math.IsInf(t, 1) {
		return point{}
	}
	return point{t * v[0], -t * v[1]}
}
