package syntax

import (
	"errors"
	"sync"

	"github.com/alecthomas/participle/v2"
	"github.com/alecthomas/participle/v2/lexer"

	"steelyard/lang/finding"
)

// The statements that have clauses are productions: the tags of a statement's
// own type say how it is written. What stands most often in a worksheet, a value
// with or without a name (define.go), a check, a solve or a graph, is read without one: a
// production costs several times what its expressions do.

// production reads tokens as the tags of a type say. Its parser is built when it is
// first needed.
//
// What can be written is in the tags of the type, and this is all that has to be
// known to add a clause:
//
//	@@        what the field's own type reads: a name, a unit, an expression
//	'word'    a word or sign that must be there
//	@'word'   the same, and the field is true if it is
//	( … )?    what may be missing
//	( … )*    what may come again
//
// The end is where the statement ends in its text: a fault of a missing part is
// put there.
//
// The library's code is made anew for each type that it is asked for. It is asked for a
// statement every time, of which there is one kind: the code is then in the program once.
func production(of Stmt) func(tokens []token, end int) (Stmt, *fault) {
	parser := sync.OnceValue(func() *participle.Parser[Stmt] { return build(of) })
	return func(tokens []token, end int) (Stmt, *fault) {
		lex, err := lexer.Upgrade(&tokenStream{tokenLine{tokens: tokens, end: end}})
		if err == nil {
			var got *Stmt
			if got, err = parser().ParseFromLexer(lex); err == nil {
				return *got, nil
			}
		}
		return nil, unproduced(err, end)
	}
}

// build makes the parser of a statement. It panics if the tags of its type can't be
// read, which no text that is typed can bring about, and any test of the statement
// shows.
func build(of Stmt) *participle.Parser[Stmt] {
	return participle.MustBuild[Stmt](participle.Lexer(language{}), participle.ParseTypeWith(parseExpr), participle.Union(of))
}

// statement is the reader of a statement of which its tags say all.
func statement(of Stmt) func(r *reader, tokens []token) (Stmt, *fault) {
	lines := production(of)
	return func(r *reader, tokens []token) (Stmt, *fault) { return lines(tokens, r.to) }
}

// unproduced says why a production has not read what ends at a place.
//
// A fault that came from an expression within is kept as it is; a token that does
// not fit is told as in every other statement.
func unproduced(err error, end int) *fault {
	if own, ok := errors.AsType[*fault](err); ok {
		return own
	}
	if bad, ok := errors.AsType[*participle.UnexpectedTokenError](err); ok {
		return unexpected(fromLexer(&bad.Unexpected))
	}
	return &fault{finding.New(finding.Unreadable, Span{From: end, To: end}, "This part of the line can't be read.", "`help` shows how to write lines.")}
}

// unexpected says that a token does not fit where it stands.
//
// One place for it, so that a comma, a unit or a second = that is out of place is
// told alike in statements with tags and in those that are read by hand.
func unexpected(t token) *fault {
	at := t.span()
	if t.kind == eofToken {
		return &fault{finding.New(finding.Incomplete, at, "This line is unfinished.", "Write the rest of it.")}
	}
	message, hint := "\""+t.text+"\" doesn't fit here.", "`help` shows how to write lines."
	switch {
	case t.kind == unitToken:
		message, hint = "The unit "+t.text+" doesn't fit here.", "A unit comes after a number or after `in`."
	case t.text == ",":
		message, hint = "A comma doesn't fit here.", "Write decimals with a point, and one statement on a line."
	case t.text == "=":
		message, hint = "A second = doesn't fit here.", "A line can define one name. To compare, write `check A = B`."
	case t.text == "in":
		message, hint = "`in` doesn't fit here.", "Write it once, at the end of the line, before the unit of the result."
	case t.text == "at":
		return &fault{finding.New(finding.NameKind, at, "The word `at` doesn't fit here.", "It has its own meaning here. For a times t, put `*` between them.", "*a*t")}
	case t.text == "for" || t.text == "to" || t.text == "within" || t.text == "from":
		message = "The word `" + t.text + "` doesn't fit here."
		hint = "It has its own meaning here, so it can't be a name."
	case t.text == "<", t.text == ">", t.text == "≤", t.text == "≥", t.text == "<=", t.text == ">=":
		hint = "Compare with check, as in `check m < 2 kg`."
	}
	return &fault{finding.New(finding.Unreadable, at, message, hint)}
}

// tokenStream hands tokens to a production.
type tokenStream struct{ tokenLine }

// Next implements lexer.Lexer.
//
// The library has tokens of its own; kind, text and place are all that it needs.
func (s *tokenStream) Next() (lexer.Token, error) {
	t := s.peek(0)
	s.next()
	return lexer.Token{Type: t.kind, Value: t.text, Pos: lexer.Position{Offset: t.from}}, nil
}

// produced is the source of an expression within a production.
type produced struct{ lex *lexer.PeekingLexer }

// The library can be looked ahead in only by going on and coming back.
func (p produced) peek(ahead int) *token {
	here := p.lex.MakeCheckpoint()
	for range ahead {
		p.lex.Next()
	}
	t := fromLexer(p.lex.Peek())
	p.lex.LoadCheckpoint(here)
	return &t
}

func (p produced) next() { p.lex.Next() }

func fromLexer(t *lexer.Token) token {
	return token{kind: t.Type, from: t.Pos.Offset, to: t.Pos.Offset + len(t.Value), text: t.Value}
}

// parseExpr is what a production calls for a field of type Expr.
//
// So there is one reader of expressions, whoever asks. A with is not read here:
// where a statement has the clause, it is in its tags.
func parseExpr(lex *lexer.PeekingLexer) (Expr, error) {
	p := newParser(produced{lex})
	x := p.sum()
	return x, p.err()
}

// err is the first fault, as what a production asks for.
func (p *exprParser) err() error {
	if p.bad == nil {
		return nil
	}
	return p.bad
}

// one takes the next token of a production if it is of a kind.
//
// Else it says that there is no match, and the production tries its next way.
func one(lex *lexer.PeekingLexer, kind lexer.TokenType) (token, error) {
	t := fromLexer(lex.Peek())
	if t.kind != kind {
		return t, participle.NextMatch
	}
	lex.Next()
	return t, nil
}

// Parse reads a name within a production.
func (i *Ident) Parse(lex *lexer.PeekingLexer) error {
	t, err := one(lex, nameToken)
	if err == nil {
		*i = t.ident()
	}
	return err
}

// Parse reads a unit within a production.
func (u *UnitText) Parse(lex *lexer.PeekingLexer) error {
	t, err := one(lex, unitToken)
	if err == nil {
		*u = t.unit()
	}
	return err
}
