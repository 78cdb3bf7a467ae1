package units

import "strings"

// everydayPrefixes are those of units that a school meets.
const everydayPrefixes = "TGMkcmμµnp"

// Everyday tells whether a symbol or name of a unit is met at school: one of the SI or
// beside it, with a common prefix at most. The attosecond and the technical atmosphere
// are none; as and at are more often two letters of a formula.
func (t *Table) Everyday(text string) bool {
	if t.own[text] != nil {
		return true
	}
	if w, ok := findWord(text); ok {
		return w.atom().row.flags&core != 0
	}
	a, ok := prefixed(text, true)
	return !ok || a.row.flags&core != 0 && strings.ContainsRune(everydayPrefixes, []rune(text)[0])
}
