package syntax

import (
	"regexp"
	"slices"
	"strings"
	"sync"

	"steelyard/lang/finding"
)

// What a problem sheet or a notebook has on a line and this language has otherwise:
// labels of parts, headings, requests, a result behind its working, two values joined by
// and. Each rule answers with the lines that say the same here.

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

var (
	partLabel = patternWith(`^(?:[Pp]art|[Qq]uestion|[Tt]ask)?\s*\(?([a-zA-Z]|[ivx]{1,4}|[0-9]{1,2})\s*[).:]\s+(\pL.*)$`, ")", ".", ":")
	heading   = patternWith(`^(\pL[\pL ]+):\s*([^=].*)?$`, ":")
	about     = patternWith(`^([^=\s]+?)\s*[≈≅]\s*(.+)$`, "≈", "≅")
	behind    = patternWith(`^(.+?)\s+(?:where|when|if|for|given)\s+(\S+\s*=.+)$`, "where", "when", "if", "for", "given")
	rounding  = patternWith(`^(.+?)\s*[,(]?\s*(?:to\s+)?(\d{1,2})\s*(?:(?i:figs?|figures?|s\.?\s?f\.?|sig\.? ?figs?|significant figures))\)?$`, "f", "F")
	atTime    = patternWith(`^(\S+)\s*=\s*(.+?)\s+at\s+(\S+)\s*=\s*(.+)$`, "at")
)

// labelled finds the label of a part, as in a) speed, Part (b) speed and 2. v = 3 m/s.
//
// A label with words behind it begins a part: a) speed is offered as part a:
// speed. Before a value it is to be left out, as the part has a line of its own.
func (r unread) labelled() *fault {
	at := partLabel.in(r.text[r.from:r.to])
	if at == nil {
		return nil
	}
	if _, value := r.reads(at[2]).(*Define); value {
		return r.instead(finding.NotWritten, "A label can't be before a value.", "A part begins with a line of its own, `part "+at[1]+": …`. Write ", at[2])
	}
	if at[1] < "A" {
		return nil // 5. m is a number
	}
	return r.instead(finding.NotWritten, "Is this the beginning of a part?", "Write ", "part "+at[1]+": "+at[2])
}

// headed finds a line with a heading, as in Given: m = 3 kg and Answer: 5 m.
//
// Given: m = 3 kg is offered as m = 3 kg. Other words with a colon are a note.
func (r unread) headed() *fault {
	line := r.text[r.from:r.to]
	at := heading.in(line)
	if at == nil {
		return nil
	}
	if _, value := r.reads(at[2]).(*Define); value {
		return r.instead(finding.NotWritten, "A heading can't be before a value.", "Write ", at[2])
	}
	return r.instead(finding.NotWritten, "Words are kept in a note.", "Write ", "note "+line)
}

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

// aboutEqual finds v ≈ 3.0 m/s.
//
// Where v has a value, v ≈ 2.0 m/s compares: check v = 2.0 m/s within 1 % is
// offered. Where it has none, it is a new value, v = 2.0 m/s.
func (r unread) aboutEqual() *fault {
	at := about.in(r.text[r.from:r.to])
	if at == nil {
		return nil
	}
	line := at[1] + " = " + at[2]
	if r.reads(line) == nil {
		return nil
	}
	if r.known != nil && r.known(Canonical(at[1])) {
		line = "check " + line + " within 1 %"
	}
	return r.instead(finding.NotWritten, "For \"about equal\", use = and within.", "Write ", line)
}

// atPlace finds v = -ω*A*sin(ω*t) at t = 0.1 s: a value at a place is that of a function.
//
// The function gets a name of its own, with a 1 behind it, and is asked at the
// place: y1(t) = v*t and then y1(0.1 s).
func (r unread) atPlace() *fault {
	at := atTime.in(r.text[r.from:r.to])
	if at == nil {
		return nil
	}
	name := at[1] + "1"
	lines := []string{name + "(" + at[3] + ") = " + at[2], name + "(" + at[4] + ")"}
	if r.reads(lines[0]) == nil || r.reads(lines[1]) == nil {
		return nil
	}
	return r.instead(finding.NotWritten, "A value at one place is that of a function.", "Write ", lines...)
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

// rounded finds k = 2*m to 3 figures and k = 2*m (3 s.f.): a line keeps all figures, and
// report rounds. The digits of a given are its figures.
func (r unread) rounded() *fault {
	at := rounding.in(r.text[r.from:r.to])
	if at == nil {
		return nil
	}
	figures := " to " + at[2] + " figures"
	switch s := r.reads(at[1]).(type) {
	case *Define:
		if s.Plain() {
			return r.instead(finding.NotWritten, "The digits of a given value say how many figures it has.", "Write ", at[1])
		}
		return r.instead(finding.NotWritten, "A line keeps all figures. `report` rounds.", "Write ", at[1], "report "+s.Name+figures)
	case *Value:
		return r.instead(finding.NotWritten, "A line keeps all figures. `report` rounds.", "Write ", "report "+at[1]+figures)
	}
	return nil
}
