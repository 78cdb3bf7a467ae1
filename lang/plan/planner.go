// Package plan turns the tree of a statement into a flat program over float64.
// Dimensions are inferred and checked once, while planning; what remains is
// bare arithmetic in coherent SI units. The package reads no text and prints
// nothing: what is wrong with a line comes back as findings.
//
// A value has a place in the program, its slot, and what is known of it before
// anything runs, its run.Static: the dimension, whether it is an angle or counts cycles
// (both are pure numbers to the SI), whether it is a temperature or a difference of
// two, and whether it has a value at all yet. Every operation says what it makes of
// these, and it is here that a line is refused for them.
//
// A plan never stops at the first fault where it can go on: both terms of a sum are
// planned, so that one line tells all that is wrong with it. What could not be planned
// has the slot run.NoSlot, and whoever gets that returns it without a word, since the
// finding has been made where the fault is.
//
// Names mean what the lines above say, the nearest first. A function is planned once
// for each kind of arguments that it is called with, for it has no dimensions of its
// own. Whatever a line adds can be taken back (see Mark), so that a line may be tried
// in two readings, and the last line changed.
package plan

import (
	"slices"

	"steelyard/lang/finding"
	"steelyard/lang/limit"
	"steelyard/lang/ops"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// Planner plans the statements of one session, each after those before it.
type Planner struct {
	Program run.Program
	Names   Names
	Units   *units.Table
	// Library finds a built-in formula by name.
	Library func(name string) (*syntax.FormulaDef, bool)
	// LibraryNames lists the built-in formulas, for suggestions.
	LibraryNames func() []string
	// Budget is what planning may still cost; nil is no bound. Where it has ended,
	// nothing more is planned.
	Budget *limit.Budget

	// Settings tell whether halves are rounded to even, and whether uncertainties are added
	// and not their squares; nil is neither.
	Settings func() (even, added bool)
	// In is the unit that the line being planned is reported in, where its value is rounded
	// to figures; else nil.
	In *units.Unit

	// Unsure tells that some number was written with an uncertainty: where none was,
	// nobody looks for any.
	Unsure bool

	line    int // of the statement being planned
	part    int32
	that    *Def
	gravity *Def // standard gravity, once it has been used
	zeros   []zero
	settled []int32 // zeros in the order in which they were settled
	library map[string]*Def
	nesting int // of functions that are being planned
	spare   *coder

	// What Cut takes back, in the order in which it was added: functions that
	// were planned, formulas of the library, units of the worksheet's own.
	plans  []*Def
	loaded []string
	own    []string
}

// New returns a planner with an empty program.
func New() *Planner {
	return &Planner{Units: units.NewTable()}
}

// Size returns the number of instructions of the main code.
func (p *Planner) Size() run.Slot { return run.Slot(len(p.Program.Main.Instrs)) }

// Begin tells the planner which line comes next.
func (p *Planner) Begin(line int) { p.line = line }

// BeginPart begins a part of the question.
func (p *Planner) BeginPart() { p.part++ }

// Part returns the number of the part that the next line belongs to.
func (p *Planner) Part() int32 { return p.part }

// Define records what a name means from here on.
func (p *Planner) Define(d *Def) {
	if d.Vector != nil {
		return // it comes with its vector
	}
	d.Line, d.Part = p.line, p.part
	p.Names.add(d)
	p.defineComponents(d)
}

// SetThat says which definition the word that stands for from here on.
func (p *Planner) SetThat(d *Def) { p.that = d }

// Static returns what is known of a slot of the main code, with the
// dimensions of bare zeros as far as they are settled.
func (p *Planner) Static(s run.Slot) run.Static { return p.settledStatic(p.Program.Main.Statics[s]) }

// Unit reads the text of a unit. It returns nil and a finding for one that
// can't be read.
func (p *Planner) Unit(u syntax.UnitText, place units.Place) (*units.Unit, *units.Problem) {
	return p.Units.Parse(u.Text, place)
}

// Compiled is an expression planned into the main code.
type Compiled struct {
	Slot     run.Slot // NoSlot if it has no value
	Static   run.Static
	Findings []finding.Finding
	// Uses are the definitions that the expression refers to directly.
	Uses []*Def
	// Root is the failed definition that a value is missing for, or nil.
	Root *Def

	x     syntax.Expr
	start run.Slot // of the instructions of its own
}

// Compile plans an expression. Self is the name that the statement defines and
// that the expression may not use, or empty.
func (p *Planner) Compile(x syntax.Expr, text, self string) Compiled {
	c := p.coder(text)
	defer c.leave()
	c.self = self
	return c.whole(x)
}

// CompileOnTrial is Compile for a plan that is weighed and taken back. No one
// reads its findings, so that of a name that no line gives it says so and looks
// for no other that may be meant.
func (p *Planner) CompileOnTrial(x syntax.Expr, text, self string) Compiled {
	c := p.coder(text)
	defer c.leave()
	c.self, c.unread = self, true
	return c.whole(x)
}

// whole plans the expression of a line, or takes back what it has planned of it.
func (c *coder) whole(x syntax.Expr) Compiled {
	p, before := c.p, c.p.Mark()
	slot := c.expr(x)
	if c.self != "" {
		c.measuredNumber(x, slot)
	}
	c.findings = once(c.findings)
	out := Compiled{Slot: run.NoSlot, Findings: c.findings, Uses: c.uses, Root: c.root}
	if c.tooLong(x.Span()) {
		out.Findings, slot = c.findings, run.NoSlot
	}
	if slot == run.NoSlot {
		p.Cut(before)
		return out
	}
	out.x, out.start = x, c.start
	if slot < c.start {
		// A line has a slot of its own, so that what it says of its value
		// holds for it alone.
		slot = c.emit(run.Instr{Op: ops.Copy, A: slot}, x.Span(), c.code.Statics[slot])
	}
	out.Slot, out.Static = slot, p.settledStatic(c.code.Statics[slot])
	return out
}

// Terms returns the slots of the terms of a sum, itself if it is none.
//
// A check against 0 is judged by the size of its terms: 3 N - 3.0000001 N is 0 for
// three figures, and 1e-7 N alone is not.
func (p *Planner) Terms(c Compiled) []run.Slot {
	if b, ok := syntax.Unbracket(c.x).(*syntax.Binary); !ok || b.Op != syntax.Add && b.Op != syntax.Sub {
		return []run.Slot{c.Slot}
	}
	var out []run.Slot
	// The instructions of this line alone: a name's slot lies before them.
	var inLine func(s run.Slot)
	inLine = func(s run.Slot) {
		if s < c.start {
			out = append(out, s)
			return
		}
		in := p.Program.Main.Instrs[s]
		switch in.Op {
		case ops.Add, ops.Sub:
			inLine(in.A)
			inLine(in.B)
		case ops.Neg:
			inLine(in.A)
		default:
			out = append(out, s)
		}
	}
	inLine(c.Slot)
	return out
}

// once drops findings that say again what one before them has said.
func once(fs []finding.Finding) []finding.Finding {
	out := fs[:0]
	for _, f := range fs {
		said := func(g finding.Finding) bool { return g.ID == f.ID && g.At == f.At && g.Message == f.Message }
		if !slices.ContainsFunc(out, said) {
			out = append(out, f)
		}
	}
	return out
}

// Emit adds an instruction to the main code, for a value that comes from no expression.
func (p *Planner) Emit(in run.Instr, st run.Static) run.Slot {
	c := p.coder("")
	return c.emit(in, syntax.Span{}, st)
}

func (p *Planner) settings() (even, added bool) {
	if p.Settings == nil {
		return false, false
	}
	return p.Settings()
}

// DefineUnit makes a unit of the worksheet's own: a name for a size in SI units
// with the dimension of another unit. It reports false where a known unit has
// the name.
func (p *Planner) DefineUnit(name string, of *units.Unit, size float64) bool {
	_, free := p.Units.Define(name, of, size)
	if free {
		p.own = append(p.own, name)
	}
	return free
}
