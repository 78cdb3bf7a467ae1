package curve

import (
	"math"
	"slices"

	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/lang/typeset"
	"steelyard/session/entry"
	"steelyard/session/eval"
	"steelyard/units"
)

// chart is an energy bar chart while it is worked out.
type chart struct {
	*eval.Line
	s *syntax.Bars
	// stages are the energies of each place or moment, and works what is done on the
	// system on the way there; both in coherent SI units. Largest is the size of the
	// greatest of all, by which a remainder is judged.
	stages  [][]float64
	works   []float64
	largest float64
	// of is what every entry is, once one is no bare 0.
	of  *run.Static
	out *entry.Bars
}

// Bars draws an energy bar chart and checks its books: what was there, and the
// work done on the system, is what is there.
func Bars(l *eval.Line, s *syntax.Bars) {
	c := &chart{Line: l, s: s}
	good := true
	for _, stage := range s.Stages {
		work := 0.0
		if stage.Work.X != nil {
			v, ok := c.energy(stage.Work.X)
			work, good = v, good && ok
		}
		var all []float64
		for _, e := range stage.Entries {
			v, ok := c.energy(e.X)
			all, good = append(all, v), good && ok
		}
		c.works, c.stages = append(c.works, work), append(c.stages, all)
	}
	margin, ok := c.margin()
	if !good || !ok {
		return
	}
	c.draw()
	l.Entry.Outcome = c.out
	c.books(margin)
}

// energy works out one entry; all must be of one dimension.
func (c *chart) energy(x syntax.Expr) (float64, bool) {
	name := typeset.Text(x)
	got := c.Eval(x, eval.Want{Lacking: name + " has no value yet.", Hint: "Define its symbols in lines above."})
	if !got.OK {
		return 0, false
	}
	c.largest = max(c.largest, got.Value, -got.Value)
	st := c.Planner.Static(got.Slot)
	if c.of == nil && st.Open == 0 {
		c.of = &st
	}
	if c.of == nil || c.Planner.SettleTo(got.Slot, c.of.Dim).Dim == c.of.Dim {
		return got.Value, true
	}
	c.Find(finding.New(finding.UnlikeDimensions, x.Span(), name+" is "+plan.Words(st)+"; the other entries are "+plan.Words(*c.of)+".",
		"Every bar is an energy: check for a factor that is missing in "+name+"."))
	return 0, false
}

// draw makes the bars, all in one unit.
func (c *chart) draw() {
	c.out = &entry.Bars{Unit: c.unit(), Holds: true}
	for i, stage := range c.s.Stages {
		one := entry.Stage{Name: stage.Name, Sum: *c.ValueIn(sum(c.stages[i]), c.out.Unit)}
		if stage.Work.X != nil {
			work := c.bar(stage.Work, c.works[i])
			one.Work = &work
		}
		for k, e := range stage.Entries {
			one.Bars = append(one.Bars, c.bar(e, c.stages[i][k]))
		}
		c.out.Stages = append(c.out.Stages, one)
	}
	c.out.Scale = c.tooShort()
}

// shortest is the least part of the longest bar that a drawing can show.
const shortest = 1e-3

// tooShort tells which bars can't be seen beside the longest.
func (c *chart) tooShort() entry.Said {
	var names []entry.Said
	note := func(b *entry.Bar, v float64) {
		if v != 0 && math.Abs(v) < shortest*c.largest {
			name := b.Value.Said()
			if of := entry.Math(b.Of); !of.Same(name) {
				name = entry.Say("… (…)", of, name)
			}
			if !slices.ContainsFunc(names, name.Same) {
				names = append(names, name)
			}
		}
	}
	for i := range c.out.Stages {
		s := &c.out.Stages[i]
		if s.Work != nil {
			note(s.Work, c.works[i])
		}
		for k := range s.Bars {
			note(&s.Bars[k], c.stages[i][k])
		}
	}
	if names == nil {
		return nil
	}
	return entry.Say("Too short to be seen at this scale, less than a thousandth of the longest bar: ….", listed(names))
}

// unit is that of the first entry that has one of its own.
func (c *chart) unit() *units.Unit {
	st := run.Static{}
	if c.of != nil {
		st = *c.of
	}
	for _, stage := range c.s.Stages {
		for _, e := range stage.Entries {
			if u := c.UnitWithin(e.X, st); u != nil {
				return u
			}
		}
	}
	return units.Preferred(st.Dim, st.Tag)
}

func (c *chart) bar(e syntax.Energy, v float64) entry.Bar {
	return entry.Bar{Of: e.Name(), Value: *c.ValueIn(v, c.out.Unit)}
}

// shown is an energy in the chart's unit.
func (c *chart) shown(v float64) entry.Said { return c.ValueIn(v, c.out.Unit).Said() }

func sum(all []float64) float64 {
	sum := 0.0
	for _, v := range all {
		sum += v
	}
	return sum
}
