package eval

import (
	"slices"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// Unit reads the text of a unit, as it is written after in; nil if there is none or
// it can't be read.
func (p *Page) Unit(text syntax.UnitText) *units.Unit {
	if !text.Present() {
		return nil
	}
	u, _ := p.Planner.Unit(text, units.AloneInPlace)
	return u
}

// ReadUnit is Unit for one that the line asks for: that it can't be read is found.
//
// A unit that was written loosely, kgm/s2 for kg m/s^2, is read and noted in the form that it
// has here.
func (l *Line) ReadUnit(text syntax.UnitText) (*units.Unit, bool) {
	u, bad := l.Planner.Unit(text, units.AloneInPlace)
	if bad != nil {
		l.Find(l.Planner.UnitFinding(text, bad))
		return nil, false
	}
	if u.Loose() {
		l.Find(finding.ReadsAs(text.At, text.Text, u.Text()))
	}
	return u, true
}

// Counted is an expression that is reported in Hz: a value that is itself given in
// rev/min or rpm counts turns, and is divided by one.
//
// In ω = 2*π*f the number f is in Hz, turns in a second, and 300 rev/min shown in Hz is 5 Hz.
// An angle per time is no frequency by dimension alone, so the turn is divided out in the open,
// where the working shows it.
func (p *Page) Counted(x syntax.Expr, in syntax.UnitText) syntax.Expr {
	if u := p.Unit(in); u == nil || u.Tag() != units.Cycle {
		return x
	}
	var given *units.Unit
	bare := syntax.Unbracket(x)
	if n, ok := bare.(*syntax.Name); ok {
		if d, ok := p.Planner.Names.Lookup(n.Name); ok && !d.Failed() && n.Line == 0 {
			given = d.Unit
		}
	} else {
		given = p.WrittenUnit(bare)
	}
	if given == nil || !given.Turns() {
		return x
	}
	at := x.Span()
	turn, _ := units.ParseDecimal("1")
	return &syntax.Binary{At: at, OpFrom: at.From, Op: syntax.Div, X: x,
		Y: &syntax.Quantity{At: at, Value: turn, Unit: syntax.UnitText{Text: "rev", At: at}}}
}

// Fits tells whether a quantity of which is known what the static says can be
// shown in the unit that is asked; if not, that is found.
//
// Two things are told apart: a wrong dimension, and an angle per time that is asked in cycles.
// The second has the right dimension and is off by 2π.
func (l *Line) Fits(name string, in syntax.UnitText, st run.Static, u *units.Unit) bool {
	switch {
	case st.Open != 0:
		return true
	case st.Dim != u.Dim():
		t := plan.MismatchText(name, st, u)
		l.Find(finding.New(finding.UnitMismatch, in.At, t.Message, t.Hint))
		return false
	case st.Tag.Clashes(u.Tag()):
		t := plan.CycleText(name, st, u)
		l.Find(finding.New(finding.AngleOrCycle, in.At, t.Message, t.Hint))
		return false
	}
	return true
}

// reportedIn returns the unit that a value is shown in: the one asked for, if
// its dimension is right; else the value's own, with a mismatch. It returns
// false if the text of the unit can't be read.
//
// A wrong unit loses no value: it is shown in its own unit with the mismatch, so that whoever
// looks for the slip has a number to look at.
func (l *Line) reportedIn(name string, x syntax.Expr, in syntax.UnitText, c *plan.Compiled) (*units.Unit, bool) {
	if w, again := x.(*syntax.With); again {
		x = w.X
	}
	if !in.Present() {
		own := l.ownUnitOf(x, c.Slot)
		if units.NamedTag(name, units.PerAngle) == units.PerAngle && l.IsMoment(x, l.Planner.Static(c.Slot).Dim) {
			name = "τ"
		}
		return l.Named(name, c.Slot, own, syntax.IsPlain(x)), !l.OpenTurns(name, l.Planner.Static(c.Slot), own, x, c.Uses)
	}
	u, ok := l.ReadUnit(in)
	if !ok {
		return nil, false
	}
	st := l.Planner.SettleTo(c.Slot, u.Dim())
	c.Static = st
	switch {
	case st.Dim != u.Dim():
		l.mismatch(name, x, in, st, u)
		return units.Preferred(st.Dim, st.Tag), true
	case !l.Fits(name, in, st, u):
		l.inCycles(x, in, st)
		return units.Preferred(st.Dim, st.Tag), true
	case l.OpenTurns("", st, u, x, c.Uses):
		return nil, false
	}
	l.Planner.Program.Main.Statics[c.Slot].Tag = st.Tag.In(u)
	l.Named(name, c.Slot, u, true)
	return l.inHeat(name, x, in, l.Planner.Static(c.Slot), u, c.Slot), true
}

// inCycles offers the line for an angle per time that is asked for in cycles: turns are counted,
// and what has none in it is divided by 2π.
func (l *Line) inCycles(x syntax.Expr, in syntax.UnitText, st run.Static) {
	f := &l.Entry.Findings[len(l.Entry.Findings)-1]
	if f.ID != finding.AngleOrCycle || st.Tag != units.Angle || syntax.IsPlain(x) {
		return
	}
	w := radianSigns{p: l.Page, number: 1}
	behind := "/(2π)"
	if w.take(l.Opened(x, l.Entry.Line), 1); w.rev > 0 {
		behind, f.Hint = "/(1 rev)", "A turn is one cycle: divide by `(1 rev)`. Or report it in rad/s."
	}
	f.At, f.Readings = x.Span().Join(in.At), []string{by(x, behind) + " in " + in.Text}
}

// inHeat chooses how a value in K is shown in a scale of temperature: as a
// temperature, or as a difference.
//
// 20 °C and a difference of 20 °C are 293.15 K and 20 K. What the line says decides: a
// difference by its way to the value, the Δ of a name, a law of gases. Where nothing does, the
// value is shown as a temperature, and the line says that it was.
func (l *Line) inHeat(name string, x syntax.Expr, in syntax.UnitText, st run.Static, u *units.Unit, s run.Slot) *units.Unit {
	switch {
	case u.Affine() && st.Heat == run.Difference:
		return units.Of("Δ" + u.Text())
	case u.Affine() && st.Heat == run.Plain:
		// One word on temperatures and differences is enough for a line.
		said := func(f finding.Finding) bool { return f.ID == finding.TemperatureReading }
		if !slices.ContainsFunc(l.Entry.Findings, said) && (units.IsChange(name) || !l.ofGas(x)) {
			l.Find(finding.New(finding.TemperatureReading, in.At,
				"This value in K is shown as a temperature, but may be a difference.",
				"For a difference, write Δ"+u.Screen()+".", "Δ"+u.Screen()))
		}
		l.Planner.Program.Main.Statics[s].Heat = run.Point
	case u.Difference() && st.Heat == run.Point:
		l.Find(finding.New(finding.TemperatureReading, in.At,
			"This value is a temperature, shown as a difference from 0 K.",
			"For the temperature, write "+strings.TrimPrefix(u.Screen(), "Δ")+".", strings.TrimPrefix(u.Screen(), "Δ")))
	}
	return u
}

// ofGas tells whether a value in K comes from a law of gases, which speaks of temperatures
// and not of differences.
//
// p*V = n*R*T has absolute temperatures by its nature, and a note there would only worry.
func (l *Line) ofGas(x syntax.Expr) bool {
	n, ok := x.(*syntax.Name)
	if !ok {
		return l.Planner.OfGas(x)
	}
	d, ok := l.Planner.Find(n)
	if !ok || l.EntryAt(d.Line) == nil || units.IsChange(n.Name) {
		return false
	}
	switch s := l.EntryAt(d.Line).Stmt.(type) {
	case *syntax.Define:
		return l.Planner.OfGas(s.X)
	case *syntax.Solve:
		return slices.ContainsFunc(s.Equations, func(e syntax.Equation) bool { return e.Right != nil && l.Planner.OfGas(e.Right) })
	}
	return false
}

// ownUnitOf returns the unit that a value is shown in of its own accord: that
// of the line which a lone name or call comes from, else the one that suits its
// dimension.
//
// In this order: the unit of the line that a lone name or a call stands for; the written one of
// a plain quantity; °C of a temperature; what the units of its parts multiply to; and the
// preferred unit of its dimension.
func (l *Line) ownUnitOf(x syntax.Expr, s run.Slot) *units.Unit {
	st := l.Planner.Static(s)
	if u := l.RememberedUnit(x); u != nil && u.Dim() == st.Dim {
		if !u.Affine() || st.Heat == run.Point {
			return u
		}
	}
	if syntax.IsPlain(x) {
		if u := l.WrittenUnit(x); u != nil {
			return u
		}
	}
	if st.Heat == run.Point {
		u, _ := l.Planner.Units.Parse("°C", units.AloneInPlace)
		return u
	}
	if u := l.Follow(x, st); u != nil {
		return u
	}
	return units.Preferred(st.Dim, st.Tag)
}

// WrittenUnit is the unit of a plain written quantity; of a mixed one, its
// smallest.
//
// 13 h 4 min is shown in minutes, the unit that no digit of it is lost in.
func (p *Page) WrittenUnit(x syntax.Expr) *units.Unit {
	var text syntax.UnitText
	switch x := x.(type) {
	case *syntax.Quantity:
		text = x.Unit
	case *syntax.Mixed:
		text = x.Parts[len(x.Parts)-1].Unit
	case *syntax.Unary:
		return p.WrittenUnit(x.X)
	case *syntax.List:
		return p.WrittenUnit(x.Measured(0))
	case *syntax.Paren:
		return p.WrittenUnit(x.X)
	case *syntax.Polar:
		return p.WrittenUnit(x.X)
	default:
		return nil
	}
	u, _ := p.Planner.Unit(text, units.AfterNumber)
	return u
}

// RememberedUnit is the unit of the line that a lone name stands for, or the
// one that a function of the worksheet or a formula is reported in.
//
// A name is shown as its line shows it, v in km/h where v was given so.
func (p *Page) RememberedUnit(x syntax.Expr) *units.Unit {
	switch x := x.(type) {
	case *syntax.Paren:
		return p.RememberedUnit(x.X)
	case *syntax.Unary:
		return p.RememberedUnit(x.X)
	case *syntax.With:
		return p.RememberedUnit(x.X)
	case *syntax.Name:
		if d, ok := p.Planner.Find(x); ok {
			return d.Unit
		}
	case *syntax.Call:
		return p.callUnit(x)
	}
	return nil
}

// callUnit is the unit that a called function or formula declares.
//
// A function that is reported in J gives J wherever it is called.
func (p *Page) callUnit(x *syntax.Call) *units.Unit {
	var text syntax.UnitText
	if d, ok := p.Planner.Names.Lookup(x.Func); ok && d.Kind == plan.Function {
		text = d.Func.In
	} else if f, ok := ops.Named(x.Func); ok {
		text.Text = f.Unit
	} else if f, ok := p.Formula(x.Func); ok {
		gives, _ := f.Gives()
		text = gives.Unit
	}
	return p.Unit(text)
}

// IsMoment tells whether an expression is a force at the end of an arm, by the letter of
// the arm: r*F, F*R*sin(θ). F*d may be a work as well.
//
// F*d could be a work or a torque. The letter of an arm, r or R, says torque in every book, and
// d says nothing.
func (l *Line) IsMoment(x syntax.Expr, dim units.Dim) bool {
	if !dim.IsEnergy() {
		return false
	}
	arm, force := false, false
	for _, f := range syntax.Factors(x) {
		n, ok := f.X.(*syntax.Name)
		if !ok || f.Minus {
			continue
		}
		if d, ok := l.Planner.Find(n); ok && !d.Failed() && d.Kind == plan.Quantity {
			dim := l.Planner.Static(d.Slot).Dim
			force = force || units.Customary("F", dim)
			arm = arm || units.Customary("d", dim) && (units.Symbol(n.Name) == "r" || units.Symbol(n.Name) == "R")
		}
	}
	return arm && force
}

// Named settles by its name whether a value of an energy's dimension is an energy, a
// torque or a torque per angle, and returns the unit that it is shown in: u, if that
// is chosen, else the one for what it is (SI Brochure 9, 2.3.4: the joule is never
// used for a torque). A ΔT is a difference of temperatures.
func (l *Line) Named(name string, slot run.Slot, u *units.Unit, chosen bool) *units.Unit {
	st := &l.Planner.Program.Main.Statics[slot]
	if st.Heat == run.Plain && units.IsChange(name) && st.Dim == units.BaseDim(units.Kelvin) {
		st.Heat = run.Difference
	}
	if !st.Dim.IsEnergy() || st.Open != 0 {
		return u
	}
	chosen = chosen || !u.SameAs(units.Preferred(st.Dim, st.Tag))
	if chosen {
		st.Tag = u.Tag()
	}
	if st.Tag = units.NamedTag(name, st.Tag); chosen {
		return u
	}
	return units.Preferred(st.Dim, st.Tag)
}
