package view

import (
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/units"
)

// Brief says in a few words what an entry comes to, before anyone has entered it: the
// unit and the kind of its value ("N/m, a force per length"), or what is found first. It
// is empty where there is neither, and of a name at the very end, which may go on.
func Brief(e *entry.Entry) string {
	for i := range e.Findings {
		f := &e.Findings[i]
		switch {
		case f.Severity == finding.Note:
			continue
		case f.ID == finding.UnknownName && f.At.To == len(strings.TrimRight(e.Text, " )")):
			return ""
		}
		message, _, _ := strings.Cut(f.Message, "\n")
		return "! " + clean(message)
	}
	var said []string
	for _, v := range e.Values() {
		text := strings.TrimSpace(v.Unit.Behind(units.Screen))
		switch {
		case v.Quantity == "" || v.Named:
		case text == "":
			text = article(&v)
		default:
			text += ", " + article(&v)
		}
		if text == "" {
			text = "a plain number"
		}
		if solve, ok := e.Stmt.(*syntax.Solve); ok && solve.Alone {
			text = "solved for " + v.Name + ": " + text
		}
		said = append(said, text)
	}
	return strings.Join(said, "; ")
}
