package session

import (
	"math"

	"steelyard/lang/algebra"
	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/units"
)

// barValue is one energy while the books are made.
type barValue struct {
	name  string
	value float64
}

// bars draws an energy bar chart and checks its books: what was there, and the
// work done on the system, is what is there.
func (w *work) bars(s *syntax.Bars) {
	stages := make([][]barValue, len(s.Stages))
	var first *run.Static
	good := true
	for i, stage := range s.Stages {
		for _, x := range stage.Entries {
			v, ok := w.barValue(x, &first)
			good = good && ok
			stages[i] = append(stages[i], v)
		}
	}
	var work *barValue
	if s.Work != nil {
		v, ok := w.barValue(s.Work, &first)
		good = good && ok
		work = &v
	}
	margin, ok := w.barMargin(s, first)
	if !good || !ok {
		return
	}
	b := &entry.Bars{Unit: w.barUnit(s, first), Holds: true}
	w.fill(b, s, stages, work)
	w.e.Outcome = b
	w.books(s, b, stages, work, margin)
}

// barValue works out one energy; all must be of one dimension.
func (w *work) barValue(x syntax.Expr, first **run.Static) (barValue, bool) {
	v := barValue{name: algebra.Display(x)}
	c := w.Eval(x, Want{Lacking: v.name + " has no value yet.", Hint: "Give its symbols values in lines above."})
	if !c.OK {
		return v, false
	}
	v.value = c.Value
	st := w.planner.Static(c.Slot)
	if *first == nil && st.Open == 0 {
		*first = &st
	}
	if *first != nil {
		if st = w.planner.SettleTo(c.Slot, (*first).Dim); st.Dim != (*first).Dim {
			w.find(finding.New(finding.UnlikeDimensions, x.Span(), v.name+" is "+plan.Words(st)+"; the other entries are "+plan.Words(**first)+".",
				"Every bar of a chart is an energy: look for a factor that "+v.name+" lacks."))
			return v, false
		}
	}
	return v, true
}

// barUnit is the unit of the whole chart: that of the first entry that has one
// of its own.
func (w *work) barUnit(s *syntax.Bars, first *run.Static) *units.Unit {
	st := run.Static{}
	if first != nil {
		st = *first
	}
	for _, stage := range s.Stages {
		for _, x := range stage.Entries {
			if u := w.rangeUnit(x, st); u != nil {
				return u
			}
		}
	}
	return units.Preferred(st.Dim, st.Tag)
}

// fill makes the bars, each in the chart's unit.
func (w *work) fill(b *entry.Bars, s *syntax.Bars, stages [][]barValue, work *barValue) {
	bar := func(v barValue) entry.Bar {
		return entry.Bar{Name: v.name, Value: b.Unit.FromSI(v.value), Shown: w.shownIn(v.value, b.Unit)}
	}
	for i, stage := range stages {
		one := entry.Stage{Name: s.Stages[i].Name, Sum: w.shownIn(total(stage), b.Unit)}
		for _, v := range stage {
			one.Bars = append(one.Bars, bar(v))
		}
		b.Stages = append(b.Stages, one)
	}
	if work != nil {
		own := bar(*work)
		b.Work = &own
	}
}

func total(all []barValue) float64 {
	sum := 0.0
	for _, v := range all {
		sum += v.value
	}
	return sum
}

// barMargin is how far the books may be off, if that was said; else a
// thousand-millionth of the largest entry, and nil.
func (w *work) barMargin(s *syntax.Bars, first *run.Static) (func(sum float64) float64, bool) {
	if s.Within == nil {
		return nil, true
	}
	c := w.Eval(s.Within, Want{Lacking: "The tolerance has no value yet.", Hint: "Give its symbols values in lines above."})
	if !c.OK {
		return nil, false
	}
	v := math.Abs(c.Value)
	st := w.planner.Static(c.Slot)
	switch {
	case st.Dim.IsOne() && st.Open == 0 && (first == nil || !first.Dim.IsOne()):
		return func(sum float64) float64 { return v * math.Abs(sum) }, true
	case first != nil && w.planner.SettleTo(c.Slot, first.Dim).Dim == first.Dim:
		return func(float64) float64 { return v }, true
	}
	w.find(finding.New(finding.UnlikeDimensions, s.Within.Span(), "The tolerance is "+plan.Words(st)+".", "Give a percentage, or an energy."))
	return nil, false
}

// books compares the sum of every stage with the one before it.
func (w *work) books(s *syntax.Bars, b *entry.Bars, stages [][]barValue, work *barValue, margin func(float64) float64) {
	if len(stages) == 1 && work == nil {
		b.Books = "The sum at " + quoted(s.Stages[0].Name) + " is " + b.Stages[0].Sum + "."
		return
	}
	largest := largestOf(stages, work)
	b.Books = "The books balance: " + b.Stages[0].Sum
	for i := 1; i < len(stages); i++ {
		before := total(stages[i-1])
		said := "the sum is " + b.Stages[i-1].Sum + " at " + quoted(s.Stages[i-1].Name)
		if work != nil && i == len(stages)-1 {
			before += work.value
			made := w.shownIn(before, b.Unit)
			said = b.Stages[i-1].Sum + " at " + quoted(s.Stages[i-1].Name) + " and " + b.Work.Shown + " of work done on the system make " + made
			b.Books += " and " + b.Work.Shown + " of work done make " + made
		}
		off := run.Near * largest
		if margin != nil {
			off = margin(before)
		}
		if after := total(stages[i]); math.Abs(after-before) > off {
			b.Holds = false
			w.open(s.Stages[i], b, b.Stages[i].Sum, said, before, after)
		}
	}
	b.Books += " in all"
	if s.Within != nil {
		b.Books += ", within " + syntax.PrintExpr(s.Within)
	}
	b.Books += "."
	if !b.Holds {
		b.Books = "The books do not balance."
	}
}

// largestOf is the size of the largest entry, by which a remainder is judged.
func largestOf(stages [][]barValue, work *barValue) float64 {
	largest := 0.0
	for _, stage := range stages {
		for _, v := range stage {
			largest = math.Max(largest, math.Abs(v.value))
		}
	}
	if work != nil {
		largest = math.Max(largest, math.Abs(work.value))
	}
	return largest
}

// open says of a stage by how much its sum is off.
func (w *work) open(stage syntax.Stage, b *entry.Bars, sum, said string, before, after float64) {
	word := " more than there should be"
	if after < before {
		word = " less than there should be"
	}
	part := ""
	if before != 0 {
		part = " (" + units.FormatNumber(100*math.Abs((after-before)/before), units.Figures{N: 3}, w.set.rounding, units.Screen) + " %)"
	}
	w.find(finding.New(finding.BooksDiffer, stage.NameAt, "The books do not balance: "+said+", and "+sum+" at "+quoted(stage.Name)+". That is "+
		w.shownIn(math.Abs(after-before), b.Unit)+word+part+".",
		"Look for an energy that is missing, counted twice or of the wrong sign, or for work done on the system (with work W)."))
}

func quoted(name string) string { return "\"" + name + "\"" }
