package session

import (
	"steelyard/lang/algebra"
	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/units"
)

// solutionUnit is the unit that a solution is shown in.
func (w *work) solutionUnit(u syntax.Unknown, c candidate) *units.Unit {
	if u.In.Present() {
		if unit, bad := w.planner.Unit(u.In, units.AloneInPlace); bad == nil && unit.Dim() == c.form.Static.Dim {
			return unit
		}
	}
	if unit := w.declaredAngle(u, c); unit != nil {
		return unit
	}
	return units.Preferred(c.form.Static.Dim, c.form.Static.Tag)
}

// declaredAngle is the unit of an unknown that a formula declares an angle.
func (w *work) declaredAngle(u syntax.Unknown, c candidate) *units.Unit {
	s, ok := w.e.Stmt.(*syntax.Solve)
	if !ok || len(s.Equations) != 1 || s.Equations[0].Right != nil || !c.form.Static.Dim.IsOne() {
		return nil
	}
	n, ok := s.Equations[0].Left.(*syntax.Name)
	if !ok {
		return nil
	}
	f, _ := w.Formula(n.Name)
	for _, sym := range f.Symbols {
		if sym.Name != u.Name && sym.Name != w.found.unknown {
			continue
		}
		if unit, bad := w.planner.Unit(sym.Unit, units.AloneInPlace); bad == nil && unit.Tag() == units.Angle {
			return unit
		}
	}
	return nil
}

// take makes a candidate the value of an unknown.
func (w *work) take(u syntax.Unknown, c candidate, d *plan.Def) {
	unit := w.solutionUnit(u, c)
	if tag := unit.Tag(); tag != units.None && c.form.Static.Tag == units.None {
		w.planner.Program.Main.Statics[c.slot].Tag = tag
	}
	v, ok := w.newValue(u.Name, &syntax.Name{Name: u.Name}, c.form, unit)
	if !ok {
		return
	}
	d.Slot, d.Unit = c.slot, unit
	r := w.e.Give(v)
	r.Shows, r.Records = true, true
	w.root(c.root)
}

// noSolution says why no real value satisfies the equation.
func (w *work) noSolution(s *syntax.Solve) finding.Finding {
	at := s.Unknowns[0].NameAt
	name := s.Unknowns[0].Name
	if q := w.found.solution.Quadratic; q != nil {
		if d := w.Try(q.Discriminant); d.OK && d.Value < 0 {
			u := units.Preferred(d.Static.Dim, d.Static.Tag)
			return finding.New(finding.NoSolution, at, "No real "+name+" satisfies the equation: its discriminant is "+
				units.FormatQuantity(u.FromSI(d.Value), u, w.set.figures, w.set.rounding, units.Screen)+", so that it never gets that far.", "Look at the givens and their signs.")
		}
	}
	if len(s.Where) > 0 {
		return finding.New(finding.NoSolution, at, "No "+name+" within the conditions satisfies the equation.", "Look at what stands after where.")
	}
	return finding.New(finding.NoSolution, at, "No real "+name+" satisfies the equation.", "Look at the signs of the givens, and at what stands under a root.")
}

// withoutNumbers answers with the rearranged equation and its unit, where a
// symbol has no value yet.
func (w *work) withoutNumbers(s *syntax.Solve, solution *algebra.Solution, defs []*plan.Def, eq plan.Planned) {
	x := solution.Roots[0].X
	c := w.Eval(x, Want{Silent: true}).Compiled
	if c.Slot == run.NoSlot {
		return
	}
	w.planner.Program.Main.Statics[c.Slot].Absent = true
	unit := w.solutionUnit(s.Unknowns[0], candidate{form: c})
	defs[0].Slot, defs[0].Unit = c.Slot, unit
	w.root(solution.Roots[0])
	w.e.Outcome = entry.Lines{s.Unknowns[0].Name + " = " + algebra.Display(x) + ", in " + unit.Screen()}
}
