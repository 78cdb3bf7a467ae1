package units

import (
	"cmp"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/agnivade/levenshtein"
)

// Suggest lists the units whose words are nearest to an unknown one, best
// first, three at most.
func (t *Table) Suggest(unknown string) []string {
	const most = 3
	length := utf8.RuneCountInString(unknown)
	if length == 0 || length > 40 {
		return nil
	}
	out := sameLetters(unknown)
	type near struct {
		text           string
		distance, like int
	}
	var found []near
	consider := func(text string) {
		reach := max(1, length/3)
		if abs(utf8.RuneCountInString(text)-length) > reach || length < 3 {
			return
		}
		if d := levenshtein.ComputeDistance(unknown, text); d <= reach {
			found = append(found, near{text, d, likeness(unknown, text)})
		}
	}
	for _, w := range words {
		if w.name || length <= 4 {
			consider(w.text)
		}
	}
	for name := range t.own {
		consider(name)
		consider(name + "s")
	}
	t.prefixedNear(unknown, consider)
	slices.SortFunc(found, func(a, b near) int {
		return cmp.Or(cmp.Compare(a.distance, b.distance), cmp.Compare(b.like, a.like), strings.Compare(a.text, b.text))
	})
	for _, n := range found {
		if len(out) < most && !slices.Contains(out, n.text) {
			out = append(out, n.text)
		}
	}
	return out[:min(len(out), most)]
}

// prefixedNear considers names with a prefix, such as kilometres.
func (t *Table) prefixedNear(unknown string, consider func(string)) {
	for i := range prefixTable {
		p := &prefixTable[i]
		if p.name == "" || len(unknown) <= len(p.name) || levenshtein.ComputeDistance(unknown[:len(p.name)], p.name) > 1 {
			continue
		}
		for _, w := range words {
			if w.name && w.takes(p) {
				consider(p.name + w.text)
			}
		}
	}
}

// likeness ranks words at one distance: those that begin alike come first,
// then those that end alike.
func likeness(a, b string) int {
	n := 0
	for n < len(a) && n < len(b) && a[n] == b[n] {
		n++
	}
	n *= 2
	if a[len(a)-1] == b[len(b)-1] {
		n++
	}
	return n
}

// sameLetters lists symbols that differ from a word only in capitals: kg for
// Kg, km for KM.
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
	rank := func(s string) int { return capitals(s, text) }
	slices.SortStableFunc(out, func(a, b string) int { return cmp.Compare(rank(a), rank(b)) })
	return slices.Compact(out)
}

// common tells whether a unit is met often enough to be offered for a word
// with the wrong capitals.
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
