package syntax

// Let is let NAME in UNIT: a symbol with a unit and no value yet.
type Let struct {
	Symbol Ident    `parser:"'let' @@"`
	In     UnitText `parser:"'in' @@"`
}

var letWord = StatementWord{
	Word: "let", Form: "let NAME in UNIT",
	Summary: "Gives a symbol a unit and no value yet, so that units are checked before any number is known.",
	Example: "let k in N/m", Stored: true, Ready: true, read: clauses(readLet),
	next: []string{"in"},
}

func (*Let) Exprs() []Expr      { return nil }
func (s *Let) Defines() []Ident { return []Ident{s.Symbol} }
func (*Let) Records() bool      { return false }
func (*Let) Stored() bool       { return true }
func (*Let) stmt()              {}

var letLines = production[Let]()

func readLet(r *reader, tokens []token) (Stmt, *fault) {
	if len(tokens) > 1 {
		if _, bad := newName(&tokens[1]); bad != nil {
			return nil, bad
		}
	}
	return statement(parse(letLines, tokens, r.to))
}
