package syntax

import (
	"strings"

	"steelyard/lang/finding"
)

type (
	// Define is NAME = EXPR [in UNIT][, WORDS]: a given or a result.
	//
	// For instance m = 3 kg, or K = 1/2*m*v^2 in J, energy of the frog. The unit
	// behind in is that in which the value is shown: it changes no value. A later line
	// with the same name has its meaning from there on; the lines above keep theirs.
	Define struct {
		Ident
		X  Expr
		In UnitText
	}
	// Value is EXPR [in UNIT]: a result with no name.
	//
	// It can be used in a later line as that.
	Value struct {
		X  Expr
		In UnitText
	}
)

func (s *Define) Exprs() []Expr    { return []Expr{s.X} }
func (s *Define) Defines() []Ident { return []Ident{s.Ident} }

// is tells a given from a result.
//
// A given is what the writer put in, m = 3 kg; a result is worked out, and is
// recorded, so that a replay finds whether it has moved.
func (s *Define) is() nature {
	if s.Plain() {
		return nature{recorded, Given, nil}
	}
	return nature{recorded, Task, nil}
}

// AsResult takes a line apart that is one expression, with a name before it and a unit
// behind it or without; x is nil for another statement.
func AsResult(stmt Stmt) (name string, x Expr, in UnitText) {
	switch s := stmt.(type) {
	case *Define:
		return s.Name, s.X, s.In
	case *Value:
		return "", s.X, s.In
	}
	return "", nil, UnitText{}
}

// Plain tells whether a name is given one written quantity, with nothing to work
// out or to convert.
//
// Plain are m = 3 kg and t = 13 h 4 min; not x = 2*3 m, and not m = 3 kg in g.
func (s *Define) Plain() bool { return !s.In.Present() && IsPlain(s.X) }

func (s *Value) Exprs() []Expr  { return []Expr{s.X} }
func (*Value) Defines() []Ident { return nil }

// is says Task where numbers are put in for a change, a place or a stretch.
//
// So v with m = 4 kg is an exercise by itself, and 2*m asks for a number.
func (s *Value) is() nature {
	if _, derived := s.X.(Derived); derived {
		return nature{recorded, Task, nil}
	}
	return nature{recorded, Answer, nil}
}

// value reads a result without a name.
//
// An equals sign that is none of a with or a slope is told first: 3 = 4 would else
// be a fault at a sign, with nothing to say what to do.
func (r *reader) value(tokens []token) (Stmt, *fault) {
	if bad := r.equation(tokens); bad != nil {
		return nil, bad
	}
	x, in, bad := r.result(tokens, 0)
	if bad != nil {
		return nil, bad
	}
	return &Value{X: x, In: in}, r.noBody()
}

// equation says what to do with a line that has an expression on the left of an
// equals sign.
//
// Two sides may be compared, with check, or one be found, with solve. What begins
// with the name of another line, m@1 = 5 kg, wants to change that line: a line can
// be changed by who writes the page, but not by another line.
func (r *reader) equation(tokens []token) *fault {
	depth, replaced := 0, false
	for i := range tokens {
		t := &tokens[i]
		before := i - 2 // what is before the name
		if i > 2 && tokens[i-1].kind == lineToken {
			before-- // and before k@3
		}
		switch {
		case t.is("("):
			depth++
		case t.is(")"):
			depth--
		case t.is("with") && depth == 0:
			replaced = true
		case t.is("=") && before >= 0 && (tokens[before].is("at") || replaced && (tokens[before].is("with") || tokens[before].is(","))):
			// The place of a slope, or what a value is worked out with.
		case t.is("=") && depth == 0:
			if i == 2 && ofLine(tokens) {
				again := tokens[0].text + " " + r.text[t.from:r.to]
				return &fault{finding.New(finding.Unreadable, Span{From: r.from, To: r.to},
					"Line "+tokens[1].text[1:]+" can't be changed here.", "A new line can define "+tokens[0].text+" again.", again)}
			}
			return &fault{finding.New(finding.Unreadable, Span{From: r.from, To: r.to},
				"The left side of = isn't a name, so it can't have a value.",
				"To compare the two sides, write `check` in front.")}
		}
	}
	return nil
}

// ofLine tells whether a line begins with the name of another line: m@1 = 5 kg.
//
// The tokens are then name, line and equals sign.
func ofLine(tokens []token) bool {
	return len(tokens) > 2 && tokens[0].kind == nameToken && tokens[1].kind == lineToken && tokens[2].is("=")
}

// define reads a given or a result with its name.
//
// The words behind a comma are its meaning, K = 1/2*m*v^2, energy of the frog;
// they have been cut off before.
func (r *reader) define(tokens []token) (Stmt, *fault) {
	name, bad := newName(&tokens[0])
	if bad != nil {
		return nil, bad
	}
	x, in, bad := r.result(tokens, 2)
	if bad != nil {
		return nil, bad
	}
	return &Define{Ident: Ident{Name: name, NameAt: tokens[0].span(), Meaning: r.words}, X: x, In: in}, r.noBody()
}

// newName returns the canonical form of a name that a line gives.
//
// Refused are π and what holds it, words of the language, that, and numbers; each
// with its own sentence. A word that is a unit elsewhere may be a name, as m is.
func newName(t *token) (string, *fault) {
	name := Canonical(t.text)
	if t.kind == nameToken && !strings.Contains(name, "π") {
		return name, nil
	}
	message := "`" + t.text + "` can't be a name."
	hint := "A name begins with a letter, then has letters, digits or _."
	switch {
	case t.kind == piToken || strings.Contains(name, "π"):
		message = "π is always the number, so it can't be part of a name."
	case t.kind == wordToken || t.kind == thatToken:
		return "", keptWord(t.span(), t.text)
	case t.kind == numToken:
		message = "A number can't have a value."
	}
	return "", &fault{finding.New(finding.NameKind, t.span(), message, hint)}
}

// keptWord says that a word belongs to the language.
//
// Those of every line are few: in, to, for, from, by, at, with, and, where,
// within, against, that.
//
// A tangential acceleration is a_t.
func keptWord(at Span, word string) *fault {
	bad := &fault{finding.New(finding.NameKind, at, "`"+word+"` has its own meaning here, so it can't be a name.", "Choose another name.")}
	if word == "at" {
		bad.Hint, bad.Readings = "Choose another name, such as a_t.", []string{"a_t"}
	}
	return bad
}
