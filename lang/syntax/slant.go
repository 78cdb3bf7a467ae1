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
func Slanted(text string) []Span {
	var out []Span
	for at := 0; at < len(text); {
		words, end, next := headLines(text[at:])
		out = slanted(out, text, at, at+min(words, end), at == 0)
		at += max(next, 1)
	}
	return out
}

// slanted adds the italic parts of a range of text, which may be the first of a statement.
func slanted(out []Span, text string, from, to int, first bool) []Span {
	from, to = trimBlanks(text, from, to)
	if from >= to || text[from] == '#' || guard(text[from:to]) != nil {
		return out
	}
	head := ""
	var w *StatementWord
	if first {
		if w = leadingStatement(text[from:to]); w != nil {
			if w.prose || !w.Stored {
				return out
			}
			head = w.Word
		}
	}
	tokens, _ := scan(text, from, to, head)
	if w != nil {
		w.keep(tokens)
	}
	for i := range tokens {
		if t := &tokens[i]; t.kind == nameToken && t.slants() {
			out = append(out, t.span())
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
