// Package typeset lays out expressions, names, units and shown values as
// mathematics, and writes what is laid out as presentation MathML, with the
// elements of W3C's MathML Core and no others, as LaTeX, as a line of text in SVG,
// or as text that can be typed.
//
// A tree of lang/syntax is laid out as print has it: a quotient as a fraction, a
// power raised, a product without a sign where none is needed, symbols in
// italics, units and the names of functions upright. Brackets stand where the
// meaning needs them and nowhere else, whatever the line had: a line that is shown
// as it was written is its own text, and needs no writer.
//
// What is written is safe to put into a document: text that comes from a worksheet
// is escaped, and LaTeX is plain ASCII.
package typeset
