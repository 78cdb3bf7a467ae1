package session

import (
	"math"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/units"
)

// define works out NAME = EXPR [in UNIT].
func (w *work) define(s *syntax.Define) {
	d := &plan.Def{Name: s.Name, Kind: plan.Quantity, Slot: run.NoSlot}
	if !w.mayDefine(s.Name, s.NameAt, plan.Quantity) {
		d.Root = d
		w.planner.SetThat(d)
		return
	}
	if !usesName(s.X, s.Name) {
		w.givenAgain(s.Name, s.NameAt)
	}
	if w.differenceInDegrees(s) {
		w.fail(d, nil)
		return
	}
	d.Given = !s.In.Present() && isWritten(s.X)
	plain := d.Given && isPlain(s.X)
	w.result(d, s.X, s.In, plain)
	w.mistakenUnit(s)
	if d.Given && !d.Failed() {
		d.Exponent = exponentOf(s.X)
	}
}

// value works out EXPR [in UNIT], a result without a name.
func (w *work) value(s *syntax.Value) {
	w.result(&plan.Def{Kind: plan.Quantity, Slot: run.NoSlot}, s.X, s.In, false)
}

// fail records that a definition has no value; root is what it would need, or
// nil if the fault lies in this line.
func (w *work) fail(d *plan.Def, root *plan.Def) {
	if root == nil {
		root = d
	}
	d.Slot, d.Root = run.NoSlot, root
	w.settleDef(d)
}

// settleDef makes a definition known to the lines below.
func (w *work) settleDef(d *plan.Def) {
	if d.Name == "" {
		d.Line = w.e.Line
	} else {
		w.planner.Define(d)
	}
	w.planner.SetThat(d)
}

// result plans and runs an expression, and reports it.
func (w *work) result(d *plan.Def, x syntax.Expr, in syntax.UnitText, plain bool) {
	got := w.Eval(x, Want{Self: d.Name, Shown: true, Name: d.Name, In: in})
	if !got.OK {
		w.fail(d, got.Root)
		return
	}
	d.Slot, d.Unit = got.Slot, got.Unit
	if got.Static.Absent {
		w.noValueYet(d.Name, x, got.Compiled)
		w.settleDef(d)
		return
	}
	v, ok := w.newValue(d.Name, x, got.Compiled, got.Unit)
	if !ok {
		w.fail(d, nil)
		return
	}
	if plain {
		v.Figures = writtenFigures(x)
	}
	r := w.e.Give(v)
	r.Shows, r.Records = !plain, !plain
	w.torqueOrEnergy(d.Name, v, in, x)
	w.rateWithout2Pi(d.Name, x, in, &v)
	w.unnamed(x, &r.Values[0])
	w.settleDef(d)
}

// newValue reports a slot in a unit.
func (w *work) newValue(name string, x syntax.Expr, c plan.Compiled, unit *units.Unit) (entry.Value, bool) {
	si := w.state.Vals[c.Slot]
	st := w.planner.Static(c.Slot)
	v := entry.Value{
		Name: name, SI: si, Dim: st.Dim, Tag: st.Tag, Unit: unit,
		Quantity: quantityName(st, unit), Figures: w.set.figures, Rounding: w.set.rounding,
	}
	if si < 0 && v.Quantity == "speed" {
		v.Quantity = "velocity" // a speed has no sign
	}
	v.InUnit = inUnit(x, si, unit, w.planner)
	if math.IsInf(v.InUnit, 0) || v.InUnit == 0 && si != 0 && !unit.Affine() {
		w.find(finding.New(finding.OutOfRange, x.Span(), "The value is beyond what a number can hold in "+unit.Screen()+".",
			"Report it in another unit."))
		return v, false
	}
	for _, f := range w.e.Findings {
		if f.ID == finding.UnitMismatch || f.ID == finding.AngleOrCycle {
			v.Named = true
		}
	}
	return v, true
}

// inUnit converts a value to the unit it is shown in. A quantity as it was
// written is converted by one exact factor.
func inUnit(x syntax.Expr, si float64, unit *units.Unit, p *plan.Planner) float64 {
	if q, ok := x.(*syntax.Quantity); ok {
		if from, bad := p.Unit(q.Unit, units.AfterNumber); bad == nil && from.Affine() == unit.Affine() && from.Dim() == unit.Dim() {
			return from.Convert(q.Value, unit)
		}
	}
	return unit.FromSI(si)
}

// writtenFigures are the figures with which a plain given was written.
func writtenFigures(x syntax.Expr) units.Figures {
	switch x := x.(type) {
	case *syntax.Number:
		return units.Figures{N: max(1, x.Value.Figures), Keep: true}
	case *syntax.Quantity:
		return units.Figures{N: max(1, x.Value.Figures), Keep: true}
	case *syntax.Unary:
		return writtenFigures(x.X)
	}
	return units.Figures{}
}

// isWritten tells whether an expression holds no name and no call.
func isWritten(x syntax.Expr) bool {
	written := true
	syntax.Walk(x, func(x syntax.Expr) bool {
		switch x.(type) {
		case *syntax.Name, *syntax.Call, *syntax.That:
			written = false
		}
		return written
	})
	return written
}

// isPlain tells whether a written expression is one quantity, without an
// operator.
func isPlain(x syntax.Expr) bool {
	switch x := x.(type) {
	case *syntax.Number, *syntax.Quantity, *syntax.Mixed, *syntax.Pi:
		return true
	case *syntax.Unary:
		return isPlain(x.X)
	case *syntax.Paren:
		return isPlain(x.X)
	}
	return false
}

// exponentOf returns the value of a given that may be an exponent.
func exponentOf(x syntax.Expr) *units.Exp {
	if e, ok := syntax.Rational(x); ok {
		return &e
	}
	return nil
}

// mayDefine tells whether a name may be defined as a kind of thing here.
func (w *work) mayDefine(name string, at syntax.Span, kind plan.DefKind) bool {
	d, ok := w.planner.Names.Lookup(name)
	if !ok {
		return true
	}
	wasFunction := d.Kind == plan.Function || d.Kind == plan.Formula
	isFunction := kind == plan.Function || kind == plan.Formula
	if wasFunction == isFunction || d.Failed() {
		return true
	}
	is := "a quantity"
	if wasFunction {
		is = "a function"
	}
	w.find(finding.New(finding.NameKind, at, name+" is "+is+" already (line "+itoa(d.Line)+"); a name is one or the other.",
		"Choose another name, such as "+name+"1."))
	return false
}

// givenAgain cautions where a name is given a second time within a part.
func (w *work) givenAgain(name string, at syntax.Span) {
	d, ok := w.planner.Names.Lookup(name)
	if !ok || d.Part != w.planner.Part() || d.Line == 0 || d.Failed() || d.Kind == plan.Symbol {
		return
	}
	if d.Kind == plan.Quantity && w.planner.Static(d.Slot).Absent {
		return // it had no value so far
	}
	if e := w.entryAt(d.Line); e != nil {
		for _, f := range e.Findings {
			if f.Severity == finding.Mismatch {
				return // a slip that is being mended
			}
		}
	}
	was := " was given in line "
	if d.Kind == plan.Quantity && !d.Given {
		was = " was worked out in line "
	}
	w.find(finding.New(finding.GivenAgain, at, name+was+itoa(d.Line)+" already; from here on it means this line.",
		"If that is not meant, choose another name; "+name+"@"+itoa(d.Line)+" is the earlier one."))
}

// usesName tells whether an expression holds a name.
func usesName(x syntax.Expr, name string) bool {
	found := false
	syntax.Walk(x, func(x syntax.Expr) bool {
		n, ok := x.(*syntax.Name)
		found = found || ok && n.Name == name && n.Line == 0
		return !found
	})
	return found
}

// differenceInDegrees refuses a difference of temperatures given in °C.
func (w *work) differenceInDegrees(s *syntax.Define) bool {
	q, ok := s.X.(*syntax.Quantity)
	if !ok || !strings.HasPrefix(s.Name, "Δ") {
		return false
	}
	u, bad := w.planner.Unit(q.Unit, units.AfterNumber)
	if bad != nil || !u.Affine() {
		return false
	}
	readings := []string{q.Value.Text + " K", q.Value.Text + " Δ" + u.Screen()}
	if u.Text() != "°C" && u.Text() != "degC" {
		readings = readings[1:]
	}
	w.find(finding.New(finding.TemperatureGiven, s.X.Span(),
		"`"+q.Value.Text+" "+u.Screen()+"` is a temperature; "+s.Name+" is a difference of temperatures.",
		"Write `"+s.Name+" = "+strings.Join(readings, "` or `"+s.Name+" = ")+"`.", readings...))
	return true
}

// noValueYet says that the units are checked, though a symbol has no value.
func (w *work) noValueYet(subject string, x syntax.Expr, c plan.Compiled) {
	var absent []string
	for _, u := range c.Uses {
		if u.Slot != run.NoSlot && u.Kind != plan.Function && w.planner.Static(u.Slot).Absent {
			absent = append(absent, u.Name)
		}
	}
	if subject == "" {
		subject = "The value"
	}
	verb := " has none."
	if len(absent) > 1 {
		verb = " have none."
	}
	since := w.leaves(absent) + verb
	if len(absent) == 0 {
		since = "a symbol that it depends on has none."
	}
	message := subject + " comes out as " + plan.Words(w.planner.Static(c.Slot)) + "; no value yet, since " + since
	if len(w.e.Findings) > 0 {
		message = "There is no value yet, since " + since
	}
	w.find(finding.New(finding.NoValueYet, x.Span(), message, w.enterAgain(absent)))
}

// leaves names the symbols that have no value; a result without one stands for
// those that it was worked out from, and for the line to enter again if they have
// a value by now.
func (w *work) leaves(names []string) string {
	var out []string
	for _, n := range names {
		d, ok := w.planner.Find(&syntax.Name{Name: n})
		if !ok || d.Kind == plan.Symbol {
			out = append(out, n)
			continue
		}
		out = append(out, n+" of line "+itoa(d.Line))
	}
	return strings.Join(out, ", ")
}

// enterAgain offers the lines of results without a value, for when their symbols
// have one.
func (w *work) enterAgain(names []string) string {
	for _, n := range names {
		d, ok := w.planner.Find(&syntax.Name{Name: n})
		if !ok || d.Kind == plan.Symbol {
			continue
		}
		if e := w.entryAt(d.Line); e != nil && !strings.Contains(e.Text, "\n") {
			return "Where its symbols have values by now, enter that line again: `" + e.Text + "`."
		}
	}
	return ""
}
