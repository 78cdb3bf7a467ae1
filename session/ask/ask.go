// Package ask answers what is asked of a page: its names, what one of them is and
// where it comes from, and which formulas lead to one without a value. It changes
// nothing.
package ask

import (
	"steelyard/session/entry"
	"steelyard/session/eval"
)

// AllNames answers the command names, which takes nothing behind it.
func AllNames(p *eval.Page, e *entry.Entry) { e.Outcome = tellNames(p) }
