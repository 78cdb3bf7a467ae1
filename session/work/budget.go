package work

import (
	"cmp"
	"math"
	"slices"

	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/eval"
	"steelyard/units"
)

// budget is an uncertainty budget while it is worked out.
type budget struct {
	*eval.Line
	s    *syntax.Budget
	slot run.Slot
	line int // of the result
	v    *entry.Value
	of   run.Unsure
	out  *entry.Budget
}

// Budget tells what the uncertainty of a result comes from: for each given its estimate, its
// standard uncertainty, the sensitivity coefficient of the result to it, and the product of
// the two, the contribution (JCGM 100:2008, 5.1.3), the greatest first.
func Budget(l *eval.Line, s *syntax.Budget) {
	d, ok := asked(l, s.Of)
	if !ok {
		return
	}
	b := &budget{Line: l, s: s, slot: d.Slot, line: d.Line, v: l.ValueOf(d)}
	switch {
	case d.Failed():
		l.Find(plan.Needs(d, s.Of.NameAt))
		return
	case b.v != nil && b.v.List != nil:
		l.Find(plan.OneValue(&syntax.Name{At: s.Of.NameAt, Name: s.Of.Name}, l.Planner.Static(d.Slot)))
		return
	case b.v != nil:
		l.CatchUp() // a component may not have been asked for before
		b.of = eval.At(l.Depends(d.Slot), 0)
	}
	if len(b.of.By) == 0 {
		l.Entry.Outcome = entry.Lines{entry.Say("… has no uncertainty: no given behind it has one. Write one after its number, as in 0.842 ± 0.002 m.", entry.Name(s.Of.Name))}
		return
	}
	cover, ok := b.probability()
	if !ok {
		return
	}
	b.out = &entry.Budget{Of: s.Of.Name, U: b.Off(b.of)}
	if b.out.U-b.out.U != 0 {
		b.withoutSlopes(cover)
		return
	}
	b.rows()
	if s.Covering != nil && !s.Sampled {
		b.expand(cover)
	}
	if s.Sampled && !b.sample(cover) {
		return
	}
	l.Entry.Outcome = b.out
}

// withoutSlopes answers where first order has no uncertainty, and no source a share of it: by
// what random draws come to, where those are asked for.
func (b *budget) withoutSlopes(cover float64) {
	const why = eval.NoSlopes
	if b.s.Sampled {
		if b.sample(cover) {
			b.Entry.Outcome = append(b.out.Told, entry.Say("First order has no uncertainty of …: "+why+".", entry.Name(b.s.Of.Name)))
		}
		return
	}
	b.Find(finding.New(finding.NotWorkedOut, b.s.Of.NameAt, "The uncertainty of "+b.s.Of.Name+" can't be told from slopes: "+why+".",
		"`budget "+b.s.Of.Name+" by sampling` shows how it spreads."))
}

// usualCover is the probability of an interval where none is asked for.
const usualCover = 0.95

// probability is that of the interval that is asked for.
func (b *budget) probability() (float64, bool) {
	if b.s.Covering == nil {
		return usualCover, true
	}
	got := b.Eval(b.s.Covering, eval.Want{Lacking: "The probability has no value yet.", Hint: "Write it in %, as in `covering 95 %`."})
	switch {
	case !got.OK:
		return 0, false
	case !b.Planner.Static(got.Slot).Dim.IsOne() || !(got.Value > 0 && got.Value < 1):
		b.Find(finding.New(finding.NoRange, b.s.Covering.Span(), "The share of the values is between 0 and 100 %.", "Write it like `covering 95 %`."))
		return 0, false
	}
	return got.Value, true
}

// rows are those of the table: one for each source that counts, and one for the result.
func (b *budget) rows() {
	by := slices.Clone(b.of.By)
	slices.SortStableFunc(by, func(p, q run.Part) int {
		return cmp.Compare(math.Abs(q.Contribution()), math.Abs(p.Contribution()))
	})
	b.out.Table.Heads = entry.Heads("quantity", "estimate", "u", "sensitivity c", "c·u", "share")
	for _, p := range by {
		if p.Contribution() != 0 {
			b.source(p)
		}
	}
	b.out.Table.Add(entry.Name(b.s.Of.Name), nil, nil, nil, b.off(b.out.U, b.v.Unit), entry.Words("100 %"))
	if slices.ContainsFunc(by, func(p run.Part) bool { return p.Rows != nil && p.Contribution() != 0 }) && !b.Set.Added {
		b.correlated(by)
	}
}

// source adds a source: its estimate, its standard uncertainty, the sensitivity coefficient,
// the contribution and its share.
func (b *budget) source(p run.Part) {
	name, unit, si := b.SourceOf(b.EntryAt(b.line), p)
	slope := b.v.Unit.FromSIDifference(float64(p.Slope * (unit.ToSIFloat(1) - unit.ToSIFloat(0))))
	c := entry.Value{InUnit: slope, Unit: b.v.Unit, Figures: units.Figures{N: 4}, Rounding: b.Set.Rounding}
	if unit.SameAs(b.v.Unit) {
		c.Unit = units.One
	}
	sensitivity := c.Said()
	if unit.Text() != "1" && !unit.SameAs(b.v.Unit) {
		sensitivity = sensitivity.And(" per " + unit.Screen())
	}
	estimate := b.ValueIn(si, unit)
	estimate.Figures = units.Figures{}
	if u := math.Abs(unit.FromSIDifference(p.U)); u > 0 && estimate.InUnit != 0 { // to the same place
		estimate.Figures = estimate.Figures.ToPlace(estimate.InUnit, offFigures.LastPlace(u, b.Set.Rounding))
	}
	part := math.Abs(p.Contribution() / b.out.U)
	if !b.Set.Added {
		part *= part
	}
	share := units.FormatNumber(100*part, units.Figures{N: 2}, b.Set.Rounding, units.Screen) + " %"
	b.out.Table.Add(name, estimate.Said(), b.off(p.U, unit), sensitivity, b.off(math.Abs(p.Contribution()), b.v.Unit), entry.Words(share))
	b.out.Sources = append(b.out.Sources, entry.Source{Name: name.String(), Estimate: si, U: p.U, Sensitivity: p.Slope, Share: part})
}

// correlated says that sources go together, where the shares do not come to the whole.
func (b *budget) correlated(by []run.Part) {
	sum := 0.0
	for _, p := range by {
		sum += math.Pow(p.Contribution()/b.out.U, 2)
	}
	if math.Abs(sum-1) > 1e-3 {
		b.out.Told = append(b.out.Told, entry.Words("The shares don't come to 100 %: some of these come from the same readings, so they are off together."))
	}
}

// off is an uncertainty in a unit, to two figures.
func (b *budget) off(u float64, unit *units.Unit) entry.Said {
	return entry.Value{InUnit: math.Abs(unit.FromSIDifference(u)), Unit: unit, Figures: offFigures, Rounding: b.Set.Rounding}.Said()
}

// offFigures are those that uncertainties are shown to.
var offFigures = units.Figures{N: eval.UsualOff, Keep: true, Off: true}
