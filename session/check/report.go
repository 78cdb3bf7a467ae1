package check

import (
	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/eval"
	"steelyard/units"
)

// Report shows an answer of the part in the unit and with the figures asked. What
// it shows is what `that` means below.
func Report(l *eval.Line, s *syntax.Report) {
	name := ""
	if n, ok := s.X.(*syntax.Name); ok {
		name = n.Name
	}
	if s.Sign && signOfTemperature(l, s.X, "report sign of ("+syntax.PrintExpr(s.X)+" - ", ")") {
		return
	}
	got := l.Eval(s.X, eval.Want{Shown: true, Name: name, In: s.In, Lists: !s.Sign})
	if s.Sign && got.OK && !got.Static.Absent {
		l.Entry.Outcome = entry.Rows(signWord(got.Value))
		return
	}
	if !hasForm(l, s, got) {
		l.Fail(eval.Unnamed(), nil)
		return
	}
	r := l.Answer(eval.Unnamed(), name, s.X, got)
	if r == nil {
		return
	}
	r.Shows = true
	inForm(l, s, &r.Values[0])
	if s.Figures > 0 {
		r.Values[0].Figures = units.Figures{N: s.Figures, Keep: true}
		if list := r.Values[0].List; list != nil {
			list.Figures = nil
		}
		if v := &r.Values[0]; v.U > 0 || v.List != nil && v.List.U != nil {
			r.Notes = append(r.Notes, entry.Words("an answer with an uncertainty is rounded to the place of that, not to "+eval.Counted(s.Figures)))
		}
		moreFigures(l, s, got)
	}
}

// hasForm tells whether a value has the form that is asked for, and says so where not.
func hasForm(l *eval.Line, s *syntax.Report, got eval.Got) bool {
	switch text := syntax.PrintExpr(s.X); {
	case s.Form == syntax.UsualForm || !got.OK:
	case got.Static.Shape == run.Vectors:
		l.Find(finding.New(finding.VectorOrNumber, s.X.Span(), "`"+text+"` is a list of vectors; `as` is for one vector.", "Leave out `as` and the words after it."))
		return false
	case got.Static.Shape != run.Vector:
		l.Find(finding.New(finding.VectorOrNumber, s.X.Span(), "`"+text+"` is "+plan.ShapeName(got.Static)+"; only a vector has components and a direction.", "Leave out `as` and the words after it."))
		return false
	case s.Form == syntax.AsPolar && got.Static.Width > 2:
		l.Find(finding.New(finding.VectorOrNumber, s.X.Span(), plan.NoOneAngle, "Report its components, or |"+text+"|."))
		return false
	}
	return true
}

// inForm gives a vector the form that is asked for. Its magnitude and direction are worked out
// as if they had been asked for one by one, with their uncertainties; the zero vector has no
// direction, and is told by its components.
func inForm(l *eval.Line, s *syntax.Report, v *entry.Value) {
	if v.Form = s.Form; s.Form != syntax.AsPolar {
		return
	}
	if _, turns := v.Direction(); !turns {
		return
	}
	var parts [2]entry.Value
	for i, of := range [...]string{"magnitude", "direction"} {
		x, unit := syntax.Calling(of, s.X), v.Unit
		if i == 1 {
			unit = units.Of("°")
		}
		got := l.Eval(x, eval.Want{Silent: true})
		if !got.OK {
			return
		}
		var ok bool
		if parts[i], ok = l.NewValue("", x, got.Slot, unit); !ok {
			return
		}
		if s.Figures > 0 {
			parts[i].Figures = units.Figures{N: s.Figures, Keep: true}
		}
	}
	v.HasPolar(parts)
	for i, written := range v.List.Polar {
		if written.N > 0 && s.Figures == 0 {
			v.Parts[i].Figures = written
		}
	}
}

// moreFigures cautions where an answer has more figures than its givens support: of a vector,
// unless its components are asked for, than those of its magnitude. One component may be small
// beside that, and known to fewer.
func moreFigures(l *eval.Line, s *syntax.Report, got eval.Got) {
	slot := got.Slot
	if got.Static.Shape == run.Vector && s.Form != syntax.AsComponents {
		if size := l.Eval(syntax.Calling("magnitude", s.X), eval.Want{Silent: true}); size.OK {
			slot = size.Slot
		}
	}
	of := l.Support(l.Entry, slot, got.Unit)
	if of.Exact || s.Figures <= max(of.Known, 1) {
		return
	}
	message := "The answer is reported to " + eval.Counted(s.Figures) + "; its givens support " + eval.Counted(of.Known)
	if of.By != "" {
		message += ", limited by " + of.By
	}
	l.Find(finding.New(finding.MoreFigures, s.X.Span(), message+".",
		"Report it to "+eval.Counted(max(of.Known, 1))+". If the givens are exact, write `givens are exact` above."))
}

func signWord(v float64) string {
	switch {
	case v < 0:
		return "negative"
	case v > 0:
		return "positive"
	}
	return "zero"
}
