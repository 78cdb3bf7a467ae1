package session

import (
	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// slope works out the derivative of a curve at a point.
func (w *work) slope(s *syntax.Slope) {
	d, ok := w.readingDef(s.Named.Name, s.Named.NameAt)
	if !ok {
		return
	}
	at, ok := w.end(s.At)
	if !ok {
		w.fail(d, nil)
		return
	}
	x := w.planner.Static(at)
	x.Tag = units.None
	c, depends, ok := w.planCurve(s.X, s.Var.Name, x)
	if !ok {
		w.fail(d, nil)
		return
	}
	if !depends {
		w.find(finding.New(finding.NotSolved, s.Var.NameAt, s.Var.Name+" does not stand in "+c.name+".", "Name what the curve is drawn against, as in `slope of x(t) at t = 3 s`."))
		w.fail(d, nil)
		return
	}
	dim, fits := c.static.Dim.Div(x.Dim)
	if !fits || !w.smooth(s, c, x.Dim, w.state.Vals[at]) {
		w.fail(d, nil)
		return
	}
	slot := w.planner.EmitAt(ops.Slope, c.fn, []run.Slot{at}, run.Static{Dim: dim, Width: 1})
	w.reading(d, s.X, s.In, slot)
}

// readingDef is the definition that a slope or an area makes; false if its name
// can't be given.
func (w *work) readingDef(name string, at syntax.Span) (*plan.Def, bool) {
	d := &plan.Def{Name: name, Kind: plan.Quantity, Slot: run.NoSlot}
	if name == "" {
		return d, true
	}
	if !w.mayDefine(name, at, plan.Quantity) {
		return d, false
	}
	w.givenAgain(name, at)
	return d, true
}

// smooth tells whether a curve has a slope at a point; a corner or a jump there
// is a finding.
func (w *work) smooth(s *syntax.Slope, c *curve, dim units.Dim, x float64) bool {
	w.CatchUp()
	if _, ok := w.planner.Program.Value(&w.state, c.fn, x); !ok {
		w.find(finding.New(finding.NoRealValue, s.X.Span(), c.name+" has no value at "+s.Var.Name+" = "+w.shownIn(x, w.placeUnit(s.At))+", and so no slope.", "Take the slope at another place."))
		return false
	}
	scale := w.planner.Program.NaturalScale(&w.state, []int{c.fn}, dim)
	bend, left, right := w.planner.Program.BendAt(&w.state, c.fn, x, scale)
	if bend == run.Smooth {
		return true
	}
	place := s.Var.Name + " = " + w.shownIn(x, w.placeUnit(s.At))
	if bend == run.Jump {
		w.find(finding.New(finding.NoSlope, s.X.Span(), c.name+" jumps at "+place+", so that it has no slope there.", "Take the slope at a place beside it."))
		return false
	}
	d, _ := c.static.Dim.Div(dim)
	u := units.Preferred(d, units.None)
	w.find(finding.New(finding.NoSlope, s.X.Span(), c.name+" has a corner at "+place+": its slope is "+w.shownIn(left, u)+" just before and "+w.shownIn(right, u)+" just after.",
		"Take the slope at a place beside it."))
	return false
}

// placeUnit is the unit that a place is shown in.
func (w *work) placeUnit(x syntax.Expr) *units.Unit {
	st := w.Try(x).Static
	if u := w.rangeUnit(x, st); u != nil {
		return u
	}
	return units.Preferred(st.Dim, st.Tag)
}

// area works out the area under a curve.
func (w *work) area(s *syntax.Area) {
	d, ok := w.readingDef(s.Named.Name, s.Named.NameAt)
	if !ok {
		return
	}
	against := w.areaName(s)
	from, to, x, _, ok := w.interval(s.From, s.To)
	if against == "" || !ok {
		w.fail(d, nil)
		return
	}
	x.Tag = units.None
	c, _, ok := w.planCurve(s.X, against, x)
	if !ok {
		w.fail(d, nil)
		return
	}
	dim, fits := c.static.Dim.Mul(x.Dim)
	if !fits {
		w.fail(d, nil)
		return
	}
	slot := w.planner.EmitAt(ops.Area, c.fn, []run.Slot{from, to}, run.Static{Dim: dim, Width: 1})
	w.reading(d, s.X, s.In, slot)
}

// areaName is the name that an area is taken against: the one that is said, or
// the argument of the only call.
func (w *work) areaName(s *syntax.Area) string {
	if s.Var.Name != "" {
		return s.Var.Name
	}
	if call, ok := s.X.(*syntax.Call); ok && len(call.Args) == 1 {
		if n, ok := call.Args[0].X.(*syntax.Name); ok {
			return n.Name
		}
	}
	w.find(finding.New(finding.Incomplete, s.X.Span(), "It is not said against what the curve is drawn.",
		"Write it between the curve and its range, as in `area under k*x against x from 0 m to 4 m`."))
	return ""
}

// reading reports a slope or an area like any result.
func (w *work) reading(d *plan.Def, x syntax.Expr, in syntax.UnitText, slot run.Slot) {
	c := plan.Compiled{Slot: slot, Static: w.planner.Static(slot)}
	w.planner.Program.Main.At[slot] = x.Span()
	// What a curve is called says nothing of its slope: no unit is remembered.
	unit, ok := w.reportedIn(d.Name, &syntax.Number{At: x.Span()}, in, &c)
	if w.CatchUp(); !ok || !w.HasValue(slot) {
		w.fail(d, nil)
		return
	}
	d.Slot, d.Unit = slot, unit
	v, ok := w.newValue(d.Name, &syntax.Number{At: x.Span()}, c, unit)
	if !ok {
		w.fail(d, nil)
		return
	}
	r := w.e.Give(v)
	r.Shows, r.Records = true, true
	w.torqueOrEnergy(d.Name, v, in, x)
	w.settleDef(d)
}
