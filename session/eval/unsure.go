package eval

import (
	"math"
	"slices"

	"steelyard/lang/finding"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/units"
)

// usualOff is with how many figures an uncertainty is shown (JCGM 100:2008, 7.2.6).
const usualOff = 2

// leastOff is below which part of a value an uncertainty is less than its rounding.
const leastOff = 1e-14

// Depends finds what slots depend on that was written with an uncertainty. It is made for
// one question: what two values share counts once.
func (p *Page) Depends() func(run.Slot) run.Unsure {
	if !p.Planner.Unsure {
		return func(run.Slot) run.Unsure { return run.Unsure{} }
	}
	known := p.Planner.Program.Unsure(&p.State)
	return func(s run.Slot) run.Unsure {
		if all := known(s); len(all) > 0 {
			return all[0]
		}
		return run.Unsure{}
	}
}

// unsure gives a value its uncertainty: with the figures that were written, where it is a
// given.
func (l *Line) unsure(v *entry.Value, x syntax.Expr, slot run.Slot) {
	u := l.Depends()(slot).Uncertainty()
	switch {
	case v.List != nil:
		depends := func(n run.Unsure) bool { return len(n.By) > 0 }
		if slices.ContainsFunc(l.Planner.Program.Unsure(&l.State)(slot), depends) {
			l.Find(finding.New(finding.FirstOrder, x.Span(), "The values of this list are uncertain, and are shown without that.",
				"Its mean is shown with it."))
		}
		return
	case u-u != 0:
		l.Find(finding.New(finding.FirstOrder, x.Span(), "The uncertainty of this value can't be told: a small change of a given changes it without bound, or has no slope.",
			"Write the line for other values of the givens, on both sides of these."))
		return
	case u < leastOff*math.Abs(v.SI):
		return
	}
	v.U, v.UFigures = u, usualOff
	if q, ok := x.(*syntax.Quantity); ok && q.Value.Off != nil && q.Value.Off.Shape == units.Normal {
		if d, ok := units.ParseDecimal(q.Value.Off.Text); ok {
			v.UFigures = min(max(d.Figures, 1), usualOff)
		}
	}
}
