package syntax

import "strings"

// Let is let NAME[, NAME…] in UNIT[, WORDS]: symbols with a unit and no value yet.
//
// After let k in N/m the units of lines with k can be checked, though k has no
// value yet; words behind a comma are the meaning of each symbol.
type Let struct {
	Symbols []Ident  `parser:"'let' @@ ( ',' @@ )*"`
	In      UnitText `parser:"'in' @@"`
}

const letText = "let"

var letWord = StatementWord{
	Word: letText, Form: "let NAME[, NAME] in UNIT[, WORDS]",
	Summary: "Sets the unit of symbols that have no value yet, so units can be checked.",
	Example: "let k in N/m", Stored: true, Ready: true, read: clauses(readLet),
	next: []string{"in"},
}

func (*Let) Exprs() []Expr      { return nil }
func (s *Let) Defines() []Ident { return s.Symbols }
func (*Let) is() nature         { return nature{kept, Aside, nil} }

var letLines = production[Let]()

// Two symbols of unlike units take two lines: let k in N/m, let m in kg.
func readLet(r *reader, tokens []token) (Stmt, *fault) {
	for i := 1; i < len(tokens); i++ {
		if i > 1 && !tokens[i-1].sign(",") {
			continue
		}
		if _, bad := newName(&tokens[i]); bad != nil {
			return nil, bad
		}
	}
	s, bad := letLines(tokens, r.to)
	if bad != nil {
		if lines := r.apart(bad, beginsIn, "let "); lines != nil {
			bad = lines
		}
		return nil, bad
	}
	for i := range s.Symbols {
		s.Symbols[i].Meaning = r.words
	}
	return s, nil
}

// beginsIn tells whether a text begins NAME in.
//
// It tells let k in N/m, m2 in kg, of which each half needs a line, from words.
func beginsIn(text string) bool {
	name, _, ok := strings.Cut(text, " in ")
	return ok && startsName(firstRune(name)) && !strings.ContainsFunc(name, func(r rune) bool { return !continuesName(r) })
}
