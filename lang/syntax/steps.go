package syntax

// Steps is steps NAME, or steps all: the worked lines of a result.
//
// They are the formula, the values put in, the result and its units. A name that
// is given has no steps, and the line says so.
type Steps struct {
	Of Ident // without a name for all
}

var stepsWord = StatementWord{
	Word: "steps", Form: "steps NAME, or steps all",
	Summary: "The worked lines of a result, or of the whole worksheet.",
	Example: "steps k", Stored: true, Ready: true, read: reads((*exprParser).steps),
}

func (*Steps) Exprs() []Expr    { return nil }
func (*Steps) Defines() []Ident { return nil }
func (s *Steps) is() nature     { return nature{kept, Support, []Ident{s.Of}} }

// The word all is no name here: there are no steps of a quantity that is called
// all.
func (p *exprParser) steps() Stmt {
	s := &Steps{Of: p.ident()}
	if s.Of.Name == "all" {
		s.Of.Name = ""
	}
	return s
}
