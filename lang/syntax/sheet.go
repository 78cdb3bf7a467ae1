package syntax

import (
	"regexp"
	"slices"
	"strings"
	"sync"

	"steelyard/lang/finding"
)

// What a problem sheet or a notebook has on a line and this language has otherwise, as far as
// no pattern of reworded.go can tell: a result behind its working, values joined by and. Each
// rule answers with the lines that say the same here.

// instead refuses a line with what to write in its place, line after line.
//
// More than one line is offered as one: they are put in the place of the line that
// was refused, in their order.
func (r unread) instead(id finding.ID, message, lead string, lines ...string) *fault {
	return &fault{finding.New(id, Span{From: r.from, To: r.to}, message, lead+"`"+strings.Join(lines, "` and then `")+"`.", lines...)}
}

// reads is a part of the line as a statement without a word of its own; nil if it is none.
//
// It is asked before anything is offered: an offer that is refused in turn would
// be worse than none.
func (r unread) reads(text string) Stmt {
	if text == "" || text[0] == '#' || text[0] == '=' {
		return nil
	}
	inner := &reader{text: text, known: r.known}
	inner.split()
	s, bad := inner.plain()
	if bad != nil {
		return nil
	}
	return s
}

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

var behind = patternWith(`^(.+?)\s+(?:where|when|if|for|given)\s+(\S+\s*=.+)$`, "where", "when", "if", "for", "given")

// joinedNames finds m = 3 kg and v = 2 m/s.
//
// Each part must be a line that can be read by itself; else and is a part of
// words.
func (r unread) joinedNames() *fault {
	lines := strings.Split(r.text[r.from:r.to], " and ")
	if len(lines) < 2 || len(lines) > maxApart {
		return nil
	}
	for _, line := range lines {
		if _, value := r.reads(line).(*Define); !value {
			return nil
		}
	}
	return r.instead(finding.NotWritten, "Each of these statements needs its own line.", "Write ", lines...)
}

// workedBehind finds K = 1/2*m*v^2 = 16 J: a result behind its working is checked.
//
// The second sign is where the reading ended. What is behind it must hold a digit:
// the offer is K = 1/2*m*v^2 and then check K = 16 J, where the page works K out
// and compares it.
func (r unread) workedBehind() *fault {
	line := r.text[r.from:r.to]
	at := r.why.At.From - r.from
	if at <= 0 || at >= len(line) || line[at] != '=' {
		return nil
	}
	first, tail := strings.TrimSpace(line[:at]), strings.TrimSpace(line[at+1:])
	s, ok := r.reads(first).(*Define)
	if !ok || r.reads(tail) == nil || strings.Contains(tail, "=") || !strings.ContainsAny(tail, "0123456789") {
		return nil
	}
	if value, ok := r.reads(s.Name + " = " + tail).(*Define); ok && numbersAlone(s.X) && !numbersAlone(value.X) && value.Plain() {
		return r.instead(finding.Unreadable, "`"+first+"` has no unit, but the value after it has.", "Write ", s.Name+" = "+tail)
	}
	return r.instead(finding.Unreadable, "A second = doesn't fit here.", "A line has one name. Write ", first, "check "+s.Name+" = "+tail)
}

// numbersAlone tells whether an expression is numbers without units.
func numbersAlone(x Expr) bool {
	for x := range Nodes(x) {
		switch x.(type) {
		case *Quantity, *Mixed, *Name, *Call:
			return false
		}
	}
	return true
}

// givenBehind finds c = 331 + 0.6*T where T = 20: the value has a line of its own, or comes
// after with where the name has another.
func (r unread) givenBehind() *fault {
	at := behind.in(r.text[r.from:r.to])
	if at == nil || r.reads(at[1]) == nil {
		return nil
	}
	lines, known := strings.Split(strings.ReplaceAll(at[2], " and ", ", "), ", "), r.known != nil
	for _, line := range lines {
		d, ok := r.reads(line).(*Define)
		if !ok || !d.Plain() {
			return nil
		}
		known = known && r.known(d.Name)
	}
	if known {
		return r.instead(finding.NotWritten, "Another value for a name comes after `with`.", "Write ", at[1]+" with "+strings.Join(lines, ", "))
	}
	return r.instead(finding.NotWritten, "Each value needs its own line.", "Write ", append(lines, at[1])...)
}
