package eval

import (
	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// Want is what a statement asks of an expression.
type Want struct {
	// Self is the name that the line gives, which the expression may not use.
	Self string
	// Shown asks for the unit that the value is shown in: the one of In, if
	// that is there, else the value's own. Name is what the value is called.
	Shown bool
	Name  string
	In    syntax.UnitText
	// Lacking is what is said where a symbol has no value yet; where it is
	// empty, the expression may go without one.
	Lacking, Hint string
	// Silent leaves out what was found and used: an expression that the person
	// has not written.
	Silent bool
	// Trial leaves no trace in the program either.
	Trial bool
}

// Got is what became of an expression.
type Got struct {
	plan.Compiled
	// Value is in coherent SI units; it counts only if the expression is OK and
	// not Static.Absent.
	Value float64
	// Unit is the one that the value is shown in, if that was wanted.
	Unit *units.Unit
	// OK tells that there is a value, or that there would be one if the symbols
	// had values.
	OK bool
}

// Eval is the one way from an expression to its value: it is planned as part of
// the program, or on trial, and run; what it uses, what was found and what it
// lacks is noted in the entry.
func (l *Line) Eval(x syntax.Expr, want Want) Got {
	if want.Trial {
		m := l.Planner.Mark()
		defer func() {
			l.Planner.Cut(m)
			l.State.Truncate(l.Planner.Size())
		}()
	}
	got := Got{Compiled: l.Planner.Compile(x, l.Entry.Text, want.Self)}
	quiet := want.Silent || want.Trial
	if !quiet {
		l.Find(got.Findings...)
		l.Uses(got.Uses, x.Span())
	}
	if got.Slot == run.NoSlot {
		return got
	}
	if want.Shown {
		unit, ok := l.ReportedIn(want.Name, x, want.In, &got.Compiled)
		if !ok {
			return got
		}
		got.Unit = unit
	}
	l.CatchUp()
	switch {
	case got.Static.Absent && want.Lacking != "":
		l.Find(finding.New(finding.NotWorkedOut, x.Span(), want.Lacking, want.Hint))
		return got
	case got.Static.Absent:
		got.OK = true
		return got
	case quiet:
		got.Value, got.OK = l.State.Value(got.Slot)
	case l.HasValue(got.Slot):
		got.Value, got.OK = l.State.Vals[got.Slot], true
	}
	return got
}

// Try works an expression out on trial: it leaves no trace in the program, and
// nothing that goes wrong is found.
func (l *Line) Try(x syntax.Expr) Got { return l.Eval(x, Want{Trial: true}) }

// CatchUp runs what has been planned and not run yet.
func (l *Line) CatchUp() {
	from := run.Slot(len(l.State.Vals))
	l.Planner.Program.Run(l.Ctx, &l.State, from, l.Planner.Size())
}

// HasValue tells whether a slot that has been run has a value, or lacks one only
// because a symbol does. What else went wrong becomes a finding.
func (l *Line) HasValue(s run.Slot) bool {
	f := l.State.Failure(s)
	if f.Kind == ops.NoFault || l.Planner.Static(s).Absent {
		return true
	}
	l.Find(l.failure(f))
	return false
}
