package print

import (
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/syntax"
	"steelyard/lang/typeset"
	"steelyard/session/entry"
)

// flaws are the findings of a statement that a reader must see; notes are for
// the one who writes.
//
// A key that looks right while a check in it failed would be worse than none.
func (b *builder) flaws(e *entry.Entry) {
	if b.edition == Handout {
		return
	}
	var set *setter
	for _, f := range e.Findings {
		if f.Severity != finding.Note {
			if set == nil {
				set = b.doc.set.of(e)
			}
			b.add(flaw{f.Severity, e.Line, e.Text, [][]piece{set.finding(f.Message, true), set.finding(f.Hint, false)}})
		}
	}
}

// of is the setter for what is said of one line: a name that is a unit's symbol too, as N
// is, is a name there if the line has it as one.
//
// In 3 N is too small, N is a unit in most lines, and a number of turns in the one that defines
// it.
func (s *setter) of(e *entry.Entry) *setter {
	own := &setter{names: map[string]bool{}, vectors: s.vectors, units: s.units}
	for name := range s.names {
		own.names[name] = !s.units.Has(name)
	}
	if e.Stmt == nil {
		return own
	}
	for _, name := range e.Gives() {
		own.names[name] = true
	}
	for n := range syntax.Each[*syntax.Name](e.Stmt.Exprs()...) {
		own.names[n.Name] = s.names[n.Name]
	}
	return own
}

// finding sets a message or a hint. What a message has in code marks is set where it is a
// formula of the page; in a hint it is what to type, and stays as it is.
func (s *setter) finding(text string, message bool) []piece {
	if text == "" {
		return nil
	}
	var out []piece
	for i, one := range strings.Split(oneLine(text), "`") {
		if i%2 == 0 {
			out = append(out, s.line(one)...)
		} else if x := s.known(one); message && x != nil {
			out = append(out, piece{set: typeset.Expr(x)})
		} else {
			out = append(out, piece{code: one})
		}
	}
	return out
}
