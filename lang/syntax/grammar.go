package syntax

import (
	"errors"
	"sync"

	"github.com/alecthomas/participle/v2"
	"github.com/alecthomas/participle/v2/lexer"

	"steelyard/lang/finding"
)

// The statements, as the table of the language has them. Each is a production
// of its own, chosen by the words that a line begins with.
type (
	// m = 0.080 kg
	defineLine struct {
		X  Expr        `parser:"Name '=' @@"`
		In lexer.Token `parser:"( 'in' @Unit )?"`
	}
	// 1/2*m*v^2 in J
	valueLine struct {
		X  Expr        `parser:"@@"`
		In lexer.Token `parser:"( 'in' @Unit )?"`
	}
	// U(x) = 1/2*k*x^2 in J
	functionLine struct {
		Name   lexer.Token `parser:"@Name '('"`
		Params []oneName   `parser:"@@ ( ',' @@ )* ')' '='"`
		X      Expr        `parser:"@@"`
		In     lexer.Token `parser:"( 'in' @Unit )?"`
	}
	// a(t) =                with pieces on indented lines
	piecewiseLine struct {
		Name   lexer.Token `parser:"@Name '('"`
		Params []oneName   `parser:"@@ ( ',' @@ )* ')' '='"`
		In     lexer.Token `parser:"( 'in' @Unit )?"`
	}
	// 2 m/s^2*t for 0 s ≤ t ≤ 2 s
	pieceLine struct {
		X      Expr        `parser:"@@ 'for'"`
		First  Expr        `parser:"@@"`
		Sign   lexer.Token `parser:"@( '<' | '>' | '<=' | '>=' | '≤' | '≥' )"`
		Second Expr        `parser:"@@"`
		Next   lexer.Token `parser:"( @( '<' | '>' | '<=' | '>=' | '≤' | '≥' )"`
		Third  Expr        `parser:"  @@ )?"`
	}
	// let k in N/m
	letLine struct {
		Name lexer.Token `parser:"'let' @Name"`
		In   lexer.Token `parser:"'in' @Unit"`
	}
	// 1 lap = 400 m
	unitLine struct {
		One  lexer.Token `parser:"@Number"`
		Name lexer.Token `parser:"@Unit '='"`
		X    Expr        `parser:"@@"`
	}
	// check A = B within 1 %
	checkLine struct {
		Left   Expr        `parser:"'check' @@"`
		Op     lexer.Token `parser:"( @( '=' | '<' | '>' | '<=' | '>=' | '≤' | '≥' )"`
		Right  Expr        `parser:"  @@ ( 'within'"`
		Within Expr        `parser:"  @@ )?"`
		Sign   lexer.Token `parser:"| 'is' @( 'negative' | 'positive' | 'zero' ) )"`
	}
	// formula spring_energy: U = 1/2*k*x^2
	formulaLine struct {
		Name  lexer.Token `parser:"'formula' @Name ':'"`
		Left  Expr        `parser:"@@ '='"`
		Right Expr        `parser:"@@"`
	}
	// U in J
	symbolLine struct {
		Name lexer.Token `parser:"@Name"`
		In   lexer.Token `parser:"'in' @Unit"`
	}
	// report k in N/m to 3 figures for 2 points
	reportLine struct {
		Sign    lexer.Token `parser:"'report' ( @'sign' 'of' )?"`
		X       Expr        `parser:"@@"`
		In      lexer.Token `parser:"( 'in' @Unit )?"`
		Figures lexer.Token `parser:"( 'to' @Number ( 'figures' | 'figure' ) )?"`
		Points  lexer.Token `parser:"( 'for' @Number ( 'points' | 'point' ) )?"`
	}
	// constants G, c
	constantsLine struct {
		Names []oneName `parser:"'constants' @@ ( ',' @@ )*"`
	}
	// results to 3 figures
	resultsLine struct {
		Figures lexer.Token `parser:"'results' 'to' @Number ( 'figures' | 'figure' )"`
	}
	// round halves to even
	roundLine struct {
		Rule lexer.Token `parser:"'round' 'halves' ( @'to' 'even' | @'away' 'from' 'zero' )"`
	}
	oneName struct {
		Token lexer.Token `parser:"@Name"`
	}
)

// production builds the reader of one statement when it is first needed.
func production[G any]() func() *participle.Parser[G] {
	return sync.OnceValue(func() *participle.Parser[G] {
		return participle.MustBuild[G](participle.Lexer(language{}), participle.ParseTypeWith(parseExpr))
	})
}

var (
	defineLines    = production[defineLine]()
	valueLines     = production[valueLine]()
	functionLines  = production[functionLine]()
	piecewiseLines = production[piecewiseLine]()
	pieceLines     = production[pieceLine]()
	letLines       = production[letLine]()
	unitLines      = production[unitLine]()
	checkLines     = production[checkLine]()
	formulaLines   = production[formulaLine]()
	symbolLines    = production[symbolLine]()
	reportLines    = production[reportLine]()
	constantsLines = production[constantsLine]()
	resultsLines   = production[resultsLine]()
	roundLines     = production[roundLine]()
)

// parse reads tokens by one production.
func parse[G any](parser func() *participle.Parser[G], tokens []token, end int) (*G, *fault) {
	lex, err := lexer.Upgrade(&tokenStream{tokens: tokens, end: end})
	if err == nil {
		var got *G
		if got, err = parser().ParseFromLexer(lex); err == nil {
			return got, nil
		}
	}
	if own, ok := errors.AsType[*fault](err); ok {
		return nil, own
	}
	if bad, ok := errors.AsType[*participle.UnexpectedTokenError](err); ok {
		return nil, unexpected(&bad.Unexpected)
	}
	at := Span{From: end, To: end}
	if e, ok := errors.AsType[participle.Error](err); ok {
		at.From = e.Position().Offset
		at.To = max(at.From, end)
	}
	return nil, &fault{finding.New(finding.Unreadable, at, "This part of the line does not fit.", "`help` shows how statements are written.")}
}

// unexpected says that a token does not fit where it stands.
func unexpected(t *lexer.Token) *fault {
	at := tokenSpan(t)
	if t.EOF() {
		return &fault{finding.New(finding.Incomplete, at, "The line ends before the statement does.", "Write the rest of it.")}
	}
	message, hint := "\""+t.Value+"\" does not fit here.", "`help` shows how statements are written."
	switch {
	case t.Type == unitToken:
		message, hint = "The unit "+t.Value+" does not fit here.", "A unit stands after a written number or after `in`."
	case t.Value == ",":
		message, hint = "A comma does not fit here.", "Write a decimal point in a number, and one statement on a line."
	case t.Value == "=":
		message, hint = "A second = does not fit here.", "A line gives one name its value; use `check A = B` to compare."
	case t.Value == "in":
		message, hint = "`in` does not fit here.", "It stands once, at the end of a line, with the unit that the whole value is shown in."
	case t.Value == "for" || t.Value == "to" || t.Value == "within" || t.Value == "at" || t.Value == "from":
		message = "The word `" + t.Value + "` does not fit here."
		hint = "It is a word of the language, and never a name."
	case t.Value == "<", t.Value == ">", t.Value == "≤", t.Value == "≥", t.Value == "<=", t.Value == ">=":
		hint = "Values are compared with check, as in `check m < 2 kg`."
	}
	return &fault{finding.New(finding.Unreadable, at, message, hint)}
}
