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
func setName(f typeset.Form, name string) string {
	name = oneLine(name)
	if name == "" {
		return ""
	}
	if !isName(name) && len(name) <= 200 {
		if x, findings := syntax.ParseExpr(name); x != nil && len(findings) == 0 {
			return typeset.Expr(f, x)
		}
	}
	return typeset.Name(f, name)
}

// setExpr is typeset.Expr, and empty for no expression.
func setExpr(f typeset.Form, x syntax.Expr) string {
	if x == nil {
		return ""
	}
	return typeset.Expr(f, x)
}

// setShown sets a value in the file form, and empty for none.
func setShown(f typeset.Form, shown string) string {
	if shown = oneLine(shown); shown == "" {
		return ""
	}
	return typeset.Quantity(f, shown)
}

// setValue sets a value, or gives the words that stand in its place: a result can
// be "negative", and a given only has the unit that it is told in.
func setValue(f typeset.Form, text string) (set, words string) {
	text = oneLine(text)
	if text == "" {
		return "", ""
	}
	first, _ := utf8.DecodeRuneInString(text)
	if isValue(text) || strings.ContainsRune("[−-+≈∞π√", first) && !strings.Contains(text, "  ") {
		if x, findings := syntax.ParseExpr(text); x != nil && len(findings) == 0 && !strings.ContainsAny(text, "≈∞") {
			if _, ok := x.(*syntax.Binary); ok {
				return typeset.Expr(f, x), "" // worked out in the line itself
			}
		}
		return typeset.Quantity(f, text), ""
	}
	if x, findings := syntax.ParseExpr(text); x != nil && len(findings) == 0 && !isWords(text) {
		return typeset.Expr(f, x), ""
	}
	return "", text
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
func setHead(f typeset.Form, text string) string {
	quantity, unit := head(text)
	set := ""
	for i, name := range strings.Split(quantity, ", ") {
		if isWords(name) || len(quantity) > 80 {
			return ""
		}
		switch {
		case i == 0:
			set = setName(f, name)
		case f == latex:
			set += ", " + setName(f, name)
		default:
			set += "<mo>,</mo>" + setName(f, name)
		}
	}
	switch {
	case unit == "" && f == latex:
		return set
	case unit == "":
		return "<mrow>" + set + "</mrow>"
	case f == latex:
		return set + " / " + setShown(f, unit)
	}
	return typeset.Relation(f, set, "/", setShown(f, unit))
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
			n += breadth(p.x) + 3
		}
		most = max(most, n)
	}
	return most
}

// right sets what stands at the right of a line.
func (l *Line) right(f typeset.Form) string {
	if l.Shown != "" {
		return setShown(f, l.Shown)
	}
	return setExpr(f, l.Right)
}

// piece is one term of a long sum with the sign before it.
type piece struct {
	sign string // "+" or "−"; empty for the first
	x    syntax.Expr
}

// terms takes a sum apart where a line may be broken.
func terms(x syntax.Expr) []piece {
	var out []piece
	for {
		sum, ok := x.(*syntax.Binary)
		if !ok || sum.Op != syntax.Add && sum.Op != syntax.Sub {
			break
		}
		sign := "+"
		if sum.Op == syntax.Sub {
			sign = "−"
			if y, ok := sum.Y.(*syntax.Binary); ok && (y.Op == syntax.Add || y.Op == syntax.Sub) {
				break // its brackets belong to the whole
			}
		}
		out = append(out, piece{sign, sum.Y})
		x = sum.X
	}
	out = append(out, piece{"", x})
	for i, j := 0, len(out)-1; i < j; i, j = i+1, j-1 {
		out[i], out[j] = out[j], out[i]
	}
	return out
}

// longest is how many letters wide a formula may be before it is broken.
const longest = 52

// rows groups the terms of a long expression into rows of some width each. It is
// nil for an expression that needs no break or can't have one.
func rows(x syntax.Expr) [][]piece {
	if x == nil || breadth(x) <= longest {
		return nil
	}
	all := terms(x)
	if len(all) < 2 {
		return nil
	}
	var out [][]piece
	var row []piece
	used := 0
	for _, p := range all {
		n := breadth(p.x) + 3
		if len(row) > 0 && used+n > longest {
			out, row, used = append(out, row), nil, 0
		}
		row = append(row, p)
		used += n
	}
	return append(out, row)
}

// setRow sets the terms of one row.
func setRow(f typeset.Form, row []piece) string {
	set := ""
	for _, p := range row {
		one := setExpr(f, p.x)
		if p.sign != "" && needsBrackets(p.x) {
			one = setExpr(f, &syntax.Paren{X: p.x})
		}
		switch {
		case p.sign == "":
			set = one
		case f == typeset.MathML:
			set += `<mo form="infix">` + p.sign + "</mo>" + one
		default:
			set += " " + strings.Replace(p.sign, "−", "-", 1) + " " + one
		}
	}
	if f == typeset.MathML {
		return "<mrow>" + set + "</mrow>"
	}
	return set
}

// needsBrackets tells whether a term is a sum or has a sign of its own.
func needsBrackets(x syntax.Expr) bool {
	switch x := x.(type) {
	case *syntax.Binary:
		return x.Op == syntax.Add || x.Op == syntax.Sub
	case *syntax.Unary:
		return true
	}
	return false
}

// tighten keeps the brackets round what is no higher than a line from stretching:
// a bracket that may stretch is given the room of its largest form by some
// browsers, even where it stays small.
func tighten(set string) string {
	const open, shut, fixed = "<mo>(</mo>", "<mo>)</mo>", `<mo stretchy="false">`
	if !strings.Contains(set, open) {
		return set
	}
	type bracket struct {
		at   int // where it stands in what is written
		tall bool
	}
	var stack []bracket
	out := make([]byte, 0, len(set)+64)
	for i := 0; i < len(set); {
		rest := set[i:]
		switch {
		case strings.HasPrefix(rest, open):
			stack = append(stack, bracket{at: len(out)})
			out = append(out, open...)
			i += len(open)
			continue
		case strings.HasPrefix(rest, shut) && len(stack) > 0:
			last := stack[len(stack)-1]
			stack = stack[:len(stack)-1]
			i += len(shut)
			if last.tall {
				out = append(out, shut...)
				if len(stack) > 0 {
					stack[len(stack)-1].tall = true
				}
				continue
			}
			inside := string(out[last.at+len(open):])
			out = append(append(out[:last.at], fixed+"(</mo>"...), inside...)
			out = append(out, fixed+")</mo>"...)
			continue
		case len(stack) > 0 && (strings.HasPrefix(rest, "<mfrac") || strings.HasPrefix(rest, "<msqrt") || strings.HasPrefix(rest, "<mroot")):
			stack[len(stack)-1].tall = true
		}
		out = append(out, set[i])
		i++
	}
	return string(out)
}

// setUnits sets how units cancel: "√(kg/(N/m)) = s".
func setUnits(f typeset.Form, text string) string {
	set := ""
	for i, side := range strings.Split(oneLine(text), " = ") {
		one := ""
		if inside, ok := strings.CutPrefix(side, "√("); ok && closes(inside) {
			inside = setShown(f, inside[:len(inside)-1])
			one = map[typeset.Form]string{typeset.MathML: "<msqrt>" + inside + "</msqrt>", latex: `\sqrt{` + inside + "}"}[f]
		} else {
			one = setShown(f, side)
		}
		if i == 0 {
			set = one
		} else {
			set = typeset.Relation(f, set, "=", one)
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
