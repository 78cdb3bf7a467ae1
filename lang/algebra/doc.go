// Package algebra rearranges equations and expressions. It works on trees: an
// equation goes in with the name of an unknown, and the roots come out as trees
// of their own, with every rewriting on the way and its reason.
//
// There is one normal form. A [term] is an exact number times powers, a [sum] is
// terms that are added, and a [fraction] is a sum over a product of sums. What a
// power is taken of is a name, π, a written quantity, a call, or a sum that keeps
// its brackets. Numbers are exact rationals throughout.
// A decimal that is written is one too, 0.1 exactly 1/10: what cancels on paper
// cancels here, and no rounding decides which degree an equation has.
//
// A normal form makes things alike that are: a·b and b·a, (m + M)·g however it is
// written. It does not multiply out what has no unknown in it, and does not sort what
// it prints, for a result must look like the line that it came from.
//
// An equation is solved in the order in which a person would try:
//
//	the unknown stands once     what was done to it is undone, last first
//	a product is to be 0        each factor is, by itself
//	powers of one thing         one power, a common factor, or the quadratic formula
//	functions of one argument   written by one of them: sin² + cos² = 1, exponentials
//	brackets with the unknown   multiplied out, and tried again
//	a root beside the unknown   left alone and squared, which may add solutions
//
// What is divided by on the way may be 0. It is kept with the root (Lead and Rest of a
// [Root]), since only who knows the values can tell. Where all this leads nowhere the
// answer is false, and the session searches for numbers: no rule here guesses.
//
// The package knows no values, no dimensions and no printing.
package algebra
