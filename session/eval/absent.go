package eval

import (
	"strconv"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
)

// NoValueYet says that the units are checked, though a symbol has no value.
//
// The units are checked all the same: that is what a line with letters is for before the
// numbers are known.
func (l *Line) NoValueYet(subject string, x syntax.Expr, c plan.Compiled) {
	var absent []string
	for _, u := range c.Uses {
		if u.Name != "" && u.Slot != run.NoSlot && u.Kind != plan.Function && l.Planner.Static(u.Slot).Absent {
			absent = append(absent, u.Name)
		}
	}
	if subject == "" {
		subject = "The value"
	}
	verb := " has none."
	if len(absent) > 1 {
		verb = " have none."
	}
	since := l.leaves(absent) + verb
	if len(absent) == 0 {
		since, absent = l.inBody(c)
	}
	message := subject + " comes out as " + plan.Words(l.Planner.Static(c.Slot)) + "; no value yet, since " + since
	if len(l.Entry.Findings) > 0 {
		message = "There is no value yet, since " + since
	}
	l.Find(finding.New(finding.NoValueYet, x.Span(), message, l.enterAgain(absent)))
}

// inBody says which symbol of a function has no value: the τ that A(t) was written with stays the
// one without a value where a line below gives another.
func (l *Line) inBody(c plan.Compiled) (since string, of []string) {
	for _, u := range c.Uses {
		if u.Kind != plan.Function || u.Func.X == nil {
			continue
		}
		for n := range syntax.Each[*syntax.Name](u.Func.X) {
			if d := l.Above(n.Name, u.Line); d != nil && d.Kind == plan.Symbol {
				return u.Name + " of line " + strconv.Itoa(u.Line) + " has " + n.Name + " of line " + strconv.Itoa(d.Line) + " in it, which has none.", []string{u.Name}
			}
		}
	}
	return "a symbol that it needs has none.", nil
}

// leaves names the symbols that have no value; a result without one stands for
// those that it was worked out from, and for the line to enter again if they have
// a value by now.
//
// W of line 4 says where the value is missing; a let has no line that could be entered again.
func (l *Line) leaves(names []string) string {
	var out []string
	for _, n := range names {
		d, ok := l.Planner.Find(&syntax.Name{Name: n})
		if !ok || d.Kind == plan.Symbol {
			out = append(out, n)
			continue
		}
		out = append(out, n+" of line "+strconv.Itoa(d.Line))
	}
	return strings.Join(out, ", ")
}

// enterAgain offers the lines of results without a value, for when their symbols
// have one.
func (l *Line) enterAgain(names []string) string {
	for _, n := range names {
		d, ok := l.Planner.Find(&syntax.Name{Name: n})
		if !ok || d.Kind == plan.Symbol {
			continue
		}
		if e := l.EntryAt(d.Line); e != nil && !strings.Contains(e.Text, "\n") {
			return "If its symbols have values now, enter that line again: `" + e.Text + "`."
		}
	}
	return ""
}
