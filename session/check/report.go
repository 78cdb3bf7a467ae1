package check

import (
	"steelyard/lang/finding"
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
	got := l.Eval(s.X, eval.Want{Shown: true, Name: name, In: s.In, Lists: !s.Sign})
	if s.Sign && got.OK && !got.Static.Absent {
		l.Entry.Outcome = entry.Rows(signWord(got.Value))
		return
	}
	r := l.Answer(eval.Unnamed(), name, s.X, got)
	if r == nil {
		return
	}
	r.Shows = true
	if s.Figures > 0 {
		r.Values[0].Figures = units.Figures{N: s.Figures, Keep: true}
		if list := r.Values[0].List; list != nil {
			list.Figures = nil
		}
		moreFigures(l, s, got)
	}
}

// moreFigures cautions where an answer has more figures than its givens support.
func moreFigures(l *eval.Line, s *syntax.Report, got eval.Got) {
	of := l.Support(l.Entry, got.Slot, got.Unit)
	if of.Exact || s.Figures <= max(of.Known, 1) {
		return
	}
	message := "The answer is reported to " + eval.Counted(s.Figures) + "; its givens support " + eval.Counted(of.Known)
	if of.By != "" {
		message += ", limited by " + of.By
	}
	l.Find(finding.New(finding.MoreFigures, s.X.Span(), message+".",
		"Report it to fewer, or write `givens are exact` above where they are."))
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
