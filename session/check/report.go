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
	d := eval.Unnamed()
	if !got.OK {
		l.Fail(d, got.Root)
		return
	}
	if s.Sign && !got.Static.Absent {
		l.Entry.Outcome = entry.Lines{signWord(got.Value)}
		return
	}
	d.Slot, d.Unit = got.Slot, got.Unit
	if got.Static.Absent {
		l.NoValueYet(name, s.X, got.Compiled)
		l.Settle(d)
		return
	}
	v, ok := l.NewValue(name, s.X, got.Slot, got.Unit)
	if !ok {
		l.Fail(d, nil)
		return
	}
	l.Settle(d)
	if s.Figures > 0 {
		v.Figures = units.Figures{N: s.Figures, Keep: true}
	}
	l.Entry.Give(v).Shows = true
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
