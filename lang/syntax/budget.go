package syntax

import "strings"

// Budget is budget NAME: what the uncertainty of a result comes from.
//
// For a name of which no given has an uncertainty, the line says that there is
// none.
type Budget struct {
	Of Ident `parser:"'budget' @@"`
}

var budgetWord = StatementWord{
	Word: "budget", Form: "budget NAME",
	Summary: "What the uncertainty of a result comes from, given by given.",
	Example: "budget k", Stored: true, Ready: true, read: readBudget,
}

func (*Budget) Exprs() []Expr    { return nil }
func (*Budget) Defines() []Ident { return nil }
func (s *Budget) is() nature     { return nature{kept, Support, []Ident{s.Of}} }

var budgetLines = clauses(statement[Budget]())

func readBudget(r *reader, at int) (Stmt, *fault) {
	if strings.HasSuffix(strings.TrimSpace(r.text[at:r.to]), "by sampling") {
		return nil, notYet(Span{From: at, To: r.to}, "A budget by sampling")
	}
	return budgetLines(r, at)
}
