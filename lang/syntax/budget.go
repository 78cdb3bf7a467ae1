package syntax

// Budget is budget NAME [by sampling] [covering 95 %]: what the uncertainty of a result comes
// from.
//
// For a name of which no given has an uncertainty, the line says that there is
// none.
type Budget struct {
	Of      Ident
	Sampled bool
	// Covering is the probability of the interval that is asked for; nil where none is.
	Covering Expr
}

var budgetWord = StatementWord{
	Word: "budget", Form: "budget NAME [by sampling] [covering 95 %]",
	Summary: "Where the uncertainty of a result comes from, given by given.",
	Example: "budget k", Stored: true, Ready: true, read: reads((*exprParser).budget),
	phrases: phrases("covering …", "by sampling"), next: []string{"by", "covering"},
}

func (p *exprParser) budget() Stmt {
	return &Budget{Of: p.ident(), Sampled: p.words("by sampling"), Covering: p.after("covering")}
}

func (s *Budget) Exprs() []Expr  { return exprs(s.Covering) }
func (*Budget) Defines() []Ident { return nil }
func (s *Budget) is() nature     { return nature{kept, Support, []Ident{s.Of}} }
