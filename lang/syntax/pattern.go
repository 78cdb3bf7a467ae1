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
	expr  string
	needs []string
}

func patternWith(expr string, needs ...string) pattern { return pattern{expr, needs} }

// expressions are those that were compiled. A pattern has no place of its own for it: some
// hundreds of them are made as the program begins.
var expressions sync.Map

func (p pattern) compiled() *regexp.Regexp {
	e, ok := expressions.Load(p.expr)
	if !ok {
		e, _ = expressions.LoadOrStore(p.expr, regexp.MustCompile(p.expr))
	}
	return e.(*regexp.Regexp)
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
