package given

import (
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
		l.GivenAgain(n.Name, n.NameAt)
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
