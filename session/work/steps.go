package work

import (
	"strconv"

	"steelyard/lang/finding"
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
	n := &syntax.Name{At: s.Of.NameAt, Name: s.Of.Name}
	d, ok := l.Planner.Find(n)
	if !ok || d.Line == 0 {
		l.Find(l.Planner.Unknown(n, l.Entry.Text)...)
		return
	}
	l.Entry.Uses = append(l.Entry.Uses, d.Line)
	e := l.EntryAt(d.Line)
	if e == nil {
		return
	}
	switch lines := e.By.Working(e, s.Of.Name); {
	case len(lines) > 0:
		l.Entry.Outcome = &entry.Workings{Of: []entry.Working{{Line: d.Line, Lines: lines}}}
	case d.Failed():
		l.Find(finding.New(finding.NotWorkedOut, s.Of.NameAt, "not worked out: needs "+s.Of.Name+" (line "+strconv.Itoa(d.Line)+")", ""))
	default:
		l.Entry.Outcome = entry.Lines{entry.Say("… isn't worked out from other lines: it is defined in line "+strconv.Itoa(d.Line)+".", entry.Name(s.Of.Name))}
	}
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
		l.Entry.Outcome = entry.Rows("There is no result to show the working of.")
		return
	}
	l.Entry.Outcome = all
}
