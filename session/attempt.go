package session

import (
	"slices"
	"strconv"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/session/eval"
)

// stays says of the names that a failed line would have given what they still
// mean: a failed attempt takes nothing away.
func stays(l *eval.Line, defs []*plan.Def) {
	var says []string
	for _, d := range defs {
		if !d.Failed() {
			continue
		}
		old := l.Above(d.Name, l.Entry.Line)
		if old == nil && d.Name == "g" {
			old = &plan.Def{Name: "g"} // which no line has used
		}
		if old == nil || old.Failed() {
			continue
		}
		l.Entry.Findings = slices.DeleteFunc(l.Entry.Findings, func(f finding.Finding) bool { return f.ID == finding.GivenAgain })
		if still := stillMeans(l, old); !slices.Contains(says, still) {
			says = append(says, still)
		}
	}
	if len(says) == 0 {
		return
	}
	for i := range l.Entry.Findings {
		if f := &l.Entry.Findings[i]; f.Severity.Fails() {
			f.Hint = strings.TrimSpace(f.Hint + " " + strings.Join(says, " "))
			return
		}
	}
}

// stillMeans says where the meaning of a name comes from.
func stillMeans(l *eval.Line, d *plan.Def) string {
	if d.Line == 0 {
		return d.Name + " stays standard gravity."
	}
	if d.Kind != plan.Quantity || l.Planner.Static(d.Slot).Absent {
		return d.Name + " stays as it is in line " + strconv.Itoa(d.Line) + "."
	}
	return d.Name + " keeps its value from line " + strconv.Itoa(d.Line) + "."
}
