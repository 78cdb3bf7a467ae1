package check

import (
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
	got := l.Eval(s.X, eval.Want{Shown: true, Name: name, In: s.In})
	if s.Sign && got.OK && !got.Static.Absent {
		l.Entry.Outcome = entry.Lines{signWord(got.Value)}
		return
	}
	r := l.Answer(eval.Unnamed(), name, s.X, got)
	if r == nil {
		return
	}
	r.Shows = true
	if s.Figures > 0 {
		r.Values[0].Figures = units.Figures{N: s.Figures, Keep: true}
	}
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
