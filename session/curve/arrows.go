package curve

import (
	"cmp"
	"math"
	"slices"
	"strconv"

	"steelyard/lang/finding"
	"steelyard/lang/limit"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/lang/typeset"
	"steelyard/session/entry"
	"steelyard/session/eval"
	"steelyard/session/graph"
	"steelyard/units"
)

// sketch is vectors drawn to scale while they are worked out.
type sketch struct {
	*eval.Line
	s     *syntax.Arrows
	slots []run.Slot
	// of is what every vector is.
	of  run.Static
	out *entry.Arrows
}

// Arrows draws vectors to scale, from one point or one after the other.
//
// The steps stop at the first that fails, each of which has said why.
func Arrows(l *eval.Line, s *syntax.Arrows) {
	k := &sketch{Line: l, s: s, out: &entry.Arrows{Chained: s.Chained, Boxed: s.Boxed, Components: s.Components(), Angles: s.Angles()}}
	switch {
	case s.Chained && s.Boxed:
		l.Find(finding.New(finding.NotWritten, s.Of[0].Span(), "Arrows on a box all begin at the box, so they can't go head to tail.", "Leave one of the two out."))
	case k.plan() && k.room() && k.unit() && k.values() && k.sums() && k.place():
		k.tell()
		l.Entry.Outcome = k.out
	}
}

// plan works the vectors out; all must be of one dimension, in the plane.
//
// All are looked at even if one is wrong, so that two slips are told at once.
func (k *sketch) plan() bool {
	good := true
	for i, x := range k.s.Of {
		got := k.Eval(x, eval.Want{Lists: true, Lacking: typeset.Text(x) + " has no value yet.", Hint: "Give its symbols values in lines above."})
		good = good && got.OK && k.isArrow(i, k.Planner.Static(got.Slot))
		k.slots = append(k.slots, got.Slot)
	}
	return good
}

// isArrow tells whether a vector can be drawn with those before it, and finds why not.
func (k *sketch) isArrow(i int, st run.Static) bool {
	x := k.s.Of[i]
	name := typeset.Text(x)
	switch {
	case st.Shape == run.Scalar:
		k.Find(k.noDirection(x, st))
	case !st.IsVector():
		k.Find(plan.OneValue(x, st))
	case st.Components() > 2:
		f := finding.New(finding.VectorOrNumber, x.Span(), name+" has three components; a drawing shows two.", "Give it a name, and draw two of its components at a time, like `arrows (F_x, F_y)`.")
		if n, ok := x.(*syntax.Name); ok && n.Line == 0 {
			f.Hint, f.Readings = "Draw two of its components at a time.", []string{"(" + n.Name + "_x, " + n.Name + "_y)", "(" + n.Name + "_y, " + n.Name + "_z)"}
		}
		k.Find(f)
	case i > 0 && k.of.IsVector() && k.of.Open == 0 && st.Open == 0 && st.Dim != k.of.Dim:
		k.Find(finding.New(finding.UnlikeDimensions, x.Span(), typeset.Text(k.s.Of[0])+" is "+plan.Words(k.of)+", "+name+" is "+plan.Words(st)+": they can't share a scale.", "Draw the arrows of each kind on their own."))
	default:
		if i == 0 || k.of.Open != 0 {
			k.of = st
		}
		return true
	}
	return false
}

// room tells whether one drawing has room for the arrows, and says so where not.
//
// A list of vectors is as many arrows as it has points.
func (k *sketch) room() bool {
	n := 0
	for i, s := range k.slots {
		if n += k.Planner.Static(s).Len(); n > limit.Arrows {
			k.Find(finding.New(finding.TooLong, k.s.Of[i].Span(), "One drawing has room for "+strconv.Itoa(limit.Arrows)+" arrows; this one has more.", "Write `arrows` again for the others."))
			return false
		}
	}
	return true
}

// noDirection is what is found of a number: it may be along either axis, or the magnitude
// of a vector.
func (k *sketch) noDirection(x syntax.Expr, st run.Static) finding.Finding {
	f := finding.New(finding.VectorOrNumber, x.Span(), typeset.Text(x)+" is a number; an arrow needs a direction too.", "")
	if c, ok := syntax.Unbracket(x).(*syntax.Call); ok && c.Func == "abs" && len(c.Args) == 1 {
		f.Hint, f.Readings = "Draw the vector, and not its magnitude.", []string{syntax.PrintExpr(c.Args[0].X)}
		return f
	}
	f.Hint = "Write its direction after `at`, or both of its components."
	if text := syntax.PrintExpr(x); st.Open == 0 {
		f.Readings = []string{"(" + text + ", 0)", "(0, " + text + ")"}
	}
	return f
}

// unit settles the unit of the drawing: the one asked for, else the first vector's that
// has one of its own.
func (k *sketch) unit() bool {
	if k.s.In.Present() {
		u, ok := k.ReadUnit(k.s.In)
		k.out.Unit = u
		return ok && k.Fits(typeset.Text(k.s.Of[0]), k.s.In, k.of, u)
	}
	for _, x := range k.s.Of {
		if k.out.Unit == nil {
			k.out.Unit = k.UnitWithin(x, k.of)
		}
	}
	if k.out.Unit == nil {
		k.out.Unit = units.Preferred(k.of.Dim, k.of.Tag)
	}
	return true
}

// values are the arrows without their places; false where all are 0.
func (k *sketch) values() bool {
	some := false
	for i, x := range k.s.Of {
		v, ok := k.NewValue("", x, k.slots[i], k.out.Unit)
		if !ok {
			return false
		}
		if v.List == nil { // 0 without a unit is the zero vector
			v.List = &entry.List{SI: []float64{0, 0}, InUnit: []float64{0, 0}, Vector: true}
		}
		for i, one := range v.Vectors() {
			some = some || one.Magnitude().SI != 0
			k.out.Arrows = append(k.out.Arrows, entry.Arrow{Of: k.each(x, v, i), Value: one})
		}
	}
	if !some {
		k.Find(finding.New(finding.NoRange, k.s.Of[0].Span(), "All of these vectors are 0: there is no arrow to draw.", ""))
	}
	return some
}

// each is one vector of a list, counted from 0: F1 of F, 2*F1 of 2*F, and what is there of a list
// that is written; one vector is itself. Where F1 is another one of the page, it is counted.
func (k *sketch) each(x syntax.Expr, v entry.Value, i int) syntax.Expr {
	if v.IsVector() {
		return x
	}
	if list, ok := syntax.Unbracket(x).(*syntax.List); ok && !list.Vector {
		return list.Measured(i)
	}
	number, named, another := strconv.Itoa(i+1), false, false
	out := syntax.Rewrite(x, func(x syntax.Expr) (syntax.Expr, bool) {
		switch x := x.(type) {
		case *syntax.Name:
			if d, ok := k.Planner.Find(x); ok && k.Planner.Static(d.Slot).Len() > 1 {
				one := &syntax.Name{Name: syntax.Canonical(x.Name + "_" + number), Vector: x.Vector}
				_, taken := k.Planner.Names.Lookup(one.Name)
				named, another = true, another || taken || x.Line != 0
				return one, true
			}
		case *syntax.Call:
			return x, true
		}
		return nil, false
	})
	if !named || another { // as of differences(r)
		return &syntax.Name{Name: typeset.Text(x) + " no. " + number}
	}
	return out
}

// sums finds which arrows are sums of others: those that are written so, else one that
// comes to what all the others come to together. Head to tail there is one, which closes
// the figure; it is added if the line has none.
func (k *sketch) sums() bool {
	all, some := k.out.Arrows, false
	for i := range all {
		if terms := k.drawnTerms(i); terms > 0 {
			if k.s.Chained && terms < k.single() {
				k.Find(finding.New(finding.NotWritten, all[i].Of.Span(), typeset.Text(all[i].Of)+" is the sum of arrows that are drawn already, so it would count twice.", "Leave it out: head to tail, the sum of all is drawn."))
				return false
			}
			all[i].Sum, some = true, true
		}
	}
	for i := len(all) - 1; i >= 0 && !some && len(all) > 2; i-- {
		rest := k.total(func(j int) bool { return j != i })
		if all[i].Value.Magnitude().SI > 0 && k.same(rest, all[i].Value.List.SI) {
			all[i].Sum, some = true, true
		}
	}
	if k.s.Chained && !some && len(all) > 1 {
		return k.addSum()
	}
	return true
}

// drawnTerms is of how many arrows another one is written as the sum; 0 if it is none.
func (k *sketch) drawnTerms(i int) int {
	terms := syntax.Terms(k.opened(k.out.Arrows[i].Of))
	for _, t := range terms {
		text := typeset.Text(t.X)
		if len(terms) < 2 || t.Minus || !slices.ContainsFunc(k.out.Arrows, func(a entry.Arrow) bool { return typeset.Text(a.Of) == text }) {
			return 0
		}
	}
	return len(terms)
}

// opened is what a name of the page was worked out from, and anything else itself: R where
// a line has R = F1 + F2.
func (k *sketch) opened(x syntax.Expr) syntax.Expr {
	n, ok := x.(*syntax.Name)
	if !ok {
		return x
	}
	d, ok := k.Planner.Find(n)
	if !ok {
		return x
	}
	if s := k.DefineOf(d); s != nil {
		return s.X
	}
	return x
}

// single is how many arrows are not written as sums of others.
func (k *sketch) single() int {
	n := 0
	for j := range k.out.Arrows {
		if k.drawnTerms(j) == 0 {
			n++
		}
	}
	return n
}

// total is the sum of some arrows, in coherent SI units.
func (k *sketch) total(of func(i int) bool) [2]float64 {
	var sum [2]float64
	for i := range k.out.Arrows {
		if of(i) {
			sum[0] += k.out.Arrows[i].Value.List.SI[0]
			sum[1] += k.out.Arrows[i].Value.List.SI[1]
		}
	}
	return sum
}

// same tells whether a sum of arrows is a vector, but for what rounding leaves.
//
// Rounding leaves something of a sum of three that come to nothing; beside the longest arrow
// that is nothing.
func (k *sketch) same(sum [2]float64, v []float64) bool {
	return math.Hypot(sum[0]-v[0], sum[1]-v[1]) <= 1e-9*k.longest().SI
}

// longest is the greatest magnitude of all arrows.
func (k *sketch) longest() entry.Value {
	return slices.MaxFunc(k.out.Arrows, func(a, b entry.Arrow) int {
		return cmp.Compare(a.Value.Magnitude().SI, b.Value.Magnitude().SI)
	}).Value.Magnitude()
}

// addSum adds the sum of all arrows, as if it had been written, unless it is 0.
//
// The sum is an expression like one that was typed, so that it has a value with a unit,
// figures and an uncertainty by the common rules, and a name that a reader understands: F1 +
// F2.
func (k *sketch) addSum() bool {
	if k.balanced() {
		return true
	}
	var x syntax.Expr
	for i, next := range k.s.Of {
		if next = syntax.Unplaced(next); k.Planner.Static(k.slots[i]).Shape == run.Vectors {
			next = &syntax.Call{Func: "sum", Args: []syntax.Arg{{X: next}}}
		}
		if x != nil {
			next = &syntax.Binary{Op: syntax.Add, X: x, Y: next}
		}
		x = next
	}
	got := k.Eval(x, eval.Want{Lists: true, Silent: true})
	if !got.OK {
		return true
	}
	v, ok := k.NewValue("", x, got.Slot, k.out.Unit)
	k.out.Arrows = append(k.out.Arrows, entry.Arrow{Of: x, Value: v, Sum: true})
	return ok
}

// balanced tells whether all arrows together come to nothing.
func (k *sketch) balanced() bool {
	return len(k.out.Arrows) > 1 && k.same(k.total(func(int) bool { return true }), []float64{0, 0})
}

// place puts the ends of the arrows where they are drawn, with a sum from the first point.
// Blank axes reach as far to all sides, so that they tell no direction. It is false where
// that can't be drawn.
//
// Head to tail each begins where the one before ends, and the sum goes from the first begin to
// the last end: that is the picture that proves it.
func (k *sketch) place() bool {
	at, reach := graph.Point{}, 0.0
	for i := range k.out.Arrows {
		a := &k.out.Arrows[i]
		if k.s.Chained && !a.Sum {
			a.From = at
		}
		a.To = graph.Point{X: a.From.X + a.Value.List.InUnit[0], Y: a.From.Y + a.Value.List.InUnit[1]}
		if !a.Sum {
			at = a.To
		}
		reach = max(reach, math.Abs(a.To.X), math.Abs(a.To.Y))
	}
	if reach < 1/graph.Largest {
		k.Find(finding.New(finding.OutOfRange, k.s.Of[0].Span(), "These arrows are shorter than 10^-300, which can't be drawn.", "Draw them in a smaller unit."))
		return false
	}
	if reach > graph.Largest {
		k.Find(finding.New(finding.OutOfRange, k.s.Of[0].Span(), "These arrows go beyond 10^300, which can't be drawn.", "Draw them in a larger unit."))
		return false
	}
	if k.s.Blank {
		axis := func(letter string) entry.Axis {
			head := entry.Head{Words: "component along " + letter, Unit: k.out.Unit}
			if q := k.out.Arrows[0].Value.Quantity; q != "" {
				head.Words = q + " along " + letter
			}
			return entry.Axis{Label: head, From: -reach, To: reach}
		}
		k.out.Axes = &entry.Graph{X: axis("x"), Y: axis("y"), Blank: true, Path: true}
	}
	return true
}

// shortestArrow is the least part of the longest arrow that a drawing can show.
const shortestArrow = 1e-2

// asWritten is the value of an arrow, with the figures of its magnitude and direction where
// it was written by these, in this line or as a given.
func (k *sketch) asWritten(a entry.Arrow) entry.Value {
	v := a.Value
	p, ok := syntax.Unbracket(k.opened(a.Of)).(*syntax.Polar)
	turn, turns := v.Direction()
	if !ok || !turns {
		return v
	}
	same := [...]float64{math.Inf(1), 2 * math.Pi} // a whole turn more is the same direction
	v.Parts = &[2]entry.Value{v.Magnitude(), turn}
	for i, x := range [...]syntax.Expr{p.X, p.Angle} {
		part := &v.Parts[i]
		got := k.Eval(x, eval.Want{Silent: true})
		if !got.OK || i == 1 && p.Bearing != (syntax.Bearing{}) {
			continue
		}
		// A name in it may mean another value by now.
		if now, ok := k.NewValue("", x, got.Slot, part.Unit); ok && math.Abs(math.Remainder(now.SI-part.SI, same[i])) <= 1e-9*math.Abs(part.SI) {
			*part = now
		}
	}
	return v
}

// tell says what the arrows are, for those who can't see them and for those who compare.
//
// Who can't see the drawing must learn as much from the words: each length and direction, the
// sum, and which arrows are too short to be seen at all.
func (k *sketch) tell() {
	var are, sums, short, none []entry.Said
	for _, a := range k.out.Arrows {
		name, size := entry.Math(a.Of), a.Value.Magnitude().SI
		polar := k.asWritten(a).Polar()
		is := entry.Say("… is …", name, polar)
		if polar.String() == typeset.Text(a.Of) {
			is = name
		}
		if k.s.Components() {
			is = is.And(", …", a.Value.Said())
		}
		switch {
		case size == 0:
			none = append(none, name)
		case a.Sum:
			sums = append(sums, is)
		default:
			are = append(are, is)
		}
		if size != 0 && size < shortestArrow*k.longest().SI {
			short = append(short, name)
		}
	}
	say := func(text string, of []entry.Said) {
		if of != nil {
			k.out.Told = append(k.out.Told, entry.Say(text, entry.Listed(of)))
		}
	}
	say("….", are)
	say("Dashed, the sum: ….", sums)
	if k.balanced() {
		k.out.Told = append(k.out.Told, entry.Words("Together they come to 0."))
	}
	say("Too short to be seen beside the longest arrow: ….", short)
	say("No arrow has the length 0: ….", none)
}
