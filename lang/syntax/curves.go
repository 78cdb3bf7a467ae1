package syntax

import (
	"strings"

	"steelyard/lang/finding"
)

type (
	// Slope is [NAME =] slope of F(x) at x = A [in UNIT].
	Slope struct {
		Named Ident    // without a name if it has none
		X     Expr     `parser:"'slope' 'of' @@"`
		Var   Ident    `parser:"'at' @@ '='"`
		At    Expr     `parser:"@@"`
		In    UnitText `parser:"( 'in' @@ )?"`
	}
	// Area is [NAME =] area under F(x) [against x] from A to B [in UNIT].
	Area struct {
		Named Ident    // without a name if it has none
		X     Expr     `parser:"'area' 'under' @@"`
		Var   Ident    `parser:"( 'against' @@ )?"` // without a name where the argument of F says it
		From  Expr     `parser:"'from' @@"`
		To    Expr     `parser:"'to' @@"`
		In    UnitText `parser:"( 'in' @@ )?"`
	}
)

var slopeWord = StatementWord{
	Word: "slope", Form: "slope of F(x) at x = A [in UNIT]",
	Summary: "The derivative of a function at a point.",
	Example: "slope of (5 m/s^2)*t^2 at t = 3 s", Stored: true, Ready: true, read: clauses(readSlope),
	second: "of", keep: keepSecond, next: []string{"of", "at", "in"},
}

var areaWord = StatementWord{
	Word: "area", Form: "area under F(x) [against x] from A to B [in UNIT]",
	Summary: "The integral of a function between two bounds.",
	Example: "area under (3 N/m)*x against x from 0 m to 4 m", Stored: true, Ready: true, read: clauses(readArea),
	second: "under", keep: keepSecond, next: []string{"under", "against", "from", "to", "in"},
}

func (s *Slope) Exprs() []Expr    { return []Expr{s.X, s.At} }
func (s *Slope) Defines() []Ident { return s.Named.given() }
func (*Slope) Records() bool      { return true }
func (*Slope) Stored() bool       { return true }
func (*Slope) stmt()              {}

func (s *Area) Exprs() []Expr    { return []Expr{s.X, s.From, s.To} }
func (s *Area) Defines() []Ident { return s.Named.given() }
func (*Area) Records() bool      { return true }
func (*Area) Stored() bool       { return true }
func (*Area) stmt()              {}

// given lists the name, if there is one.
func (i Ident) given() []Ident {
	if i.Name == "" {
		return nil
	}
	return []Ident{i}
}

var (
	slopeLines = production[Slope]()
	areaLines  = production[Area]()
)

// keepSecond keeps the second word of slope of and area under, which are names
// elsewhere.
func keepSecond(tokens []token) {
	if len(tokens) > 1 {
		tokens[1].kind = wordToken
	}
}

func readSlope(r *reader, tokens []token) (Stmt, *fault) {
	return statement(parse(slopeLines, tokens, r.to))
}

func readArea(r *reader, tokens []token) (Stmt, *fault) {
	return statement(parse(areaLines, tokens, r.to))
}

// namedReading finds NAME = slope of … and NAME = area under ….
func namedReading(line string) (w *StatementWord, at int) {
	eq := strings.IndexByte(line, '=')
	if eq <= 0 {
		return nil, 0
	}
	from, _ := trimBlanks(line, eq+1, len(line))
	rest := line[from:]
	for _, w := range [...]*StatementWord{&slopeWord, &areaWord} {
		if after, found := strings.CutPrefix(rest, w.Word); found && strings.HasPrefix(strings.TrimLeft(after, " \t"), w.second+" ") && isBlank(firstRune(after)) {
			return w, from
		}
	}
	return nil, 0
}

// named reads a slope or an area that is given a name.
func (r *reader) named(w *StatementWord, at int) (Stmt, *fault) {
	eq := r.from + strings.IndexByte(r.text[r.from:r.to], '=')
	left, bad := scan(r.text, r.from, eq, "")
	if bad != nil {
		return nil, bad
	}
	if len(left) != 1 {
		return nil, &fault{finding.New(finding.NameKind, Span{From: r.from, To: eq}, "The left of = is not a name, so it can't be given a value.", "Write one name there, as in `v = slope of x(t) at t = 3 s`.")}
	}
	if _, bad = newName(&left[0]); bad != nil {
		return nil, bad
	}
	inner := *r
	inner.from = r.from + at
	s, bad := inner.worded(w)
	if bad != nil {
		return nil, bad
	}
	switch s := s.(type) {
	case *Slope:
		s.Named = left[0].ident()
	case *Area:
		s.Named = left[0].ident()
	}
	return s, nil
}
