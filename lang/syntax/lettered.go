package syntax

import (
	"slices"
	"strings"
)

// Lettered is a quantity with letters behind its number that are read as a unit, and may be
// names and symbols: the kA2 of ½kA2, the kT of 3kT, the m of 2m.
//
// By the rules the letters behind a number are a unit. What speaks for a product is told here
// of each; session/reading weighs it.
type Lettered struct {
	At, Unit Span     // of the quantity, and of its unit
	Names    []string // what of it has a value; a function with its argument: sin(θ)
	Lacking  []string // its letters that have none
	Words    int      // between blanks, dots and bars
	Given    bool     // a name of the page is in it; a g among letters may be gram
	Calls    bool     // a function is in it
	Blank    bool     // a blank is before its unit
	Fraction bool     // its number is a fraction or in brackets, ½ or (3/2), as formulas have it and givens have not
	Formula  bool     // its number is one that formulas have
	Power    bool     // its last letter has one
	Digits   bool     // a digit in it is a power, or goes with a name that is a part of its word
	Whole    bool     // it is all of its expression
	Factor   bool     // it is a factor, or all that is in brackets
	Bracket  bool     // it is all that is in brackets
	Under    bool     // it is all that is under a fraction bar
	Product  string   // it as a product: ½*k*A^2
	Word     string   // its unit without a power, Text with it: kA, kA^2
	Text     string
}

// LetteredIn finds them in expressions of a statement, in the order in which they are
// written, and tells whether there are names beside them. Left out are those that are none
// for certain: with a bracket in the unit, or a blank before it and a number that no formula
// has, 7.5 m, but for several of which one is a name: 5 F d.
func LetteredIn(text string, stmt Stmt, xs []Expr, in Scope) (all []*Lettered, names bool) {
	if !MayBeLettered(text, xs...) {
		return nil, false
	}
	l := letteredLine{opener: opener{in: within(stmt, in)}, text: text}
	for _, x := range xs {
		l.look(x, nil, nil)
	}
	return l.all, l.names
}

// MayBeLettered tells whether expressions of a text may hold any. It is quick: every line with a
// unit is asked, and nearly all have none.
func MayBeLettered(text string, xs ...Expr) bool {
	for _, x := range xs {
		if Any(x, func(x Expr) bool { _, may := behindNumber(text, x); return may }) {
			return true
		}
	}
	return false
}

// behindNumber is the number of an expression that is a quantity with letters for its unit, where
// those may be names: what that unit is, and where it is in the line, may still say no.
func behindNumber(text string, x Expr) (number string, may bool) {
	unit, ok := ownUnit(x)
	if !ok || unit.At.From == 0 || unit.At.To > len(text) || !startsName(firstRune(unit.Text)) {
		return "", false
	}
	number = strings.TrimRight(text[x.Span().From:unit.At.From], " ")
	return number, text[unit.At.From-1] != ' ' || severalWords(unit.Text) || IsCoefficient(number)
}

// severalWords tells whether a unit is one of several words.
func severalWords(unit string) bool {
	return strings.IndexByte(unit, ' ') >= 0 || strings.IndexByte(unit, '/') >= 0 || strings.Contains(unit, "·")
}

// letteredLine is a line that is looked through for them.
type letteredLine struct {
	opener
	text  string
	all   []*Lettered
	names bool
	at    int // up to where it has been looked through
}

// look goes through an expression, which is directly in another, and that in a third.
//
// It goes down with what is above, since a power or a bar makes brackets needed in the product.
func (l *letteredLine) look(x, above, over Expr) {
	if n, ok := x.(*Name); ok {
		l.names = l.names || l.in.Known(n.Name)
	} else if number, may := behindNumber(l.text, x); may {
		unit, _ := ownUnit(x)
		blank, formula := l.text[unit.At.From-1] == ' ', IsCoefficient(number)
		whole := above == nil && severalWords(unit.Text) // J = 5 F d
		if unit.At.From >= l.at && (formula || !blank || whole) {
			q := &Lettered{At: x.Span(), Unit: unit.At, Blank: blank, Formula: formula, Fraction: EndsWithFraction(number)}
			q.stands(x, above, over)
			if l.apart(q, number, unit.Text) && (formula || !blank || q.Given) {
				l.all, l.at = append(l.all, q), q.Unit.To
			}
		}
	}
	for i := 0; x.part(i) != nil; i++ {
		l.look(x.part(i), x, above)
	}
}

// stands notes where the quantity is in its expression.
func (q *Lettered) stands(x, above, over Expr) {
	under := func(x, above Expr) bool {
		b, ok := above.(*Binary)
		return ok && b.Op == Div && b.Y == x
	}
	q.Under = under(x, above)
	switch in := above.(type) {
	case nil:
		q.Whole = true
	case *Paren:
		q.Bracket, q.Factor, q.Under = true, true, under(in, over)
	case *Binary:
		q.Factor = in.Op == Mul || in.Op == Div
		if in.Op == Pow || q.Under {
			q.Product = "("
		}
	case *Root:
		q.Product = "("
	}
}

// apart takes the words of a unit apart into names and symbols, and writes the quantity as a
// product; false where one of them comes apart into no letters, or has a bracket. Digits that are
// no part of a name are a power: kA2.
func (o *opener) apart(q *Lettered, number, unit string) bool {
	fs, ok := unitFactors(unit)
	if !ok {
		return false
	}
	q.Words = len(fs)
	open := q.Product
	q.Product += number
	for i, f := range fs {
		call, function := o.gluedFunction(f.word, longestApart)
		if f.within != nil || function && f.power != "" {
			return false
		}
		var parts, lacking []string
		if function { // 2L sinθ
			text, _ := call.text(nil)
			parts, q.Calls = []string{text}, true
		} else if parts, lacking, ok = Apart(f.word, o.in.Known, isLetter); !ok {
			letters := strings.TrimRight(f.word, "0123456789")
			if f.power == "" && letters != f.word {
				f.word, f.power = letters, "^"+f.word[len(letters):]
				parts, lacking, ok = Apart(letters, o.in.Known, isLetter)
			}
			if !ok {
				return false
			}
		}
		for _, part := range parts {
			if !slices.Contains(lacking, part) {
				q.Names = append(q.Names, part)
				q.Given = q.Given || part != "g" || len(parts) == 1
			}
		}
		q.Lacking = append(q.Lacking, lacking...)
		q.Digits = q.Digits || strings.ContainsAny(fs[i].word, "0123456789") && !function && !o.in.Known(Canonical(fs[i].word))
		joint := "*"
		if f.joint == "/" {
			joint = "/"
		}
		q.Product += joint + strings.Join(parts, "*") + f.power
		q.Power = f.power != ""
		fs[i] = f
	}
	q.Word, q.Text = fs[0].word, unitText(fs)
	if open != "" {
		q.Product += ")"
	}
	return true
}

// Written is a text with such quantities written in another way.
func Written(text string, all []*Lettered, as func(q *Lettered) string) string {
	var b strings.Builder
	at := 0
	for _, q := range all {
		b.WriteString(text[at:q.At.From] + as(q))
		at = q.Unit.To
	}
	return b.String() + text[at:]
}

// EndsWithFraction tells whether the number that a text ends with is a fraction or in
// brackets, as formulas have it and givens have not.
func EndsWithFraction(text string) bool { return strings.ContainsRune(")½⅓⅔¼¾", lastRune(text)) }

// IsCoefficient tells whether a number is one that formulas have: 2, 3, 4, 8, 12, 1.5, or a
// fraction, ½, 3/2, (1/12).
//
// They are those that stand before letters in the formulas of a first course: 2as, ½mv²,
// 4πr², (3/2)kT.
func IsCoefficient(number string) bool {
	if strings.Trim(number, ".0123456789") != "" { // as few are
		number = strings.Trim(number, "-−")
		above, below, bar := strings.Cut(strings.Trim(number, "()"), "/")
		if bar && strings.Trim(above+below, "0123456789") == "" || strings.ContainsAny(number, "½⅓⅔¼¾") {
			return true
		}
	}
	switch number {
	case "2", "3", "4", "6", "8", "12", "0.5", "1.5", "2.5":
		return true
	}
	return false
}
