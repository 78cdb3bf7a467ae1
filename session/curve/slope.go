package curve

import (
	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/eval"
	"steelyard/units"
)

// Slope works out the derivative of a curve at a point.
func Slope(l *eval.Line, d *plan.Def, s *syntax.SlopeOf, in syntax.UnitText) {
	slot, ok := slope(l, s)
	reading(l, d, s.X, in, slot, ok)
}

// slope plans the derivative; false if the curve has none at the point.
func slope(l *eval.Line, s *syntax.SlopeOf) (run.Slot, bool) {
	at, ok := end(l, s.Place)
	if !ok {
		return run.NoSlot, false
	}
	x := l.Planner.Static(at)
	x.Tag = units.None
	c, depends, ok := planCurve(l, s.X, s.Var.Name, x)
	if !ok {
		return run.NoSlot, false
	}
	if !depends {
		l.Find(finding.New(finding.NotSolved, s.Var.NameAt, s.Var.Name+" isn't in "+c.name+".", "Use the name in the curve, as in `slope of x(t) at t = 3 s`."))
		return run.NoSlot, false
	}
	if f, no := l.Planner.NoSlopeOf(c.fn, s.X.Span()); no {
		l.Find(f)
		return run.NoSlot, false
	}
	dim, fits := c.static.Dim.Div(x.Dim)
	if !fits || !smooth(l, s, c, x.Dim, l.State.At(at)) {
		return run.NoSlot, false
	}
	return l.Planner.EmitAt(ops.Slope, c.fn, []run.Slot{at}, run.Static{Dim: dim, Width: 1}), true
}

// smooth tells whether a curve has a slope at a point; a corner, a jump or a
// vertical tangent there is a finding.
func smooth(l *eval.Line, s *syntax.SlopeOf, c *curve, dim units.Dim, x float64) bool {
	l.CatchUp()
	if _, ok := l.Planner.Program.Value(&l.State, c.fn, x); !ok {
		l.Find(finding.New(finding.NoRealValue, s.X.Span(), c.name+" has no value at "+s.Var.Name+" = "+l.ShownIn(x, placeUnit(l, s.Place))+", so it has no slope.", "Use another place."))
		return false
	}
	scale := l.Planner.Program.NaturalScale(&l.State, []int{c.fn}, dim)
	bend, left, right := l.Planner.Program.BendAt(&l.State, c.fn, x, scale)
	if bend == run.Smooth {
		return true
	}
	place := s.Var.Name + " = " + l.ShownIn(x, placeUnit(l, s.Place))
	says := ""
	switch bend {
	case run.Jump:
		says = c.name + " jumps at " + place + ", so it has no slope there."
	case run.Vertical:
		says = "The slope of " + c.name + " grows without limit near " + place + ", so it has no slope there."
	default:
		d, _ := c.static.Dim.Div(dim)
		u := units.Preferred(d, units.None)
		says = c.name + " has a corner at " + place + ": its slope is " + l.ShownIn(left, u) + " just before and " + l.ShownIn(right, u) + " just after."
	}
	l.Find(finding.New(finding.NoSlope, s.X.Span(), says, "Use a place beside it."))
	return false
}

// placeUnit is the unit that a place is shown in.
func placeUnit(l *eval.Line, x syntax.Expr) *units.Unit {
	st := l.Try(x).Static
	if u := rangeUnit(l, x, st); u != nil {
		return u
	}
	return units.Preferred(st.Dim, st.Tag)
}

// reading reports a slope or an area like any result.
func reading(l *eval.Line, d *plan.Def, x syntax.Expr, in syntax.UnitText, slot run.Slot, ok bool) {
	if !ok {
		l.Fail(d, nil)
		return
	}
	l.Planner.Program.Main.At[slot] = x.Span()
	// What a curve is called says nothing of its slope: no unit is remembered.
	of := &syntax.Number{At: x.Span()}
	got := l.Run(of, eval.Want{Shown: true, Name: d.Name, In: in}, plan.Compiled{Slot: slot, Static: l.Planner.Static(slot)})
	if r := l.Answer(d, d.Name, of, got); r != nil {
		r.Shows, r.Records = true, true
	}
}
