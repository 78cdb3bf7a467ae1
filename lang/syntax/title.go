package syntax

import (
	"strings"

	"steelyard/lang/finding"
)

// title says how a worksheet is given its title, where the line begins with that
// word.
func (r unread) title() *fault {
	line := r.text[r.from:r.to]
	rest, ok := strings.CutPrefix(line, "title")
	if !ok || rest == "" || !isBlank(firstRune(rest)) && rest[0] != ':' {
		return nil
	}
	if strings.HasPrefix(strings.TrimLeft(rest, " \t"), "=") {
		return nil
	}
	words := strings.Trim(strings.TrimLeft(rest, ": \t"), " \t\"")
	if words == "" {
		words = "TITLE"
	}
	reading := "worksheet 1 " + words
	return &fault{finding.New(finding.NotWritten, Span{From: r.from, To: r.to}, "A title begins with `worksheet 1`.",
		"Write `"+reading+"`.", reading)}
}
