package writing

import (
	"unicode"
	"unicode/utf8"
)

// longestPattern is the most letters of a pattern: it has a bit for each.
const longestPattern = 64

// pattern is a word that others are held against: for each letter the places where
// the word has it, a bit each.
type pattern struct {
	letters int
	fold    bool            // capitals of other words count as small letters
	common  [10 + 26]uint64 // of 0 to 9 and a to z
	others  []placed
}

// placed is another letter with its places.
type placed struct {
	letter rune
	places uint64
}

// patternOf makes the pattern of a word of 64 letters at most.
func patternOf(word string) pattern {
	var p pattern
	for _, r := range word {
		here := uint64(1) << p.letters
		p.letters++
		if i := commonPlace(r); i >= 0 {
			p.common[i] |= here
		} else {
			p.others = append(p.others, placed{r, here | p.places(r)})
		}
	}
	return p
}

// places are those of a letter; of one that is not common the last list is whole.
func (p *pattern) places(r rune) uint64 {
	if i := commonPlace(r); i >= 0 {
		return p.common[i]
	}
	for i := len(p.others) - 1; i >= 0; i-- {
		if p.others[i].letter == r {
			return p.others[i].places
		}
	}
	return 0
}

func commonPlace(r rune) int {
	switch {
	case '0' <= r && r <= '9':
		return int(r - '0')
	case 'a' <= r && r <= 'z':
		return int(10 + r - 'a')
	}
	return -1
}

// distance is how many letters must be put in, left out or changed to make the
// pattern of a word. It takes a few operations for each letter of the word: a column
// of the table of distances between beginnings differs by one at most from row to
// row, and the differences are bits (G. Myers, J. ACM 46 (1999) 395; the steps as
// H. Hyyrö has them, Univ. of Tampere report A-2003-4; both from memory). Where it
// can't be as little as most any more, what is returned is more than that. The word
// has so many letters, each of which brings it down by one at most.
func (p *pattern) distance(word string, letters, most int) int {
	if p.letters == 0 {
		return letters
	}
	d := p.letters
	last := uint64(1) << (p.letters - 1)
	more, less := ^uint64(0), uint64(0) // where a row has one more than the row above, or one less
	for _, r := range word {
		if d-letters > most {
			break
		}
		letters--
		if p.fold && (r >= 'A' && r <= 'Z' || r >= utf8.RuneSelf) {
			r = unicode.ToLower(r)
		}
		same := p.places(r)
		down := same | less
		across := (same&more + more) ^ more | same
		up := less | ^(across | more) // where the next column has one more, or one less
		off := more & across
		if up&last != 0 {
			d++
		}
		if off&last != 0 {
			d--
		}
		up, off = up<<1|1, off<<1
		more, less = off|^(down|up), up&down
	}
	return d
}
