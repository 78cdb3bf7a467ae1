// Package algebra rearranges equations and expressions. It works on trees: an
// equation goes in with the name of an unknown, and the roots come out as trees
// of their own, with every rewriting on the way and its reason.
//
// There is one normal form. A [term] is an exact number times powers, a [sum] is
// terms that are added, and a [fraction] is a sum over a product of sums. What a
// power is taken of is a name, π, a written quantity, a call, or a sum that keeps
// its brackets. Numbers are exact rationals throughout.
//
// The package knows no values, no dimensions and no printing.
package algebra
