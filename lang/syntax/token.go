package syntax

import (
	"steelyard/lang/finding"

	"github.com/alecthomas/participle/v2/lexer"
)

// The kinds of tokens. A Unit stands only where a unit can; a word anywhere else
// is a Name, or a Word if the language keeps it for itself.
const (
	eofToken lexer.TokenType = lexer.EOF
	numToken lexer.TokenType = -(iota + 2)
	unitToken
	nameToken
	wordToken
	piToken
	thatToken
	superToken // ², ⁻¹
	signToken
	lineToken // @12
	textToken // prose to the end of the line
)

// token is a piece of a line, between two byte offsets.
type token struct {
	kind     lexer.TokenType
	from, to int
	text     string // as it was typed
	call     bool   // a name with its bracket directly after it
	open     bool   // a bracket of a call
}

func (t *token) span() Span { return Span{From: t.from, To: t.to} }

// is tells whether a token is a certain sign or word.
func (t *token) is(text string) bool { return t.text == text && t.kind != unitToken }

// fault is a finding on its way out of the reader.
type fault struct{ finding.Finding }

// Error satisfies the interface; the text is never shown.
func (f *fault) Error() string { return f.Message }

// tokenStream hands tokens that were read before to the parser.
type tokenStream struct {
	tokens []token
	next   int
	end    int
}

// Next implements lexer.Lexer.
func (s *tokenStream) Next() (lexer.Token, error) {
	if s.next >= len(s.tokens) {
		return lexer.Token{Type: eofToken, Pos: lexer.Position{Offset: s.end}}, nil
	}
	t := &s.tokens[s.next]
	s.next++
	return lexer.Token{Type: t.kind, Value: t.text, Pos: lexer.Position{Offset: t.from}}, nil
}
