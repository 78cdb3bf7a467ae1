package given

import (
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/eval"
)

// Formula makes a formula of the worksheet known.
func Formula(l *eval.Line, s *syntax.FormulaDef) {
	d := &plan.Def{Name: s.Name, Kind: plan.Formula, Slot: run.NoSlot, Formula: s}
	if !l.MayDefine(s.Name, s.NameAt, plan.Formula) {
		return
	}
	l.GivenAgain(s.Name, s.NameAt, false)
	l.Find(l.Planner.CheckFormula(s, l.Entry.Text)...)
	if l.Entry.Failed() {
		d.Root = d
	}
	l.Planner.Define(d)
}
