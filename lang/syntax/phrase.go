package syntax

import (
	"slices"
	"strings"
)

// phrase is words in a row that belong to the language behind an operand of a certain
// statement, and are names like any others elsewhere: head to tail.
type phrase struct {
	words [][]string // each in all its forms
	more  bool       // something follows it that is no word of the language
}

// phrases are made from their text. A word may have several forms, and … is what follows:
// "with/and angles", "starting at …". The first that is found counts.
func phrases(texts ...string) (out []phrase) {
	for _, text := range texts {
		var p phrase
		if text, p.more = strings.CutSuffix(text, " …"); text != "" {
			for _, word := range strings.Fields(text) {
				p.words = append(p.words, strings.Split(word, "/"))
			}
		}
		out = append(out, p)
	}
	return out
}

// begins tells whether tokens begin with a phrase.
func (p *phrase) begins(tokens []token) bool {
	n := len(p.words)
	if len(tokens) < n || !p.more && len(tokens) > n && tokens[n].begins() {
		return false
	}
	for i, forms := range p.words {
		if !slices.Contains(forms, tokens[i].text) {
			return false
		}
	}
	return true
}

// keep makes the words in the phrases of a statement words of the language. It goes from the
// end of the line, since behind one phrase another may follow.
func (w *StatementWord) keep(tokens []token) {
	for i := len(tokens) - 1; i > 0 && len(w.phrases) > 0; i-- {
		if before := &tokens[i-1]; !before.ends() && !before.sign("]") {
			continue
		}
		k := slices.IndexFunc(w.phrases, func(p phrase) bool { return p.begins(tokens[i:]) })
		if k < 0 {
			continue
		}
		for j := range w.phrases[k].words {
			if t := &tokens[i+j]; t.kind == nameToken {
				t.kind = wordToken
			}
		}
	}
}
