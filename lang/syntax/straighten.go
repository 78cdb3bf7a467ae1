package syntax

// Straighten is straighten Y against X: in which plot of two lists of readings the points
// lie on a straight line.
//
// For instance straighten T against m, where T² against m is straight. Y and X are what
// the readings are; what is made of them, as T² or ln m, is not typed.
type Straighten struct {
	Y Expr `parser:"'straighten' @@"`
	X Expr `parser:"'against' @@"`
}

var straightenWord = StatementWord{
	Word: "straighten", Form: "straighten Y against X",
	Summary: "Says which plot of readings is straight: T, T², √T, 1/T or ln T against m, m², 1/m or ln m.",
	Example: "straighten [2.0, 2.8, 3.5, 4.0] s against [1, 2, 3, 4] m", Stored: true, Ready: true,
	read: clauses(statement(&Straighten{})), sure: " against ", expr: true, next: []string{"against"},
}

func (s *Straighten) Exprs() []Expr  { return []Expr{s.Y, s.X} }
func (*Straighten) Defines() []Ident { return nil }
func (*Straighten) is() nature       { return nature{kept, Answer, nil} }
