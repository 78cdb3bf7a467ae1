package syntax

import (
	"slices"
	"strings"
	"unicode/utf8"
)

// Apart takes a word apart into names that have a value and symbols that have none: as few
// symbols as possible, of as few letters, and then as few parts: mgh into m, g, h; where mg is
// a name too, into mg and h; ηPt into η, P, t where P is a name, and Pt none. It returns the parts in canonical form, and those of them that have no value, as
// often as they come. A name is its own only part, and so is a symbol that is no product. No
// symbols are looked for where symbol is nil.
//
// All who ask whether letters that run together may be a product ask here; what speaks for
// one, their number, a letter that comes twice, a word of a language, they weigh themselves.
func Apart(word string, known, symbol func(part string) bool) (parts, lacking []string, ok bool) {
	whole := Canonical(word)
	if known(whole) {
		return []string{whole}, nil, true
	}
	parts, ok = cheapest(word, func(part string) int {
		switch {
		case known(part):
			return 1
		case part == "Δ": // it belongs to the letter behind it
			return 0
		case symbol != nil && symbol(strings.TrimPrefix(part, "Δ")):
			return (longestApart + utf8.RuneCountInString(part)) * (longestApart + 1)
		}
		return 0
	})
	if !ok && symbol != nil && symbol(whole) {
		parts, ok = []string{whole}, true
	}
	for _, part := range parts {
		if !known(part) {
			lacking = append(lacking, part)
		}
	}
	return parts, lacking, ok
}

// namesIn takes a word apart into names alone: mgh into m, g, h. A word that has one part
// that is none, mgx, is not taken apart, nor is a name by itself.
func namesIn(word string, known func(string) bool) ([]string, bool) {
	parts, _, ok := Apart(word, known, nil)
	return parts, ok && len(parts) > 1
}

// letterNames reads a word as known names, as short ones as possible.
//
// A name costs the square of its length, so that m, g and h are cheaper than mg
// and h.
func (o *opener) letterNames(word string) (pieces, bool) {
	parts, ok := cheapest(word, func(part string) int {
		if n := len(part); o.in.Known(part) {
			return n * n
		}
		return 0
	})
	return piecesOfNames(parts), ok
}

// longestApart is the most letters of a word that is taken apart.
const longestApart = 24

// cheapest takes a word apart into parts of which the costs add up to the least; a part
// of cost 0 is none.
//
// It finds the least sum over all ways to cut the word, letter by letter from the left, by the
// best way for each beginning (dynamic programming): 24 letters have 2²³ cuts, and need 300
// steps. A word is not its own only part, since that is no way to take it apart.
//
// Parts are asked for and returned in canonical form. A word of more than
// longestApart letters is not taken apart.
func cheapest(word string, cost func(part string) int) ([]string, bool) {
	var at [longestApart + 1]int // where each letter begins, and the word ends
	n := 0
	for i := range word {
		if n == longestApart {
			return nil, false
		}
		at[n] = i
		n++
	}
	at[n] = len(word)
	var sum, from [longestApart + 1]int // of the letters before, and of the last part
	for i := 1; i <= n; i++ {
		for j := range i {
			if j > 0 && sum[j] == 0 || j == 0 && i == n {
				continue
			}
			if c := cost(Canonical(word[at[j]:at[i]])); c > 0 && (sum[i] == 0 || sum[j]+c < sum[i]) {
				sum[i], from[i] = sum[j]+c, j
			}
		}
	}
	if sum[n] == 0 {
		return nil, false
	}
	var parts []string
	for i := n; i > 0; i = from[i] {
		parts = append(parts, Canonical(word[at[from[i]]:at[i]]))
	}
	slices.Reverse(parts)
	return parts, true
}

// addNew adds those words to a list that it does not have yet.
//
// The lists are of a few words, and their order is that of the line: no set would keep it.
func addNew(to []string, words ...string) []string {
	for _, word := range words {
		if !slices.Contains(to, word) {
			to = append(to, word)
		}
	}
	return to
}

// HasTwice tells whether a list holds a word twice, as that of the letters of mm does.
func HasTwice(words []string) bool {
	for i, word := range words {
		if slices.Contains(words[:i], word) {
			return true
		}
	}
	return false
}

// IsSpoken tells whether a text has three small letters in a row with a vowel among
// them, as words of a language do and products of symbols do not.
//
// Such a word is hardly a product: force, time and sum would come apart on a page with f, o, r, c
// and e. A product of three letters may look like one, W = mad, so that who weighs products lets
// words of three pass.
func IsSpoken(text string) bool {
	letters, vowel := 0, false
	for _, r := range text {
		if r < 'a' || r > 'z' {
			letters, vowel = 0, false
			continue
		}
		letters++
		if vowel = vowel || strings.ContainsRune("aeiou", r); vowel && letters >= 3 {
			return true
		}
	}
	return false
}

// isSymbol tells whether a name is a letter, alone or with a Δ before it or digits behind.
func isSymbol(name string) bool {
	if of := strings.TrimPrefix(name, "Δ"); of != "" {
		name = of
	}
	_, n := utf8.DecodeRuneInString(name)
	return startsName(firstRune(name)) && strings.Trim(name[n:], "0123456789") == ""
}

// isLetter tells whether a part of a word is one letter.
func isLetter(part string) bool { return utf8.RuneCountInString(part) == 1 && part[0] > '9' }

// afterPi is what follows pi in a word: the f of pif; "" where the word is another.
func afterPi(word string) string {
	if rest, ok := strings.CutPrefix(word, "pi"); ok {
		return rest
	}
	return ""
}
