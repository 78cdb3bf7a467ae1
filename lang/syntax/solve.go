package syntax

import (
	"github.com/alecthomas/participle/v2/lexer"

	"steelyard/lang/finding"
)

type (
	// solve U = 1/2*k*x^2 for k in N/m where k > 0
	solveLine struct {
		Equations []equationPart  `parser:"'solve' @@ ( 'and' @@ )*"`
		Unknowns  []unknownPart   `parser:"'for' @@ ( ',' @@ )*"`
		With      []bindingPart   `parser:"( 'with' @@ ( ',' @@ )* )?"`
		Where     []conditionPart `parser:"( 'where' @@ ( 'and' @@ )* )?"`
		Later     []bindingPart   `parser:"( 'with' @@ ( ',' @@ )* )?"`
	}
	equationPart struct {
		Left  Expr `parser:"@@"`
		Right Expr `parser:"( '=' @@ )?"`
	}
	unknownPart struct {
		Which lexer.Token `parser:"( 'the' @( 'later' | 'earlier' | 'greater' | 'larger' | 'smaller' | 'lesser' ) )?"`
		Name  lexer.Token `parser:"@Name"`
		In    lexer.Token `parser:"( 'in' @Unit )?"`
	}
	bindingPart struct {
		Name lexer.Token `parser:"@Name '='"`
		X    Expr        `parser:"@@"`
	}
	conditionPart struct {
		Left  Expr        `parser:"@@"`
		Op    lexer.Token `parser:"@( '<' | '>' | '<=' | '>=' | '≤' | '≥' )"`
		Right Expr        `parser:"@@"`
		Next  lexer.Token `parser:"( @( '<' | '>' | '<=' | '>=' | '≤' | '≥' )"`
		Third Expr        `parser:"  @@ )?"`
	}
	// steps k
	stepsLine struct {
		Name lexer.Token `parser:"'steps' @Name"`
	}
)

var (
	solveLines = production[solveLine]()
	stepsLines = production[stepsLine]()
)

// choosing are the words between for and a name that choose a root.
var choosing = map[string]Choice{
	"later": GreatestRoot, "greater": GreatestRoot, "larger": GreatestRoot,
	"earlier": LeastRoot, "smaller": LeastRoot, "lesser": LeastRoot,
}

// solveTokens reads the tokens of a solve. The words that choose a root stand
// beside the name without a sign between them.
func (r *reader) solveTokens() ([]token, *fault) {
	tokens, bad := scan(r.text, r.from, r.to, "solve")
	if bad != nil {
		return nil, bad
	}
	for i := 1; i+1 < len(tokens); i++ {
		before, t, next := &tokens[i-1], &tokens[i], &tokens[i+1]
		if t.text != "the" || !before.is("for") && !before.is(",") {
			continue
		}
		if _, ok := choosing[next.text]; ok {
			t.kind, next.kind = wordToken, wordToken
		}
	}
	return tokens, adjacent(r.text, tokens)
}

// solve reads a solve from its tokens.
func (r *reader) solve(tokens []token) (Stmt, *fault) {
	v, bad := parse(solveLines, tokens, r.to)
	if bad != nil {
		if offer, ok := r.joined(tokens); ok {
			return nil, offer
		}
		return nil, bad
	}
	s := &Solve{}
	for _, e := range v.Equations {
		if bad := r.readings(e.Left, e.Right); bad != nil {
			return nil, bad
		}
		if _, named := e.Left.(*Name); e.Right == nil && !named {
			return nil, &fault{finding.New(finding.Unreadable, e.Left.Span(), "An equation has a left and a right side.",
				"Write both, as in solve U = 1/2*k*x^2 for k, or the name of a formula.")}
		}
		s.Equations = append(s.Equations, Equation(e))
	}
	for _, u := range v.Unknowns {
		s.Unknowns = append(s.Unknowns, Unknown{Name: Canonical(u.Name.Value), NameAt: tokenSpan(&u.Name), In: unitText(&u.In), Which: choosing[u.Which.Value]})
	}
	if bad := r.readings(given(append(v.With, v.Later...))...); bad != nil {
		return nil, bad
	}
	for _, c := range v.Where {
		if bad := r.readings(c.Left, c.Right, c.Third); bad != nil {
			return nil, bad
		}
	}
	s.With = bindings(append(v.With, v.Later...))
	for _, c := range v.Where {
		s.Where = append(s.Where, Condition{Left: c.Left, Op: comparison(&c.Op), OpAt: tokenSpan(&c.Op), Right: c.Right})
		if c.Third != nil {
			s.Where = append(s.Where, Condition{Left: c.Right, Op: comparison(&c.Next), OpAt: tokenSpan(&c.Next), Right: c.Third})
		}
	}
	return s, nil
}

// solve prints a solve so that it reads back.
func (p *printer) solve(s *Solve) {
	p.text("solve ")
	for i, e := range s.Equations {
		if i > 0 {
			p.text(" and ")
		}
		p.expr(e.Left)
		if e.Right != nil {
			p.text(" = ")
			p.expr(e.Right)
		}
	}
	for i, u := range s.Unknowns {
		p.text([]string{" for ", ", "}[min(i, 1)], [...]string{"", "the greater ", "the smaller "}[u.Which], u.Name)
		p.in(u.In)
	}
	for i, b := range s.With {
		p.text([]string{" with ", ", "}[min(i, 1)], b.Name, " = ")
		p.expr(b.X)
	}
	for i, c := range s.Where {
		p.text([]string{" where ", " and "}[min(i, 1)])
		p.expr(c.Left)
		p.text([...]string{" = ", " < ", " > ", " ≤ ", " ≥ "}[c.Op])
		p.expr(c.Right)
	}
}
