package syntax

import (
	"strings"
	"unicode/utf8"

	"steelyard/lang/ops"
)

// Slanted are the parts of a statement that print sets in italics, in their order: names
// of quantities, and of functions that are a letter. Units, words of the language and the
// names of other functions are upright. A text that can't be read to its end has those
// before that.
//
// Of F = m*a in N they are F, m and a; of sin(θ) = v(t) they are θ, v and t; of
// speed(t) = 3 m/s*t only the t (ISO 80000-1 has symbols sloping and words
// upright).
func Slanted(text string) (out []Span) {
	r, lines, _ := stretches(text, nil)
	if r.word != nil && !r.word.Stored {
		return nil
	}
	for _, tokens := range lines {
		for i := range tokens {
			if t := &tokens[i]; t.kind == nameToken && t.slants() {
				out = append(out, t.span())
			}
		}
	}
	return out
}

// slants tells whether a name is set in italics.
//
// The letter of v_max is v; a function of one letter, v(t), slants as a quantity
// does.
func (t *token) slants() bool {
	letter, _, _ := strings.Cut(t.text, "_")
	return !ops.IsFunction(t.text) && (!t.call || utf8.RuneCountInString(letter) == 1)
}
