package eval

import (
	"slices"

	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
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
	// Lists tells that a list will do; else one value is needed.
	Lists bool
	// Silent leaves out what was found and used: an expression that the person
	// has not written.
	Silent bool
	// Trial leaves no trace in the program.
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
//
// A trial takes back what it planned and what it worked out, whatever became of it. round(x, 2
// figures) rounds in the unit that is asked for, which the planner must know beforehand.
func (l *Line) Eval(x syntax.Expr, want Want) Got {
	if want.Trial {
		defer l.onTrial()()
	}
	if c, ok := syntax.Unbracket(x).(*syntax.Call); ok && want.In.Present() && len(c.Args) > 1 && c.Args[1].Figures > 0 {
		l.Planner.In = l.Unit(want.In)
		defer func() { l.Planner.In = nil }()
	}
	x = l.Counted(x, want.In)
	return l.Run(x, want, l.Plan(x, want))
}

// Plan is the first half of Eval: an expression is planned, and what it uses and
// what was found is noted.
//
// A line with two slips tells both. Standard gravity is noted only where something came out
// with it.
func (l *Line) Plan(x syntax.Expr, want Want) plan.Compiled {
	if want.Silent && want.Trial {
		return l.Planner.CompileOnTrial(x, l.Entry.Text, want.Self)
	}
	c := l.Planner.Compile(x, l.Entry.Text, want.Self)
	if !want.Silent {
		l.unlikeSlips(x, c.Findings)
		l.Find(c.Findings...)
		if c.Slot == run.NoSlot { // nothing is worked out with g
			c.Uses = slices.DeleteFunc(c.Uses, l.Planner.IsStandardGravity)
		}
		l.Uses(c.Uses, x.Span())
	}
	return c
}

// Function is Eval for an expression, or the two sides of an equation, as a
// function of names of which is known what the statics say: it is not run.
func (l *Line) Function(want Want, names []string, of []run.Static, sides ...syntax.Expr) plan.Planned {
	if want.Trial {
		m := l.Planner.Mark()
		defer l.Planner.Cut(m)
	}
	f := l.Planner.CompileOf(l.Entry.Text, names, of, sides...)
	if l.Planner.Unsure {
		l.CatchUp() // it may load numbers with an uncertainty that stand in it
	}
	if !want.Silent {
		l.Find(f.Findings...)
		l.Uses(f.Uses, sides[0].Span())
	}
	return f
}

// Run is the second half of Eval, for what has been planned already. The
// expression says where it is written and in what unit.
//
// Checks come first, numbers after: a list where one value is wanted, or a unit that does not
// fit, is told before anything is worked out.
func (l *Line) Run(x syntax.Expr, want Want, c plan.Compiled) Got {
	got := Got{Compiled: c}
	if got.Slot == run.NoSlot {
		return got
	}
	if got.Static.Shape != run.Scalar && !want.Lists && !want.Silent {
		l.Find(plan.OneValue(x, got.Static))
		return got
	}
	if want.Shown {
		unit, ok := l.reportedIn(want.Name, x, want.In, &got.Compiled)
		if !ok {
			return got
		}
		got.Unit = unit
	}
	l.CatchUp()
	l.settle(got.Slot)
	switch {
	case got.Static.Absent && want.Lacking != "":
		l.Find(finding.New(finding.NotWorkedOut, x.Span(), want.Lacking, want.Hint))
	case got.Static.Absent:
		got.OK = true
	case want.Silent:
		got.Value, got.OK = l.State.Value(got.Slot)
	case l.HasValue(got.Slot):
		got.Value, got.OK = l.State.At(got.Slot), true
	}
	return got
}

// Answer gives a definition what its expression came to, and the entry the value
// under a name. It returns nil where there is no value: the definition has failed
// then, or a symbol has none yet.
//
// Every statement that gives a value comes by here, so that a failed one, one without a value
// yet and one that is too large for its unit are the same for all of them.
func (l *Line) Answer(d *plan.Def, name string, x syntax.Expr, got Got) *entry.Result {
	if !got.OK {
		l.Fail(d, got.Root)
		return nil
	}
	d.Slot, d.Unit = got.Slot, got.Unit
	if got.Static.Absent {
		l.NoValueYet(name, x, got.Compiled)
		l.Settle(d)
		return nil
	}
	v, ok := l.NewValue(name, x, got.Slot, got.Unit)
	if !ok {
		l.Fail(d, nil)
		return nil
	}
	if !syntax.IsPlain(x) {
		l.SayFigures(x.Span(), got.Slot, got.Unit)
	}
	l.Settle(d)
	l.KeepsComponents(d, x.Span())
	return l.Entry.Give(v)
}

// Try works an expression out on trial: it leaves no trace in the program, and
// nothing that goes wrong is found.
func (l *Line) Try(x syntax.Expr) Got { return l.Eval(x, Want{Trial: true, Silent: true}) }

// IsList tells whether an expression has several values, numbers or vectors.
func (l *Line) IsList(x syntax.Expr) bool {
	shape := l.Try(x).Static.Shape
	return shape == run.List || shape == run.Vectors
}

// TryElements is Try for all elements of a list or a vector, in coherent SI units; nil where
// there is no value, or a symbol has none yet.
func (l *Line) TryElements(x syntax.Expr) []float64 {
	defer l.onTrial()()
	got := l.Eval(x, Want{Silent: true, Lists: true})
	if !got.OK || got.Static.Absent {
		return nil
	}
	return slices.Clone(l.State.Elements(got.Slot))
}

// onTrial returns what takes back all that is planned and worked out from now on.
func (l *Line) onTrial() (back func()) {
	m, start := l.Planner.Mark(), l.Start
	l.Start = l.Planner.Size()
	return func() {
		l.Planner.Cut(m)
		l.State.Truncate(l.Planner.Size())
		l.Start = start
	}
}

// settle makes 0 of a value of the line that is 0 but for rounding.
//
// 0.1 m + 0.2 m - 0.3 m is 0, and no 5.6e-17 m: what is less than the rounding of its terms is
// none of their difference.
func (l *Line) settle(s run.Slot) { l.Planner.Program.Settle(&l.State, s, l.Start) }

// CatchUp runs what has been planned and not run yet.
//
// The place of a slope is settled before the slope is taken, since a slope at -1e-17 may be on
// the other side of a corner at 0; so is a sum that a function works with.
func (l *Line) CatchUp() {
	p, size := &l.Planner.Program, l.Planner.Size()
	for s := l.State.Len(); s < size; s++ {
		switch in := p.Main.Instrs[s]; in.Op {
		case ops.Slope, ops.Area:
			p.Run(&l.State, l.State.Len(), s)
			for _, place := range p.Main.Args[in.B : in.B+in.C] {
				l.settle(place) // one that is 0 but for rounding is 0
			}
		case ops.Copy:
			p.Run(&l.State, l.State.Len(), s)
			l.settle(in.A)
		}
	}
	p.Run(&l.State, l.State.Len(), size)
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
