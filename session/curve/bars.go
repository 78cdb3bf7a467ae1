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

// energy is one energy while the books are made.
type energy struct {
	name  string
	value float64
}

// Bars draws an energy bar chart and checks its books: what was there, and the
// work done on the system, is what is there.
func Bars(l *eval.Line, s *syntax.Bars) {
	stages := make([][]energy, len(s.Stages))
	var first *run.Static
	good := true
	for i, stage := range s.Stages {
		for _, x := range stage.Entries {
			v, ok := energyOf(l, x, &first)
			good = good && ok
			stages[i] = append(stages[i], v)
		}
	}
	var work *energy
	if s.Work != nil {
		v, ok := energyOf(l, s.Work, &first)
		good = good && ok
		work = &v
	}
	margin, ok := barMargin(l, s, first)
	if !good || !ok {
		return
	}
	b := &entry.Bars{Unit: barUnit(l, s, first), Holds: true}
	fill(l, b, s, stages, work)
	l.Entry.Outcome = b
	books(l, s, b, stages, work, margin)
}

// energyOf works out one energy; all must be of one dimension.
func energyOf(l *eval.Line, x syntax.Expr, first **run.Static) (energy, bool) {
	v := energy{name: syntax.ScreenExpr(x)}
	c := l.Eval(x, eval.Want{Lacking: v.name + " has no value yet.", Hint: "Give its symbols values in lines above."})
	if !c.OK {
		return v, false
	}
	v.value = c.Value
	st := l.Planner.Static(c.Slot)
	if *first == nil && st.Open == 0 {
		*first = &st
	}
	if *first != nil {
		if st = l.Planner.SettleTo(c.Slot, (*first).Dim); st.Dim != (*first).Dim {
			l.Find(finding.New(finding.UnlikeDimensions, x.Span(), v.name+" is "+plan.Words(st)+"; the other entries are "+plan.Words(**first)+".",
				"Every bar of a chart is an energy: look for a factor that "+v.name+" lacks."))
			return v, false
		}
	}
	return v, true
}

// barUnit is the unit of the whole chart: that of the first entry that has one
// of its own.
func barUnit(l *eval.Line, s *syntax.Bars, first *run.Static) *units.Unit {
	st := run.Static{}
	if first != nil {
		st = *first
	}
	for _, stage := range s.Stages {
		for _, x := range stage.Entries {
			if u := rangeUnit(l, x, st); u != nil {
				return u
			}
		}
	}
	return units.Preferred(st.Dim, st.Tag)
}

// fill makes the bars, each in the chart's unit.
func fill(l *eval.Line, b *entry.Bars, s *syntax.Bars, stages [][]energy, work *energy) {
	bar := func(v energy) entry.Bar {
		return entry.Bar{Name: v.name, Value: b.Unit.FromSI(v.value), Shown: l.ShownIn(v.value, b.Unit)}
	}
	for i, stage := range stages {
		one := entry.Stage{Name: s.Stages[i].Name, Sum: l.ShownIn(total(stage), b.Unit)}
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

func total(all []energy) float64 {
	sum := 0.0
	for _, v := range all {
		sum += v.value
	}
	return sum
}

// barMargin is how far the books may be off, if that was said; else a
// thousand-millionth of the largest entry, and nil.
func barMargin(l *eval.Line, s *syntax.Bars, first *run.Static) (func(sum float64) float64, bool) {
	if s.Within == nil {
		return nil, true
	}
	c := l.Eval(s.Within, eval.Want{Lacking: "The tolerance has no value yet.", Hint: "Give its symbols values in lines above."})
	if !c.OK {
		return nil, false
	}
	v := math.Abs(c.Value)
	st := l.Planner.Static(c.Slot)
	switch {
	case st.Dim.IsOne() && st.Open == 0 && (first == nil || !first.Dim.IsOne()):
		return func(sum float64) float64 { return v * math.Abs(sum) }, true
	case first != nil && l.Planner.SettleTo(c.Slot, first.Dim).Dim == first.Dim:
		return func(float64) float64 { return v }, true
	}
	l.Find(finding.New(finding.UnlikeDimensions, s.Within.Span(), "The tolerance is "+plan.Words(st)+".", "Give a percentage, or an energy."))
	return nil, false
}

// books compares the sum of every stage with the one before it.
func books(l *eval.Line, s *syntax.Bars, b *entry.Bars, stages [][]energy, work *energy, margin func(float64) float64) {
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
			made := l.ShownIn(before, b.Unit)
			said = b.Stages[i-1].Sum + " at " + quoted(s.Stages[i-1].Name) + " and " + b.Work.Shown + " of work done on the system make " + made
			b.Books += " and " + b.Work.Shown + " of work done make " + made
		}
		off := run.Near * largest
		if margin != nil {
			off = margin(before)
		}
		if after := total(stages[i]); math.Abs(after-before) > off {
			b.Holds = false
			open(l, s.Stages[i], b, b.Stages[i].Sum, said, before, after)
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
func largestOf(stages [][]energy, work *energy) float64 {
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
func open(l *eval.Line, stage syntax.Stage, b *entry.Bars, sum, said string, before, after float64) {
	word := " more than there should be"
	if after < before {
		word = " less than there should be"
	}
	part := ""
	if before != 0 {
		part = " (" + units.FormatNumber(100*math.Abs((after-before)/before), units.Figures{N: 3}, l.Set.Rounding, units.Screen) + " %)"
	}
	l.Find(finding.New(finding.BooksDiffer, stage.NameAt, "The books do not balance: "+said+", and "+sum+" at "+quoted(stage.Name)+". That is "+
		l.ShownIn(math.Abs(after-before), b.Unit)+word+part+".",
		"Look for an energy that is missing, counted twice or of the wrong sign, or for work done on the system (with work W)."))
}

func quoted(name string) string { return "\"" + name + "\"" }
