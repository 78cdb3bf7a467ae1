package draw

import (
	"math"
	"slices"
	"strconv"

	"steelyard/session/entry"
	"steelyard/session/graph"
)

// arrowsLayout is a drawing of arrows with the places of all that is drawn.
//
// Lines come first and names after, since a name can move and an arrow, drawn to scale, can not.
type arrowsLayout struct {
	sheet
	ground
	*arrowsFigure
	width, height float64
	scale         float64 // drawing units for one unit of the arrows
	origin        point   // where the arrows begin
	shafts        []shaft // arrows and their components
	arcs          [][]point
	levels        [][]point // from which the arcs go
	wanted        []wanted
	legend        []label // names too long for the drawing, behind what stands for them
	scaleArrow    shaft
	below         float64 // where the legend begins
}

// shaft is one arrow of a drawing.
//
// Components and the scale are arrows too, and differ by their ink alone.
type shaft struct {
	from, to point
	ink      ink
}

// wanted is a name that looks for its place beside some points, the best first.
type wanted struct {
	name
	marks []point
}

// rooms are tried one after the other until all names find a place: the part of the
// drawing that the arrows take, and how much higher it is than usual.
//
// Names that are put over arrows can't be read, so the drawing grows, or the arrows shrink, until
// there is room. If none of them serves, the one with the most names is taken.
var rooms = [...]struct{ part, more float64 }{{1, 0}, {0.8, 0}, {0.8, 80}, {0.65, 160}, {0.5, 240}}

// largestScale keeps what follows finite.
const largestScale = 1e305

// layout finds the places at a width.
//
// Each try begins anew: what a name takes changes where the next can go, so a try can't be mended.
func (f *arrowsFigure) layout(width float64) *arrowsLayout {
	var best *arrowsLayout
	for _, room := range rooms {
		s := &arrowsLayout{arrowsFigure: f, width: width}
		s.fit(room.part, room.more)
		s.lay()
		s.placeNames()
		if best == nil || len(s.names) > len(best.names) {
			best = s
		}
		if len(s.names) == len(s.wanted) {
			break
		}
	}
	best.finish()
	return best
}

// fit settles the scale, the same both ways, and where the arrows begin: in the middle of
// the width, with room for names on all sides. The arrows take a part of what is left.
//
// One scale for both ways keeps angles what they are. The scale is that of the way that has less
// room.
func (s *arrowsLayout) fit(part, more float64) {
	side, above := 0.0, lineHeight+nameGap
	for _, a := range s.Arrows.Arrows {
		side = math.Max(side, textWidth(s.label(a.Of).text))
	}
	side = math.Min(side, s.width/4) + 2*nameGap
	if s.Boxed {
		side, above = side+boxWide/2, above+boxHigh/2
	}
	least, most := s.reach()
	w, h := s.width-2*edge, math.Min(s.high, plotPart*s.width)
	across, up := math.Max(w-2*side, w/4), math.Max(h-2*above, h/4)
	s.scale = part * math.Min(across/(most.X-least.X), up/(most.Y-least.Y))
	s.scale = math.Min(s.scale, largestScale)
	h += more
	s.area = box{edge, edge, edge + w, edge + h}
	s.origin = point{edge + w/2 - s.scale*(least.X+most.X)/2, edge + h/2 + s.scale*(least.Y+most.Y)/2}
	s.crowded = true
	s.zero = point{-10 * s.width, -10 * s.width} // no lines of zero are drawn
}

// at is the place of a point of the arrows.
func (s *arrowsLayout) at(p graph.Point) point {
	return point{s.origin.X + float64(s.scale*p.X), s.origin.Y - float64(s.scale*p.Y)}
}

// lay finds the lines of all arrows and of their marks. An arrow that is too short to be
// seen is left out; the words below tell it.
//
// Marks of components and angles come after all arrows: what a mark takes may be moved aside, the
// arrow of a quantity should not be.
func (s *arrowsLayout) lay() {
	var marks []func()
	for _, a := range s.Arrows.Arrows {
		one := shaft{s.at(a.From), s.at(a.To), arrowInk}
		if a.Sum {
			one.ink = sumInk
		}
		if s.Boxed {
			d := leavesBox(a.Value.List.InUnit)
			one.from, one.to = one.from.plus(d), one.to.plus(d)
		}
		if one, ok := s.add(one, s.short(s.label(a.Of))); ok {
			marks = append(marks, func() { s.mark(one, a) })
		}
	}
	if o := s.origin; s.Boxed { // nothing else goes into the box
		for _, side := range [...]float64{-1, 1} {
			s.take([]point{o.plus(point{-boxWide / 2, side * boxHigh / 2}), o.plus(point{boxWide / 2, -side * boxHigh / 2})})
		}
	}
	for _, mark := range marks {
		mark()
	}
}

// short is a label, or where it is too long what stands for it, which the legend tells.
//
// A name longer than a third of the width leaves no place free of arrows; (1) fits anywhere.
func (s *arrowsLayout) short(l label) label {
	if textWidth(l.text) <= s.width/3 {
		return l
	}
	tag := "(" + strconv.Itoa(len(s.legend)+1) + ")"
	s.legend = append(s.legend, label{text: tag + " " + l.text})
	return label{text: tag}
}

// leastShaft is the length of the shortest arrow that is drawn.
const leastShaft = 2.0

// add adds an arrow with its name, beside those that it would lie on; false for one that
// is too short.
//
// Two forces along one line are drawn side by side, each at its whole length; the next lanes are
// tried in turn on both sides, the near ones first.
func (s *arrowsLayout) add(one shaft, l label) (shaft, bool) {
	long := one.from.off(one.to)
	if long < leastShaft {
		return one, false
	}
	aside := point{(one.to.Y - one.from.Y) / long, (one.from.X - one.to.X) / long}
	moved := one
	for lane := 1; lane < 2*len(s.shafts)+2 && slices.ContainsFunc(s.shafts, moved.liesOn); lane++ {
		by := laneGap * float64(lane/2+lane%2)
		if lane%2 == 0 {
			by = -by
		}
		d := point{by * aside.X, by * aside.Y}
		moved.from, moved.to = one.from.plus(d), one.to.plus(d)
	}
	s.shafts = append(s.shafts, moved)
	curve := s.take([]point{moved.from, moved.to}, barbs(moved.from, moved.to))
	if l.text != "" {
		s.wanted = append(s.wanted, wanted{name: name{curve: curve, label: l, anchor: start}})
	}
	return moved, true
}

// take keeps names off some lines; it returns which they are.
func (s *arrowsLayout) take(lines ...[]point) int {
	slices.Reverse(lines) // names are put beside the last piece
	s.seen = append(s.seen, lines)
	return len(s.seen) - 1
}

// liesOn tells whether two arrows would hide a part of one another.
//
// They do if they go the same way to 3 %, are close to one another, and overlap by more than a
// point.
func (a shaft) liesOn(b shaft) bool {
	const same, near = 0.03, 5
	long := a.from.off(a.to)
	u := point{(a.to.X - a.from.X) / long, (a.to.Y - a.from.Y) / long}
	across := func(p point) float64 { return float64(u.X*(p.Y-a.from.Y)) - float64(u.Y*(p.X-a.from.X)) }
	along := func(p point) float64 { return float64(u.X*(p.X-a.from.X)) + float64(u.Y*(p.Y-a.from.Y)) }
	if math.Abs(across(b.to)-across(b.from)) > same*b.from.off(b.to) || math.Abs(across(b.from)) > near {
		return false
	}
	from, to := min(along(b.from), along(b.to)), max(along(b.from), along(b.to))
	return min(to, long)-max(from, 0) > leastShaft
}

// mark adds what is asked for beside an arrow: its components, and its angle.
//
// Components go first along x and then up, so that they form a triangle with their arrow. Arcs of
// several angles have growing radii, and none is longer than most of its arrow.
func (s *arrowsLayout) mark(one shaft, a entry.Arrow) {
	if s.Components {
		corner := point{one.to.X, one.from.Y}
		s.add(shaft{one.from, corner, componentInk}, s.component(a.Of, 0))
		s.add(shaft{corner, one.to, componentInk}, s.component(a.Of, 1))
	}
	turn, ok := a.Value.Direction()
	radius := math.Min(firstArc+arcGap*float64(len(s.arcs)), 0.8*one.from.off(one.to))
	if !s.Angles || !ok || math.Abs(turn.SI)*radius < leastShaft {
		return
	}
	var arc []point
	const steps = 24
	for i := range steps + 1 {
		t := turn.SI * float64(i) / steps
		arc = append(arc, point{one.from.X + float64(radius*math.Cos(t)), one.from.Y - float64(radius*math.Sin(t))})
	}
	level := []point{one.from, {one.from.X + radius + tickLength, one.from.Y}}
	s.arcs, s.levels = append(s.arcs, arc), append(s.levels, level)
	marks := []point{arc[steps/2]}
	for i := 1; i <= steps/2; i++ {
		marks = append(marks, arc[steps/2+i], arc[steps/2-i])
	}
	s.wanted = append(s.wanted, wanted{name{curve: s.take(arc, level), label: s.valueLabel(turn), anchor: start}, marks})
}

// placeNames finds a place for each name, away from all arrows and other names, if there
// is one.
//
// A name beside its arrow needs no line to it. Where none is free, a thin leader goes to a place
// some way off.
func (s *arrowsLayout) placeNames() {
	for i := range s.wanted {
		n := &s.wanted[i]
		if n.marks == nil {
			n.marks = slices.Collect(s.marks(n.curve, 40))
		}
		if len(n.marks) == 0 { // all of it is close to others
			shaft := s.seen[n.curve]
			n.marks = backward(shaft[len(shaft)-1], 2)
		}
		if s.inside(&n.name, slices.Values(n.marks)) || s.afar(&n.name, n.marks) {
			s.names = append(s.names, n.name)
		}
	}
}

// finish moves all to the top of the drawing, and puts the scale and the legend below.
//
// What the arrows don't need of their height is cut off: a single level arrow makes a low drawing.
func (s *arrowsLayout) finish() {
	top, bottom := s.origin.Y-dotRadius, s.origin.Y+dotRadius
	if s.Boxed {
		top, bottom = s.origin.Y-boxHigh/2, s.origin.Y+boxHigh/2
	}
	for _, lines := range s.seen {
		for _, p := range slices.Concat(lines...) {
			top, bottom = math.Min(top, p.Y-2), math.Max(bottom, p.Y+2)
		}
	}
	for _, n := range s.names {
		b := textBox(n.x, n.y, n.anchor, n.text)
		top, bottom = math.Min(top, b.top-4), math.Max(bottom, b.bottom)
	}
	s.move(edge - top)
	length, l := s.scaleLength(s.width, s.scale)
	y := bottom + edge - top + 2*nameGap + lineHeight/2
	s.scaleArrow = shaft{point{edge, y}, point{edge + s.scale*length, y}, scaleInk}
	s.names = append(s.names, name{label: l, x: s.scaleArrow.to.X + nameGap, y: y + ascent/2 - 0.5, anchor: start})
	s.below = y + lineHeight/2 + nameGap
	s.height = s.below + edge
	for _, l := range s.legend {
		s.height += lineHeight * float64(len(l.rows(s.width-2*edge)))
	}
}

// move moves all that has a place up or down.
//
// The lines that names keep off are not moved: all names have their place by then.
func (s *arrowsLayout) move(by float64) {
	d := point{0, by}
	s.origin = s.origin.plus(d)
	for i := range s.shafts {
		s.shafts[i].from, s.shafts[i].to = s.shafts[i].from.plus(d), s.shafts[i].to.plus(d)
	}
	for _, lines := range [...][][]point{s.arcs, s.levels} {
		for _, line := range lines {
			for i := range line {
				line[i] = line[i].plus(d)
			}
		}
	}
	for i := range s.names {
		n := &s.names[i]
		n.y += by
		for k := range n.leader {
			n.leader[k] = n.leader[k].plus(d)
		}
	}
}

func (s *arrowsLayout) breadth() float64 { return s.width }

// draw writes the arrows.
//
// Thin lines go first, under the arrows. The dot where free arrows begin is left out where they
// are chained, since each begins at the head of the one before.
func (s *arrowsLayout) draw(on vector) {
	s.vector = on
	s.begin(s.width, s.height, s.spoken, entry.Joined(s.Told, " ").String(), 0)
	s.curves(gridInk, s.levels)
	s.curves(leaderInk, s.arcs)
	for _, one := range s.shafts {
		s.arrow(one.ink, one.from, one.to)
	}
	s.arrow(s.scaleArrow.ink, s.scaleArrow.from, s.scaleArrow.to)
	switch o := s.origin; {
	case s.Boxed:
		l, t, r, b := o.X-boxWide/2, o.Y-boxHigh/2, o.X+boxWide/2, o.Y+boxHigh/2
		s.rules(axisInk, [][]point{{{l, t}, {r, t}, {r, b}, {l, b}, {l, t}}})
	case !s.Chained:
		s.dot(o, false)
	}
	s.named(s.names)
	y := s.below
	for _, l := range s.legend {
		y = s.block(edge, y, l.rows(s.width-2*edge))
	}
	s.end()
}
