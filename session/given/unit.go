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
		l.Find(finding.New(finding.NameKind, s.X.Span(), "A unit is a positive amount of a quantity.", "Write, for example, 1 lap = 400 m."))
		return
	}
	of := units.Preferred(c.Static.Dim, c.Static.Tag)
	if !l.Planner.DefineUnit(s.Name, of, v) {
		l.Find(finding.New(finding.UnitExists, s.NameAt, s.Name+" is a unit already.", "Choose another name for a unit of your own."))
	}
}
