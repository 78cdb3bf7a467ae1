package work

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"

	"steelyard/lang/finding"
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
	n := &syntax.Name{At: s.Of.NameAt, Name: s.Of.Name}
	d, ok := l.Planner.Find(n)
	if !ok || d.Line == 0 {
		l.Find(l.Planner.Unknown(n, l.Entry.Text)...)
		return
	}
	l.Entry.Uses = append(l.Entry.Uses, d.Line)
	v := l.ValueOf(d)
	switch {
	case d.Failed():
		l.Find(finding.New(finding.NotWorkedOut, s.Of.NameAt, "not worked out: needs "+s.Of.Name+" (line "+strconv.Itoa(d.Line)+")", ""))
		return
	case v == nil || v.U == 0:
		l.Entry.Outcome = entry.Lines{s.Of.Name + " has no uncertainty: no given that it depends on was written with one, as in 0.842 ± 0.002 m."}
		return
	}
	of := l.Depends()(d.Slot)
	slices.SortStableFunc(of.By, func(a, b run.Part) int {
		return cmp.Compare(math.Abs(b.Contribution()), math.Abs(a.Contribution()))
	})
	rows := [][]string{{"quantity", "estimate", "u", "sensitivity c", "c·u", "share"}}
	share := func(u float64) string {
		part := float64(u/v.U) * (u / v.U)
		return units.FormatNumber(100*part, units.Figures{N: 2}, l.Set.Rounding, units.Screen) + " %"
	}
	for _, p := range of.By {
		if p.Contribution() != 0 {
			c := math.Abs(p.Contribution())
			rows = append(rows, append(source(l, d.Line, v, p), shownOff(l, c, v.Unit), share(c)))
		}
	}
	rows = append(rows, []string{s.Of.Name, "", "", "", shownOff(l, v.U, v.Unit), "100 %"})
	l.Entry.Outcome = columns(rows)
}

// columns sets rows of words in columns.
func columns(rows [][]string) entry.Lines {
	wide := make([]int, len(rows[0]))
	for _, row := range rows {
		for i, cell := range row {
			wide[i] = max(wide[i], len([]rune(cell)))
		}
	}
	out := make(entry.Lines, len(rows))
	for n, row := range rows {
		for i, cell := range row {
			out[n] += cell + strings.Repeat(" ", wide[i]-len([]rune(cell))+3)
		}
		out[n] = strings.TrimRight(out[n], " ")
	}
	return out
}

// source is the quantity, the estimate, its standard uncertainty and the sensitivity
// coefficient of a part.
func source(l *eval.Line, line int, v *entry.Value, p run.Part) []string {
	name, unit := l.SourceOf(l.EntryAt(line), p.Of)
	slope := v.Unit.FromSIDifference(float64(p.Slope * (unit.ToSIFloat(1) - unit.ToSIFloat(0))))
	coefficient := units.FormatQuantity(slope, v.Unit, units.Figures{N: 4}, l.Set.Rounding, units.Screen)
	if unit.Text() != "1" {
		coefficient += " per " + unit.Screen()
	}
	if unit.SameAs(v.Unit) {
		coefficient = units.FormatNumber(slope, units.Figures{N: 4}, l.Set.Rounding, units.Screen)
	}
	return []string{name, units.FormatQuantity(unit.FromSI(p.Of.K), unit, units.Figures{}, l.Set.Rounding, units.Screen),
		shownOff(l, p.Of.Uncertainty(), unit),
		coefficient}
}

// shownOff is an uncertainty in a unit, to two figures.
func shownOff(l *eval.Line, u float64, unit *units.Unit) string {
	return units.FormatQuantity(math.Abs(unit.FromSIDifference(u)), unit, units.Figures{N: 2, Keep: true}, l.Set.Rounding, units.Screen)
}
