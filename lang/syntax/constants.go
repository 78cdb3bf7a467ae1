package syntax

// Constants is constants G, c.
//
// Symbols of constants are names like any others until a page has this line, so
// that c may be a length on one page and the speed of light on the next.
type Constants struct {
	Names []Ident `parser:"'constants' @@ ( ',' @@ )*"`
}

var constantsWord = StatementWord{
	Word: "constants", Form: "constants NAME, NAME",
	Summary: "Brings in constants of nature by their symbols.",
	Example: "constants G, c", Stored: true, Ready: true, read: clauses(statement(&Constants{})),
}

func (*Constants) Exprs() []Expr      { return nil }
func (s *Constants) Defines() []Ident { return s.Names }
func (*Constants) is() nature         { return nature{kept, Given, nil} }
