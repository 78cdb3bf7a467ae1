package print

import (
	"steelyard/lang/syntax"
	"steelyard/session/entry"
)

// guardedBy is how many more figures than the givens support, or than results usually
// have, are shown of what other results are worked out from, so that a reader who goes on
// from it rounds once.
const guardedBy = 2

// guardFigures shows more figures of the results that later results are worked out from.
//
// Whoever goes on from 4.7 gets another last figure than whoever goes on from 4.673; the answer
// itself is shown as its givens allow.
func guardFigures(entries []*entry.Entry) {
	used := map[int]bool{}
	for _, e := range entries {
		if _, report := e.Stmt.(*syntax.Report); e.Records() && !report {
			for _, line := range e.Uses {
				used[line] = true
			}
		}
	}
	for _, e := range entries {
		for i, v := range e.Values() {
			if (v.Figures.Givens || v.Figures.Usual) && used[e.Line] {
				e.Values()[i].Figures.Guard = guardedBy
			}
		}
	}
}
