package given

import (
	"steelyard/lang/ops"
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
	l.GivenAgain(s.Name, s.NameAt)
	uses, fs := l.Planner.CheckFunction(s, l.Entry.Text)
	l.Find(fs...)
	at := s.NameAt
	if s.X != nil {
		at = s.X.Span()
	}
	l.Uses(uses, at)
	if s.In.Present() {
		d.Unit, _ = l.ReadUnit(s.In)
	}
	if l.Entry.Failed() {
		d.Root = d
	}
	l.CatchUp()
	l.Planner.Define(d)
}

// Let makes a symbol with a unit and no value known.
func Let(l *eval.Line, s *syntax.Let) {
	d := &plan.Def{Name: s.Symbol.Name, Kind: plan.Symbol, Slot: run.NoSlot}
	if !l.MayDefine(s.Symbol.Name, s.Symbol.NameAt, plan.Symbol) {
		return
	}
	l.GivenAgain(s.Symbol.Name, s.Symbol.NameAt)
	u, ok := l.ReadUnit(s.In)
	if !ok {
		d.Root = d
	} else {
		d.Unit = u
		d.Slot = l.Planner.Emit(run.Instr{Op: ops.Const, K: 1}, run.Static{Dim: u.Dim(), Tag: u.Tag(), Absent: true})
	}
	l.CatchUp()
	l.Planner.Define(d)
}

// Formula makes a formula of the worksheet known.
func Formula(l *eval.Line, s *syntax.FormulaDef) {
	d := &plan.Def{Name: s.Name, Kind: plan.Formula, Slot: run.NoSlot, Formula: s}
	if !l.MayDefine(s.Name, s.NameAt, plan.Formula) {
		return
	}
	l.GivenAgain(s.Name, s.NameAt)
	l.Find(l.Planner.CheckFormula(s, l.Entry.Text)...)
	if l.Entry.Failed() {
		d.Root = d
	}
	l.Planner.Define(d)
}
