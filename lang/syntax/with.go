package syntax

import (
	"github.com/alecthomas/participle/v2/lexer"
)

type (
	// With is EXPR with NAME = EXPR[, …]: a result worked out again with givens
	// replaced. What stands after = may use the names as they are.
	With struct {
		X  Expr      `parser:"@@"`
		In UnitText  `parser:"( 'in' @@ )?"`
		By []Binding `parser:"'with' @@ ( ',' @@ )*"`
	}
	// Binding gives a name another value: with U = W.
	Binding struct {
		Name   string
		NameAt Span
		X      Expr
	}
)

func (s *With) Exprs() []Expr  { return append([]Expr{s.X}, bound(s.By)...) }
func (*With) Defines() []Ident { return nil }
func (*With) Records() bool    { return true }
func (*With) Stored() bool     { return true }
func (*With) stmt()            {}

var withLines = production[With]()

// bound are the expressions of bindings.
func bound(list []Binding) []Expr {
	out := make([]Expr, len(list))
	for i, b := range list {
		out[i] = b.X
	}
	return out
}

// Parse reads NAME = EXPR within a production.
func (b *Binding) Parse(lex *lexer.PeekingLexer) error {
	t, err := one(lex, nameToken)
	if err != nil {
		return err
	}
	if equals := fromLexer(lex.Peek()); !equals.sign("=") {
		return unexpected(equals)
	}
	lex.Next()
	x, err := parseExpr(lex)
	*b = Binding{Name: Canonical(t.text), NameAt: t.span(), X: x}
	return err
}

// with reads a line that works a value out again.
func (r *reader) with(tokens []token) (Stmt, *fault) {
	s, bad := statement(parse(withLines, tokens, r.to))
	if bad == nil {
		bad = r.readings(s.Exprs()...)
	}
	if bad == nil {
		bad = r.noBody()
	}
	return s, bad
}
