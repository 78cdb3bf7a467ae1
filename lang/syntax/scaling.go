package syntax

// Scaling is scaling EXPR against NAME: how one quantity grows with another.
type Scaling struct {
	X       Expr  `parser:"'scaling' @@"`
	Against Ident `parser:"'against' @@"`
}

var scalingWord = StatementWord{
	Word: "scaling", Form: "scaling EXPR against NAME",
	Summary: "Says how one quantity grows with another.",
	Example: "scaling T against L", Stored: true, Ready: true, read: clauses(readScaling),
	sure: " against ", next: []string{"against"},
}

func (s *Scaling) Exprs() []Expr  { return []Expr{s.X} }
func (*Scaling) Defines() []Ident { return nil }
func (*Scaling) Records() bool    { return false }
func (*Scaling) Stored() bool     { return true }
func (*Scaling) Role() Role       { return Answer }
func (*Scaling) stmt()            {}

var scalingLines = production[Scaling]()

func readScaling(r *reader, tokens []token) (Stmt, *fault) {
	return statement(parse(scalingLines, tokens, r.to))
}
