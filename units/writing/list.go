package writing

import (
	"strconv"
	"strings"
)

// List joins words as prose does: a, b and c, with the word that is before the last.
func List(words []string, and string) string {
	last := len(words) - 1
	if last < 1 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:last], ", ") + " " + and + " " + words[last]
}

// Count says how many there are of a thing, whose plural ends in s: 1 row, 2 rows.
func Count(n int, thing string) string {
	if n != 1 {
		thing += "s"
	}
	return strconv.Itoa(n) + " " + thing
}
