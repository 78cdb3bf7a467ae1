package syntax

// Compare is compare A with B: how far apart two quantities are, as a part of the second and
// in standard uncertainties of their difference.
//
// For instance compare k with 250 N/m. Nothing is judged: a check does that.
type Compare struct {
	X    Expr `parser:"'compare' @@"`
	With Expr `parser:"'with' @@"`
}

var compareWord = StatementWord{
	Word: "compare", Form: "compare A with B",
	Summary: "Says how far apart two values are, in percent and in standard uncertainties.",
	Example: "compare 257 N/m with 250 N/m", Stored: true, Ready: true, read: clauses(statement(&Compare{})),
	expr: true, sure: " with ", next: []string{"with"},
}

func (s *Compare) Exprs() []Expr  { return []Expr{s.X, s.With} }
func (*Compare) Defines() []Ident { return nil }
func (*Compare) is() nature       { return nature{kept, Support, nil} }
