package syntax

import (
	"regexp"
	"slices"
	"strings"
	"sync"
)

// pattern is how a line is written, with what each such line has somewhere: it is quick to
// find, and most lines have none of it. It is compiled when a line first has: most pages
// end without.
//
// Such lines are refused already when a pattern is tried, so that a pattern that
// is too wide costs a wrong offer, and never a wrong reading.
type pattern struct {
	compiled func() *regexp.Regexp
	needs    []string
}

// patternWith is called some hundreds of times as the program begins: put in line, its
// closures would be there as often.
//
//go:noinline
func patternWith(expr string, needs ...string) pattern {
	return pattern{sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(expr) }), needs}
}

// in takes a line apart; nil if it is written in another way.
//
// The first is the whole line, then come the groups of the pattern.
func (p pattern) in(line string) []string {
	if !slices.ContainsFunc(p.needs, func(part string) bool { return strings.Contains(line, part) }) {
		return nil
	}
	return p.compiled().FindStringSubmatch(line)
}

// parts are those of a text, of which each but the first is in the first group of the pattern.
func (p pattern) parts(text string) (out []string) {
	at := 0
	for _, m := range p.compiled().FindAllStringSubmatchIndex(text, -1) {
		out = append(out, text[at:m[0]])
		at = m[2]
	}
	return append(out, text[at:])
}
