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
		if d.Unit, _ = l.ReadUnit(s.In); l.OpenBody(s, d.Unit) {
			d.Root = d
		}
	}
	if l.Entry.Failed() {
		d.Root = d
	}
	l.CatchUp()
	l.Planner.Define(d)
}

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
			d.Slot = l.Planner.Emit(run.Instr{Op: ops.Const, K: 1}, run.Static{Dim: u.Dim(), Tag: u.Tag(), Absent: true})
		}
		l.CatchUp()
		l.Planner.Define(d)
	}
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
