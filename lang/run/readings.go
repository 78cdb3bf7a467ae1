package run

import (
	"math"

	"steelyard/lang/ops"
	"steelyard/units/matrix"
)

// WrittenList is the field A of an ops.Join that was written as a list, in square brackets.
const WrittenList Slot = 1

// scatter is the source that a mean or a parameter of a fit has for what its readings are off;
// none where they are off by nothing.
//
// It is one source however many lines read the mean, so that what is worked out from two of
// them varies together.
func (m *mainUnsure) scatter(s Slot) traced {
	if all, ok := m.knows(s); ok {
		return all[0]
	}
	p := Part{Source: Source{Slot: s}}
	if of := m.p.Main.Instrs[s].A; m.p.Main.Instrs[of].Op == ops.Fit {
		p.Rows = m.fitRows(of)
	} else {
		p.Rows = m.meanRows(of)
	}
	for i := range p.Rows {
		p.U = math.Hypot(p.U, matrix.Norm(p.Rows[i].Off))
	}
	out := traced{}
	if p.U > 0 {
		out = m.tape.source(p, 0)
	}
	m.learn(s, []traced{out})
	return out
}

// meanRows are how the readings scatter that a mean is of: nil of a list that is none of
// readings, or of which the readings have uncertainties of their own.
//
// The scatter of readings shows what made them differ (JCGM 100:2008, 4.2). Where each was
// written with its own uncertainty that is what they say of themselves, and counting both
// would count the same thing twice.
func (m *mainUnsure) meanRows(list Slot) []Rows {
	x := m.st.Elements(list)
	of, ok := m.origin(list, map[Slot]bool{})
	if !ok || len(x) < 2 || m.ownSources(list) {
		return nil
	}
	r := Rows{rowsOf: rowsOf{of, byMean}, Off: make([]float64, len(x)), Freedom: len(x) - 1}
	mean, n := MeanOfNumbers(x), float64(len(x))
	for i, v := range x {
		r.Off[i] = (v - mean) / math.Sqrt(n*(n-1))
	}
	return []Rows{r}
}

// origin is the slot of the readings that a list was worked out from value by value; its own
// where it was from several that don't go together, or in another order. It is false for a
// list of no readings: one that was written as values in the brackets of a function.
//
// Two means go together if their readings do: T and T^2 of one table have their rows in common,
// and a sorted list has lost its rows.
func (m *mainUnsure) origin(list Slot, seen map[Slot]bool) (Slot, bool) {
	in, own := &m.p.Main.Instrs[list], m.p.Main.span(list).width
	switch {
	case in.Op == ops.Data && in.B != 0:
		return in.B - 1, true // a column: its table is that of the first one
	case in.Op == ops.Data, in.Op == ops.Join && in.A == WrittenList:
		return list, true
	case seen[list]:
		return 0, false
	}
	seen[list] = true
	found, out := false, Slot(0)
	m.p.Reads().Main(list, func(s Slot) {
		of, ok := m.origin(s, seen)
		switch {
		case !ok || m.p.Main.span(of).width != own && own > 1:
		case !found:
			found, out = true, of
		case of != out:
			out = list
		}
	})
	if in.Op == ops.Sort || in.Op == ops.Steps {
		out = list
	}
	return out, found
}

// ownSources tells whether a list has elements that depend on a source that others don't
// depend on.
//
// A scale that all readings share is no uncertainty of one: it does not make them scatter.
func (m *mainUnsure) ownSources(list Slot) bool {
	all := m.at(list)
	of := map[Source]int{}
	for _, n := range all {
		for _, p := range m.tape.unsure(n).By {
			of[p.Source]++
		}
	}
	for _, n := range of {
		if n < len(all) {
			return true
		}
	}
	return false
}
