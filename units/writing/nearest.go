package writing

import (
	"cmp"
	"iter"
	"math/bits"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/agnivade/levenshtein"
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
	looked, letters := strings.ToLower(word), utf8.RuneCountInString(word)
	kinds := kindsOf(word)
	var near []string
	for w := range words {
		if gap := utf8.RuneCountInString(w) - letters; gap > reach || gap < -reach || kinds.apart(kindsOf(w)) > reach {
			continue // most words, without a closer look
		}
		d := levenshtein.ComputeDistance(looked, strings.ToLower(w))
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

// kinds is which letters and digits a word has, a bit each: 0 to 9, then a to z
// (capitals count as small letters), then all other signs, which share bits.
type kinds uint64

func kindsOf(word string) kinds {
	const others = 10 + 26
	var k kinds
	for _, r := range word {
		switch r = unicode.ToLower(r); {
		case '0' <= r && r <= '9':
			k |= 1 << (r - '0')
		case 'a' <= r && r <= 'z':
			k |= 1 << (10 + r - 'a')
		default:
			k |= 1 << (others + r%(64-others))
		}
	}
	return k
}

// apart is the least number of letters that must be put in, left out or changed
// to make one word of another: each such step rids a word of one kind of letter
// at most, and brings one at most.
func (k kinds) apart(o kinds) int {
	return max(bits.OnesCount64(uint64(k&^o)), bits.OnesCount64(uint64(o&^k)))
}

// Within tells whether at most so many letters must be put in, left out or
// changed to make one word of another, capitals told apart.
func Within(reach int, a, b string) bool {
	gap := utf8.RuneCountInString(a) - utf8.RuneCountInString(b)
	return gap <= reach && gap >= -reach && levenshtein.ComputeDistance(a, b) <= reach
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
