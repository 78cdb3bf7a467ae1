package syntax

import "steelyard/lang/finding"

type (
	// Graph is graph F(x)[, G(x)…] against x from A to B [in UNIT] [log [across|up]]
	// [blank], or graph Y(t) against X(t) for t from A to B with the same, or graph R(t) for
	// t from A to B, where R is a vector, or table with the first clause and [by STEP].
	//
	// The name goes from From to To; a graph draws its curves over that, and a table
	// has a row for each step:
	//
	//	graph 1/2*(30 N/m)*x^2 against x from 0 m to 2 m in J
	//	table 1/2*(30 N/m)*x^2 against x from 0 m to 2 m in J
	Graph struct {
		Table  bool
		Curves []Curve
		// Path is what goes across where that isn't the name itself, else it has no
		// expression.
		Path    Curve
		Against Ident
		From    Expr
		To      Expr
		By      Expr // the step of a table, or nil
		In      UnitText
		// Log asks for logarithmic axes: of those two of one of them alone.
		Log    bool
		Across bool
		Up     bool
		Blank  bool // axes alone
		// Vector tells that the one curve is a vector, whose components go across and up.
		Vector bool
	}
	// Curve is one curve of a graph, or column of a table, with a unit of its own.
	Curve struct {
		X  Expr     `parser:"@@"`
		In UnitText `parser:"( 'in' @@ )?"`
	}
)

var graphWord = StatementWord{
	Word: "graph", Form: "graph F[, G] [against x] [for t] [from A to B] [in UNIT] [log] [blank]",
	Summary: "Draws curves, or points and what fits them, and says their shape.",
	Example: "graph 1/2*(30 N/m)*x^2 against x from 0 m to 2 m in J", Stored: true, Ready: true, read: clauses(readGraph),
	phrases: phrases("blank", "log across/up", "log", "with residuals"), sure: " against ", next: []string{"against", "for", "from", "to", "in", "with", "log", "blank"},
}

var tableWord = StatementWord{
	Word: "table", Form: "table F(x)[, G(x)] against x [from A to B] [by STEP] [in UNIT]",
	Summary: "Prints columns of values.",
	Example: "table 1/2*(30 N/m)*x^2 against x from 0 m to 2 m in J", Stored: true, Ready: true, read: clauses(readGraph),
	phrases: phrases("blank", "log across/up", "log", "with residuals"), sure: " against ", next: []string{"against", "from", "to", "by", "in"},
}

// Exprs are the curves, what goes across on a path, then the bounds and the step.
func (s *Graph) Exprs() []Expr {
	var out []Expr
	for _, c := range s.Curves {
		out = append(out, c.X)
	}
	return exprs(append(out, s.Path.X, s.From, s.To, s.By)...)
}

// IsPath tells whether a path is drawn, of which both coordinates go with a third
// quantity.
func (s *Graph) IsPath() bool { return s.Path.X != nil || s.Vector }

func (*Graph) Defines() []Ident { return nil }
func (*Graph) is() nature       { return nature{kept, Task, nil} }

// A graph with no range is a plot of readings, which are lists of the page. A step
// is for a table, and logarithmic or blank axes for a graph: each is refused
// elsewhere.
func readGraph(r *reader, tokens []token) (Stmt, *fault) {
	if !ranged(tokens) {
		return readPlot(r, tokens)
	}
	s, bad := r.graph(tokens)
	if bad != nil {
		return nil, bad
	}
	s.Across, s.Up = s.Log && !s.Up, s.Log && !s.Across
	switch {
	case s.By != nil && !s.Table:
		return nil, &fault{finding.New(finding.Unreadable, s.By.Span(), "A graph needs no step.", "Leave `by …` out, or write table for rows of values.")}
	case (s.Blank || s.Log) && s.Table:
		last := tokens[len(tokens)-1]
		return nil, &fault{finding.New(finding.Unreadable, last.span(), "`"+last.text+"` is for the axes of a graph.", "Leave it out, or write graph.")}
	}
	return s, s.against()
}

// graph reads a graph or a table with a range, by hand: a production would take half as long
// as the whole of its drawing.
func (r *reader) graph(tokens []token) (*Graph, *fault) {
	p := r.line(tokens, 1)
	s := &Graph{Table: tokens[0].is("table")}
	for more := true; more; more = p.comma() {
		s.Curves = append(s.Curves, p.curve())
	}
	if p.taken("against") {
		s.Path = p.curve()
	}
	if p.taken("for") {
		s.Against = p.ident()
	}
	p.word("from")
	s.From = p.sum()
	p.word("to")
	s.To = p.sum()
	if p.taken("by") {
		s.By = p.sum()
	}
	s.In = p.inUnit()
	if s.By == nil && p.taken("by") {
		s.By = p.sum() // the step may stand after the unit
	}
	s.Log = p.taken("log")
	s.Across = s.Log && p.taken("across")
	s.Up = s.Log && !s.Across && p.taken("up")
	s.Blank = p.taken("blank")
	return s, p.ends()
}

// curve reads EXPR [in UNIT].
func (p *exprParser) curve() Curve { return Curve{X: p.sum(), In: p.inUnit()} }

// against finds what the curves go with: the name after for, else the one after against.
//
// A path is x(t) across and y(t) up: what both go with stands behind for. With one name behind
// against there is no path.
func (s *Graph) against() *fault {
	if s.Against.Name != "" {
		s.Vector = s.Path.X == nil
		if s.Table {
			return &fault{finding.New(finding.Unreadable, s.Against.NameAt, "A table goes against one name.", "Leave `for "+s.Against.Name+"` out, or write graph for a path.")}
		}
		return nil
	}
	n, ok := s.Path.X.(*Name)
	if s.Path.X == nil {
		at := s.Curves[len(s.Curves)-1].X.Span()
		return &fault{finding.New(finding.Incomplete, Span{From: at.To, To: at.To}, "The name that the curves go with is missing.", "Write `against` and that name, as in `against t from 0 s to 3 s`.")}
	}
	if !ok || n.Line > 0 || s.Path.In.Present() {
		return &fault{finding.New(finding.NotWritten, s.Path.X.Span(), "A curve is drawn against one name, such as t.",
			"For a path, write after it what both depend on, as in `against x(t) for t from 0 s to 3 s`.")}
	}
	s.Against, s.Path = Ident{Name: n.Name, NameAt: n.At}, Curve{}
	return nil
}
