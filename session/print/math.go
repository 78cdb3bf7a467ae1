package print

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"steelyard/lang/syntax"
	"steelyard/lang/typeset"
)

// isName tells whether a name is one that can be set as a symbol: letters, digits
// and underscores. Anything else is text.
func isName(s string) bool {
	for i, r := range s {
		letter := unicode.IsLetter(r) || r == '_'
		if i == 0 && !letter || !letter && !unicode.IsDigit(r) && r != '\'' && !unicode.Is(unicode.Mn, r) {
			return false
		}
	}
	return s != "" && len(s) <= 80
}

// setName sets what stands at the left of an equals sign: a name, or whatever
// else a worksheet had there, such as K(x).
func setName(name string) typeset.Box {
	name = oneLine(name)
	if name == "" {
		return typeset.Box{}
	}
	if !isName(name) && len(name) <= 200 {
		if x, findings := syntax.ParseExpr(name); x != nil && len(findings) == 0 {
			return typeset.Expr(x)
		}
	}
	return typeset.Name(name)
}

// setShown sets a value in the file form, and nothing for none.
func setShown(shown string) typeset.Box {
	if shown = oneLine(shown); shown == "" {
		return typeset.Box{}
	}
	return typeset.Quantity(shown)
}

// setValue sets a value, or gives the words that stand in its place: a result can
// be "negative", and a given only has the unit that it is told in.
func setValue(text string) (set typeset.Box, words string) {
	text = oneLine(text)
	if text == "" {
		return typeset.Box{}, ""
	}
	first, _ := utf8.DecodeRuneInString(text)
	x, findings := syntax.ParseExpr(text)
	read := x != nil && len(findings) == 0
	if isValue(text) || strings.ContainsRune("[−-+≈∞π√", first) && !strings.Contains(text, "  ") {
		if _, ok := x.(*syntax.Binary); ok && read && !strings.ContainsAny(text, "≈∞") {
			return typeset.Expr(x), "" // worked out in the line itself
		}
		return typeset.Quantity(text), ""
	}
	if read && !isWords(text) {
		return typeset.Expr(x), ""
	}
	return typeset.Box{}, text
}

// head is the head of a column taken apart: "x / cm" is a quantity over its unit
// (SI Brochure, 5.4.1); without a unit it is a quantity, or words.
func head(text string) (quantity, unit string) {
	text = oneLine(text)
	if q, u, ok := strings.Cut(text, " / "); ok && q != "" && u != "" {
		return q, u
	}
	return text, ""
}

// setHead sets the head of a column or an axis, or gives nothing for words.
func setHead(text string) typeset.Box {
	quantity, unit := head(text)
	if quantity == "" {
		return typeset.Box{}
	}
	var names []typeset.Box
	for i, name := range strings.Split(quantity, ", ") {
		if isWords(name) || len(quantity) > 80 {
			return typeset.Box{}
		}
		if i > 0 {
			names = append(names, typeset.Comma())
		}
		names = append(names, setName(name))
	}
	if unit == "" {
		return typeset.Row(names...)
	}
	return typeset.Row(append(names, typeset.Sign("/"), setShown(unit))...)
}

// isWords tells whether a head is prose, which isn't set as a symbol.
func isWords(text string) bool {
	return strings.Contains(text, " ") || utf8.RuneCountInString(text) > 24
}

// isValue tells whether a cell of a table is a number, with or without a unit.
func isValue(text string) bool {
	text = strings.TrimLeft(text, "-−+(")
	return text != "" && text[0] >= '0' && text[0] <= '9'
}

// isPlainNumber tells whether a cell holds only digits, a point and a sign, which
// need no formula round them.
func isPlainNumber(text string) bool {
	return text != "" && strings.Trim(text, "0123456789.-−") == ""
}

// minus writes the sign of a plain number as a minus and not as a hyphen.
func minus(text string) string { return strings.ReplaceAll(text, "-", "−") }

// breadth estimates how wide an expression is when set, in letters. A fraction is
// as wide as its wider part.
func breadth(x syntax.Expr) int {
	switch x := x.(type) {
	case nil:
		return 0
	case *syntax.Binary:
		left, right := breadth(x.X), breadth(x.Y)
		switch x.Op {
		case syntax.Div:
			return max(left, right) + 1
		case syntax.Pow:
			return left + (right+1)/2
		case syntax.Add, syntax.Sub:
			return left + right + 3
		}
		return left + right + 1
	case *syntax.Paren:
		return breadth(x.X) + 2
	case *syntax.Unary:
		return breadth(x.X) + 1
	case *syntax.Root:
		return breadth(x.X) + 2
	}
	return utf8.RuneCountInString(syntax.PrintExpr(x))
}

// reach is the breadth of what stands at the right of a line, or of the widest of
// its rows.
func (l *Line) reach() int {
	if l.Shown != "" || l.Right == nil {
		return utf8.RuneCountInString(l.Shown)
	}
	broken := rows(l.Right)
	if broken == nil {
		return breadth(l.Right)
	}
	most := 0
	for _, row := range broken {
		n := 0
		for _, p := range row {
			n += breadth(p.X) + 3
		}
		most = max(most, n)
	}
	return most
}

// right sets what stands at the right of a line.
func (l *Line) right() typeset.Box {
	if l.Shown != "" {
		return setShown(l.Shown)
	}
	return typeset.Expr(l.Right)
}

// longest is how many letters wide a formula may be before it is broken.
const longest = 52

// rows groups the terms of a long expression into rows of some width each. It is
// nil for an expression that needs no break or can't have one.
func rows(x syntax.Expr) [][]typeset.Term {
	if x == nil || breadth(x) <= longest {
		return nil
	}
	all := typeset.Terms(x)
	if len(all) < 2 {
		return nil
	}
	var out [][]typeset.Term
	var row []typeset.Term
	used := 0
	for _, p := range all {
		n := breadth(p.X) + 3
		if len(row) > 0 && used+n > longest {
			out, row, used = append(out, row), nil, 0
		}
		row = append(row, p)
		used += n
	}
	return append(out, row)
}

// setUnits sets how units cancel: "√(kg/(N/m)) = s".
func setUnits(text string) typeset.Box {
	var set typeset.Box
	for i, side := range strings.Split(oneLine(text), " = ") {
		one := setShown(side)
		if inside, ok := strings.CutPrefix(side, "√("); ok && closes(inside) {
			one = typeset.Root(setShown(inside[:len(inside)-1]))
		}
		if i == 0 {
			set = one
		} else {
			set = typeset.Relation(set, "=", one)
		}
	}
	return set
}

// closes tells whether the bracket that a text is in closes at its very end.
func closes(text string) bool {
	depth := 1
	for i, r := range text {
		switch r {
		case '(':
			depth++
		case ')':
			if depth--; depth == 0 {
				return i == len(text)-1
			}
		}
	}
	return false
}
