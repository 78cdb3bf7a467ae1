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
	// How is how values were found that no rearrangement gives, else empty.
	How   string
	Roots []Isolated // one for each value
	// Told is what is said beside the working.
	Told []entry.Said
}

// Asides returns what is said beside the working.
func (s *Solved) Asides() []entry.Said { return s.Told }

// Isolated is an unknown in symbols, and the solution that it belongs to.
type Isolated struct {
	X    syntax.Expr
	From algebra.Root
}

// ByComponents is behind the entry of a solve of vectors: the one of their components.
type ByComponents struct {
	entry.Worker
	Of *entry.Entry
	// Axes are the axes of its equations, counted from 1; 0 for one of numbers.
	Axes []int8
}

// Asides returns what is said beside the working.
func (s *ByComponents) Asides() []entry.Said {
	if by, ok := s.Of.By.(*Solved); ok {
		return by.Told
	}
	return nil
}
