package syntax

import (
	"strconv"

	"github.com/alecthomas/participle/v2/lexer"

	"steelyard/lang/finding"
)

type (
	// With is EXPR with NAME = EXPR[, …]: a value worked out again with others
	// replaced. What stands after = may use the names as they are.
	//
	// v with m = 2*m has the old m on the right: both are read before any is replaced, so that two
	// bindings may change places.
	With struct {
		At Span
		X  Expr
		By []Binding
	}
	// Binding gives a name another value: with U = W. Line says which line gave the
	// name, as in U@3, or is 0.
	Binding struct {
		Name   string
		Line   int
		NameAt Span
		X      Expr
	}
)

func (x *With) Span() Span      { return x.At }
func (*With) derived()          {}
func (x *With) Visit(v Visitor) { v.With(x) }

func (x *With) part(i int) Expr {
	switch {
	case i == 0:
		return x.X
	case i <= len(x.By):
		return x.By[i-1].X
	}
	return nil
}

func (x *With) copied(c *copier) Expr {
	by := make([]Binding, len(x.By))
	for i, b := range x.By {
		by[i] = Binding{Name: b.Name, Line: b.Line, NameAt: c.at(b.NameAt), X: c.part(b.X)}
	}
	return &With{At: c.at(x.At), X: c.part(x.X), By: by}
}

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
	p := newParser(produced{lex})
	*b = p.plainBinding()
	return p.err()
}

// plainBinding reads NAME = EXPR where the name can't be of a certain line.
func (p *exprParser) plainBinding() Binding {
	b := p.binding()
	if b.Line != 0 {
		p.fail(&fault{finding.New(finding.Unreadable, b.NameAt, "The name here needs no line number.", "Write "+b.Name+" alone.")})
	}
	return b
}

// binding reads NAME = EXPR.
//
// U@3 = W replaces the U that line 3 gave, where the page has two.
func (p *exprParser) binding() Binding {
	n := p.ident()
	b := Binding{Name: n.Name, NameAt: n.NameAt}
	if p.tok.kind == lineToken {
		line := p.take()
		b.Line, _ = strconv.Atoi(line.text[1:])
		b.NameAt = b.NameAt.Join(line.span())
	}
	p.sign("=")
	b.X = p.sum()
	return b
}

// replaced reads [with NAME = EXPR[, …]] after an expression, which it all belongs
// to.
func (p *exprParser) replaced(x Expr) Expr {
	if p.tok.kind != wordToken || p.tok.text != "with" {
		return x
	}
	w := &With{X: x}
	for more := true; more; {
		p.take()
		w.By = append(w.By, p.binding())
		// A comma goes on with the bindings only if another one follows it.
		after := p.from.peek(2)
		more = p.tok.sign(",") && (after.sign("=") || after.kind == lineToken)
	}
	w.At = Span{From: x.Span().From, To: p.end}
	return w
}
