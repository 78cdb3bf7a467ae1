package syntax

import (
	"strings"

	"steelyard/units/writing"
)

// ScreenExpr writes an expression as a line of text for a reader: products with ·,
// whole exponents raised, and no brackets round the whole or round an argument.
// Reading it gives the same meaning.
func ScreenExpr(x Expr) string {
	if x == nil {
		return ""
	}
	p := printer{screen: true}
	p.expr(Unbracket(x))
	return p.b.String()
}

// screenUnit writes the text of a unit with · and raised whole exponents.
func screenUnit(text string) string {
	text = strings.ReplaceAll(text, "*", "·")
	var b strings.Builder
	for {
		before, after, found := strings.Cut(text, "^")
		b.WriteString(before)
		if !found {
			return b.String()
		}
		digits := strings.TrimLeft(strings.TrimPrefix(after, "-"), "0123456789")
		exponent := after[:len(after)-len(digits)]
		if exponent == "" || exponent == "-" {
			b.WriteByte('^')
			exponent = ""
		}
		b.WriteString(writing.Raised(exponent))
		text = after[len(exponent):]
	}
}
