package eval

import (
	"math"
	"slices"

	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/units"
)

// NewValue reports a slot in a unit.
//
// A value that stayed a bare 0, such as m*v where v = 0 is all that is known of v, is shown as
// 0: it has no dimension that could be told. What its quantity is called follows its sign and
// its form, as -3 m/s is a velocity and so is (3, 4) m/s.
func (l *Line) NewValue(name string, x syntax.Expr, slot run.Slot, unit *units.Unit) (entry.Value, bool) {
	si := l.State.At(slot)
	st := l.Planner.Static(slot)
	_, bare := x.(*syntax.Number)
	// What came to a bare 0 has no unit of its own, and is shown as the number that it is.
	if st.Open != 0 && st.Shape == run.Scalar && si == 0 && (bare || !syntax.IsWritten(x)) { // m*v is no mass where v is a bare 0
		st, unit = run.Static{}, units.Preferred(units.Dim{}, units.None)
	}
	v := entry.Value{
		Name: name, SI: si, Dim: st.Dim, Tag: st.Tag, Unit: unit,
		Quantity: quantityName(st, unit), Rounding: l.Set.Rounding,
	}
	if f, ok := l.writtenFigures(x, si, unit); ok {
		v.Figures = f
	} else {
		v.Figures = l.FiguresOf(slot, unit)
	}
	v.InUnit = inUnit(x, si, unit, l.Planner)
	least := si
	if st.Shape != run.Scalar {
		v.List = l.elements(x, slot, unit)
		v.InUnit, least = v.List.InUnit[0], slices.Min(v.List.SI)
		if st.IsVector() {
			v.Quantity = vectorName(v.Quantity)
		}
	}
	if l.Planner.Unsure {
		l.unsure(&v, x, slot)
	}
	if least < 0 && v.Quantity == "speed" {
		v.Quantity = "velocity" // a speed has no sign
	}
	if !l.inRange(v, x) {
		return v, false
	}
	for _, f := range l.Entry.Findings {
		if f.ID == finding.UnitMismatch || f.ID == finding.AngleOrCycle {
			v.Named = true
		}
	}
	return v, true
}

// inRange tells whether a value can be shown in its unit, and says where it can't.
//
// A number has 308 decades to both sides; 1e300 m in pm has more.
func (l *Line) inRange(v entry.Value, x syntax.Expr) bool {
	switch {
	case math.IsInf(v.InUnit, 0) || v.InUnit == 0 && v.SI != 0 && !v.Unit.Affine():
		l.Find(finding.New(finding.OutOfRange, x.Span(), "The value is too large in "+v.Unit.Screen()+".",
			"Report it in another unit."))
	case v.List == nil && !ops.Held(v.SI):
		l.Find(finding.New(finding.OutOfRange, x.Span(), "The value is too small: numbers here go from 10^-308 to 10^308.", "Check the powers and exponents."))
	default:
		return true
	}
	return false
}

// elements are those of a list, or of a vector, in a unit.
//
// Figures belong to each element: a list that was written keeps those of each number, a column
// of a table those of each reading, and one that was worked out has those that its own givens
// support.
func (l *Line) elements(x syntax.Expr, slot run.Slot, unit *units.Unit) *entry.List {
	st := l.Planner.Static(slot)
	list := &entry.List{SI: slices.Clone(l.State.Elements(slot)), Vector: st.Shape == run.Vector, Axes: int(st.Axes)}
	inOrder(list.SI, st)
	written := syntax.Unbracket(x)
	if n, ok := x.(*syntax.Name); ok {
		d, ok := l.Planner.Find(n)
		if ok && l.Plain(d) && l.State.At(d.Slot) == list.SI[0] {
			written = syntax.Unbracket(l.DefineOf(d).X)
		} else if ok && d.Unit == unit {
			list.Figures = l.readFigures(d)
		}
	}
	if polar, ok := written.(*syntax.Polar); ok && list.Vector {
		list.Polar = l.polarFigures(polar, unit, entry.Value{List: list})
	}
	of, _ := written.(*syntax.List)
	each := writtenElements(of, list)
	if each == nil && list.Figures == nil {
		list.Figures = l.figuresOfEach(slot, list, unit)
	}
	for i, si := range list.SI {
		var one syntax.Expr
		if each != nil {
			one = each[i]
			f, ok := l.writtenFigures(one, si, unit)
			if !ok {
				f = l.Set.Figures
			}
			list.Figures = append(list.Figures, f)
		}
		list.InUnit = append(list.InUnit, inUnit(one, si, unit, l.Planner))
	}
	return list
}

// writtenElements are the numbers that a list was written with, one for each element; nil where
// it was not.
//
// A list of vectors is written as brackets in a list, and kept as one column for each axis;
// here they are taken out in the order in which they were written.
func writtenElements(x *syntax.List, list *entry.List) []syntax.Expr {
	if x == nil || x.Vector != list.Vector {
		return nil
	}
	var out []syntax.Expr
	for i := range x.Elems {
		one := x.Measured(i)
		if v, ok := syntax.Unbracket(one).(*syntax.List); ok && v.Vector && len(v.Elems) == list.Axes {
			out = append(out, writtenElements(v, &entry.List{SI: list.SI[:list.Axes], Vector: true})...)
		} else if list.Axes == 0 {
			out = append(out, one)
		}
	}
	if len(out) != len(list.SI) {
		return nil
	}
	return out
}

// polarFigures are those with which the magnitude and the direction of a vector were written, as
// far as it is shown by the same numbers.
//
// 12 m/s at 37° is shown by its magnitude and direction, and with their figures, though it is
// kept by components.
func (l *Line) polarFigures(x *syntax.Polar, unit *units.Unit, v entry.Value) (out [2]units.Figures) {
	size := 0.0
	if n, ok := syntax.Unbracket(x.X).(*syntax.Name); ok {
		if d, ok := l.Planner.Find(n); ok {
			size = l.State.At(d.Slot)
		}
	}
	if f, ok := l.writtenFigures(x.X, size, unit); ok {
		out[0] = f
	}
	if turn, ok := v.Direction(); ok && l.writtenSI(x.Angle, turn.SI) {
		if f, ok := l.writtenFigures(x.Angle, turn.SI, turn.Unit); ok {
			out[1] = f
		}
	}
	return out
}

// inOrder puts what goes with the columns of a slot, of a list of vectors, vector after vector.
//
// The program keeps all x, then all y; a reader reads point after point.
func inOrder[T any](all []T, st run.Static) {
	if st.Shape != run.Vectors || len(all) != int(st.Width) {
		return
	}
	n, columns := st.Len(), slices.Clone(all)
	for i := range all {
		all[i] = columns[i%int(st.Axes)*n+i/int(st.Axes)]
	}
}

// readFigures are those of the readings of a table that a name stands for, or nil.
//
// A column of a table was written by its rows, which no expression of its line shows.
func (l *Line) readFigures(d *plan.Def) []units.Figures {
	e := l.EntryAt(d.Line)
	if e == nil {
		return nil
	}
	if _, read := e.Stmt.(*syntax.Data); !read {
		return nil
	}
	if v := l.ValueOf(d); v != nil {
		return v.List.Figures
	}
	return nil
}

// inUnit converts a value to the unit it is shown in. A quantity as it was
// written is converted by one exact factor.
//
// 1 inch in cm is 2.54 so, and not 2.5400000000000005: the exact factor between two units is
// rounded once. What was worked out has only its number in SI units.
func inUnit(x syntax.Expr, si float64, unit *units.Unit, p *plan.Planner) float64 {
	if q, ok := x.(*syntax.Quantity); ok {
		if from, bad := p.Unit(q.Unit, units.AfterNumber); bad == nil && from.Affine() == unit.Affine() && from.Dim() == unit.Dim() &&
			!(from.Turns() && unit.Tag() == units.Cycle) {
			return from.Convert(q.Value, unit)
		}
	}
	return unit.FromSI(si)
}

// ValueIn is a value without a name in a unit, with the figures in force.
func (p *Page) ValueIn(si float64, u *units.Unit) *entry.Value {
	return &entry.Value{SI: si, Dim: u.Dim(), Tag: u.Tag(), Unit: u, InUnit: u.FromSI(si), Figures: p.Set.Figures, Rounding: p.Set.Rounding}
}

// UnsureIn is ValueIn with a standard uncertainty, if there is one.
//
// What is left of an uncertainty by rounding alone, a 10⁻¹⁴th of the value, is none.
func (p *Page) UnsureIn(si, u float64, unit *units.Unit) *entry.Value {
	v := p.ValueIn(si, unit)
	if u > leastOff*math.Abs(si) && u-u == 0 {
		v.U, v.UFigures = u, UsualOff
	}
	return v
}

// SlotIn is what a slot, which x or more was planned as, came to in a unit: to the figures
// that its givens support where results are shown so. It is false where it is too large
// in the unit, which is found.
//
// It is for values beside the line's own: rows of a table, terms of a chart, bounds.
func (l *Line) SlotIn(x syntax.Expr, slot run.Slot, u *units.Unit) (entry.Value, bool) {
	v := *l.ValueIn(l.State.At(slot), u)
	v.Figures = l.FiguresOf(slot, u)
	if l.Planner.Unsure {
		l.unsure(&v, x, slot)
	}
	return v, l.inRange(v, x)
}

// ShownIn is a value in a unit, with the figures in force.
func (p *Page) ShownIn(v float64, u *units.Unit) string {
	return units.FormatQuantity(u.FromSI(v), u, p.Set.Figures, p.Set.Rounding, units.Screen)
}

// Told is a value in a unit as a sentence has it, to some figures.
func (p *Page) Told(figures units.Figures, si float64, u *units.Unit) entry.Said {
	v := p.ValueIn(si, u)
	v.Figures = figures
	return v.Said()
}

// quantityName says what kind of quantity a value is, as it is shown: in J an
// energy, in N m a torque.
//
// The unit counts with the dimension, as the joule and the newton metre have one dimension and
// name two quantities.
func quantityName(st run.Static, u *units.Unit) string {
	switch {
	case u.Affine():
		return "temperature"
	case u.Difference():
		return "temperature difference"
	}
	if st.Heat == run.Difference {
		return "temperature difference"
	}
	k, _ := units.KindIn(st.Dim, st.Tag.In(u), u)
	if st.Dim.IsOne() && k.Tag == units.None {
		return "" // a pure number
	}
	return k.Name
}

// vectorName is what a quantity is called that has a direction.
//
// Vectors of N m are torques: an energy has no direction.
func vectorName(quantity string) string {
	switch quantity {
	case "speed":
		return "velocity"
	case "length":
		return "displacement"
	case "energy":
		return "torque"
	}
	return quantity
}

// AsQuantity is the value of a definition as a written quantity, as its line
// shows it; false if it has none.
//
// Working is written with the values as the reader sees them, six figures of 4.71239 m and not
// all fifteen: he can follow it with a calculator. The workings of a page hold the same few
// givens again and again, each as a node of its own.
func (p *Page) AsQuantity(d *plan.Def) (syntax.Expr, bool) {
	if d.Unit == nil {
		return nil, false
	}
	if s := p.DefineOf(d); s != nil {
		if mixed, ok := s.X.(*syntax.Mixed); ok { // 3 lb 8 oz, as it was written
			return mixed, true
		}
	}
	text := p.Shown(d, units.File)
	if q, ok := p.shown[text]; ok {
		own := *q
		return &own, true
	}
	x, fs := syntax.ParseExpr(text)
	if q, ok := x.(*syntax.Quantity); ok && len(fs) == 0 {
		if p.shown == nil {
			p.shown = map[string]*syntax.Quantity{}
		}
		p.shown[text] = q
	}
	return x, len(fs) == 0
}

// ValueOf is the value that the line of a definition shows for it, or nil.
//
// The component of a vector has no line of its own: it is taken out of the vector's value, with
// its figures and uncertainty.
func (p *Page) ValueOf(d *plan.Def) *entry.Value {
	if d.Vector != nil {
		v := p.ValueOf(d.Vector)
		if v == nil {
			return nil
		}
		one := *v
		if len(v.Vectors()) > 0 {
			one = v.Component(d.Axis())
		}
		one.Name = d.Name
		return &one
	}
	e := p.EntryAt(d.Line)
	if e == nil || d.Line == 0 {
		return nil
	}
	values := e.Values()
	for i := range values {
		if values[i].Name == d.Name {
			return &values[i]
		}
	}
	return nil
}

// UnitOf is the unit that the value of a definition is shown in.
//
// A definition without a unit of its own, a constant or a component, has the preferred one.
func (p *Page) UnitOf(d *plan.Def) *units.Unit {
	if d.Unit != nil {
		return d.Unit
	}
	st := p.Planner.Static(d.Slot)
	return units.Preferred(st.Dim, st.Tag)
}

// Shown is the value of a definition as its line shows it, or else in its unit;
// empty if it has none.
func (p *Page) Shown(d *plan.Def, form units.Form) string {
	if v := p.ValueOf(d); v != nil {
		return v.Shown(form)
	}
	v, ok := p.State.Value(d.Slot)
	if !ok {
		return ""
	}
	u := p.UnitOf(d)
	return units.FormatQuantity(u.FromSI(v), u, units.Figures{}, p.Set.Rounding, form)
}
