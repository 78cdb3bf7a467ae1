package syntax

import (
	"github.com/alecthomas/participle/v2/lexer"

	"steelyard/lang/finding"
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
)

// token is a piece of a line, between two byte offsets; or what stands in its place
// in one reading of the line.
type token struct {
	kind     lexer.TokenType
	from, to int
	text     string // as it was typed
	gap      string // of a reading: the blanks before it
	call     bool   // a name with its bracket directly after it

	// Of a reading: a unit with a letter that may be a name; that the text is more than one
	// token.
	open, several bool
}

func (t token) span() Span { return Span{From: t.from, To: t.to} }

// is tells whether a token is a certain sign or word.
func (t *token) is(text string) bool { return t.text == text && t.kind != unitToken }

// sign tells whether a token is a certain sign.
func (t *token) sign(text string) bool { return t.kind == signToken && t.text == text }

// unit is the unit that a token is.
func (t token) unit() UnitText { return UnitText{Text: foldUnit(t.text), At: t.span()} }

// ident is the name that a token is, in canonical form.
func (t token) ident() Ident { return Ident{Name: Canonical(t.text), NameAt: t.span()} }

// fault is a finding on its way out of the reader.
type fault struct{ finding.Finding }

// Error satisfies the interface; the text is never shown.
func (f *fault) Error() string { return f.Message }

// tokenLine is a source over tokens that were read before.
type tokenLine struct {
	tokens []token
	at     int
	end    int   // where the text ends
	none   token // that follows the last one
}

func (l *tokenLine) peek(ahead int) *token {
	if l.at+ahead >= len(l.tokens) {
		l.none = token{kind: eofToken, from: l.end, to: l.end}
		return &l.none
	}
	return &l.tokens[l.at+ahead]
}

func (l *tokenLine) next() { l.at = min(l.at+1, len(l.tokens)) }
