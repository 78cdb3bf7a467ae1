package syntax

import "strings"

// Names in braces stand in prose for the values that the nearest lines above have for
// them: a toy frog of {m}. Braces round anything else are prose.

// inBraces are the names in braces of a stretch of a statement's text.
//
// Their places are in the whole text, so that a rename of m finds them too.
func inBraces(text string, within Span) []Ident {
	var out []Ident
	braces(text[within.From:within.To], func(name string, at Span) {
		out = append(out, Ident{Name: name, NameAt: Span{From: within.From + at.From, To: within.From + at.To}})
	})
	return out
}

// FillBraces puts what a function tells of each name in braces in its place; what it
// knows nothing of stays.
//
// With 3 kg for m, "a frog of {m} and {z}" is "a frog of 3 kg and {z}".
func FillBraces(text string, value func(name string) (string, bool)) string {
	if !strings.Contains(text, "{") {
		return text
	}
	var b strings.Builder
	done := 0
	braces(text, func(name string, at Span) {
		if v, ok := value(name); ok {
			b.WriteString(text[done:at.From-1] + v)
			done = at.To + 1
		}
	})
	return b.String() + text[done:]
}

// braces finds the names in braces of a text, with their places without the braces.
//
// Of {not a name} nothing is found, and a brace that is never shut ends the
// search.
func braces(text string, found func(name string, at Span)) {
	for at := 0; ; {
		open := strings.IndexByte(text[at:], '{')
		if open < 0 {
			return
		}
		from := at + open + 1
		shut := strings.IndexByte(text[from:], '}')
		if shut < 0 {
			return
		}
		name := text[from : from+shut]
		if IsName(name) {
			found(Canonical(name), Span{From: from, To: from + shut})
			at = from + shut + 1
		} else {
			at = from
		}
	}
}
