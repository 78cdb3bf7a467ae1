// Package ask answers what is asked of a page: its names, what one of them is and
// where it comes from, and which formulas lead to one without a value. It changes
// nothing.
package ask

import (
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/eval"
)

// AllNames answers the command names.
func AllNames(p *eval.Page, e *entry.Entry, cmd *syntax.Command) {
	if word := strings.TrimSpace(cmd.Arg); word != "" {
		e.Findings = append(e.Findings, finding.New(finding.Unreadable, cmd.ArgAt, "names lists all names.", "For one of them, write describe "+word+"."))
		return
	}
	e.Outcome = tellNames(p)
}
