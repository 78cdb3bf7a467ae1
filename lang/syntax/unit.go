package syntax

import (
	"strings"

	"steelyard/lang/finding"
	"steelyard/units"
)

// UnitDef is 1 NAME = EXPR[, WORDS]: a unit of this worksheet.
//
// For instance 1 lap = 400 m: then 3 lap is a length on this page. No other page
// has it.
type UnitDef struct {
	Ident
	X Expr
}

func (s *UnitDef) Exprs() []Expr    { return []Expr{s.X} }
func (s *UnitDef) Defines() []Ident { return []Ident{s.Ident} }
func (*UnitDef) is() nature         { return nature{kept, Given, nil} }

// definesUnit tells whether tokens begin with 1 NAME =.
//
// Another number is told to be a 1, unless the word is a letter or a unit: 25 T = 68.2 s is an
// equation.
func definesUnit(tokens []token) bool {
	if len(tokens) < 3 || tokens[0].kind != numToken || tokens[1].kind != unitToken || !tokens[2].is("=") {
		return false
	}
	_, known := units.Lookup(tokens[1].text)
	return tokens[0].text == "1" || !known && !isSymbol(tokens[1].text) && !strings.Contains(tokens[1].text, " ")
}

// ownUnit reads 1 lap = 400 m.
//
// What it is equal to may be worked out from the page, 1 lap = 2*π*r: a change of r changes it.
func (r *reader) ownUnit(tokens []token) (Stmt, *fault) {
	x, in, bad := r.result(tokens, 3)
	if bad != nil {
		return nil, bad
	}
	if in.Present() {
		return nil, unexpected(tokens[len(tokens)-2])
	}
	at := tokens[1].span()
	if tokens[0].text != "1" {
		return nil, &fault{finding.New(finding.Unreadable, tokens[0].span(), "Your own unit needs a 1 in front.",
			"Begin with 1, as in `1 "+tokens[1].text+" = …`.")}
	}
	name := foldUnit(tokens[1].text)
	if u := (unitScan{text: name, end: len(name)}); u.word(0) != name {
		return nil, &fault{finding.New(finding.NameKind, at, "`"+tokens[1].text+"` can't be the name of a unit: it isn't one word.",
			"Use one word, as in `1 lap = 400 m`.")}
	}
	return &UnitDef{Ident: Ident{Name: name, NameAt: at, Meaning: r.words}, X: x}, r.noBody()
}
