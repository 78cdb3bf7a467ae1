package syntax

// Steps is steps NAME, or steps all: the worked lines of a result.
//
// They are the formula, the values put in, the result and its units. A name that
// is given has no steps, and the line says so.
type Steps struct {
	Of Ident `parser:"'steps' @@"` // without a name for all
}

var stepsWord = StatementWord{
	Word: "steps", Form: "steps NAME, or steps all",
	Summary: "The worked lines of a result, or of the whole worksheet.",
	Example: "steps k", Stored: true, Ready: true, read: clauses(readSteps),
}

func (*Steps) Exprs() []Expr    { return nil }
func (*Steps) Defines() []Ident { return nil }
func (s *Steps) is() nature     { return nature{kept, Support, []Ident{s.Of}} }

var stepsLines = production(&Steps{})

// The word all is no name here: there are no steps of a quantity that is called
// all.
func readSteps(r *reader, tokens []token) (Stmt, *fault) {
	got, bad := stepsLines(tokens, r.to)
	if bad != nil {
		return nil, bad
	}
	s := got.(*Steps)
	if s.Of.Name == "all" {
		s.Of.Name = ""
	}
	return s, nil
}
