package worksheet

import (
	"steelyard/lang/syntax"
	"steelyard/session/entry"
)

// Attempts counts the lines that could not be worked out: those that are saved
// as remarks, and those that are left out because a later line of the same part
// gives what they would have given.
func Attempts(entries []*entry.Entry) (remarks, leftOut int) {
	for i, mended := range mendedLater(entries) {
		switch {
		case mended:
			leftOut++
		case entries[i].Failed():
			remarks++
		}
	}
	return remarks, leftOut
}

// mendedLater tells of each entry whether it failed and a later one of its part
// gives all the names that it would have given.
func mendedLater(entries []*entry.Entry) []bool {
	out := make([]bool, len(entries))
	given := map[string]bool{} // by the lines below, within the part
	for i := len(entries) - 1; i >= 0; i-- {
		e := entries[i]
		if _, part := e.Stmt.(*syntax.Part); part {
			clear(given)
			continue
		}
		names := e.Gives()
		if !e.Failed() {
			for _, name := range names {
				given[name] = true
			}
			continue
		}
		out[i] = len(names) > 0
		for _, name := range names {
			out[i] = out[i] && given[name]
		}
	}
	return out
}
