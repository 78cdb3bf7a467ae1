package syntax

import "steelyard/lang/finding"

type (
	// Fit is fit Y against X [through the origin] [as a, b]: the straight line that fits
	// readings best, and the names of its slope and intercept.
	Fit struct {
		Y       Expr    `parser:"'fit' @@"`
		X       Expr    `parser:"'against' @@"`
		Through bool    `parser:"( @'through' 'the' 'origin' )?"`
		As      []Ident `parser:"( 'as' @@ ( ',' @@ )* )?"`
	}
)

var fitWord = StatementWord{
	Word: "fit", Form: "fit Y against X [through the origin] [as a, b]",
	Summary: "Fits a line to readings: slope, intercept, their uncertainties.",
	Example: "fit [2, 4, 7] m against [1, 2, 3] s", Stored: true, Ready: true, read: clauses(readFit),
	keep: keepFit, sure: " against ", expr: true, next: []string{"against", "through", "as"},
}

func (s *Fit) Exprs() []Expr    { return exprs(s.Y, s.X) }
func (s *Fit) Defines() []Ident { return s.As }
func (*Fit) is() nature         { return nature{recorded, Task, nil} }

var fitLines = production[Fit]()

// keepFit keeps the words behind the second quantity.
func keepFit(tokens []token) {
	against := false
	for i := range tokens {
		t := &tokens[i]
		against = against || t.is("against")
		if against && t.kind == nameToken && (t.text == "through" || t.text == "as" || i > 0 && tokens[i-1].is("through") && t.text == "the" ||
			i > 1 && tokens[i-2].is("through") && t.text == "origin") {
			t.kind = wordToken
		}
	}
}

func readFit(r *reader, tokens []token) (Stmt, *fault) {
	s, bad := fitLines(tokens, r.to)
	if bad != nil {
		return nil, bad
	}
	most, message := 2, "A line has a slope and an intercept, and no more."
	if s.Through {
		most, message = 1, "A line through the origin has a slope alone."
	}
	if len(s.As) > most {
		return nil, &fault{finding.New(finding.WrongCall, s.As[most].NameAt, message, "Leave this name out.")}
	}
	return s, nil
}
