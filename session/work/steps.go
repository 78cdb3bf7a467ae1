package work

import (
	"strconv"

	"steelyard/lang/plan"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/eval"
)

// Steps shows the worked lines of a result, or of every result.
func Steps(l *eval.Line, s *syntax.Steps) {
	if s.Of.Name == "" {
		everyStep(l)
		return
	}
	d, ok := asked(l, s.Of)
	if !ok {
		return
	}
	e := l.EntryAt(d.Line)
	if e == nil {
		return
	}
	switch lines := e.By.Working(e, s.Of.Name); {
	case len(lines) > 0:
		l.Entry.Outcome = &entry.Workings{Of: []entry.Working{{Line: d.Line, Lines: lines}}}
	case d.Failed():
		l.Find(plan.Needs(d, s.Of.NameAt))
	default:
		l.Entry.Outcome = entry.Lines{entry.Say("… isn't worked out from other lines: it is defined in line "+strconv.Itoa(d.Line)+".", entry.Name(s.Of.Name))}
	}
}

// asked is the definition of a name of this page that a line asks about.
func asked(l *eval.Line, of syntax.Ident) (*plan.Def, bool) {
	n := &syntax.Name{At: of.NameAt, Name: of.Name}
	d, ok := l.Planner.Find(n)
	if !ok || d.Line == 0 {
		l.Find(l.Planner.Unknown(n, l.Entry.Text)...)
		return nil, false
	}
	l.Entry.Uses = append(l.Entry.Uses, d.Line)
	return d, true
}

// everyStep shows the worked lines of every result.
func everyStep(l *eval.Line) {
	all := &entry.Workings{Every: true}
	for _, e := range l.Entries {
		if lines := e.Working(); len(lines) > 0 {
			all.Of = append(all.Of, entry.Working{Line: e.Line, Lines: lines})
		}
	}
	if len(all.Of) == 0 {
		l.Entry.Outcome = entry.Rows("No result has a working to show yet.")
		return
	}
	l.Entry.Outcome = all
}
