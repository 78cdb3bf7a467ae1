package check

import (
	"math"

	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/eval"
	"steelyard/units"
)

// Compare says how far a value is from another: as a part of that, as a difference, and in
// standard uncertainties of the difference. What both depend on is in it but once.
func Compare(l *eval.Line, s *syntax.Compare) {
	both, ok := planned(l, s.X, s.With)
	if !ok {
		return
	}
	for _, side := range []struct {
		x  syntax.Expr
		of plan.Compiled
	}{{s.X, both.left}, {s.With, both.right}} {
		if side.of.Static.Shape != run.Scalar {
			l.Find(plan.OneValue(side.x, side.of.Static))
			return
		}
	}
	if !both.run(l, "The comparison", s.X) {
		return
	}
	unit := checkUnit(l, s.X, s.With, both)
	left, ok1 := l.NewValue("", s.X, both.left.Slot, unit)
	right, ok2 := l.NewValue("", s.With, both.right.Slot, unit)
	if !ok1 || !ok2 {
		return
	}
	if by := left.SI - right.SI; !ops.Finite(by) {
		l.Find(finding.New(finding.OutOfRange, s.X.Span().Join(s.With.Span()), "The difference is too large: numbers here go to 10^308.", "Check the powers and exponents."))
		return
	}
	rows := entry.Lines{apart(l, s, left, right)}
	u := l.Off(eval.At(l.Depends(both.left.Slot), 0).Minus(eval.At(l.Depends(both.right.Slot), 0)))
	if u > 0 && u-u == 0 { // of equal ones there is none, and where it can't be told a finding says so
		rows = append(rows, surely(l, left.SI-right.SI, u, unit))
	}
	l.Entry.Outcome = rows
}

// apart says by how much a value is more or less than another.
func apart(l *eval.Line, s *syntax.Compare, a, b entry.Value) entry.Said {
	by, than := a.SI-b.SI, entry.Math(s.With)
	word := " more than "
	switch {
	case math.Abs(by) <= near*math.Abs(b.SI):
		return entry.Say("… and … are equal: …", entry.Math(s.X), than, a.Said())
	case by < 0:
		word = " less than "
	}
	said := entry.Math(s.X)
	if !syntax.IsPlain(s.X) {
		said = entry.Say("… is …", said, a.Said()).And(",")
	} else {
		said = said.And(" is")
	}
	difference := l.Told(l.Set.Figures, math.Abs(by), a.Unit.OfDifference())
	part, held := percent(math.Abs(by), b.SI)
	if !held || a.Unit.Affine() { // a part of a temperature says nothing
		return said.And(" …"+word+"…", difference, than)
	}
	said = said.And(" …"+word+"…", l.Told(units.Figures{N: 3}, part/100, units.Of("%")), than)
	if !syntax.IsPlain(s.With) {
		said = said.And(" = …", b.Said())
	}
	return said.And(": the difference is …", difference)
}

// percent is what part of a size a difference is, in %, and whether a number can hold that.
func percent(by, of float64) (float64, bool) {
	part, held := ops.Ratio(by, math.Abs(of))
	return part * 100, held && ops.Finite(part*100)
}

// surely says how many standard uncertainties a difference is.
func surely(l *eval.Line, by, u float64, unit *units.Unit) entry.Said {
	times, held := ops.Ratio(math.Abs(by), u)
	size := l.Told(units.Figures{N: 2, Keep: true}, u, unit.OfDifference())
	if !held {
		return entry.Say("one standard uncertainty of the difference is …", size)
	}
	count := l.Told(units.Figures{N: 2}, times, units.One)
	said := entry.Say("that is … standard uncertainties of the difference, of … each", count, size)
	if count.String() == "1" {
		said = entry.Say("that is one standard uncertainty of the difference, …", size)
	}
	if times <= eval.SureBy {
		return said.And(": they agree within two")
	}
	return said.And(": they differ by more than two")
}
