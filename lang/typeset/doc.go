// Package typeset sets expressions, names, units and shown values as
// mathematics: in presentation MathML, with the elements of W3C's MathML Core
// and no others, and in LaTeX.
//
// A tree of lang/syntax is set as print has it: a quotient as a fraction, a
// power raised, a product without a sign where none is needed, symbols in
// italics, units and the names of functions upright. Brackets stand where the
// meaning needs them and nowhere else, whatever the line had.
//
// The result is safe to put into a document: text that comes from a worksheet is
// escaped, and LaTeX is plain ASCII.
package typeset

import "steelyard/lang/syntax"

// Form is the language that mathematics is written in.
type Form uint8

// The forms.
const (
	MathML Form = iota // W3C, MathML Core
	LaTeX              // with the packages of Preamble
)

// Preamble is what a LaTeX document needs before \begin{document}.
const Preamble = `\usepackage{amsmath}`

// Expr sets an expression. MathML is one element, without <math> round it; LaTeX
// is for math mode, without $ round it.
func Expr(f Form, x syntax.Expr) string {
	w := writer{form: f}
	w.whole(x)
	return w.b.String()
}

// Equation sets expressions with equals signs between them, as one row.
func Equation(f Form, sides ...syntax.Expr) string {
	w := writer{form: f}
	w.open()
	for i, x := range sides {
		if i > 0 {
			w.relation("=")
		}
		w.whole(x)
	}
	w.close()
	return w.b.String()
}

// Relation joins two pieces that are already set by a sign such as =, <, ≤, ≈ or
// ⇒. Either piece may be empty.
func Relation(f Form, left, relation, right string) string {
	w := writer{form: f}
	w.open()
	w.ready(left)
	w.relation(relation)
	w.ready(right)
	w.close()
	return w.b.String()
}

// Document makes a formula of a piece that is already set: a line of its own, or
// part of the text.
func Document(f Form, inner string, display bool) string {
	switch {
	case f == LaTeX && display:
		return `\[ ` + inner + ` \]`
	case f == LaTeX:
		return `\( ` + inner + ` \)`
	case display:
		return `<math display="block">` + inner + `</math>`
	}
	return `<math>` + inner + `</math>`
}
