package syntax

import "github.com/alecthomas/participle/v2/lexer"

type (
	// With is EXPR with NAME = EXPR[, …]: a result worked out again with givens
	// replaced. What stands after = may use the names as they are.
	With struct {
		X  Expr
		By []Binding
		In UnitText
	}
	// Scaling is scaling EXPR against NAME: how one quantity grows with another.
	Scaling struct {
		X         Expr
		Against   string
		AgainstAt Span
	}
	// T in ms with L = 2*L, g = 1.62 m/s^2
	withLine struct {
		X    Expr          `parser:"@@"`
		In   lexer.Token   `parser:"( 'in' @Unit )?"`
		With []bindingPart `parser:"'with' @@ ( ',' @@ )*"`
	}
	// scaling T against L
	scalingLine struct {
		X       Expr        `parser:"'scaling' @@"`
		Against lexer.Token `parser:"'against' @Name"`
	}
)

func (*With) stmt()    {}
func (*Scaling) stmt() {}

var (
	withLines    = production[withLine]()
	scalingLines = production[scalingLine]()
)

// with reads a line that works a value out again.
func (r *reader) with(tokens []token) (Stmt, *fault) {
	v, bad := parse(withLines, tokens, r.to)
	if bad == nil {
		bad = r.readings(v.X)
	}
	if bad == nil {
		bad = r.readings(given(v.With)...)
	}
	if bad != nil {
		return nil, bad
	}
	return &With{X: v.X, In: unitText(&v.In), By: bindings(v.With)}, r.noBody()
}

// given are what bindings give, as they stand.
func given(parts []bindingPart) []Expr {
	out := make([]Expr, len(parts))
	for i, b := range parts {
		out[i] = b.X
	}
	return out
}

func bindings(parts []bindingPart) []Binding {
	var out []Binding
	for _, b := range parts {
		out = append(out, Binding{Name: Canonical(b.Name.Value), NameAt: tokenSpan(&b.Name), X: b.X})
	}
	return out
}

// scaling reads which quantity is to grow with which.
func (r *reader) scaling(tokens []token) (Stmt, *fault) {
	v, bad := parse(scalingLines, tokens, r.to)
	if bad == nil {
		bad = r.readings(v.X)
	}
	if bad != nil {
		return nil, bad
	}
	return &Scaling{X: v.X, Against: Canonical(v.Against.Value), AgainstAt: tokenSpan(&v.Against)}, nil
}

// with prints a line that works a value out again.
func (p *printer) with(s *With) {
	p.text(nameFirst(PrintExpr(s.X)))
	p.in(s.In)
	for i, b := range s.By {
		p.text([]string{" with ", ", "}[min(i, 1)], b.Name, " = ")
		p.expr(b.X)
	}
}
