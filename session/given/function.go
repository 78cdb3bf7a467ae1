package given

import (
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/eval"
)

// Function makes a function of the worksheet known.
func Function(l *eval.Line, s *syntax.FuncDef) {
	d := &plan.Def{Name: s.Name, Kind: plan.Function, Slot: run.NoSlot, Func: s}
	if !l.MayDefine(s.Name, s.NameAt, plan.Function) {
		return
	}
	l.GivenAgain(s.Name, s.NameAt, false)
	uses, fs := l.Planner.CheckFunction(s, l.Entry.Text)
	l.Find(fs...)
	at := s.NameAt
	if s.X != nil {
		at = s.X.Span()
	}
	l.Uses(uses, at)
	if s.In.Present() {
		if d.Unit, _ = l.ReadUnit(s.In); l.OpenBody(s, d.Unit) {
			d.Root = d
		}
	}
	l.CatchUp()
	if !l.Entry.Failed() {
		intervals(l, s)
	}
	if l.Entry.Failed() {
		d.Root = d
	}
	l.Planner.Define(d)
}
