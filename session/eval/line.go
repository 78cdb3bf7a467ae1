package eval

import (
	"context"
	"slices"

	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
)

// Line is one statement of a page while it is worked out: what the rooms of the
// statements are handed.
type Line struct {
	*Page
	Ctx   context.Context
	Entry *entry.Entry
	// Start is the slot from which on the program is the line's own.
	Start run.Slot
}

// Find adds findings to the entry.
func (l *Line) Find(fs ...finding.Finding) { l.Entry.Findings = append(l.Entry.Findings, fs...) }

// Uses records which lines an expression refers to, and says once that g is
// standard gravity.
func (l *Line) Uses(defs []*plan.Def, at syntax.Span) {
	for _, d := range defs {
		if l.Planner.IsStandardGravity(d) {
			l.sayGravity(at)
			continue
		}
		if d.Line > 0 {
			l.Entry.Uses = append(l.Entry.Uses, d.Line)
		}
	}
	slices.Sort(l.Entry.Uses)
	l.Entry.Uses = slices.Compact(l.Entry.Uses)
}

// sayGravity notes once that g has not been set by the worksheet.
func (l *Line) sayGravity(at syntax.Span) {
	if l.Set.Gravity {
		return
	}
	l.Set.Gravity = true
	l.Find(finding.New(finding.StandardGravity, at, "g is standard gravity here, 9.80665 m/s².",
		"For another value, give it in a line above: g = 9.80 m/s^2."))
}
