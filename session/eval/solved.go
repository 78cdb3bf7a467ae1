package eval

import (
	"steelyard/lang/algebra"
	"steelyard/session/entry"
)

// Solved stands behind the entry of a solve: how its equations were rearranged,
// and the roots that its values were worked out from.
type Solved struct {
	entry.Worker
	Solution *algebra.Solution
	// Unknown is what a single equation was rearranged for.
	Unknown string
	Roots   []algebra.Root
}
