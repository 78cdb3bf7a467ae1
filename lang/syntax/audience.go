package syntax

import "strings"

// Audience is for whom a line is printed, where words before it say so: `key only`
// before a line keeps it out of a handout, `on handout` puts it there.
type Audience uint8

// The audiences.
const (
	Unsaid    Audience = iota // what the line does in its exercise decides
	KeyOnly                   // key only note The trick is to …
	OnHandout                 // on handout note The spring has about 250 N/m.
)

var audiences = [...]struct {
	words string
	of    Audience
}{{"key only", KeyOnly}, {"on handout", OnHandout}}

// For reads the words about its audience that a line begins with. It returns where the
// statement behind them begins.
func For(text string) (Audience, int) {
	from, _ := trimBlanks(text, 0, len(text))
	for _, a := range audiences {
		rest, ok := strings.CutPrefix(text[from:], a.words)
		if !ok {
			continue
		}
		behind, _ := trimBlanks(rest, 0, len(rest))
		if behind > 0 && behind < len(rest) && rest[behind] != '=' {
			return a.of, from + len(a.words) + behind
		}
	}
	return Unsaid, 0
}

// unaddressed is a line with blanks in the place of the words about its audience: the
// places of all else stay.
func unaddressed(text string) string {
	if _, n := For(text); n > 0 {
		return strings.Repeat(" ", n) + text[n:]
	}
	return text
}
