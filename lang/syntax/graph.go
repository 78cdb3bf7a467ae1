package syntax

import (
	"strings"

	"github.com/alecthomas/participle/v2/lexer"

	"steelyard/lang/finding"
)

type (
	// Graph is graph F(x)[, G(x)…] against x from A to B [in UNIT] [blank], or
	// table with the same clause and [by STEP].
	Graph struct {
		Table     bool
		Curves    []Curve
		Against   string
		AgainstAt Span
		From, To  Expr
		By        Expr // the step of a table, or nil
		In        UnitText
		Blank     bool // axes alone
	}
	// Slope is [NAME =] slope of F(x) at x = A [in UNIT].
	Slope struct {
		Name   string // or empty
		NameAt Span
		X      Expr
		Var    string
		VarAt  Span
		At     Expr
		In     UnitText
	}
	// Area is [NAME =] area under F(x) [against x] from A to B [in UNIT].
	Area struct {
		Name     string // or empty
		NameAt   Span
		X        Expr
		Var      string // empty where the argument of F says it
		VarAt    Span
		From, To Expr
		In       UnitText
	}
)

// Curve is one curve of a graph, or column of a table, with a unit of its own.
type Curve struct {
	X  Expr
	In UnitText
}

func (*Graph) stmt() {}
func (*Slope) stmt() {}
func (*Area) stmt()  {}

type (
	curvePart struct {
		X  Expr        `parser:"@@"`
		In lexer.Token `parser:"( 'in' @Unit )?"`
	}
	// graph U(x), K(x) against x from -A to A in J
	graphLine struct {
		Curves  []curvePart `parser:"( 'graph' | 'table' ) @@ ( ',' @@ )*"`
		Against lexer.Token `parser:"'against' @Name"`
		From    Expr        `parser:"'from' @@"`
		To      Expr        `parser:"'to' @@"`
		By      Expr        `parser:"( 'by' @@ )?"`
		In      lexer.Token `parser:"( 'in' @Unit )?"`
		Last    Expr        `parser:"( 'by' @@ )?"`
		Blank   lexer.Token `parser:"@'blank'?"`
	}
	// slope of x(t) at t = 3 s
	slopeLine struct {
		X    Expr        `parser:"'slope' 'of' @@"`
		Name lexer.Token `parser:"'at' @Name '='"`
		At   Expr        `parser:"@@"`
		In   lexer.Token `parser:"( 'in' @Unit )?"`
	}
	// area under F(x) from 0 m to 4 m
	areaLine struct {
		X    Expr        `parser:"'area' 'under' @@"`
		Name lexer.Token `parser:"( 'against' @Name )?"`
		From Expr        `parser:"'from' @@"`
		To   Expr        `parser:"'to' @@"`
		In   lexer.Token `parser:"( 'in' @Unit )?"`
	}
)

var (
	graphLines = production[graphLine]()
	slopeLines = production[slopeLine]()
	areaLines  = production[areaLine]()
)

// wordTokens reads the tokens of a statement in which words stand that are names
// elsewhere: the second one of slope of and area under, and blank at the end.
func (r *reader) wordTokens(word string) ([]token, *fault) {
	tokens, bad := scan(r.text, r.from, r.to, word)
	if bad != nil {
		return nil, bad
	}
	switch last := len(tokens) - 1; {
	case word == "slope" || word == "area":
		if last > 0 {
			tokens[1].kind = wordToken
		}
	case last > 0 && tokens[last].kind == nameToken && tokens[last].text == "blank":
		tokens[last].kind = wordToken
	}
	return tokens, adjacent(r.text, tokens)
}

// graph reads a graph or a table.
func (r *reader) graph(word string, tokens []token) (Stmt, *fault) {
	v, bad := parse(graphLines, tokens, r.to)
	if bad != nil {
		return nil, bad
	}
	s := &Graph{
		Table: word == "table", Against: Canonical(v.Against.Value), AgainstAt: tokenSpan(&v.Against),
		From: v.From, To: v.To, By: v.By, In: unitText(&v.In), Blank: v.Blank.Value != "",
	}
	if s.By == nil {
		s.By = v.Last
	}
	for _, c := range v.Curves {
		if bad := r.readings(c.X); bad != nil {
			return nil, bad
		}
		s.Curves = append(s.Curves, Curve{X: c.X, In: unitText(&c.In)})
	}
	switch {
	case s.By != nil && !s.Table:
		return nil, &fault{finding.New(finding.Unreadable, s.By.Span(), "A graph has no step: it is drawn as finely as its curves need.", "Leave `by …` out, or write table for rows of values.")}
	case s.Blank && s.Table:
		return nil, &fault{finding.New(finding.Unreadable, tokenSpan(&v.Blank), "`blank` is for the axes of a graph.", "Leave it out, or write graph.")}
	}
	return s, r.readings(s.From, s.To, s.By)
}

// slope reads the slope of a curve at a point.
func (r *reader) slope(tokens []token) (Stmt, *fault) {
	v, bad := parse(slopeLines, tokens, r.to)
	if bad == nil {
		bad = r.readings(v.X, v.At)
	}
	if bad != nil {
		return nil, bad
	}
	return &Slope{X: v.X, Var: Canonical(v.Name.Value), VarAt: tokenSpan(&v.Name), At: v.At, In: unitText(&v.In)}, nil
}

// area reads the area under a curve.
func (r *reader) area(tokens []token) (Stmt, *fault) {
	v, bad := parse(areaLines, tokens, r.to)
	if bad == nil {
		bad = r.readings(v.X, v.From, v.To)
	}
	if bad != nil {
		return nil, bad
	}
	s := &Area{X: v.X, From: v.From, To: v.To, In: unitText(&v.In)}
	if v.Name.Value != "" {
		s.Var, s.VarAt = Canonical(v.Name.Value), tokenSpan(&v.Name)
	}
	return s, nil
}

// namedReading finds NAME = slope of … and NAME = area under ….
func namedReading(line string) (word string, at int, ok bool) {
	eq := strings.IndexByte(line, '=')
	if eq <= 0 {
		return "", 0, false
	}
	from, _ := trimBlanks(line, eq+1, len(line))
	rest := line[from:]
	for _, two := range [][2]string{{"slope", "of"}, {"area", "under"}} {
		if after, found := strings.CutPrefix(rest, two[0]); found && strings.HasPrefix(strings.TrimLeft(after, " \t"), two[1]+" ") && isBlank(firstRune(after)) {
			return two[0], from, true
		}
	}
	return "", 0, false
}

// named reads a slope or an area that is given a name.
func (r *reader) named(word string, at int) (Stmt, *fault) {
	w, _ := statementWord(word)
	eq := r.from + strings.IndexByte(r.text[r.from:r.to], '=')
	left, bad := scan(r.text, r.from, eq, "")
	if bad != nil {
		return nil, bad
	}
	if len(left) != 1 {
		return nil, &fault{finding.New(finding.NameKind, Span{From: r.from, To: eq}, "The left of = is not a name, so it can't be given a value.", "Write one name there, as in `v = slope of x(t) at t = 3 s`.")}
	}
	name, bad := newName(&left[0])
	if bad != nil {
		return nil, bad
	}
	inner := *r
	inner.from = r.from + at
	tokens, bad := inner.wordTokens(word)
	if bad != nil {
		return nil, inner.wrongForm(w, bad)
	}
	s, bad := inner.keyed(word, tokens)
	if bad != nil {
		return nil, inner.wrongForm(w, bad)
	}
	switch s := s.(type) {
	case *Slope:
		s.Name, s.NameAt = name, left[0].span()
	case *Area:
		s.Name, s.NameAt = name, left[0].span()
	}
	return s, r.noBody()
}

// graph prints a graph or a table.
func (p *printer) graph(s *Graph) {
	p.text(map[bool]string{false: "graph ", true: "table "}[s.Table])
	for i, c := range s.Curves {
		if i > 0 {
			p.text(", ")
		}
		p.expr(c.X)
		p.in(c.In)
	}
	p.text(" against ", s.Against, " from ")
	p.expr(s.From)
	p.text(" to ")
	p.expr(s.To)
	if s.By != nil {
		p.text(" by ")
		p.expr(s.By)
	}
	p.in(s.In)
	if s.Blank {
		p.text(" blank")
	}
}

func (p *printer) slope(s *Slope) {
	if s.Name != "" {
		p.text(s.Name, " = ")
	}
	p.text("slope of ")
	p.expr(s.X)
	p.text(" at ", s.Var, " = ")
	p.expr(s.At)
	p.in(s.In)
}

func (p *printer) area(s *Area) {
	if s.Name != "" {
		p.text(s.Name, " = ")
	}
	p.text("area under ")
	p.expr(s.X)
	if s.Var != "" {
		p.text(" against ", s.Var)
	}
	p.text(" from ")
	p.expr(s.From)
	p.text(" to ")
	p.expr(s.To)
	p.in(s.In)
}
