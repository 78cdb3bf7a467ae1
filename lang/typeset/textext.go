package typeset

import "unicode/utf8"

// face is how letters of text look.
type face uint8

const (
	roman face = iota
	italic
)

// symbol writes the letter of a name for LaTeX, or a long name.
//
// A long name is one word in italics: as letters of mathematics it would be set wide, like a
// product.
func (w *latexWriter) symbol(s string) {
	if len(s) == 1 && isLetter(s[0]) {
		w.tex(s)
		return
	}
	if r, n := utf8.DecodeRuneInString(s); n == len(s) {
		if g, ok := texGreek()[r]; ok {
			w.tex(g)
			return
		}
	}
	w.text(italic, proper(s))
}

// text writes a word or any other text for LaTeX, as something that math mode
// takes for one letter.
//
// \mathrm has letters and digits alone; whatever has a blank or an accent is text.
func (w *latexWriter) text(f face, s string) {
	plain := plainWord(s)
	switch {
	case s == "":
		w.tex("{}")
		return
	case plain && f == roman:
		w.tex(`\mathrm{` + s + `}`)
		return
	case plain:
		w.tex(`\mathit{` + s + `}`)
		return
	case f == roman:
		w.tex(`\textrm{`)
	default:
		w.tex(`\textit{`)
	}
	w.tex(texEscaper{}.text(s))
	w.tex("}")
}

func plainWord(s string) bool {
	for i := range len(s) {
		if !isLetter(s[i]) && !isDigit(s[i]) {
			return false
		}
	}
	return s != ""
}
