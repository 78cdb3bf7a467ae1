package syntax

// Names in braces stand in prose for the values that the nearest lines above have for
// them: a toy frog of {m}. Braces round anything else are prose.

// brace is what may be a name in braces.
var brace = patternWith(`\{([^{}]*)\}`, "{")

// inBraces are the names in braces of a stretch of a statement's text.
//
// Their places are in the whole text, so that a rename of m finds them too.
func inBraces(text string, within Span) (out []Ident) {
	if part := text[within.From:within.To]; brace.in(part) != nil {
		for _, at := range brace.compiled().FindAllStringSubmatchIndex(part, -1) {
			if name := part[at[2]:at[3]]; IsName(name) {
				out = append(out, Ident{Name: Canonical(name), NameAt: Span{From: within.From + at[2], To: within.From + at[3]}})
			}
		}
	}
	return out
}

// FillBraces puts what a function tells of each name in braces in its place; what it
// knows nothing of stays.
//
// With 3 kg for m, "a frog of {m} and {z}" is "a frog of 3 kg and {z}".
func FillBraces(text string, value func(name string) (string, bool)) string {
	if brace.in(text) == nil {
		return text
	}
	return brace.compiled().ReplaceAllStringFunc(text, func(part string) string {
		if name := part[1 : len(part)-1]; IsName(name) {
			if v, ok := value(Canonical(name)); ok {
				return v
			}
		}
		return part
	})
}
