package syntax

import (
	"github.com/alecthomas/participle/v2"
	"github.com/alecthomas/participle/v2/lexer"
)

// Comparison is the sign of a check or of an interval's bound.
type Comparison uint8

// The comparisons.
const (
	Equal Comparison = iota
	Less
	Greater
	AtMost
	AtLeast
)

// compares is what a token compares, if it is the sign of a comparison.
func (t *token) compares() (Comparison, bool) {
	switch t.text {
	case "=":
		return Equal, true
	case "<":
		return Less, true
	case ">":
		return Greater, true
	case "<=", "≤":
		return AtMost, true
	case ">=", "≥":
		return AtLeast, true
	}
	return Equal, false
}

// Parse reads the sign of a comparison within a production.
func (c *Comparison) Parse(lex *lexer.PeekingLexer) error {
	t := fromLexer(lex.Peek())
	op, ok := t.compares()
	if !ok {
		return participle.NextMatch
	}
	lex.Next()
	*c = op
	return nil
}

// chain is A < B, or A < B < C: two comparisons of neighbours.
type chain struct {
	sides []Expr
	signs []Comparison
}

// comparisons reads a chain. It has no =: values are equal in a check alone.
func comparisons(from source) (chain, *fault) {
	var c chain
	for {
		x, bad := expression(from)
		if bad != nil {
			return c, bad
		}
		c.sides = append(c.sides, x)
		t := from.peek(0)
		op, ok := t.compares()
		switch {
		case ok && op != Equal && len(c.signs) < 2:
			c.signs = append(c.signs, op)
			from.next()
		case len(c.signs) == 0:
			return c, unexpected(t)
		default:
			return c, nil
		}
	}
}
