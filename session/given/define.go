// Package given works out the statements that give names a meaning: givens and
// results, functions, symbols, formulas, units and constants.
package given

import (
	"math"
	"slices"
	"strconv"

	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/eval"
	"steelyard/units"
)

// Named is the definition that NAME = EXPR makes; false if the name can't be given.
func Named(l *eval.Line, s *syntax.Define) (*plan.Def, bool) {
	d := eval.Unnamed()
	d.Name = s.Name
	if !l.MayDefine(s.Name, s.NameAt, plan.Quantity) {
		d.Root, d.Line = d, l.Entry.Line
		l.Planner.SetThat(d)
		return d, false
	}
	if !syntax.Holds(s.X, s.Name) && !onlyUnit(l, s) {
		l.GivenAgain(s.Name, s.NameAt, !s.Plain())
	}
	return d, true
}

// onlyUnit tells whether the line above that gives the name is the same but for its
// unit: the value stays, and no other is lost.
func onlyUnit(l *eval.Line, s *syntax.Define) bool {
	d, ok := l.Planner.Names.Lookup(s.Name)
	if !ok || !s.In.Present() {
		return false
	}
	was := l.DefineOf(d)
	return was != nil && was.In.Text != s.In.Text && syntax.PrintExpr(was.X) == syntax.PrintExpr(s.X)
}

// Define works out NAME = EXPR [in UNIT].
func Define(l *eval.Line, d *plan.Def, s *syntax.Define) {
	if differenceInDegrees(l, s) {
		l.Fail(d, nil)
		return
	}
	d.Given = !s.In.Present() && syntax.IsWritten(s.X)
	before, _ := l.Planner.Names.Lookup(s.Name)
	result(l, d, s.X, s.In, s.Plain())
	unlikeLet(l, before, d, s)
	if d.Given && !d.Failed() {
		d.Exponent = exponentOf(s.X)
	}
}

// Value works out EXPR [in UNIT], a result without a name.
func Value(l *eval.Line, d *plan.Def, s *syntax.Value) { result(l, d, s.X, s.In, false) }

// result plans and runs an expression, and reports it.
func result(l *eval.Line, d *plan.Def, x syntax.Expr, in syntax.UnitText, plain bool) {
	got := l.Eval(x, eval.Want{Self: d.Name, Shown: true, Name: d.Name, In: in, Lists: true})
	r := l.Answer(d, d.Name, x, got)
	if r == nil {
		return
	}
	r.Shows, r.Records = !plain, !plain
	r.Notes = append(r.Notes, standardError(l, got)...)
}

// standardError says that the uncertainty of a mean is its standard error: the standard
// deviation of the readings over the root of how many there are (JCGM 100:2008, 4.2.3). Where
// the readings have uncertainties of their own, the mean has what follows from those.
func standardError(l *eval.Line, got eval.Got) []entry.Said {
	main := l.Planner.Program.Main.Instrs
	in := main[got.Slot]
	if in.Op != ops.Add || main[in.A].Op != ops.Mean || main[in.B].Op != ops.Scatter {
		return nil
	}
	list := l.State.Elements(main[in.A].A)
	n := strconv.Itoa(len(list))
	of := eval.At(l.Depends(got.Slot), 0).By
	if slices.ContainsFunc(of, func(p run.Part) bool { return p.Slot == in.B }) {
		return entry.Rows("± is the standard error of the mean of " + n + " values")
	}
	if len(of) == 0 {
		return nil
	}
	return []entry.Said{entry.Say("± is what follows from that of the "+n+" values; their scatter alone has the standard error …", l.Told(units.Figures{N: eval.UsualOff, Keep: true}, run.Deviation(list)/math.Sqrt(float64(len(list))), got.Unit.OfDifference()))}
}

// exponentOf returns the value of a given that may be an exponent.
func exponentOf(x syntax.Expr) *units.Exp {
	if e := syntax.Rational(x); !e.Lost() || syntax.IsNumber(x) {
		return &e
	}
	return nil
}

// differenceInDegrees refuses a difference of temperatures given in °C.
func differenceInDegrees(l *eval.Line, s *syntax.Define) bool {
	if !units.IsChange(s.Name) {
		return false
	}
	value, unit := "", syntax.UnitText{}
	switch x := s.X.(type) {
	case *syntax.Quantity:
		value, unit = x.Value.Text, x.Unit
	case *syntax.Measured: // (35-15) °C
		value, unit = syntax.PrintExpr(x.X), x.Unit
	default:
		return false
	}
	u, bad := l.Planner.Unit(unit, units.AfterNumber)
	if bad != nil || !u.Affine() {
		return false
	}
	readings := []string{value + " K", value + " Δ" + u.Screen()}
	if !unit.Celsius() {
		readings = readings[1:]
	}
	l.Find(finding.New(finding.TemperatureGiven, s.X.Span(),
		"`"+value+" "+u.Screen()+"` is a temperature; "+s.Name+" is a difference of temperatures.",
		"Write a difference in K or Δ"+u.Screen()+".", readings...))
	return true
}
