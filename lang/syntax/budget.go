package syntax

// Budget is budget NAME [by sampling] [covering 95 %]: what the uncertainty of a result comes
// from.
//
// For a name of which no given has an uncertainty, the line says that there is
// none.
type Budget struct {
	Of      Ident `parser:"'budget' @@"`
	Sampled bool  `parser:"( @'by' 'sampling' )?"`
	// Covering is the probability of the interval that is asked for; nil where none is.
	Covering Expr `parser:"( 'covering' @@ )?"`
}

var budgetWord = StatementWord{
	Word: "budget", Form: "budget NAME [by sampling] [covering 95 %]",
	Summary: "Where the uncertainty of a result comes from, given by given.",
	Example: "budget k", Stored: true, Ready: true, read: clauses(statement(&Budget{})),
	phrases: phrases("covering …", "by sampling"), next: []string{"by", "covering"},
}

func (s *Budget) Exprs() []Expr  { return exprs(s.Covering) }
func (*Budget) Defines() []Ident { return nil }
func (s *Budget) is() nature     { return nature{kept, Support, []Ident{s.Of}} }
