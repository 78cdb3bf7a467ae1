package eval

import (
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
	Entry *entry.Entry
	// Start is the slot from which on the program is the line's own.
	Start run.Slot

	doing string
	at    syntax.Span
}

// Doing notes what begins now, as in "drawing x(t)", and where in the line that is
// asked: what is said of a line that is stopped, or takes too long.
func (l *Line) Doing(what string, at syntax.Span) { l.doing, l.at = what, at }

// Busy is what was last said to be done; empty if nothing was.
func (l *Line) Busy() (doing string, at syntax.Span) { return l.doing, l.at }

// Find adds findings to the entry. None is said twice, nor that a name has no value,
// nor which line above has failed.
func (l *Line) Find(fs ...finding.Finding) {
	for i := range fs {
		if !l.said(&fs[i]) {
			l.Entry.Findings = append(l.Entry.Findings, fs[i])
		}
	}
}

// said tells whether the entry has a finding already.
func (l *Line) said(f *finding.Finding) bool {
	for i := range l.Entry.Findings {
		g := &l.Entry.Findings[i]
		if g.ID == f.ID && (f.Cause != 0 && g.Cause == f.Cause || g.Message == f.Message && (g.At == f.At || f.ID == finding.UnknownName)) {
			return true
		}
	}
	return false
}

// Uses records which lines an expression refers to, and says once that g is
// standard gravity.
//
// What a line uses is kept by lines and not by names, as a name may mean another line further
// down.
func (l *Line) Uses(defs []*plan.Def, at syntax.Span) {
	for _, d := range defs {
		if l.Planner.IsStandardGravity(d) {
			l.sayGravity(at)
			continue
		}
		if l.Entry.Uses == nil {
			l.Entry.Uses = make([]int, 0, len(defs))
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
	if l.Set.gravity {
		return
	}
	l.Set.gravity = true
	l.Find(finding.New(finding.StandardGravity, at, "g is standard gravity here, 9.80665 m/s².",
		"For another value, give it in a line above: g = 9.80 m/s^2."))
}
