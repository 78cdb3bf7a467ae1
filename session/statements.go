package session

import (
	"math"

	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/units"
)

// function makes a function of the worksheet known.
func (w *work) function(s *syntax.FuncDef) {
	d := &plan.Def{Name: s.Name, Kind: plan.Function, Slot: run.NoSlot, Func: s}
	if !w.mayDefine(s.Name, s.NameAt, plan.Function) {
		return
	}
	w.givenAgain(s.Name, s.NameAt)
	uses, fs := w.planner.CheckFunction(s, w.e.Text)
	w.find(fs...)
	at := s.NameAt
	if s.X != nil {
		at = s.X.Span()
	}
	w.uses(uses, at)
	if s.In.Present() {
		u, bad := w.planner.Unit(s.In, units.AloneInPlace)
		if bad != nil {
			w.find(w.planner.UnitFinding(s.In, bad))
		}
		d.Unit = u
	}
	if w.e.Failed() {
		d.Root = d
	}
	w.CatchUp()
	w.planner.Define(d)
}

// let makes a symbol with a unit and no value known.
func (w *work) let(s *syntax.Let) {
	d := &plan.Def{Name: s.Symbol.Name, Kind: plan.Symbol, Slot: run.NoSlot}
	if !w.mayDefine(s.Symbol.Name, s.Symbol.NameAt, plan.Symbol) {
		return
	}
	w.givenAgain(s.Symbol.Name, s.Symbol.NameAt)
	u, bad := w.planner.Unit(s.In, units.AloneInPlace)
	if bad != nil {
		w.find(w.planner.UnitFinding(s.In, bad))
		d.Root = d
	} else {
		d.Unit = u
		d.Slot = w.planner.Emit(run.Instr{Op: ops.Const, K: 1}, run.Static{Dim: u.Dim(), Tag: u.Tag(), Absent: true})
	}
	w.CatchUp()
	w.planner.Define(d)
}

// ownUnit makes a unit of this worksheet known: 1 lap = 400 m.
func (w *work) ownUnit(s *syntax.UnitDef) {
	c := w.Eval(s.X, Want{Lacking: "A unit needs a value, and a symbol here has none yet.", Hint: "Give the symbol a value first."})
	if !c.OK {
		return
	}
	v := c.Value
	if !(v > 0) || math.IsInf(v, 0) || c.Static.Heat == run.Point {
		w.find(finding.New(finding.NameKind, s.X.Span(), "A unit is a positive amount of a quantity.", "Write, for example, 1 lap = 400 m."))
		return
	}
	of := units.Coherent(c.Static.Dim, c.Static.Tag)
	if _, ok := w.planner.Units.Define(s.Name, of, v, 0); !ok {
		w.find(finding.New(finding.UnitExists, s.NameAt, s.Name+" is a unit already.", "Choose another name for a unit of your own."))
		return
	}
	w.mark.unit = s.Name
}

// formula makes a formula of the worksheet known.
func (w *work) formula(s *syntax.FormulaDef) {
	d := &plan.Def{Name: s.Name, Kind: plan.Formula, Slot: run.NoSlot, Formula: s}
	if !w.mayDefine(s.Name, s.NameAt, plan.Formula) {
		return
	}
	w.givenAgain(s.Name, s.NameAt)
	w.find(w.planner.CheckFormula(s, w.e.Text)...)
	if w.e.Failed() {
		d.Root = d
	}
	w.planner.Define(d)
}

// constants brings in constants of CODATA 2022.
func (w *work) constants(s *syntax.Constants) {
	for _, n := range s.Names {
		name := n.Name
		k, ok := units.LookupConstant(name)
		if !ok {
			w.find(finding.New(finding.UnknownName, n.NameAt, "No constant is called "+name+".", "`help constants` lists them."))
			continue
		}
		if !w.mayDefine(name, n.NameAt, plan.Quantity) {
			continue
		}
		u, bad := w.planner.Units.Parse(k.Unit, units.AloneInPlace)
		if bad != nil {
			continue
		}
		slot := w.planner.Emit(run.Instr{Op: ops.Const, K: u.ToSI(k.Value)}, run.Static{Dim: u.Dim(), Tag: u.Tag()})
		d := &plan.Def{Name: name, Kind: plan.Quantity, Slot: slot, Given: true, Unit: u}
		if w.CatchUp(); !w.HasValue(slot) {
			continue
		}
		w.planner.Define(d)
		st := w.planner.Static(slot)
		w.e.Give(entry.Value{
			Name: name, SI: w.state.Vals[slot], Dim: st.Dim, Tag: st.Tag, Unit: u, InUnit: k.Value.Float(),
			Quantity: k.Name, Figures: units.Figures{N: max(1, min(k.Value.Figures, 15)), Keep: true}, Rounding: w.set.rounding,
		})
	}
	if r := w.e.Result(); r != nil {
		r.Shows = true
	}
}

// report shows an answer of the part in the unit and with the figures asked.
func (w *work) report(s *syntax.Report) {
	name := ""
	if n, ok := s.X.(*syntax.Name); ok {
		name = n.Name
	}
	got := w.Eval(s.X, Want{Shown: true, Name: name, In: s.In})
	if !got.OK {
		return
	}
	if got.Static.Absent {
		w.noValueYet(name, s.X, got.Compiled)
		return
	}
	if s.Sign {
		w.e.Outcome = entry.Lines{signWord(got.Value)}
		return
	}
	v, ok := w.newValue(name, s.X, got.Compiled, got.Unit)
	if !ok {
		return
	}
	if s.Figures > 0 {
		v.Figures = units.Figures{N: s.Figures, Keep: true}
	}
	w.e.Give(v).Shows = true
	w.rateWithout2Pi(name, s.X, s.In, &v)
}

func signWord(v float64) string {
	switch {
	case v < 0:
		return "negative"
	case v > 0:
		return "positive"
	}
	return "zero"
}
