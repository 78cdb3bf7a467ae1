package eval

import (
	"math"
	"slices"
	"strconv"

	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/units"
)

// UsualOff is with how many figures an uncertainty is shown (JCGM 100:2008, 7.2.6).
const UsualOff = 2

// SureBy is how many standard uncertainties of their difference two values may be apart, and
// agree.
const SureBy = 2

// leastOff is below which part of a value an uncertainty is less than its rounding.
const leastOff = 1e-14

// Depends finds what the elements of a slot depend on that was written with an uncertainty.
func (p *Page) Depends(s run.Slot) []run.Unsure {
	if !p.Planner.Unsure {
		return nil
	}
	return p.Planner.Program.Depends(&p.State, s)
}

// Off is the standard uncertainty of a value, or the sum of what its givens add to it where
// uncertainties are added.
//
// Adding is what a first lab course does; the root of the sum of squares is the standard
// uncertainty (JCGM 100:2008, 5.1.2).
func (p *Page) Off(n run.Unsure) float64 {
	if p.Set.Added {
		return n.Added()
	}
	return n.Uncertainty()
}

// At is element i of what Depends finds, counted from 0; one alone serves for all.
func At(all []run.Unsure, i int32) run.Unsure {
	if len(all) == 0 {
		return run.Unsure{}
	}
	return all[min(int(i), len(all)-1)]
}

// unsure gives a value its uncertainty, and cautions where the slopes at the givens do not
// tell it.
//
// Uncertainties are carried by the slopes at the givens (JCGM 100:2008, 5.1.2). An infinite
// one, as that of √x at x = 0, is told and not shown.
func (l *Line) unsure(v *entry.Value, x syntax.Expr, slot run.Slot) {
	all := l.Depends(slot)
	of := make([]float64, len(all))
	some := false
	for i, n := range all {
		u := l.Off(n)
		if u-u != 0 {
			l.Find(finding.New(finding.FirstOrder, x.Span(), "The uncertainty of this value can't be told: "+NoSlopes+".", aside))
			return
		}
		if u >= leastOff*math.Abs(n.V) {
			of[i], some = u, some || u > 0
		}
	}
	if !syntax.IsPlain(x) {
		l.doubt(v, x, slot, all)
	}
	if !some {
		return
	}
	v.U, v.UFigures = of[0], figuresOff(x)
	if v.List != nil {
		v.U, v.List.U = 0, of
		inOrder(of, l.Planner.Static(slot))
		for part := range slices.Chunk(all, max(len(all)/max(v.List.Axes, 1), 1)) {
			v.List.MeanU = append(v.List.MeanU, l.Off(run.MeanOf(part)))
		}
	}
}

// NoSlopes says why the uncertainty of a value can't be told from the slopes at the givens.
const NoSlopes = "a tiny change of a given changes it too steeply, or has no slope"

const aside = "Work it out for givens a little larger, and a little smaller."

// doubt cautions where the uncertainty that follows from the slopes is not how the value
// spreads, as at a turning point.
//
// (x - 2)^2 at x = 2.0 ± 0.1 has the slope 0, and an uncertainty of 0 would be a false claim:
// the value at one standard uncertainty off is tried as well, and the line says what was found.
func (l *Line) doubt(v *entry.Value, x syntax.Expr, slot run.Slot, all []run.Unsure) {
	of, hint := l.Planner.Program.Doubt(&l.State, slot, all), aside
	if v.List == nil && v.Name != "" {
		hint = "`budget " + v.Name + " by sampling` shows how it spreads."
	} else if v.List == nil {
		hint = "Give it a name; `budget NAME by sampling` shows how it spreads."
	}
	switch {
	case of.Lacks:
		l.Find(finding.New(finding.FirstOrder, x.Span(), "If the givens are off by their uncertainties, there may be no value at all.", hint))
	case of.Beyond > 0:
		by := math.Abs(v.Unit.FromSIDifference(of.Beyond))
		l.Find(finding.New(finding.FirstOrder, x.Span(), "This value is less sure than it looks: if the givens are off by their uncertainties, it moves by up to "+
			units.FormatQuantity(by, v.Unit, units.Figures{N: UsualOff}, l.Set.Rounding, units.Screen)+" more.", hint))
	}
}

// figuresOff is with how many figures uncertainties are shown: those that were written, of
// a given.
//
// A given is shown as it was written, 0.842 ± 0.002; a result has two figures.
func figuresOff(x syntax.Expr) int32 {
	most := int32(0)
	wrote := func(d units.Decimal) {
		if d.Off != nil && d.Off.Shape != units.Normal {
			most = UsualOff
		} else if d.Off != nil {
			off, _ := units.ParseDecimal(d.Off.Text)
			most = max(most, off.Figures)
		}
	}
	switch x := x.(type) {
	case *syntax.Quantity:
		wrote(x.Value)
	case *syntax.List:
		for _, e := range x.Elems {
			if n, ok := e.(*syntax.Number); ok {
				wrote(n.Value)
			}
		}
	}
	if most == 0 {
		return UsualOff
	}
	return min(most, UsualOff)
}

// SourceOf is what a source of a line, or of lines above, is called, the unit that it was
// written in, and its value in SI units.
//
// A budget names its sources as the page does: L = 0.842 m, value 3 of a list, a row of a
// table, the mean of a list, the slope of a fit.
func (p *Page) SourceOf(e *entry.Entry, part run.Part) (entry.Said, *units.Unit, float64) {
	s := part.Source
	if of := p.Planner.Program.Main.Instrs[s.Slot]; of.Op == ops.Scatter && p.Planner.Program.Main.Instrs[of.A].Op == ops.Fit {
		return p.parameter(s.Slot, of.A)
	} else if of.Op == ops.Scatter {
		return p.meanOf(of.A)
	}
	v := p.State.Elements(s.Slot)[s.Element]
	if name, unit := p.givenFrom(s); unit != nil {
		return name, unit, v
	}
	of, x := p.writtenAt(e, v)
	name, unit := entry.Name(of), p.WrittenUnit(x)
	if of == "" && x != nil {
		name = entry.Math(x)
	}
	if unit == nil {
		unit = units.One
	}
	return name, unit, v
}

// parameter is what a parameter of a fit is called, by the slots of its scatter and of its fit.
//
// Its scatter stands beside it in the program, as an operation of its own: what it adds is what
// the name of the fit was given.
func (p *Page) parameter(scatter, fit run.Slot) (entry.Said, *units.Unit, float64) {
	st := p.Planner.Static(fit)
	name, unit := entry.Words("what was fitted"), units.Preferred(st.Dim, st.Tag)
	for _, d := range p.Planner.Names.All() {
		if in := p.Planner.Program.Main.Instrs; d.Line != 0 && !d.Failed() && d.Unit != nil && d.Slot > scatter && in[d.Slot].Op == ops.Add && in[d.Slot].B == scatter {
			name, unit = entry.Math(&syntax.Name{Name: d.Name}), d.Unit
		}
	}
	return name, unit, p.State.At(fit)
}

// meanOf is what the mean of a list is called.
func (p *Page) meanOf(list run.Slot) (entry.Said, *units.Unit, float64) {
	st := p.Planner.Static(list)
	name, unit := entry.Words("mean of "+strconv.Itoa(int(st.Width))+" values"), units.Preferred(st.Dim, st.Tag)
	for _, d := range p.Planner.Names.All() {
		if d.Line != 0 && d.Slot == list && !d.Failed() && d.Unit != nil {
			name, unit = entry.Math(&syntax.Call{Func: "mean", Args: []syntax.Arg{{X: &syntax.Name{Name: d.Name}}}}), d.Unit
		}
	}
	return name, unit, run.MeanOfNumbers(p.State.Elements(list))
}

// givenFrom finds the given that a source was written in: its name, with the line where
// another has that name by now, and which value of a list or a table it is.
func (p *Page) givenFrom(s run.Source) (entry.Said, *units.Unit) {
	for _, d := range p.Planner.Names.All() {
		if d.Line == 0 || d.Slot == run.NoSlot || d.Failed() || p.Planner.Program.Main.Under(d.Slot) != s.Slot {
			continue
		}
		e, name, nth := p.EntryAt(d.Line), &syntax.Name{Name: d.Name}, strconv.Itoa(int(s.Element)+1)
		if now, _ := p.Planner.Names.Lookup(d.Name); now != d {
			name.Line = d.Line
		}
		switch stmt := e.Stmt.(type) {
		case *syntax.Data:
			return entry.Math(name).And(" in row " + nth), d.Unit
		case *syntax.Define:
			list, ok := syntax.Unbracket(stmt.X).(*syntax.List)
			switch {
			case ok:
				return entry.Math(name).And(", value " + nth), p.WrittenUnit(list.Measured(int(s.Element)))
			case stmt.Plain():
				return entry.Math(name), p.WrittenUnit(stmt.X)
			}
		}
	}
	return nil, nil
}
