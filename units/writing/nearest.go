package writing

import (
	"cmp"
	"iter"
	"slices"
	"strings"
	"unicode/utf8"
)

const (
	// longestWord is the most letters of a word that is looked for: a longer one
	// is no slip of the finger.
	longestWord = 40
	// mostNear is the most words that are offered for one.
	mostNear = 3
)

// Reach is how many letters of a word may be put in, left out or changed for
// another to count as spelled nearly like it: one, and one more for every four
// letters. A single letter is near to no other, as g is not G.
func Reach(word string) int {
	switch n := utf8.RuneCountInString(word); {
	case n < 2, n > longestWord:
		return 0
	default:
		return min(1+n/4, n-1)
	}
}

// Nearest returns the words that are spelled most nearly like one, three at most
// and none that is out of reach; capitals count as small letters. Those that
// begin and end like the word come first.
func Nearest(word string, words iter.Seq[string]) []string {
	reach := Reach(word)
	if reach == 0 {
		return nil
	}
	p := patternOf(strings.ToLower(word))
	p.fold = true
	var near []string
	for w := range words {
		letters := utf8.RuneCountInString(w)
		if gap := letters - p.letters; gap > reach || gap < -reach {
			continue
		}
		d := p.distance(w, letters, reach)
		if d < reach {
			reach, near = d, nil
		}
		if d == reach && !slices.Contains(near, w) {
			near = append(near, w)
		}
	}
	slices.SortFunc(near, func(a, b string) int {
		return cmp.Or(cmp.Compare(likeness(word, b), likeness(word, a)), strings.Compare(a, b))
	})
	return near[:min(len(near), mostNear)]
}

// Within tells whether at most so many letters must be put in, left out or
// changed to make one word of another, capitals told apart.
func Within(reach int, a, b string) bool {
	letters := utf8.RuneCountInString(b)
	gap := utf8.RuneCountInString(a) - letters
	if gap > reach || gap < -reach || len(a) > longestPattern {
		return a == b
	}
	p := patternOf(a)
	return p.distance(b, letters, reach) <= reach
}

// likeness counts the bytes with which both words begin, twice, and their last
// one: a slip is rarely made in the first letter of a word.
func likeness(a, b string) int {
	n := 0
	for n < len(a) && n < len(b) && a[n] == b[n] {
		n++
	}
	n *= 2
	if a != "" && b != "" && a[len(a)-1] == b[len(b)-1] {
		n++
	}
	return n
}
