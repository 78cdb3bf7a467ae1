package given

import (
	"math"

	"steelyard/lang/finding"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/eval"
	"steelyard/units"
)

// Unit makes a unit of this worksheet known: 1 lap = 400 m.
func Unit(l *eval.Line, s *syntax.UnitDef) {
	c := l.Eval(s.X, eval.Want{Lacking: "A unit needs a value, and a symbol here has none yet.", Hint: "Give the symbol a value first."})
	if !c.OK {
		return
	}
	v := c.Value
	if !(v > 0) || math.IsInf(v, 0) || c.Static.Heat == run.Point {
		l.Find(finding.New(finding.NameKind, s.X.Span(), "A unit must be greater than 0.", "Write it like 1 lap = 400 m."))
		return
	}
	if eval.At(l.Depends(c.Slot), 0).Uncertainty() != 0 {
		l.Find(finding.New(finding.NotWritten, syntax.Span{To: len(l.Entry.Text)}, "A unit can't have an uncertainty.",
			"Make it a given: three of them are 3*"+s.Name+".", s.Name+" = "+syntax.PrintExpr(s.X)))
		return
	}
	of := units.Preferred(c.Static.Dim, c.Static.Tag)
	if !l.Planner.DefineUnit(s.Name, of, v) {
		l.Find(finding.New(finding.UnitExists, s.NameAt, s.Name+" is a unit already.", "Choose another name."))
	}
}
