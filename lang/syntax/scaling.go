package syntax

// Scaling is scaling EXPR against NAME: how one quantity grows with another.
//
// For instance scaling m^2 against m: doubling m multiplies m² by 4.
type Scaling struct {
	X       Expr  `parser:"'scaling' @@"`
	Against Ident `parser:"'against' @@"`
}

var scalingWord = StatementWord{
	Word: "scaling", Form: "scaling EXPR against NAME",
	Summary: "Says how one quantity grows with another.",
	Example: "scaling T against L", Stored: true, Ready: true, read: clauses(statement(&Scaling{})),
	sure: " against ", next: []string{"against"},
}

func (s *Scaling) Exprs() []Expr  { return []Expr{s.X} }
func (*Scaling) Defines() []Ident { return nil }
func (s *Scaling) is() nature     { return nature{kept, Answer, []Ident{s.Against}} }
