package advise

import (
	"steelyard/lang/finding"
	"steelyard/lang/syntax"
	"steelyard/session/eval"
)

// Note and Part caution of a name in braces that is not defined above: its value can't be
// printed there.
func Note(l *eval.Line, s *syntax.Note) { inBraces(l, s.Braces) }
func Part(l *eval.Line, s *syntax.Part) { inBraces(l, s.Braces) }

// A handout would show {m} itself where a value was meant. The line stands, since the name may
// be put above it later.
func inBraces(l *eval.Line, names []syntax.Ident) {
	for _, n := range names {
		if _, ok := l.Planner.Find(&syntax.Name{At: n.NameAt, Name: n.Name}); !ok {
			l.Find(finding.New(finding.InBraces, n.NameAt, "No line above defines "+n.Name+".",
				"Put its line above this one, or take the braces out."))
		}
	}
}
