package work

import (
	"cmp"
	"math"
	"slices"

	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/eval"
	"steelyard/units"
)

// Budget tells what the uncertainty of a result comes from: for each given its estimate, its
// standard uncertainty, the sensitivity coefficient of the result to it, and the product of
// the two, the contribution (JCGM 100:2008, 5.1.3), the greatest first.
func Budget(l *eval.Line, s *syntax.Budget) {
	d, ok := asked(l, s.Of)
	if !ok {
		return
	}
	v := l.ValueOf(d)
	switch {
	case d.Failed():
		l.Find(plan.Needs(d, s.Of.NameAt))
		return
	case v != nil && v.List != nil:
		l.Find(plan.OneValue(&syntax.Name{At: s.Of.NameAt, Name: s.Of.Name}, l.Planner.Static(d.Slot)))
		return
	case v == nil || v.U == 0:
		l.Entry.Outcome = entry.Lines{entry.Say("… has no uncertainty: no given that it depends on was written with one, as in 0.842 ± 0.002 m.", entry.Name(s.Of.Name))}
		return
	}
	of := eval.At(l.Depends(d.Slot), 0)
	slices.SortStableFunc(of.By, func(a, b run.Part) int {
		return cmp.Compare(math.Abs(b.Contribution()), math.Abs(a.Contribution()))
	})
	t := &entry.Table{Heads: entry.Heads("quantity", "estimate", "u", "sensitivity c", "c·u", "share")}
	share := func(u float64) entry.Said {
		part := float64(u/v.U) * (u / v.U)
		return entry.Words(units.FormatNumber(100*part, units.Figures{N: 2}, l.Set.Rounding, units.Screen) + " %")
	}
	for _, p := range of.By {
		if p.Contribution() != 0 {
			c := math.Abs(p.Contribution())
			t.Add(append(source(l, d.Line, v, p), shownOff(l, c, v.Unit), share(c))...)
		}
	}
	t.Add(entry.Name(s.Of.Name), nil, nil, nil, shownOff(l, v.U, v.Unit), entry.Words("100 %"))
	l.Entry.Outcome = t
}

// source is the quantity, the estimate, its standard uncertainty and the sensitivity
// coefficient of a part.
func source(l *eval.Line, line int, v *entry.Value, p run.Part) []entry.Said {
	of, unit, si := l.SourceOf(l.EntryAt(line), p.Source)
	slope := v.Unit.FromSIDifference(float64(p.Slope * (unit.ToSIFloat(1) - unit.ToSIFloat(0))))
	c := entry.Value{InUnit: slope, Unit: v.Unit, Figures: units.Figures{N: 4}, Rounding: l.Set.Rounding}
	if unit.SameAs(v.Unit) {
		c.Unit = units.One
	}
	coefficient := c.Said()
	if unit.Text() != "1" && !unit.SameAs(v.Unit) {
		coefficient = coefficient.And(" per " + unit.Screen())
	}
	estimate := l.ValueIn(si, unit)
	estimate.Figures = units.Figures{}
	return []entry.Said{of, estimate.Said(), shownOff(l, p.U, unit), coefficient}
}

// shownOff is an uncertainty in a unit, to two figures.
func shownOff(l *eval.Line, u float64, unit *units.Unit) entry.Said {
	return entry.Value{InUnit: math.Abs(unit.FromSIDifference(u)), Unit: unit, Figures: units.Figures{N: 2, Keep: true}, Rounding: l.Set.Rounding}.Said()
}
