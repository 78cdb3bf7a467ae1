package syntax

import "steelyard/lang/finding"

type (
	// Graph is graph F(x)[, G(x)…] against x from A to B [in UNIT] [blank], or
	// table with the same clause and [by STEP].
	Graph struct {
		Table   bool     `parser:"( 'graph' | @'table' )"`
		Curves  []Curve  `parser:"@@ ( ',' @@ )*"`
		Against Ident    `parser:"'against' @@"`
		From    Expr     `parser:"'from' @@"`
		To      Expr     `parser:"'to' @@"`
		By      Expr     `parser:"( 'by' @@ )?"` // the step of a table, or nil
		In      UnitText `parser:"( 'in' @@ )?"`
		// Last is a step that stands after the unit; By has it too.
		Last  Expr `parser:"( 'by' @@ )?"`
		Blank bool `parser:"@'blank'?"` // axes alone
	}
	// Curve is one curve of a graph, or column of a table, with a unit of its own.
	Curve struct {
		X  Expr     `parser:"@@"`
		In UnitText `parser:"( 'in' @@ )?"`
	}
)

var graphWord = StatementWord{
	Word: "graph", Form: "graph F(x)[, G(x)] against x from A to B [in UNIT] [blank]",
	Summary: "Draws curves and says their shape in words.",
	Example: "graph 1/2*(30 N/m)*x^2 against x from 0 m to 2 m in J", Stored: true, Ready: true, read: clauses(readGraph),
	keep: keepBlank, sure: " against ", next: []string{"against", "from", "to", "in", "blank"},
}

var tableWord = StatementWord{
	Word: "table", Form: "table F(x)[, G(x)] against x from A to B [by STEP] [in UNIT]",
	Summary: "Prints columns of values.",
	Example: "table 1/2*(30 N/m)*x^2 against x from 0 m to 2 m in J", Stored: true, Ready: true, read: clauses(readGraph),
	keep: keepBlank, sure: " against ", next: []string{"against", "from", "to", "by", "in"},
}

// Exprs are the curves, then the bounds and the step.
func (s *Graph) Exprs() []Expr {
	var out []Expr
	for _, c := range s.Curves {
		out = append(out, c.X)
	}
	return exprs(append(out, s.From, s.To, s.By)...)
}

func (*Graph) Defines() []Ident { return nil }
func (*Graph) is() nature       { return nature{kept, Task} }

var graphLines = production[Graph]()

// keepBlank keeps the word that asks for axes alone, at the end of a line.
func keepBlank(tokens []token) {
	if last := len(tokens) - 1; last > 0 && tokens[last].kind == nameToken && tokens[last].text == "blank" {
		tokens[last].kind = wordToken
	}
}

func readGraph(r *reader, tokens []token) (Stmt, *fault) {
	s, bad := graphLines(tokens, r.to)
	if bad != nil {
		return nil, bad
	}
	if s.By == nil {
		s.By = s.Last
	}
	s.Last = nil
	switch {
	case s.By != nil && !s.Table:
		return nil, &fault{finding.New(finding.Unreadable, s.By.Span(), "A graph needs no step.", "Leave `by …` out, or write table for rows of values.")}
	case s.Blank && s.Table:
		return nil, &fault{finding.New(finding.Unreadable, tokens[len(tokens)-1].span(), "`blank` is for the axes of a graph.", "Leave it out, or write graph.")}
	}
	return s, nil
}
