package ask

import (
	"strconv"
	"strings"

	"steelyard/lang/plan"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/eval"
	"steelyard/units"
)

// NameKind is what a name of the worksheet stands for.
type NameKind uint8

// The kinds of names.
const (
	Given NameKind = iota
	Result
	Function
	OwnUnit
	Formula
	Symbol
	Constant
	Failed // its last line could not be worked out
)

var nameKindWords = [...]string{"given", "result", "function", "unit", "formula", "symbol, no value yet", "constant", "not worked out"}

// String returns the kind in words.
func (k NameKind) String() string { return nameKindWords[k] }

// Name is a name of the worksheet with what it means after the last line.
type Name struct {
	Name  string
	Kind  NameKind
	Line  int
	value *entry.Value // nil if it has none
	Unit  string
	// Meaning is what its line says of it in words, or empty.
	Meaning string
}

// Names lists what the names of the worksheet mean after the last line, in the
// order of their lines.
func Names(p *eval.Page) []Name {
	var out []Name
	meanings := entry.NewMeanings(p.Entries)
	for _, d := range p.Planner.Names.All() {
		if now, _ := p.Planner.Names.Lookup(d.Name); now != d || d.Vector != nil {
			continue
		}
		if d.Failed() {
			out = append(out, Name{Name: d.Name, Line: d.Line, Kind: Failed})
			continue
		}
		n := Name{Name: d.Name, Line: d.Line, Kind: nameKind(p, d), value: p.ValueOf(d), Meaning: meanings.Of(d.Name, p.EntryAt(d.Line))}
		if d.Unit != nil {
			n.Unit = d.Unit.Text()
		}
		out = append(out, n)
	}
	for _, e := range p.Entries {
		if unit, ok := eval.OwnUnit(e); ok {
			out = append(out, Name{Name: unit, Kind: OwnUnit, Line: e.Line, Meaning: e.Meaning()})
		}
	}
	return out
}

// nameKind says what a definition stands for.
func nameKind(p *eval.Page, d *plan.Def) NameKind {
	switch d.Kind {
	case plan.Function:
		return Function
	case plan.Formula:
		return Formula
	case plan.Symbol:
		return Symbol
	}
	if e := p.EntryAt(d.Line); e != nil {
		if _, ok := e.Stmt.(*syntax.Constants); ok {
			return Constant
		}
	}
	if d.Given {
		return Given
	}
	return Result
}

// tellNames lists the names, one a line.
func tellNames(p *eval.Page) entry.Lines {
	names := Names(p)
	if len(names) == 0 {
		return entry.Rows("No names yet.")
	}
	width := 0
	values := make([]string, len(names))
	wide := 0
	for i, n := range names {
		width = max(width, len([]rune(n.Name)))
		if n.value != nil {
			values[i] = asGiven(p, n)
		}
		wide = max(wide, len([]rune(values[i])))
	}
	out := make([]string, len(names))
	for i, n := range names {
		out[i] = pad(n.Name, width) + "   " + pad(values[i], wide) + "   " + n.Kind.String() + ", line " + strconv.Itoa(n.Line)
		if n.Meaning != "" {
			out[i] += ": " + n.Meaning
		}
	}
	return entry.Rows(out...)
}

// asGiven shows a plain given as it was written, and any other value as its
// line shows it.
func asGiven(p *eval.Page, n Name) string {
	e := p.EntryAt(n.Line)
	if d, ok := e.Stmt.(*syntax.Define); ok && !e.Result().Shows {
		at := d.X.Span()
		return e.Text[at.From:at.To]
	}
	return n.value.Shown(units.Screen)
}

func pad(s string, width int) string {
	return s + strings.Repeat(" ", max(0, width-len([]rune(s))))
}
