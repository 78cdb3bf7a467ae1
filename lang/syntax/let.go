package syntax

// Let is let NAME[, NAME…] in UNIT: symbols with a unit and no value yet.
type Let struct {
	Symbols []Ident  `parser:"'let' @@ ( ',' @@ )*"`
	In      UnitText `parser:"'in' @@"`
}

var letWord = StatementWord{
	Word: "let", Form: "let NAME[, NAME] in UNIT",
	Summary: "Sets the unit of symbols that have no value yet, so units can be checked.",
	Example: "let k in N/m", Stored: true, Ready: true, read: clauses(readLet),
	next: []string{"in"},
}

func (*Let) Exprs() []Expr      { return nil }
func (s *Let) Defines() []Ident { return s.Symbols }
func (*Let) Records() bool      { return false }
func (*Let) Stored() bool       { return true }
func (*Let) Role() Role         { return Aside }
func (*Let) stmt()              {}

var letLines = production[Let]()

func readLet(r *reader, tokens []token) (Stmt, *fault) {
	for i := 1; i < len(tokens); i++ {
		if i > 1 && !tokens[i-1].sign(",") {
			continue
		}
		if _, bad := newName(&tokens[i]); bad != nil {
			return nil, bad
		}
	}
	return statement(parse(letLines, tokens, r.to))
}
