package eval

import (
	"steelyard/lang/algebra"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
)

// Solved is behind the entry of a solve: what its values were worked out from.
type Solved struct {
	entry.Worker
	// Unknown is what a single equation was rearranged for.
	Unknown string
	Roots   []Isolated // one for each value
}

// Isolated is an unknown in symbols, and the steps from the equations to it.
type Isolated struct {
	X     syntax.Expr
	Steps []algebra.Step
}
