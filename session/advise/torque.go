package advise

import (
	"steelyard/lang/finding"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/eval"
	"steelyard/units"
)

// torqueOrEnergy cautions where the name of a value says torque and its unit
// says energy, or the other way round (SI Brochure 9, 2.3.4).
func torqueOrEnergy(l *eval.Line, name string, v *entry.Value, in syntax.UnitText, x syntax.Expr) {
	if name == "" || !v.Dim.IsEnergy() || v.Named {
		return
	}
	at := in.At
	if !in.Present() {
		if !syntax.IsPlain(x) {
			return
		}
		at = x.Span()
	}
	switch isTorque := v.Unit.Tag() == units.PerAngle; {
	case !isTorque && units.Usual(name) == "N m":
		l.Find(finding.New(finding.TorqueOrEnergy, at, name+" looks like a torque, but it is in "+v.Unit.Screen()+", a unit of energy.",
			"A torque is in N·m."))
	case isTorque && units.Usual(name) == "J":
		l.Find(finding.New(finding.TorqueOrEnergy, at, name+" looks like an energy, but it is in "+v.Unit.Screen()+", the unit of a torque.",
			"An energy or a work is in J."))
	}
}
