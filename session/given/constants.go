package given

import (
	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/eval"
	"steelyard/units"
)

// Constants brings in constants of CODATA 2022.
func Constants(l *eval.Line, s *syntax.Constants) {
	for _, n := range s.Names {
		name := n.Name
		k, ok := units.LookupConstant(name)
		if !ok {
			f := finding.New(finding.UnknownName, n.NameAt, "There is no constant called "+name+".", "`help constants` lists them.")
			if k, near := units.NearConstant(name); near {
				f.Hint, f.Readings = "Did you mean "+k.Symbol+", the "+k.Name+"?", []string{k.Symbol}
			}
			l.Find(f)
			continue
		}
		if !l.MayDefine(name, n.NameAt, plan.Quantity) {
			continue
		}
		u := units.Of(k.Unit)
		slot := l.Planner.Emit(plan.Written(k.Value(), u, k.Exact), run.Static{Dim: u.Dim(), Tag: u.Tag()})
		d := &plan.Def{Name: name, Kind: plan.Quantity, Slot: slot, Given: true, Unit: u}
		if l.CatchUp(); !l.HasValue(slot) {
			continue
		}
		if was, ok := l.Planner.Names.Lookup(name); !ok || was.Slot < 0 || l.State.At(was.Slot) != l.State.At(slot) {
			l.GivenAgain(name, n.NameAt, true) // but not the same constant
		}
		l.Planner.Define(d)
		st := l.Planner.Static(slot)
		l.Entry.Give(entry.Value{
			Name: name, SI: l.State.At(slot), Dim: st.Dim, Tag: st.Tag, Unit: u, InUnit: k.Value().Float(),
			Quantity: k.Name, Figures: units.Figures{N: int(max(1, min(k.Value().Figures, 15))), Keep: true}, Rounding: l.Set.Rounding,
		})
	}
	if r := l.Entry.Result(); r != nil {
		r.Shows = true
	}
}
