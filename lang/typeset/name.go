package typeset

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"steelyard/lang/syntax"
)

// Name sets a name in its canonical form. A single letter is in italics, with
// what follows it as a subscript; an index letter there is in italics too, a word
// or a number upright. A long name stays one word, in italics.
func Name(f Form, name string) string {
	w := writer{form: f}
	w.name(name, nil)
	return w.b.String()
}

// symbol is a name taken apart.
type symbol struct {
	change bool   // a Δ stands before the rest
	base   string // the letter, or the whole of a long name
	sub    string
	primes int
}

// letterEnd returns where the first letter of a text ends, with its accents.
func letterEnd(s string) int {
	_, n := utf8.DecodeRuneInString(s)
	for n < len(s) {
		r, size := utf8.DecodeRuneInString(s[n:])
		if !unicode.Is(unicode.Mn, r) {
			break
		}
		n += size
	}
	return n
}

// parts takes a name apart.
func parts(name string) symbol {
	var s symbol
	for strings.HasSuffix(name, "'") {
		name = name[:len(name)-1]
		s.primes++
	}
	if rest, ok := strings.CutPrefix(name, "Δ"); ok && rest != "" && rest[0] != '_' && !isDigit(rest[0]) && rest[0] != '\'' {
		s.change, name = true, rest
	}
	cut := strings.IndexAny(name, "_0123456789'")
	if cut <= 0 {
		s.base = name
		return s
	}
	below := strings.TrimLeft(name[cut:], "'")
	strokes := len(name) - cut - len(below)
	s.base, s.sub = name[:cut], strings.TrimLeft(below, "_")
	s.primes += strokes
	name = s.base + below
	if s.sub == "" {
		s.base = name
	}
	// KE_max is a symbol of two letters; spring_force and speed2 are words.
	if letterEnd(s.base[letterEnd(s.base):])+letterEnd(s.base) < len(s.base) {
		s.base, s.sub = name, ""
	}
	return s
}

// isChange tells whether a name is a Δ with the name of what changes.
func isChange(name string) bool { return strings.HasPrefix(name, "Δ") && parts(name).change }

// long tells whether a name has more than one letter, its subscript apart.
func long(name string) bool {
	s := parts(name)
	return letterEnd(s.base) < len(s.base)
}

// name sets a name, with an exponent unless that is nil.
func (w *writer) name(name string, exponent syntax.Expr) {
	s := parts(name)
	if s.change {
		w.both(`<mrow><mi mathvariant="normal">Δ</mi>`, `\Delta`)
	}
	sub, sup := s.sub != "", s.primes > 0 || exponent != nil
	switch {
	case sub && sup:
		w.both("<msubsup>", "")
	case sub:
		w.both("<msub>", "")
	case sup:
		w.both("<msup>", "")
	}
	w.letters(s.base)
	if sub {
		w.both("", "_{")
		w.subscript(s.sub)
		w.both("", "}")
	}
	if sup {
		w.raise(s.primes, exponent)
	}
	switch {
	case sub && sup:
		w.both("</msubsup>", "")
	case sub:
		w.both("</msub>", "")
	case sup:
		w.both("</msup>", "")
	}
	if s.change {
		w.both("</mrow>", "")
	}
}

// raise sets the primes and the exponent of a name.
func (w *writer) raise(primes int, exponent syntax.Expr) {
	w.both("", "^{")
	several := primes > 0 && exponent != nil
	if several {
		w.open()
	}
	if primes > 0 {
		w.primes(primes)
	}
	if exponent != nil {
		w.exponent(exponent)
	}
	if several {
		w.close()
	}
	w.both("", "}")
}

// primes writes as many strokes. There are characters of one, two and three.
func (w *writer) primes(n int) {
	if w.form == LaTeX {
		for range n {
			w.tex(`\prime`)
		}
		return
	}
	w.element("mo", prime(n))
}

func prime(n int) string {
	if n == 2 {
		return "″"
	}
	return strings.Repeat("′", n)
}

// letters sets the letter of a name, or a long name.
func (w *writer) letters(base string) {
	if w.form == LaTeX {
		w.texSymbol(base)
		return
	}
	if letterEnd(base) < len(base) {
		w.element(`mi style="font-style:italic"`, proper(base))
		return
	}
	w.element("mi", base)
}

// subscript sets what stands below: letters, numbers and words, as one element.
func (w *writer) subscript(sub string) {
	pieces := strings.Split(sub, "_")
	row := len(pieces) > 1 || mixedIndex(sub)
	if row {
		w.open()
	}
	for i, s := range pieces {
		if i > 0 {
			w.both("<mo>,</mo>", ",")
		}
		if mixedIndex(s) {
			n := letterEnd(s)
			w.index(s[:n])
			s = s[n:]
		}
		w.index(s)
	}
	if row {
		w.close()
	}
}

// mixedIndex tells whether a subscript is one letter with a number: x0.
func mixedIndex(s string) bool {
	n := letterEnd(s)
	return n > 0 && n < len(s) && !allDigits(s[:n]) && allDigits(s[n:])
}

func allDigits(s string) bool {
	for i := range len(s) {
		if !isDigit(s[i]) {
			return false
		}
	}
	return s != ""
}

// index sets one piece of a subscript.
func (w *writer) index(s string) {
	switch {
	case allDigits(s):
		w.digits(s)
	case letterEnd(s) == len(s) && s != "":
		w.letters(s)
	default:
		w.upright(s)
	}
}

// upright sets a word upright.
func (w *writer) upright(s string) {
	if w.form == LaTeX {
		w.texText(roman, proper(s))
		return
	}
	if letterEnd(s) == len(s) {
		w.element(`mi mathvariant="normal"`, s)
		return
	}
	w.element("mi", proper(s))
}

// proper writes the strokes in a name as primes.
func proper(s string) string { return strings.ReplaceAll(s, "'", "′") }
