package solve

import (
	"cmp"
	"slices"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/eval"
	"steelyard/units"
)

// solutionUnit is the unit that the solution for an unknown is shown in.
//
// In this order: the unit that the line asks for; of an angle, the one that its formula or a
// condition is written in; degrees, if the equations have them, or the last angle that is given above; the one of all quantities of its kind in the
// equations; else the preferred one of the dimension.
func (v *solving) solutionUnit(i int, st run.Static) *units.Unit {
	u := v.s.Unknowns[i]
	if unit := v.Unit(u.In); unit != nil && unit.Dim() == st.Dim {
		return unit
	}
	if unit := v.declaredAngle(u, st); unit != nil {
		return unit
	}
	if unit := v.boundAngle(u, st); unit != nil {
		return unit
	}
	if st.Dim.IsOne() && st.Tag == units.Angle {
		for _, e := range v.equations {
			if unit := cmp.Or(v.DegreesIn(e.Left), v.DegreesIn(e.Right)); unit != nil {
				return unit
			}
		}
		if d := v.lastAngle(); d != nil && d.Unit.Screen() == "°" {
			return d.Unit
		}
	}
	return cmp.Or(v.scale(u, st), v.sharedUnit(st), units.Preferred(st.Dim, st.Tag))
}

// sharedUnit is the unit that all quantities of a kind are in which the equations have: an image
// is as many cm away as the object and the focus are; nil where there is none, or several.
func (v *solving) sharedUnit(st run.Static) (shared *units.Unit) {
	if st.Dim.IsOne() {
		return nil
	}
	for _, e := range v.equations {
		for _, side := range []syntax.Expr{e.Left, e.Right} {
			for x := range syntax.Nodes(side) {
				u := v.PartUnit(x)
				if u == nil || u.Dim() != st.Dim || u.Tag() != st.Tag || u.Affine() || u.Turns() {
					continue
				}
				if shared != nil && shared != u && shared.Text() != u.Text() {
					return nil
				}
				shared = u
			}
		}
	}
	return shared
}

// lastAngle is the last angle that is given above.
func (v *solving) lastAngle() *plan.Def {
	for _, d := range slices.Backward(v.Planner.Names.All()) {
		if d.Given && !d.Failed() && d.Unit != nil && d.Kind == plan.Quantity && d.Unit.Dim().IsOne() && d.Unit.Tag() == units.Angle {
			return d
		}
	}
	return nil
}

// scale is the scale of temperature that an unknown is shown in: that of the temperature which
// is taken from it, or from which it is taken where its letter is that of one. So the T of
// m*c*(T - T1) = Q is in °C where T1 is.
func (v *solving) scale(u syntax.Unknown, st run.Static) (unit *units.Unit) {
	if st.Dim != units.BaseDim(units.Kelvin) {
		return nil
	}
	is := func(x syntax.Expr) bool {
		n, ok := syntax.Unbracket(x).(*syntax.Name)
		return ok && n.Name == u.Name
	}
	taken := func(x syntax.Expr) bool {
		b, ok := x.(*syntax.Binary)
		if !ok || b.Op != syntax.Sub {
			return false
		}
		switch {
		case is(b.X):
			unit = v.scaleOf(b.Y)
		case is(b.Y) && strings.HasPrefix(u.Name, "T"):
			unit = v.scaleOf(b.X)
		}
		return unit != nil
	}
	for _, e := range v.equations {
		if syntax.Any(e.Left, taken) || syntax.Any(e.Right, taken) {
			break
		}
	}
	return unit
}

// scaleOf is the scale that a temperature was given in, or nil.
func (v *solving) scaleOf(x syntax.Expr) *units.Unit {
	unit := v.WrittenUnit(x)
	if n, ok := syntax.Unbracket(x).(*syntax.Name); ok {
		if d, found := v.Planner.Find(n); found {
			unit = d.Unit
		}
	}
	if unit == nil || !unit.Affine() {
		return nil
	}
	return unit
}

// declaredAngle is the unit of an unknown that a formula declares an angle.
//
// A formula whose symbol is in ° is asked for an angle, and its answer is read off as one.
func (v *solving) declaredAngle(u syntax.Unknown, st run.Static) *units.Unit {
	if !v.single() || v.s.Equations[0].Right != nil || !st.Dim.IsOne() {
		return nil
	}
	n, ok := v.s.Equations[0].Left.(*syntax.Name)
	if !ok {
		return nil
	}
	f, _ := v.Formula(n.Name)
	for _, sym := range f.Symbols {
		if sym.Name != u.Name && sym.Name != v.unknowns[0] {
			continue
		}
		if unit := v.Unit(sym.Unit); unit != nil && unit.Tag() == units.Angle {
			return unit
		}
	}
	return nil
}

// boundAngle is the unit of an unknown whose conditions give it bounds in a unit of
// angle: where θ < 90°.
func (v *solving) boundAngle(u syntax.Unknown, st run.Static) *units.Unit {
	if !st.Dim.IsOne() {
		return nil
	}
	for _, c := range v.s.Where {
		bound := c.Right
		if syntax.Holds(bound, u.Name) {
			bound = c.Left
		} else if !syntax.Holds(c.Left, u.Name) {
			continue
		}
		if unit := v.UnitWithin(bound, st); unit != nil && unit.Tag() == units.Angle {
			return unit
		}
	}
	return nil
}

// take makes the value that a solution has for its unknown k that of name i. One
// that was chosen among several is chosen again whenever the plan runs with
// other numbers.
//
// The number that was found and the one that the rule picks again must be equal to the last
// bit. If they are not, the slot of the root itself is taken, which can't jump to another root.
func (v *solving) take(i int, one solution, k int) {
	slot := one.slots[k]
	st := v.Planner.Static(slot)
	if v.again {
		rule := *v.rule
		rule.Unknown = k
		again := v.Planner.EmitSolve(&rule, v.args, st)
		v.CatchUp()
		if x, ok := v.State.Value(again); ok && x == one.values[k] {
			slot = again
		}
	}
	u := v.s.Unknowns[i]
	unit := v.solutionUnit(i, st)
	v.Planner.Program.Main.Statics[slot].Tag = st.Tag.In(unit)
	if unit.Affine() {
		v.Planner.Program.Main.Statics[slot].Heat = run.Point
	}
	if st.Dim == units.BaseDim(units.Kelvin) && !unit.Affine() && v.perDegree() {
		v.Planner.Program.Main.Statics[slot].Heat = run.Difference
		v.sayDifference(&u)
	}
	unit = v.Named(u.Name, slot, unit, u.In.Present())
	value, ok := v.NewValue(u.Name, &syntax.Name{Name: u.Name}, slot, unit)
	if !ok {
		return
	}
	v.SayFigures(u.NameAt, slot, unit)
	v.defs[i].Slot, v.defs[i].Unit = slot, unit
	r := v.Entry.Give(value)
	r.Shows, r.Records = true, true
	v.workedFrom(one, k)
}

// sayDifference cautions that the unknown is a difference of temperatures, if its name doesn't say so.
func (v *solving) sayDifference(u *syntax.Unknown) {
	if units.IsChange(u.Name) {
		return
	}
	f := finding.New(finding.TemperatureReading, u.NameAt, u.Name+" is a difference of temperatures: it is a factor of a rate per °C.",
		"For a temperature, write `("+u.Name+" - 0 °C)` in the equation.")
	f.Severity = finding.Caution
	v.Find(f)
}

// perDegree tells whether a rate of the equations is written per °C, as 0.61 m/s/°C is.
func (v *solving) perDegree() bool {
	for _, e := range v.equations {
		for q := range syntax.Each[*syntax.Quantity](e.Left, e.Right) {
			if u := v.PartUnit(q); u != nil && !u.Affine() && strings.Contains(u.Screen(), "°C") {
				return true
			}
		}
	}
	return false
}

// aside says something beside the working, as a note of the line.
func (v *solving) aside(id finding.ID, said entry.Said, hint string) {
	v.Find(finding.New(id, v.s.Unknowns[0].NameAt, said.String(), hint))
	v.asides = append(v.asides, said)
	if by, ok := v.Entry.By.(*eval.Solved); ok {
		by.Told = v.asides
	}
}

// workedFrom notes what the next value of the statement was worked out from.
//
// The way that is shown is that of the root which was taken, without the others and without the
// turns.
func (v *solving) workedFrom(one solution, k int) {
	by, ok := v.Entry.By.(*eval.Solved)
	if !ok {
		by = &eval.Solved{Worker: v.Entry.By, Unknown: v.unknowns[0], How: v.how}
		v.Entry.By = by
	}
	by.Told = v.asides
	from := one.root
	from.Also, from.Turns = nil, nil
	by.Roots = append(by.Roots, eval.Isolated{X: one.root.X[k], From: from})
}
