package syntax

import (
	"slices"
	"strings"

	"steelyard/units"
)

// Lacking are the letters of a line that are read as units right behind a number,
// and may be symbols, some of which have no value: 2m where no m is given, 3kT where
// T is.
type Lacking struct {
	Parts []LackingPart
	// Symbols are those that have no value, Known the names that stand beside them.
	Symbols, Known []string
	// Others tells that the line has further names.
	Others bool
	// Text is the line with products of symbols.
	Text string

	at int // up to where Text is written
}

// LackingPart is a quantity of which some letters may be symbols without a value.
type LackingPart struct {
	At, Unit Span // of the quantity, and of its unit
	Letters  bool // more than one letter
	Free     bool // none is a name: letters alone, or one letter with nothing beside it
	Given    bool // one of them is a name of the page; a g among letters may be gram
	Under    bool // it is all that is under a fraction bar
	Apart    bool // a blank is before its unit
	Formula  bool // its number is one that formulas have
}

// LackingIn finds what may be symbols without a value in expressions of a statement, in
// the order in which they are written. One letter may be a symbol as a factor among
// names, behind a number that formulas have; several letters may be symbols anywhere. A
// blank before a unit says that it is one, but behind such a number: 2 g h, 1.5 kT.
//
// In 2mh with m given and no h, the h may be an hour or a height: LackingPart tells what
// speaks for either, and session/reading weighs it.
func LackingIn(text string, stmt Stmt, xs []Expr, in Scope) (Lacking, bool) {
	out := Lacking{}
	if !slices.ContainsFunc(xs, func(x Expr) bool { return anyLettered(x, text) }) {
		return out, false
	}
	o := opener{in: within(stmt, in)}
	for _, x := range xs {
		o.lackingIn(&out, text, x)
	}
	if len(out.Parts) == 0 || !out.Others && !out.Parts[0].Letters && !out.Parts[0].Free {
		return out, false
	}
	out.Text += text[out.at:]
	return out, true
}

func (o *opener) lackingIn(out *Lacking, text string, x Expr) {
	above := map[Expr]Expr{}
	for x := range Nodes(x) {
		for i := 0; x.part(i) != nil; i++ {
			above[x.part(i)] = x
		}
		if n, ok := x.(*Name); ok {
			out.Others = out.Others || o.in.Known(n.Name)
			continue
		}
		unit, ok := letteredUnit(x, text)
		if !ok || unit.At.From < out.at {
			continue
		}
		part := LackingPart{At: x.Span(), Unit: unit.At, Apart: text[unit.At.From-1] == ' '}
		number := strings.TrimRight(text[part.At.From:unit.At.From], " ")
		part.Formula = coefficient(number)
		product, lacking, known, ok := o.product(&part, unit.Text)
		whole := above[x] == nil // λ = 2L
		if _, bracket := above[x].(*Paren); bracket && part.Apart && len(known) == 0 && strings.Contains(unit.Text, "/") && o.in.Unit(unit.Text) {
			continue // (6 m/s²)
		}
		if !ok || !(part.Formula && (whole || factor(above[x]))) && (!part.Letters || part.Apart) ||
			part.Apart && !whole && strings.Count(product, "*") > strings.Count(unit.Text, " ")+strings.Count(unit.Text, "·") {
			continue // 3 cm is no c*m
		}
		part.Free = part.Free || whole && !part.Letters
		open, shut := bracketsIn(above[x], x)
		part.Under = underBar(above[x], x)
		if p, ok := above[x].(*Paren); ok {
			part.Under = underBar(above[p], p)
		}
		out.Text += text[out.at:part.At.From] + open + number + "*" + product + shut
		out.at = unit.At.To
		out.Parts, out.Known = append(out.Parts, part), append(out.Known, known...)
		for _, s := range lacking {
			if !slices.Contains(out.Symbols, s) {
				out.Symbols = append(out.Symbols, s)
			}
		}
	}
}

// anyLettered tells whether an expression holds a quantity of which the unit begins
// with a letter.
func anyLettered(x Expr, text string) bool {
	return Any(x, func(x Expr) bool {
		_, ok := letteredUnit(x, text)
		return ok
	})
}

// underBar tells whether a part of an expression is all that its bar stands over.
func underBar(above, x Expr) bool {
	b, ok := above.(*Binary)
	return ok && b.Op == Div && b.Y == x
}

// bracketsIn are those that a part needs in its expression if it is a product.
func bracketsIn(above, x Expr) (open, shut string) {
	b, binary := above.(*Binary)
	_, root := above.(*Root)
	if root || binary && b.Op == Pow || underBar(above, x) {
		return "(", ")"
	}
	return "", ""
}

// letteredUnit is the unit of a quantity, if it begins with a letter.
func letteredUnit(x Expr, text string) (UnitText, bool) {
	unit, ok := ownUnit(x)
	return unit, ok && unit.At.From > 0 && unit.At.To <= len(text) && startsName(firstRune(unit.Text))
}

// coefficient tells whether a number is one that formulas have: 2, 3, 4, 8, 12, 1.5, or a
// fraction, ½, 3/2, (1/12).
//
// They are those that stand before letters in the formulas of a first course: 2as, ½mv²,
// 4πr², (3/2)kT.
func coefficient(number string) bool {
	number = strings.Trim(number, "-−")
	switch number {
	case "2", "3", "4", "6", "8", "12", "0.5", "1.5", "2.5":
		return true
	}
	above, below, bar := strings.Cut(strings.Trim(number, "()"), "/")
	return bar && strings.Trim(above+below, "0123456789") == "" || strings.ContainsAny(number, "½⅓⅔¼¾")
}

// GluedNames is the quantity of a result that has a unit which is names that run together
// directly behind a number of formulas, none of them twice: 2Tm.
func GluedNames(stmt Stmt, text, unit string, known func(string) bool) (string, bool) {
	var q *Quantity
	switch s := stmt.(type) {
	case *Define:
		q, _ = s.X.(*Quantity)
	case *Value:
		q, _ = s.X.(*Quantity)
	}
	if q == nil || q.Unit.Text != unit || known(Canonical(unit)) || !coefficient(text[q.At.From:q.Unit.At.From]) {
		return "", false
	}
	names, ok := NamesIn(unit, known)
	return text[q.At.From:q.At.To], ok && !HasTwice(names)
}

// factor tells whether what is directly in an expression is a factor in it.
func factor(above Expr) bool {
	switch above := above.(type) {
	case *Paren:
		return true
	case *Binary:
		return above.Op == Mul || above.Op == Div
	}
	return false
}

// product writes the words of a unit as names and symbols that have no value; false if
// they can't be read so, or if all have values.
//
// Words that are names count whole; any other word must come apart into letters, each of which
// is the usual symbol of some quantity.
func (o *opener) product(part *LackingPart, unit string) (text string, lacking, known []string, ok bool) {
	fs, ok := unitFactors(unit)
	if !ok {
		return "", nil, nil, false
	}
	letters := 0
	var b strings.Builder
	for i, f := range fs {
		symbols := []string{Canonical(f.word)}
		call, function := o.gluedFunction(f.word, longestApart)
		switch {
		case f.within != nil || function && f.power != "":
			return "", nil, nil, false
		case function: // 2L sinθ
			symbols[0], _ = call.text(nil)
		case !o.in.Known(symbols[0]):
			if symbols = strings.Split(f.word, ""); len(symbols) > 24 {
				return "", nil, nil, false
			}
		}
		for _, s := range symbols {
			letters++
			switch {
			case function || o.in.Known(s):
				known = append(known, s)
				part.Given = part.Given || s != "g" || len(symbols) == 1
			case units.Usual(s) == "":
				return "", nil, nil, false
			default:
				lacking = append(lacking, s)
			}
		}
		if i > 0 {
			joint := "*"
			if f.joint == "/" {
				joint = "/"
			}
			b.WriteString(joint)
		}
		b.WriteString(strings.Join(symbols, "*") + f.power)
	}
	part.Letters = letters > 1
	part.Free = part.Letters && known == nil
	return b.String(), lacking, known, len(lacking) > 0 && !(part.Free && HasTwice(lacking))
}

// HasTwice tells whether a list holds a word twice, as that of the letters of mm does.
func HasTwice(words []string) bool {
	return len(slices.Compact(slices.Sorted(slices.Values(words)))) < len(words)
}
