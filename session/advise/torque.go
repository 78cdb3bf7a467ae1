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
//
// Both are kg·m²/s², so that no mismatch shows: τ = 5 J passes every check of dimensions. The unit
// that is written says which is meant, the name what it should be.
func torqueOrEnergy(l *eval.Line, name string, v *entry.Value, in syntax.UnitText, x syntax.Expr) {
	if n, ok := x.(*syntax.Name); ok && name == "" && in.Present() {
		name = n.Name // τ in J
	}
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

// Check cautions where a torque is compared with a quantity that is written in a unit of
// energy: τ = 5 J.
//
// check F*r = 5 J compares the two numbers and holds; it is the J that is wrong.
func Check(l *eval.Line, s *syntax.CheckStmt) {
	out, ok := l.Entry.Outcome.(*entry.Verdict)
	if !ok || !out.Left.Dim.IsEnergy() || s.Right == nil {
		return
	}
	torque := func(x, written syntax.Expr, v *entry.Value) {
		q, ok := written.(*syntax.Quantity)
		if !ok || v.Tag != units.PerAngle && !l.IsMoment(x, v.Dim) {
			return
		}
		if u, bad := l.Planner.Unit(q.Unit, units.AfterNumber); bad == nil && u.Tag() == units.None {
			l.Find(finding.New(finding.TorqueOrEnergy, q.Unit.At, syntax.PrintExpr(x)+" is a torque, but "+u.Screen()+" is a unit of energy.",
				"A torque is in N·m.", "N m"))
		}
	}
	torque(s.Left, s.Right, &out.Left)
	torque(s.Right, s.Left, &out.Right)
}
