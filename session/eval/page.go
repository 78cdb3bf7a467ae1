// Package eval works expressions of one page out: it holds the page's names, its
// program and its numbers. Eval is the one way from an expression to a value; the
// rooms of the kinds of statement are built on it. It knows of no statement what
// it does, and prints nothing.
package eval

import (
	"slices"
	"strings"

	"steelyard/lang/formula"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/units"
)

// Page is one worksheet: what its lines have said so far. It is not safe for
// concurrent use.
type Page struct {
	// Planner holds the names and the program, and State the numbers that the
	// program has come to.
	Planner *plan.Planner
	State   run.State
	// Entries are the stored statements in the order of their lines.
	Entries []*entry.Entry
	// Files reads a file of the page's folder, and of one with several sheets the first, or
	// the one that is named; nil where it has none.
	Files func(name, sheet string) ([]byte, error)
	Set   Settings
	// Reader reads other readings of a line, one after the other in the same room.
	Reader syntax.Reader

	// Memo is what the rooms keep of files between edits, by the name of the file.
	Memo map[string]any

	library map[string]*syntax.FormulaDef // built-in formulas read so far
	shown   map[string]*syntax.Quantity   // values read so far, by their text
}

// Settings are what the statements so far say of how results are printed.
type Settings struct {
	Figures  units.Figures
	Rounding units.Rounding
	// ByGivens tells that a result is shown to the figures that its givens support, and
	// Exact that all givens are exact.
	ByGivens, Exact bool
	// Added tells that uncertainties are added, not their squares.
	Added bool
	// gravity tells that standard gravity has been mentioned.
	gravity bool
	// Noted are the ways of writing that have been noted.
	Noted *Noted
}

// Noted is the last note that was made of a way of writing, and those before it.
type Noted struct {
	message string
	before  *Noted
}

// mostNoted is how many ways of writing are noted on a page.
const mostNoted = 32

// Note takes a note that a page makes once; false where it has been made.
//
// What is read as print writes it, mgh for m*g*h, is told at its first use and not in every
// line.
func (s *Settings) Note(message string) bool {
	n := 0
	for last := s.Noted; last != nil; last = last.before {
		if n++; n == mostNoted || last.message == message {
			return false
		}
	}
	s.Noted = &Noted{message: message, before: s.Noted}
	return true
}

// CanNote tells whether a note has been made, or can be.
func (s Settings) CanNote(message string) bool {
	_, made := s.NotedAs(message)
	return made || s.Note(message)
}

// NotedAs is the rest of a note on the page that begins with a text.
func (s Settings) NotedAs(begins string) (rest string, ok bool) {
	for last := s.Noted; last != nil; last = last.before {
		if rest, ok = strings.CutPrefix(last.message, begins); ok {
			return rest, true
		}
	}
	return "", false
}

// Same tells whether the settings are those of another place.
//
// A line is put back unchanged after an edit only if it would say the same, which what was
// noted above it decides too.
func (s Settings) Same(o Settings) bool {
	a, b := s.Noted, o.Noted
	for ; a != b; a, b = a.before, b.before {
		if a == nil || b == nil || a.message != b.message {
			return false
		}
	}
	return s.Figures == o.Figures && s.Rounding == o.Rounding && s.ByGivens == o.ByGivens && s.Exact == o.Exact && s.Added == o.Added && s.gravity == o.gravity
}

// NewPage returns an empty page.
func NewPage() *Page {
	p := &Page{Planner: plan.New()}
	p.Planner.Library = p.libraryFormula
	p.Planner.LibraryNames = formula.Names
	p.Planner.Settings = func() (even, added bool) { return p.Set.Rounding&units.HalfEven != 0, p.Set.Added }
	return p
}

// Spend takes steps from the budget of what is being worked out; false if it has
// ended.
func (p *Page) Spend(steps int64) bool { return p.State.Budget == nil || p.State.Budget.Spend(steps) }

// EntryAt returns the stored entry of a line.
func (p *Page) EntryAt(line int) *entry.Entry {
	i, found := slices.BinarySearchFunc(p.Entries, line, func(e *entry.Entry, line int) int { return e.Line - line })
	if !found {
		return nil
	}
	return p.Entries[i]
}

// DefineOf is the line NAME = EXPR that a definition is of; nil for any other.
func (p *Page) DefineOf(d *plan.Def) *syntax.Define {
	if e := p.EntryAt(d.Line); e != nil {
		s, _ := e.Stmt.(*syntax.Define)
		return s
	}
	return nil
}

// OwnUnit is the unit of the worksheet that an entry made known, if it did.
func OwnUnit(e *entry.Entry) (string, bool) {
	if s, ok := e.Stmt.(*syntax.UnitDef); ok && !e.Failed() {
		return s.Name, true
	}
	return "", false
}

// libraryFormula reads a built-in formula when it is first asked for.
func (p *Page) libraryFormula(name string) (*syntax.FormulaDef, bool) {
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
func (p *Page) FormulaNames() []string {
	names := append([]string{}, formula.Names()...)
	for _, d := range p.Planner.Names.All() {
		if d.Kind == plan.Formula {
			names = append(names, d.Name)
		}
	}
	slices.Sort(names)
	return names
}

// Formula returns a formula of this worksheet or of the library.
func (p *Page) Formula(name string) (*syntax.FormulaDef, bool) {
	if d, ok := p.Planner.Names.Lookup(name); ok && d.Kind == plan.Formula {
		return d.Formula, true
	}
	return p.libraryFormula(name)
}
