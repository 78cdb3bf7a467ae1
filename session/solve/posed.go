package solve

import (
	"steelyard/lang/algebra"
	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/session/eval"
	"steelyard/units"
)

// posed reads the equations and plans them; false where that is the end, with the failed
// definition that one needs.
func (v *solving) posed() (needs *plan.Def, ok bool) {
	if f, bad := v.formulasEquated(); bad {
		v.Find(f)
		return nil, false
	}
	if !v.read() {
		return nil, false
	}
	if needs, ok = v.plan(); !ok {
		return needs, false
	}
	if v.single() {
		v.turns = algebra.Turns{From: -1, To: 1}
		return nil, true
	}
	return nil, !v.cancels()
}

// plan plans the equations together, which gives the unknowns their dimensions,
// and with them what a solution must satisfy.
//
// All equations are planned together, as what one says of the dimension of an unknown the
// others need: in F = m*a and a = v/t neither is known before both are.
func (v *solving) plan() (needs *plan.Def, ok bool) {
	v.statics = v.Planner.Unknowns(len(v.unknowns))
	v.rule = &run.Solve{}
	good := true
	for i, e := range v.equations {
		got := v.Function(eval.Want{Silent: true}, v.unknowns, v.statics, algebra.Sizes(e.Left), algebra.Sizes(e.Right))
		at := v.s.Equations[i].Left.Span()
		for _, f := range got.Findings {
			if f.At.To == 0 { // within a formula that is written elsewhere
				f.At = at
			}
			v.findOnce(f)
		}
		v.Uses(got.Uses, at)
		v.uses = append(v.uses, got.Uses)
		if needs == nil {
			needs = got.Root
		}
		good, v.absent = good && got.OK, v.absent || got.Static.Absent
		v.rule.Differences = append(v.rule.Differences, got.Fn)
	}
	for i, st := range v.statics {
		v.statics[i] = v.Planner.Settled(st)
		v.open = v.open || v.statics[i].Open != 0
		v.rule.Dims = append(v.rule.Dims, v.statics[i].Dim)
	}
	if !good {
		return needs, false
	}
	v.CatchUp()
	if !v.unknownUnits() {
		return nil, false
	}
	before := len(v.Entry.Findings)
	v.rule.Conditions = v.conditions()
	v.CatchUp()
	return nil, len(v.Entry.Findings) == before
}

// findOnce adds a finding unless one like it says the same of another place in
// the line. Of a name without a value it says when its unit would be enough.
//
// A formula with g in three places would say three times that its symbol has no value.
func (v *solving) findOnce(f finding.Finding) {
	if f.ID != finding.UnknownName || f.Hint == "" || !v.single() {
		v.Find(f)
		return
	}
	for _, g := range v.Entry.Findings {
		if g.ID == f.ID && g.Message == f.Message {
			return
		}
	}
	v.Find(withUnitEnough(f))
}

// unknownUnits checks the units that unknowns are reported in against what the
// equations say of them; false if one can't be read, or be told from radians.
//
// A unit of another dimension is told as a mismatch, and the value is shown all the same;
// between turns and radians the equations must tell which is meant.
func (v *solving) unknownUnits() bool {
	good, shown := true, map[string]*units.Unit{}
	for _, name := range v.unknowns {
		shown[name] = nil
	}
	for i, u := range v.s.Unknowns {
		if !u.In.Present() {
			continue
		}
		st := v.statics[min(i, len(v.statics)-1)]
		unit, ok := v.ReadUnit(u.In)
		good = good && ok
		if ok {
			v.Fits(u.Name, u.In, st, unit)
		}
		shown[u.Name] = unit
	}
	for i, e := range v.equations {
		good = good && !(v.s.Equations[i].Right != nil && v.OpenSides(e.Left, e.Right, shown, v.uses[i]))
	}
	return good
}
