// Package syntax turns the text of a statement into a tree, and an expression
// back into text.
//
// A line is read in three steps. The lexer is where the rule lives that a unit
// stands only after a written number, after a bracket of written numbers, after
// `in`, and (rad, sr) after π: it emits a Unit there and a Name elsewhere, by
// position and shape alone. A look along the tokens then finds operands that
// stand side by side and the notations of print that are written in another way
// here. Last, the statement's own reader makes the tree, with one production for
// all expressions.
//
// The package knows nothing of values, of which words are units, or of which
// names a worksheet has: the plan looks those up. Spans are byte offsets in the
// text as it was typed, also where look-alike characters were replaced.
package syntax
