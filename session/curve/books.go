package curve

import (
	"math"

	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/eval"
	"steelyard/units"
)

// margin is how far off a sum may be: what was said, as a part of the sum or as an
// energy, else a thousand-millionth of the largest entry.
//
// A tolerance in % is of the sum that was there before. Without one, what is not the same to
// nine figures differs: sums of the same numbers in another order agree to more than that.
func (c *chart) margin() (func(sum float64) float64, bool) {
	within := c.s.Within
	if within == nil {
		return func(float64) float64 { return run.Near * c.largest }, true
	}
	got := c.Eval(within, eval.Want{Lacking: "The margin has no value yet.", Hint: "Give its symbols values in lines above."})
	if !got.OK {
		return nil, false
	}
	v := math.Abs(got.Value)
	st := c.Planner.Static(got.Slot)
	switch {
	case st.Dim.IsOne() && st.Open == 0 && (c.of == nil || !c.of.Dim.IsOne()):
		return func(sum float64) float64 { return v * math.Abs(sum) }, true
	case c.of != nil && c.Planner.SettleTo(got.Slot, c.of.Dim).Dim == c.of.Dim:
		return func(float64) float64 { return v }, true
	}
	c.Find(finding.New(finding.UnlikeDimensions, within.Span(), "The margin is "+plan.Words(st)+".", "Write it in %, or as an energy."))
	return nil, false
}

// books compares the sum of every stage with the one before it.
//
// Each place is compared with the one before it, and not with the first: the finding then
// stands at the step where the energy was lost. What is uncertain may differ by as much as
// that; what both sums share, such as a mass, takes no part in it.
func (c *chart) books(margin func(sum float64) float64) {
	stages := c.out.Stages
	if len(stages) == 1 {
		c.out.Books = entry.Say("The sum at … is ….", quoted(stages[0]), stages[0].Sum.Said())
		return
	}
	c.out.Books = entry.Say("The energies add up: …", stages[0].Sum.Said())
	for i := 1; i < len(stages); i++ {
		if work := stages[i].Work; work != nil {
			made, _ := c.SlotIn(c.s.Stages[i].Work.X, c.places[i].due, c.out.Unit)
			c.out.Books = c.out.Books.And(" and … of work done make …", work.Value.Said(), made.Said())
		}
		at := &c.places[i]
		before, after := c.State.At(at.due), c.State.At(at.sum)
		off := c.Off(eval.At(c.Depends(at.sum), 0).Minus(eval.At(c.Depends(at.due), 0)))
		allowed := margin(before)
		if c.s.Within == nil {
			allowed += eval.SureBy * off
		}
		if math.Abs(after-before) > allowed {
			c.out.Holds = false
			c.differ(i, before, after, off)
		}
	}
	within := entry.Words(" in all")
	if c.s.Within != nil {
		within = within.And(", within " + syntax.PrintExpr(c.s.Within))
	}
	c.out.Books = c.out.Books.And("….", within)
	if !c.out.Holds {
		c.out.Books = entry.Words("The energies don't add up.")
	}
}

// differ says of a stage by how much its sum is off, to more figures than the chart may
// have: else what differs could look the same. What differs may be uncertain itself.
func (c *chart) differ(i int, before, after, off float64) {
	first, stage := c.out.Stages[i-1], c.out.Stages[i]
	was, where := c.shown(first.Sum.SI, first.Sum.U), quoted(first)
	said := entry.Say("the sum is … at …", was, where)
	if stage.Work != nil {
		said = entry.Say("… at … and … of work done on the system make …", was, where, c.shown(stage.Work.Value.SI, stage.Work.Value.U), c.shown(before, c.unsure(c.places[i].due)))
	}
	word := " more than there should be"
	if after < before {
		word = " less than there should be"
	}
	part := ""
	if before != 0 {
		part = " (" + units.FormatNumber(100*math.Abs((after-before)/before), units.Figures{N: 3}, c.Set.Rounding, units.Screen) + " %)"
	}
	c.Find(finding.New(finding.BooksDiffer, c.s.Stages[i].NameAt, entry.Say("The energies don't add up: …, and … at …. That is …"+word+part+".",
		said, c.shown(after, stage.Sum.U), quoted(stage), c.shown(math.Abs(after-before), off)).String(),
		"Is an energy missing, counted twice, or of the wrong sign? If work is done on the system, add `with work W`."))
}

// unsure is the standard uncertainty of a slot.
//
// Entries that share a mass vary together, so that it is no root of a sum of squares.
func (c *chart) unsure(s run.Slot) float64 { return c.Off(eval.At(c.Depends(s), 0)) }

func quoted(s entry.Stage) entry.Said { return entry.Words("\"" + s.Name + "\"") }
