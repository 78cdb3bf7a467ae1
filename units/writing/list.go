package writing

import "strings"

// List joins words as prose does: a, b and c, with the word that is before the last.
func List(words []string, and string) string {
	last := len(words) - 1
	if last < 1 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:last], ", ") + " " + and + " " + words[last]
}
