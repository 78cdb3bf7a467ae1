// Package session is the scratchpad: a statement goes in, and one Entry with
// its value, its findings and what it depends on comes out. It touches no file,
// clock, terminal or network.
package session

import (
	"context"
	"sort"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/formula"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/units"
)

// Pad is one worksheet being written. It is not safe for concurrent use.
type Pad struct {
	planner *plan.Planner
	state   run.State
	entries []*entry.Entry
	marks   []mark
	set     settings
	library map[string]*syntax.FormulaDef
	title   string
	trying  bool // a reading is being tried, whose own readings are not
}

// settings are what the statements so far say of how results are printed.
type settings struct {
	figures  units.Figures
	rounding units.Rounding
	gravity  bool // standard gravity has been mentioned
}

// mark is what undo goes back to.
type mark struct {
	plan plan.Mark
	set  settings
	unit string // the own unit that the entry defined
}

// New returns an empty scratchpad.
func New() *Pad {
	p := &Pad{planner: plan.New()}
	p.planner.Library = p.libraryFormula
	p.planner.LibraryNames = formula.Names
	return p
}

// Filed tells that the lines are those of a file: a name means what the nearest
// line above says, even where that line has failed.
func (p *Pad) Filed() { p.planner.Names.Nearest = true }

// Table returns the units that this worksheet knows.
func (p *Pad) Table() *units.Table { return p.planner.Units }

// Next returns the number of the next statement.
func (p *Pad) Next() int { return len(p.entries) + 1 }

// Entries returns the stored statements in order.
func (p *Pad) Entries() []*entry.Entry { return p.entries }

// libraryFormula reads a built-in formula when it is first asked for.
func (p *Pad) libraryFormula(name string) (*syntax.FormulaDef, bool) {
	if f, ok := p.library[name]; ok {
		return f, true
	}
	text, ok := formula.Source(name)
	if !ok {
		return nil, false
	}
	stmt, _ := syntax.Parse(text)
	f, ok := stmt.(*syntax.FormulaDef)
	if !ok {
		return nil, false
	}
	if p.library == nil {
		p.library = make(map[string]*syntax.FormulaDef)
	}
	p.library[name] = f
	return f, true
}

// FormulaNames lists the formulas of the library and of this worksheet.
func (p *Pad) FormulaNames() []string {
	names := append([]string{}, formula.Names()...)
	for _, d := range p.planner.Names.All() {
		if d.Kind == plan.Formula {
			names = append(names, d.Name)
		}
	}
	sort.Strings(names)
	return names
}

// Formula returns a formula of this worksheet or of the library.
func (p *Pad) Formula(name string) (*syntax.FormulaDef, bool) {
	if d, ok := p.planner.Names.Lookup(name); ok && d.Kind == plan.Formula {
		return d.Formula, true
	}
	return p.libraryFormula(name)
}

// Enter works one statement out as the next line. Records under it, as in a page
// copied from a worksheet, are left out: the result is worked out anew.
func (p *Pad) Enter(ctx context.Context, text string) *entry.Entry {
	text, recorded := withoutRecords(text)
	e := p.EnterAt(ctx, p.Next(), text)
	if recorded && !e.Records() && !e.Failed() {
		e.Findings = append(e.Findings, finding.New(finding.StrayRecord, syntax.Span{To: len(text)},
			"A line that records a result stood under this one, which has none to record.", "It was left out."))
	}
	return e
}

// withoutRecords takes the indented lines that begin with = off a statement.
func withoutRecords(text string) (string, bool) {
	if !strings.Contains(text, "\n") {
		return text, false
	}
	lines := strings.Split(text, "\n")
	keep := lines[:1]
	for _, line := range lines[1:] {
		if body := strings.TrimLeft(line, " \t"); len(body) < len(line) && strings.HasPrefix(body, "=") {
			continue
		}
		keep = append(keep, line)
	}
	return strings.Join(keep, "\n"), len(keep) < len(lines)
}

// EnterAt works one statement out as the given line. The text is one statement
// with its indented lines. A command that asks is answered and not stored.
func (p *Pad) EnterAt(ctx context.Context, line int, text string) *entry.Entry {
	e := &entry.Entry{Line: line, Text: text, By: p}
	m := mark{plan: p.planner.Mark(), set: p.set}
	stmt, findings := syntax.Parse(text)
	e.Stmt, e.Findings = stmt, findings
	p.planner.Begin(line)
	w := &work{Pad: p, ctx: ctx, e: e, mark: &m}
	defined := len(p.planner.Names.All())
	if stmt == nil {
		w.unread()
	} else if cmd, ok := stmt.(*syntax.Command); ok {
		p.ask(e, cmd)
		return e
	} else {
		w.statement(stmt)
	}
	w.stays(p.planner.Names.All()[defined:])
	p.entries = append(p.entries, e)
	p.marks = append(p.marks, m)
	if !p.trying {
		p.tryReadings(ctx, e)
	}
	return e
}

// Undo takes the last statement back, and returns it.
func (p *Pad) Undo() (*entry.Entry, bool) {
	last := len(p.entries) - 1
	if last < 0 {
		return nil, false
	}
	m, e := p.marks[last], p.entries[last]
	p.planner.Cut(m.plan)
	p.state.Truncate(p.planner.Size())
	if m.unit != "" {
		p.planner.Units.Remove(m.unit)
	}
	p.set = m.set
	p.entries, p.marks = p.entries[:last], p.marks[:last]
	return e, true
}

// work is one statement being worked out.
type work struct {
	*Pad
	ctx  context.Context
	e    *entry.Entry
	mark *mark
}

// find adds findings to the entry.
func (w *work) find(fs ...finding.Finding) { w.e.Findings = append(w.e.Findings, fs...) }

// statement works a statement out by its kind.
func (w *work) statement(s syntax.Stmt) {
	switch s := s.(type) {
	case *syntax.Define:
		w.define(s)
	case *syntax.Value:
		w.value(s)
	case *syntax.FuncDef:
		w.function(s)
	case *syntax.Let:
		w.let(s)
	case *syntax.UnitDef:
		w.ownUnit(s)
	case *syntax.CheckStmt:
		w.check(s)
	case *syntax.FormulaDef:
		w.formula(s)
	case *syntax.Part:
		w.planner.BeginPart()
	case *syntax.Report:
		w.report(s)
	case *syntax.Constants:
		w.constants(s)
	case *syntax.Solve:
		w.solve(s)
	case *syntax.With:
		w.with(s)
	case *syntax.Graph:
		w.graph(s)
	case *syntax.Slope:
		w.slope(s)
	case *syntax.Area:
		w.area(s)
	case *syntax.Bars:
		w.bars(s)
	case *syntax.Scaling:
		w.scaling(s)
	case *syntax.Steps:
		w.steps(s)
	case *syntax.FiguresSetting:
		w.set.figures = units.Figures{N: s.Figures, Keep: true}
	case *syntax.RoundSetting:
		w.set.rounding = s.Rule()
	case *syntax.Note, *syntax.Remark:
	}
}

// unread notes what a line that can't be read would have defined, so that the
// lines that need it name this one as the cause.
func (w *work) unread() {
	name := entry.BeginsWith(w.e.Text)
	d := &plan.Def{Name: name, Slot: run.NoSlot}
	d.Root = d
	if name == "" {
		return
	}
	w.planner.Define(d)
	w.planner.SetThat(d)
}

// uses records which lines an expression refers to, and says once that g is
// standard gravity.
func (w *work) uses(defs []*plan.Def, at syntax.Span) {
	for _, d := range defs {
		if w.planner.IsStandardGravity(d) {
			w.sayGravity(at)
			continue
		}
		if d.Line > 0 {
			w.e.Uses = append(w.e.Uses, d.Line)
		}
	}
	sort.Ints(w.e.Uses)
	w.e.Uses = compact(w.e.Uses)
}

func compact(lines []int) []int {
	out := lines[:0]
	for i, n := range lines {
		if i == 0 || n != lines[i-1] {
			out = append(out, n)
		}
	}
	return out
}

// sayGravity notes once that g has not been set by the worksheet.
func (w *work) sayGravity(at syntax.Span) {
	if w.set.gravity {
		return
	}
	w.set.gravity = true
	w.find(finding.New(finding.StandardGravity, at, "g is standard gravity here, 9.80665 m/s².",
		"For another value, give it in a line above: g = 9.80 m/s^2."))
}
