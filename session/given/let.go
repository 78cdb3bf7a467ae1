package given

import (
	"strconv"

	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/eval"
)

// Let makes a symbol with a unit and no value known.
func Let(l *eval.Line, s *syntax.Let) {
	u, ok := l.ReadUnit(s.In)
	for _, n := range s.Symbols {
		if !l.MayDefine(n.Name, n.NameAt, plan.Symbol) {
			continue
		}
		l.GivenAgain(n.Name, n.NameAt, false)
		d := &plan.Def{Name: n.Name, Kind: plan.Symbol, Slot: run.NoSlot, Unit: u}
		if !ok {
			d.Root = d
		} else {
			st := run.Static{Dim: u.Dim(), Tag: u.Tag(), Absent: true}
			d.Slot = l.Planner.Emit(run.Instr{Op: ops.Const, K: 1}, st.WithAxes(s.Axes()))
		}
		l.CatchUp()
		l.Planner.Define(d)
	}
}

// unlikeLet cautions where a line makes of a name something else than its `let` in the same
// part says: a number of a vector, a vector with more components, or a quantity of another
// dimension. A bare 0 is any of them.
func unlikeLet(l *eval.Line, let, d *plan.Def, s *syntax.Define) {
	if let == nil || let.Kind != plan.Symbol || let.Slot == run.NoSlot || let.Part != l.Planner.Part() || d.Slot == run.NoSlot || d.Failed() {
		return
	}
	want, is := l.Planner.Static(let.Slot), l.Planner.Static(d.Slot)
	unit, vector := let.Unit.Screen(), want.Shape == run.Vector
	var says, here, right string
	switch {
	case is.Open != 0:
		return
	case vector != (is.Shape == run.Vector) || is.Shape == run.Vectors:
		says, here = plan.ShapeName(want), plan.ShapeName(is)
	case vector && want.Width != is.Width:
		says, here = "a vector of "+strconv.Itoa(int(want.Width))+" components", "one of "+strconv.Itoa(int(is.Width))
	case want.Dim != is.Dim:
		says, here = "in "+unit, plan.Words(is)
	default:
		return
	}
	switch {
	case !vector:
		right = s.Name + " = … " + unit
	case want.Width > 2:
		right = s.Name + " = (…, …, …) " + unit
	default:
		right = s.Name + " = (…, …) " + unit
	}
	l.Find(finding.New(finding.GivenAgain, s.NameAt, "Line "+strconv.Itoa(let.Line)+" says that "+s.Name+" is "+says+"; here it is "+here+". From here on it means this line.",
		"Write `"+right+"`, change line "+strconv.Itoa(let.Line)+", or choose another name."))
}
