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
	c := l.Eval(s.X, eval.Want{Lacking: "A symbol here has no value yet, and a unit needs one.", Hint: "Define the symbol first."})
	if !c.OK {
		return
	}
	v := c.Value
	if !(v > 0) || math.IsInf(v, 0) || c.Static.Heat == run.Point {
		l.Find(finding.New(finding.NameKind, s.X.Span(), "A unit must be a positive quantity.", "Write, for example, 1 lap = 400 m."))
		return
	}
	if eval.At(l.Depends(c.Slot), 0).Uncertainty() != 0 {
		l.Find(finding.New(finding.NotWritten, syntax.Span{To: len(l.Entry.Text)}, "A unit has no place for an uncertainty.",
			"Make it a given, and write 3*"+s.Name+" for three.", s.Name+" = "+syntax.PrintExpr(s.X)))
		return
	}
	of := units.Preferred(c.Static.Dim, c.Static.Tag)
	if !l.Planner.DefineUnit(s.Name, of, v) {
		l.Find(finding.New(finding.UnitExists, s.NameAt, s.Name+" is a unit already.", "Choose another name."))
	}
}
