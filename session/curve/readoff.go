package curve

import (
	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/eval"
)

// ReadOff works out a slope or an area that is a line by itself, like any result.
// What is wrong with its places is said before anything of the curve.
//
// With a range of the wrong kind, every term of the curve would be of a wrong kind too, and
// each would be told: the cause is the range, so that is looked at first.
func ReadOff(l *eval.Line, d *plan.Def, x syntax.Expr, in syntax.UnitText) {
	of, against, places := readOff(x)
	var at run.Static
	alike, good := true, true
	for i, place := range places {
		got := l.Eval(place, eval.Want{Trial: true, Lacking: noEndYet, Hint: endHint})
		if good = good && got.OK; !got.OK {
			l.Fail(d, got.Root)
		}
		alike = alike && (i == 0 || at.Open != 0 || at.Dim == got.Static.Dim)
		at = got.Static
	}
	if !good {
		return
	}
	got := l.Eval(x, eval.Want{Shown: true, Lists: true, Name: d.Name, In: in})
	switch {
	case got.Slot == run.NoSlot && alike:
		curveHint(l, syntax.Holds(of, against), against, at)
	case got.OK && got.Static.Absent:
		got.OK = false
		l.Find(finding.New(finding.NotWorkedOut, of.Span(), noCurveYet, valueHint(l, of)))
	}
	if r := l.Answer(d, d.Name, x, got); r != nil {
		r.Shows, r.Records = true, true
		if l.Planner.OfReadings(of, against) || places == nil {
			r.Notes = append(r.Notes, byPieces(x))
		}
	}
}

// byPieces says how a slope or an area of readings is found.
//
// Between readings a slope is a choice, and the choice must be known to who uses the number.
func byPieces(x syntax.Expr) entry.Said {
	if _, slope := x.(*syntax.SlopeOf); slope {
		return entry.Words("of the straight line between the readings on both sides")
	}
	return entry.Words("by trapezoids between the readings")
}

// readOff is the curve of a slope or an area, what it is against, and where it is
// looked at.
//
// All of a list, the area against its own readings, has no places.
func readOff(x syntax.Expr) (of syntax.Expr, against string, places []syntax.Expr) {
	if s, ok := x.(*syntax.SlopeOf); ok {
		return s.X, s.Var.Name, []syntax.Expr{s.Place}
	}
	a := x.(*syntax.AreaUnder)
	if a.All {
		return a.X, a.Var.Name, nil
	}
	return a.X, a.Var.Name, []syntax.Expr{a.From, a.To}
}
