package session

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
func (w *work) Eval(x syntax.Expr, want Want) Got {
	if want.Trial {
		m := w.planner.Mark()
		defer func() {
			w.planner.Cut(m)
			w.state.Truncate(w.planner.Size())
		}()
	}
	got := Got{Compiled: w.planner.Compile(x, w.e.Text, want.Self)}
	quiet := want.Silent || want.Trial
	if !quiet {
		w.find(got.Findings...)
		w.uses(got.Uses, x.Span())
	}
	if got.Slot == run.NoSlot {
		return got
	}
	if want.Shown {
		unit, ok := w.reportedIn(want.Name, x, want.In, &got.Compiled)
		if !ok {
			return got
		}
		got.Unit = unit
	}
	w.CatchUp()
	switch {
	case got.Static.Absent && want.Lacking != "":
		w.find(finding.New(finding.NotWorkedOut, x.Span(), want.Lacking, want.Hint))
		return got
	case got.Static.Absent:
		got.OK = true
		return got
	case quiet:
		got.Value, got.OK = w.state.Value(got.Slot)
	case w.HasValue(got.Slot):
		got.Value, got.OK = w.state.Vals[got.Slot], true
	}
	return got
}

// Try works an expression out on trial: it leaves no trace in the program, and
// nothing that goes wrong is found.
func (w *work) Try(x syntax.Expr) Got { return w.Eval(x, Want{Trial: true}) }

// CatchUp runs what has been planned and not run yet.
func (w *work) CatchUp() {
	from := run.Slot(len(w.state.Vals))
	w.planner.Program.Run(w.ctx, &w.state, from, w.planner.Size())
}

// HasValue tells whether a slot that has been run has a value, or lacks one only
// because a symbol does. What else went wrong becomes a finding.
func (w *work) HasValue(s run.Slot) bool {
	f := w.state.Failure(s)
	if f.Kind == ops.NoFault || w.planner.Static(s).Absent {
		return true
	}
	w.find(w.failure(f))
	return false
}
