package curve

import (
	"math"
	"slices"
	"strconv"

	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/lang/typeset"
	"steelyard/session/entry"
	"steelyard/session/eval"
	"steelyard/units"
)

// chart is an energy bar chart while it is worked out.
//
// A bare 0 is an energy of any unit, so that the kind of the chart is told by the first entry
// that is none.
type chart struct {
	*eval.Line
	s *syntax.Bars
	// places are those of the chart with their energies.
	places []place
	// largest is the size of the greatest energy in coherent SI units, by which a remainder
	// is judged.
	largest float64
	// of is what every entry is, once one is no bare 0.
	of  *run.Static
	out *entry.Bars
}

// place is one place or moment of a chart.
type place struct {
	energies []run.Slot
	sum      run.Slot
	// work is what is done on the system on the way there, and due what there then should
	// be: the sum of the place before and the work, if there is any.
	work, due run.Slot
}

// Bars draws an energy bar chart and checks its books: what was there, and the
// work done on the system, is what is there.
//
// All entries are worked out before any is refused. A chart whose books differ is drawn all
// the same: the drawing is what shows where.
func Bars(l *eval.Line, s *syntax.Bars) {
	c := &chart{Line: l, s: s, places: make([]place, len(s.Stages))}
	good := true
	for i, stage := range s.Stages {
		at := &c.places[i]
		if at.work = run.NoSlot; stage.Work.X != nil {
			s, ok := c.energy(stage.Work.X)
			at.work, good = s, good && ok
		}
		for _, e := range stage.Entries {
			s, ok := c.energy(e.X)
			at.energies, good = append(at.energies, s), good && ok
		}
	}
	margin, ok := c.margin()
	if !good || !ok || !c.add() || !c.draw() {
		return
	}
	l.Entry.Outcome = c.out
	c.books(margin)
}

// energy works out one entry; all must be of one dimension.
func (c *chart) energy(x syntax.Expr) (run.Slot, bool) {
	name := typeset.Text(x)
	got := c.Eval(x, eval.Want{Lacking: name + " has no value yet.", Hint: "Give its symbols values in lines above."})
	if !got.OK {
		return run.NoSlot, false
	}
	c.largest = max(c.largest, got.Value, -got.Value)
	st := c.Planner.Static(got.Slot)
	if c.of == nil && st.Open == 0 {
		c.of = &st
	}
	if c.of == nil || c.Planner.SettleTo(got.Slot, c.of.Dim).Dim == c.of.Dim {
		return got.Slot, true
	}
	c.Find(finding.New(finding.UnlikeDimensions, x.Span(), name+" is "+plan.Words(st)+"; the other bars are "+plan.Words(*c.of)+".",
		"All bars must be energies. Is a factor missing in "+name+"?"))
	return run.NoSlot, false
}

// add works out the sums, as results like any other; false where one is too large.
//
// A sum is an instruction of the program, so that its uncertainty knows what the entries
// share.
func (c *chart) add() bool {
	plus := func(a, b run.Slot) run.Slot {
		return c.Planner.Emit(run.Instr{Op: ops.Add, A: a, B: b}, c.Planner.Static(a))
	}
	for i := range c.places {
		at := &c.places[i]
		at.sum = at.energies[0]
		for _, s := range at.energies[1:] {
			at.sum = plus(at.sum, s)
		}
		at.due = c.places[max(i-1, 0)].sum
		if at.work != run.NoSlot {
			at.due = plus(at.due, at.work)
		}
	}
	c.CatchUp()
	for i, at := range c.places {
		for _, s := range [...]run.Slot{at.sum, at.due} {
			if c.State.Failure(s).Kind != ops.NoFault {
				c.Find(finding.New(finding.OutOfRange, c.s.Stages[i].NameAt, "The sum at \""+c.s.Stages[i].Name+"\" is too large: numbers here go to 10^308.", "Check the powers and exponents."))
				return false
			}
		}
	}
	return true
}

// draw makes the bars, all in one unit; false where one is too large in it.
func (c *chart) draw() bool {
	c.out = &entry.Bars{Unit: c.unit(), Holds: true}
	good := true
	value := func(x syntax.Expr, s run.Slot) entry.Value {
		v, ok := c.SlotIn(x, s, c.out.Unit)
		good = good && ok
		return v
	}
	for i, stage := range c.s.Stages {
		at := &c.places[i]
		one := entry.Stage{Name: stage.Name, Sum: value(stage.Entries[0].X, at.sum)}
		if stage.Work.X != nil {
			one.Work = &entry.Bar{Of: stage.Work.Name(), Value: value(stage.Work.X, at.work)}
		}
		for k, e := range stage.Entries {
			bar := entry.Bar{Of: e.Name(), Value: value(e.X, at.energies[k])}
			c.called(e, bar.Value.SI)
			one.Bars = append(one.Bars, bar)
		}
		c.out.Stages = append(c.out.Stages, one)
	}
	c.out.Scale = c.tooShort()
	return good
}

// shortest is the least part of the longest bar that a drawing can show.
const shortest = 1e-3

// tooShort tells which bars can't be seen beside the longest.
//
// A bar that is too short to be seen looks like one of 0, which would be another claim.
func (c *chart) tooShort() entry.Said {
	var names []entry.Said
	note := func(b *entry.Bar) {
		if v := math.Abs(b.Value.SI); v != 0 && v < shortest*c.largest {
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
			note(s.Work)
		}
		for k := range s.Bars {
			note(&s.Bars[k])
		}
	}
	if names == nil {
		return nil
	}
	return entry.Say("Too short to be seen at this scale, less than a thousandth of the longest bar: ….", listed(names))
}

// unit is that of the first entry that has one of its own.
//
// All bars are in one unit, or their lengths could not be compared.
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

// called cautions where the name at a bar is a quantity of the page that has another value:
// K = U where K is given. Nothing is left of it in another place, often: K = 0 J.
func (c *chart) called(e syntax.Energy, v float64) {
	n := e.Called
	if n == nil || v == 0 {
		return
	}
	d, ok := c.Planner.Find(n)
	if !ok || d.Kind != plan.Quantity || d.Line == 0 || d.Slot == run.NoSlot {
		return
	}
	if is, known := c.State.Value(d.Slot); known && math.Abs(is-v) > 1e-9*c.largest {
		c.Find(finding.New(finding.GivenAgain, n.At, n.Name+" is "+c.Page.Shown(d, units.Screen)+" in line "+strconv.Itoa(d.Line)+"; the bar of this name has another value.",
			"Call the bar by another name."))
	}
}

// shown is an energy in the chart's unit, with its uncertainty if it has one.
func (c *chart) shown(v, u float64) entry.Said { return c.UnsureIn(v, u, c.out.Unit).Said() }
