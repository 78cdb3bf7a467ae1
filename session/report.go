package session

import (
	"strconv"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/units"
)

func itoa(n int) string { return strconv.Itoa(n) }

// reportedIn returns the unit that a value is shown in: the one asked for, if
// its dimension is right; else the value's own, with a mismatch. It returns
// false if the text of the unit can't be read.
func (w *work) reportedIn(name string, x syntax.Expr, in syntax.UnitText, c *plan.Compiled) (*units.Unit, bool) {
	if !in.Present() {
		return w.asTorque(name, x, w.ownUnitOf(x, c.Slot)), true
	}
	u, bad := w.planner.Unit(in, units.AloneInPlace)
	if bad != nil {
		w.find(w.planner.UnitFinding(in, bad))
		return nil, false
	}
	st := w.planner.SettleTo(c.Slot, u.Dim())
	c.Static = st
	switch {
	case st.Dim != u.Dim():
		w.mismatch(name, x, in, st, u)
		return units.Preferred(st.Dim, st.Tag), true
	case st.Tag != units.None && u.Tag() != units.None && st.Tag != u.Tag():
		t := plan.CycleText(name, st, u)
		w.find(finding.New(finding.AngleOrCycle, in.At, t.Message, t.Hint))
		return units.Preferred(st.Dim, st.Tag), true
	case st.Tag == units.None && u.Tag() != units.None:
		w.planner.Program.Main.Statics[c.Slot].Tag = u.Tag()
	}
	return w.inHeat(x, in, st, u, c.Slot), true
}

// inHeat chooses how a value in K is shown in a scale of temperature: as a
// temperature, or as a difference.
func (w *work) inHeat(x syntax.Expr, in syntax.UnitText, st run.Static, u *units.Unit, s run.Slot) *units.Unit {
	switch {
	case u.Affine() && st.Heat == run.Difference:
		if d, bad := w.planner.Units.Parse("Δ"+u.Text(), units.AloneInPlace); bad == nil {
			return d
		}
	case u.Affine() && st.Heat == run.Plain:
		w.find(finding.New(finding.TemperatureReading, in.At,
			"This value in K is read as a temperature; as a difference it would be the same number of "+u.Screen()+" as of K"+fahrenheit(u)+".",
			"Write Δ"+u.Screen()+" if a difference is meant."))
		w.planner.Program.Main.Statics[s].Heat = run.Point
	case u.Difference() && st.Heat == run.Point:
		w.find(finding.New(finding.TemperatureReading, in.At,
			"This value is a temperature, and is shown as a difference from 0 K.",
			"Write "+strings.TrimPrefix(u.Screen(), "Δ")+" for the temperature."))
	}
	return u
}

// fahrenheit tells what differs where the degrees are smaller than the kelvin.
func fahrenheit(u *units.Unit) string {
	if strings.Contains(u.Text(), "F") {
		return " times 1.8"
	}
	return ""
}

// mismatch says that a value is reported in a unit of another dimension.
func (w *work) mismatch(name string, x syntax.Expr, in syntax.UnitText, st run.Static, u *units.Unit) {
	t := plan.MismatchText(name, st, u)
	hint := t.Hint
	if st.Dim == units.BaseDim(units.Kelvin) && (in.Text == "C" || in.Text == "F") {
		hint = "Degrees are written with their sign."
		w.find(finding.New(finding.UnitMismatch, in.At, t.Message, hint, "°"+in.Text))
		return
	}
	if f, ok := w.inGravities(x, in, t.Message, st); ok {
		w.find(f)
		return
	}
	if name != "" && !plan.Customary(name, st) {
		hint += formulaHint(st, u)
	}
	if more := w.planner.ReadAs(x, w.e.Text, u.Dim()); more != "" {
		hint += " " + more
	} else if more := w.planner.GivenHint(x, w.e.Text, st, u.Dim()); more != "" {
		hint += " " + more
	}
	w.find(finding.New(finding.UnitMismatch, in.At, t.Message, hint))
}

// ownUnitOf returns the unit that a value is shown in of its own accord: that
// of the line which a lone name or call comes from, else the one that suits its
// dimension.
func (w *work) ownUnitOf(x syntax.Expr, s run.Slot) *units.Unit {
	st := w.planner.Static(s)
	if u := w.rememberedUnit(x); u != nil && u.Dim() == st.Dim {
		if !u.Affine() || st.Heat == run.Point {
			return u
		}
	}
	if isPlain(x) {
		if u := w.writtenUnit(x); u != nil {
			return u
		}
	}
	if st.Heat == run.Point {
		if u, bad := w.planner.Units.Parse("°C", units.AloneInPlace); bad == nil {
			return u
		}
	}
	return units.Preferred(st.Dim, st.Tag)
}

// writtenUnit is the unit of a plain written quantity; of a mixed one, its
// smallest.
func (w *work) writtenUnit(x syntax.Expr) *units.Unit {
	var text syntax.UnitText
	switch x := x.(type) {
	case *syntax.Quantity:
		text = x.Unit
	case *syntax.Mixed:
		text = x.Parts[len(x.Parts)-1].Unit
	case *syntax.Unary:
		return w.writtenUnit(x.X)
	case *syntax.Paren:
		return w.writtenUnit(x.X)
	default:
		return nil
	}
	u, bad := w.planner.Unit(text, units.AfterNumber)
	if bad != nil {
		return nil
	}
	return u
}

// rememberedUnit is the unit of the line that a lone name stands for, or the
// one that a function of the worksheet or a formula is reported in.
func (w *work) rememberedUnit(x syntax.Expr) *units.Unit {
	switch x := x.(type) {
	case *syntax.Paren:
		return w.rememberedUnit(x.X)
	case *syntax.Unary:
		return w.rememberedUnit(x.X)
	case *syntax.Name:
		if d, ok := w.planner.Find(x); ok {
			return d.Unit
		}
	case *syntax.Call:
		return w.callUnit(x)
	}
	return nil
}

// callUnit is the unit that a called function or formula declares.
func (w *work) callUnit(x *syntax.Call) *units.Unit {
	var text syntax.UnitText
	if d, ok := w.planner.Names.Lookup(x.Func); ok && d.Kind == plan.Function {
		text = d.Func.In
	} else if ops.IsFunction(x.Func) {
		return nil
	} else if f, ok := w.Formula(x.Func); ok {
		if left, ok := f.Left.(*syntax.Name); ok {
			for _, s := range f.Symbols {
				if s.Name == left.Name {
					text = s.Unit
				}
			}
		}
	}
	if !text.Present() {
		return nil
	}
	u, bad := w.planner.Unit(text, units.AloneInPlace)
	if bad != nil {
		return nil
	}
	return u
}

// quantityName says what kind of quantity a value is, as it is shown: in J an
// energy, in N m a torque.
func quantityName(st run.Static, u *units.Unit) string {
	if st.Dim.IsOne() && st.Tag == units.None && u.Tag() == units.None {
		return ""
	}
	if isTorqueUnit(u) {
		return "torque"
	}
	switch {
	case u.Affine():
		return "temperature"
	case u.Difference():
		return "temperature difference"
	}
	if st.Heat == run.Difference {
		return "temperature difference"
	}
	tag := st.Tag
	if tag == units.None {
		tag = u.Tag()
	}
	if k, ok := units.KindOf(st.Dim, tag); ok {
		return k.Name
	}
	if k, ok := units.KindOf(st.Dim, units.None); ok {
		return k.Name
	}
	return ""
}

// asTorque shows a result in N m rather than J where its name says that it is a
// torque (SI Brochure 9, 2.3.4: the joule is never used for it).
func (w *work) asTorque(name string, x syntax.Expr, u *units.Unit) *units.Unit {
	if u.Text() != "J" || !torqueName(name) || isPlain(x) {
		return u
	}
	newtonMetre, bad := w.planner.Units.Parse("N m", units.AloneInPlace)
	if bad != nil {
		return u
	}
	return newtonMetre
}

// isTorqueUnit tells whether a unit of energy is written as a force times a
// length.
func isTorqueUnit(u *units.Unit) bool {
	if joule := units.Preferred(u.Dim(), units.None); joule.Text() != "J" {
		return false
	}
	for _, word := range strings.FieldsFunc(u.Text(), func(r rune) bool { return r == ' ' || r == '·' }) {
		if strings.HasSuffix(word, "N") || strings.HasSuffix(word, "lbf") && len(strings.Fields(u.Text())) > 1 {
			return true
		}
	}
	return false
}

// torqueOrEnergy cautions where the name of a value says torque and its unit
// says energy, or the other way round (SI Brochure 9, 2.3.4).
func (w *work) torqueOrEnergy(name string, v entry.Value, in syntax.UnitText, x syntax.Expr) {
	joule := units.Preferred(v.Dim, units.None)
	if name == "" || joule.Text() != "J" || v.Named {
		return
	}
	at := in.At
	if !in.Present() {
		if !isPlain(x) {
			return
		}
		at = x.Span()
	}
	switch isTorque := isTorqueUnit(v.Unit); {
	case !isTorque && torqueName(name):
		w.find(finding.New(finding.TorqueOrEnergy, at, name+" is a torque by its name, and is in "+v.Unit.Screen()+", a unit of energy.",
			"Report a torque in N·m."))
	case isTorque && energyName(name):
		w.find(finding.New(finding.TorqueOrEnergy, at, name+" is an energy by its name, and is in "+v.Unit.Screen()+", the unit of a torque.",
			"Report an energy or a work in J."))
	}
}

// stem is the leading letter of a name with no more than digits, primes or a
// subscript behind it.
func stem(name string) string {
	rs := []rune(name)
	if len(rs) < 2 {
		return name
	}
	if next := rs[1]; next == '_' || next == '\'' || next == '′' || next >= '0' && next <= '9' {
		return string(rs[0])
	}
	return name
}

func torqueName(name string) bool {
	return stem(name) == "τ" || strings.HasPrefix(strings.ToLower(name), "torque")
}

func energyName(name string) bool {
	switch s := strings.TrimPrefix(stem(name), "Δ"); stem(s) {
	case "E", "U", "K", "W":
		return true
	}
	lower := strings.ToLower(name)
	return strings.HasPrefix(lower, "energy") || strings.HasPrefix(lower, "work")
}

// unnamed cautions where a value has a dimension that no quantity has, and a
// written unit of the line is also a name.
func (w *work) unnamed(x syntax.Expr, v *entry.Value) {
	if v.Quantity != "" || v.Dim.IsOne() || len(w.e.Findings) > 0 {
		return
	}
	if note := w.planner.ReadAs(x, w.e.Text, v.Dim); note != "" {
		f := finding.New(finding.UnitOrName, x.Span(), "The value comes out in "+v.Unit.Screen()+", which is the unit of no named quantity.", note)
		f.Severity = finding.Caution
		w.find(f)
	}
}
