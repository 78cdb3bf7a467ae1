package main

import (
	"cmp"
	"slices"
	"strings"
	"unicode/utf8"

	"steelyard/units"
)

// longSymbol is how many letters the symbol of a unit has at the most, but for a few; what
// is longer is offered once it has been begun.
const longSymbol = 3

// unitsAt lists the units that begin with a prefix and may stand behind a text, those
// that are used most first. Directly after `in` they are of the kind of what is shown.
func (s *scratchpad) unitsAt(before, prefix string) []string {
	words := s.pad.Table().Complete(prefix)
	if prefix == "" {
		words = slices.DeleteFunc(words, func(word string) bool { return utf8.RuneCountInString(word) > longSymbol })
	}
	usual := slices.DeleteFunc(s.usualUnits(), func(word string) bool { return !strings.HasPrefix(word, prefix) })
	rank := func(word string) int {
		if at := slices.Index(usual, word); at >= 0 {
			return at
		}
		return len(usual) + len(word)
	}
	if head, after := strings.CutSuffix(strings.TrimRight(before, " "), " in"); after {
		if e := s.tried(head); e != nil && len(e.Values()) > 0 {
			v := e.Values()[0]
			words = slices.DeleteFunc(append(slices.Clone(usual), words...), func(word string) bool {
				u, bad := s.pad.Table().Parse(word, units.AloneInPlace)
				return bad != nil || u.Dim() != v.Dim
			})
		}
	}
	slices.SortStableFunc(words, func(a, b string) int { return cmp.Or(cmp.Compare(rank(a), rank(b)), strings.Compare(a, b)) })
	return words
}

// usualUnits are the units of the page's values, the last first, and then those in which
// the kinds of quantities are shown, plain and as multiples.
func (s *scratchpad) usualUnits() []string {
	var words []string
	for _, e := range slices.Backward(s.pad.Entries()) {
		for _, v := range e.Values() {
			words = append(words, v.Unit.Text())
		}
	}
	for _, multiple := range []string{"", "k", "c", "m", "M", "n"} {
		for _, k := range units.Kinds() {
			if _, bad := s.pad.Table().Parse(multiple+k.Unit, units.AloneInPlace); bad == nil && !strings.Contains(k.Unit, " ") {
				words = append(words, multiple+k.Unit)
			}
		}
	}
	return words
}
