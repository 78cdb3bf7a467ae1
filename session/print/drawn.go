package print

import (
	"strings"
	"unicode/utf8"

	"steelyard/lang/syntax"
	"steelyard/lang/typeset"
)

// The labels of a drawing come as text, and are read again to be set.

// texHead sets a label: a quantity over its unit, a name, or words.
func texHead(text string) string {
	if set := readHead(oneLine(text)); !set.IsEmpty() {
		return "$" + set.LaTeX() + "$"
	}
	return escapeTeX(oneLine(text))
}

// readHead lays out a label, or nothing for words.
func readHead(text string) typeset.Box {
	quantities, unit, _ := strings.Cut(text, " / ")
	if quantities == "" || utf8.RuneCountInString(quantities) > 80 {
		return typeset.Box{}
	}
	var of []typeset.Box
	for i, name := range strings.Split(quantities, ", ") {
		x, findings := syntax.ParseExpr(name)
		if x == nil || len(findings) > 0 || strings.Contains(name, " ") || utf8.RuneCountInString(name) > 24 {
			return typeset.Box{}
		}
		if i > 0 {
			of = append(of, typeset.Comma())
		}
		of = append(of, typeset.Expr(x))
	}
	return over(of, unit)
}

// setShown sets the text of a value.
func setShown(text string) typeset.Box { return typeset.Quantity(oneLine(text)) }

// isValue tells whether a label is a number, with or without a unit.
func isValue(text string) bool {
	text = strings.TrimLeft(text, "-−+(")
	return text != "" && text[0] >= '0' && text[0] <= '9'
}
