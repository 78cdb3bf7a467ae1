package syntax

import "strings"

// Let is let NAME[, NAME…] in UNIT [as a vector [in space]][, WORDS]: symbols with a unit
// and no value yet.
//
// After let k in N/m the units of lines with k can be checked, though k has no
// value yet; words behind a comma are the meaning of each symbol. After let F in N as a
// vector F has components, which have no values either.
type Let struct {
	Symbols []Ident  `parser:"'let' @@ ( ',' @@ )*"`
	In      UnitText `parser:"'in' @@"`
	Vector  bool     `parser:"( @'as' 'a'? 'vector'"`
	Space   bool     `parser:"( 'in' ( @'space' | 'the plane' ) )? )?"`
}

// Axes is how many components each symbol has: 0 for a number, 2 for a vector in the plane,
// 3 for one in space.
func (s *Let) Axes() int {
	switch {
	case s.Space:
		return len(Axes)
	case s.Vector:
		return len(Axes) - 1
	}
	return 0
}

const letText = "let"

var letWord = StatementWord{
	Word: letText, Form: "let NAME[, NAME] in UNIT [as a vector][, WORDS]",
	Summary: "Sets the unit of symbols that have no value yet, so units can be checked.",
	Example: "let k in N/m", Stored: true, Ready: true, read: clauses(readLet),
	next: []string{"in", "as"}, phrases: phrases("as a vector", "as vector", "as a …", "as …"),
}

func (*Let) Exprs() []Expr      { return nil }
func (s *Let) Defines() []Ident { return s.Symbols }
func (*Let) is() nature         { return nature{kept, Aside, nil} }

var letLines = production(&Let{})

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
	got, bad := letLines(tokens, r.to)
	if bad != nil {
		return nil, bad
	}
	s := got.(*Let)
	axes, words := vectorWords(r.words)
	s.Vector, s.Space = s.Vector || axes > 0, s.Space || axes == len(Axes)
	for i := range s.Symbols {
		s.Symbols[i].Meaning = words
	}
	return s, nil
}

// vectorWords takes from the words for a symbol that it is a vector, as a formula has it,
// F in N, a vector, push on the cart: of how many components, and the words for it.
func vectorWords(words string) (axes int, meaning string) {
	head, rest, _ := strings.Cut(words, ",")
	switch strings.TrimPrefix(head, "as ") {
	case "a vector", "vector", "a vector in the plane":
		return len(Axes) - 1, strings.TrimSpace(rest)
	case "a vector in space":
		return len(Axes), strings.TrimSpace(rest)
	}
	return 0, words
}
