package units

import (
	"cmp"
	"iter"
	"slices"
	"strings"
	"unicode/utf8"

	"steelyard/units/writing"
)

// Suggest lists the units whose words are nearest to an unknown one, best
// first, three at most. Symbols that differ in capitals alone come before all.
//
// Near is by few letters (writing.Nearest), of which a word of two has too many neighbours.
func (t *Table) Suggest(unknown string) []string {
	out := sameLetters(unknown)
	if utf8.RuneCountInString(unknown) > 2 {
		for _, w := range writing.Nearest(unknown, t.wordsLike(unknown)) {
			if !slices.Contains(out, w) {
				out = append(out, w)
			}
		}
	}
	const most = 3
	return out[:min(len(out), most)]
}

// wordsLike goes through the words that may be meant by an unknown one: names,
// for a short one symbols too, and names with a prefix that is spelled nearly as
// the unknown word begins, such as kilometres.
func (t *Table) wordsLike(unknown string) iter.Seq[string] {
	return func(yield func(string) bool) {
		short := utf8.RuneCountInString(unknown) <= 4
		for _, w := range words {
			if (w.name || short) && !yield(w.text) {
				return
			}
		}
		for name := range t.own {
			if !yield(name) || !yield(name+"s") {
				return
			}
		}
		for i := range prefixTable {
			p := &prefixTable[i]
			if p.name == "" || len(unknown) <= len(p.name) || !writing.Within(1, unknown[:len(p.name)], p.name) {
				continue
			}
			for _, w := range words {
				if w.name && w.takes(p) && !yield(p.name+w.text) {
					return
				}
			}
		}
	}
}

// sameLetters lists symbols that differ from a word only in capitals: kg for
// Kg, km for KM. Of all slips these are the commonest, and they are never taken without
// asking: mW and MW are both units.
func sameLetters(text string) []string {
	if len(text) > 8 {
		return nil
	}
	lower := strings.ToLower(text)
	var out []string
	for _, w := range words {
		if w.symbol && w.text != text && common(w) && strings.ToLower(w.text) == lower {
			out = append(out, w.text)
		}
	}
	for i := range prefixTable {
		p := &prefixTable[i]
		rest, ok := strings.CutPrefix(lower, strings.ToLower(p.symbol))
		if !ok || p.symbol == "" || rest == "" || strings.Contains("PEZYRQafzyrq", p.symbol) {
			continue
		}
		for _, w := range words {
			if w.symbol && w.takes(p) && common(w) && strings.ToLower(w.text) == rest && p.symbol+w.text != text {
				out = append(out, p.symbol+w.text)
			}
		}
	}
	// Prefixes that nobody meets in a first course are left out above: they would make
	// a unit of nearly any letters.
	rank := func(s string) int { return capitals(s, text) }
	slices.SortStableFunc(out, func(a, b string) int { return cmp.Compare(rank(a), rank(b)) })
	return slices.Compact(out)
}

// common tells whether a unit is met often enough to be offered for a word
// with the wrong capitals.
//
// Most letters are the symbol of something in both sizes.
func common(w word) bool {
	return !strings.Contains(" M G P S u St Ci T F C H K A d t ", " "+catalogue[w.row].symbol+" ") || len(w.text) > 2
}

// capitals counts the letters in which two words differ; a milli for a typed M
// counts more, as capitals are more often put where none belongs.
func capitals(a, b string) int {
	n := 0
	for i := range min(len(a), len(b)) {
		if a[i] != b[i] {
			n++
		}
	}
	if strings.HasPrefix(a, "m") && strings.HasPrefix(b, "M") || strings.HasPrefix(a, "M") && strings.HasPrefix(b, "m") {
		n += 2
	}
	return n
}
