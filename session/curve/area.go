package curve

import (
	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/eval"
	"steelyard/units"
)

// Area works out the area under a curve.
func Area(l *eval.Line, d *plan.Def, s *syntax.AreaUnder, in syntax.UnitText) {
	slot, ok := area(l, s)
	reading(l, d, s.X, in, slot, ok)
}

// area plans the area; false if there is none.
func area(l *eval.Line, s *syntax.AreaUnder) (run.Slot, bool) {
	against := s.Var.Name
	if against == "" {
		l.Find(finding.New(finding.Incomplete, s.X.Span(), "The line doesn't say against what the curve is drawn.",
			"Write it before the range, as in `area under k*x against x from 0 m to 4 m`."))
	}
	from, to, x, _, ok := interval(l, s.From, s.To)
	if against == "" || !ok {
		return run.NoSlot, false
	}
	x.Tag = units.None
	c, _, ok := planCurve(l, s.X, against, x)
	if !ok {
		return run.NoSlot, false
	}
	dim, fits := c.static.Dim.Mul(x.Dim)
	if !fits {
		return run.NoSlot, false
	}
	return l.Planner.EmitAt(ops.Area, c.fn, []run.Slot{from, to}, run.Static{Dim: dim, Width: 1}), true
}
