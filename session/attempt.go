package session

import (
	"slices"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/syntax"
)

// stays says of the names that a failed line would have given what they still
// mean: a failed attempt takes nothing away.
func (w *work) stays(defs []*plan.Def) {
	var says []string
	for _, d := range defs {
		if !d.Failed() {
			continue
		}
		old, ok := w.planner.Find(&syntax.Name{Name: d.Name})
		if !ok || old.Failed() {
			continue
		}
		w.e.Findings = slices.DeleteFunc(w.e.Findings, func(f finding.Finding) bool { return f.ID == finding.GivenAgain })
		says = append(says, w.stillMeans(old))
	}
	if len(says) == 0 {
		return
	}
	for i := range w.e.Findings {
		if f := &w.e.Findings[i]; f.Severity.Fails() {
			f.Hint = strings.TrimSpace(f.Hint + " " + strings.Join(says, " "))
			return
		}
	}
}

// stillMeans says where the meaning of a name comes from.
func (w *work) stillMeans(d *plan.Def) string {
	if d.Line == 0 {
		return d.Name + " stays standard gravity."
	}
	if d.Kind != plan.Quantity || w.planner.Static(d.Slot).Absent {
		return d.Name + " stays as line " + itoa(d.Line) + " gives it."
	}
	return d.Name + " keeps its value from line " + itoa(d.Line) + "."
}
