package syntax

// Constants is constants G, c.
type Constants struct {
	Names []Ident `parser:"'constants' @@ ( ',' @@ )*"`
}

var constantsWord = StatementWord{
	Word: "constants", Form: "constants NAME, NAME",
	Summary: "Brings in constants of nature by their symbols.",
	Example: "constants G, c", Stored: true, Ready: true, read: clauses(readConstants),
}

func (*Constants) Exprs() []Expr      { return nil }
func (s *Constants) Defines() []Ident { return s.Names }
func (*Constants) is() nature         { return nature{kept, Given} }

var constantsLines = production[Constants]()

func readConstants(r *reader, tokens []token) (Stmt, *fault) {
	return statement(parse(constantsLines, tokens, r.to))
}
