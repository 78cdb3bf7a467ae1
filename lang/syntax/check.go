package syntax

import (
	"github.com/alecthomas/participle/v2"
	"github.com/alecthomas/participle/v2/lexer"
)

// CheckStmt is check A = B [within C], or check A is negative.
type CheckStmt struct {
	Left   Expr       `parser:"'check' @@"`
	Op     Comparison `parser:"( @@"`
	Right  Expr       `parser:"  @@"`               // nil if Sign is set
	Within Expr       `parser:"  ( 'within' @@ )?"` // nil if none was given; a percentage or a quantity
	Sign   SignWord   `parser:"| 'is' @@ )"`
}

// SignWord is what "check W is …" asks.
type SignWord uint8

// The signs a check may ask for; NoSign means that a comparison is asked.
const (
	NoSign SignWord = iota
	Negative
	Positive
	Zero
)

var checkWord = StatementWord{
	Word: "check", Form: "check A = B [within 1 %]",
	Summary: "Tests that two sides agree, or that a value is negative, positive or zero.",
	Example: "check 1/2*4 kg*(3 m/s)^2 = 18 J", Stored: true, Ready: true, read: clauses(readCheck),
	expr: true, next: []string{"within", "is"},
}

func (s *CheckStmt) Exprs() []Expr  { return exprs(s.Left, s.Right, s.Within) }
func (*CheckStmt) Defines() []Ident { return nil }
func (*CheckStmt) Records() bool    { return false }
func (*CheckStmt) Stored() bool     { return true }
func (*CheckStmt) stmt()            {}

var checkLines = production[CheckStmt]()

func readCheck(r *reader, tokens []token) (Stmt, *fault) {
	return statement(parse(checkLines, tokens, r.to))
}

// Parse reads the word for a sign within a production.
func (s *SignWord) Parse(lex *lexer.PeekingLexer) error {
	switch lex.Peek().Value {
	case "negative":
		*s = Negative
	case "positive":
		*s = Positive
	case "zero":
		*s = Zero
	default:
		return participle.NextMatch
	}
	lex.Next()
	return nil
}
