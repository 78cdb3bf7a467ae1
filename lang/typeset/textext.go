package typeset

import (
	"fmt"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"
)

// face is how letters of text look.
type face uint8

const (
	roman face = iota
	italic
)

// symbol writes the letter of a name for LaTeX, or a long name.
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
	for len(s) > 0 {
		n := letterEnd(s)
		w.letter(s[:n])
		s = s[n:]
	}
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

// letter writes one character of text with its accents.
func (w *latexWriter) letter(s string) {
	r, n := utf8.DecodeRuneInString(s)
	accents := []rune(s[n:])
	for _, m := range accents {
		if texAccents()[m] == "" {
			w.rune(r)
			for _, m := range accents {
				w.rune(m)
			}
			return
		}
	}
	for i := len(accents) - 1; i >= 0; i-- {
		w.tex(texAccents()[accents[i]] + "{")
	}
	w.rune(r)
	w.tex(strings.Repeat("}", len(accents)))
}

// rune writes one character of text.
func (w *latexWriter) rune(r rune) {
	switch {
	case r < utf8.RuneSelf && (isLetter(byte(r)) || isDigit(byte(r))), strings.ContainsRune(" .,:;!?()[]/+*=@", r):
		w.tex(string(r))
	case r == '\t', r == '\n', r == '\r':
		w.tex(" ")
	default:
		if s, ok := texMarks()[r]; ok {
			w.tex(s)
		} else if s, ok := texGreek()[r]; ok {
			w.tex(`\ensuremath{` + s + `}`)
		} else if s, ok := texLatin()[r]; ok {
			w.tex(s)
		} else if unicode.IsSpace(r) {
			w.tex(" ")
		} else {
			w.tex(fmt.Sprintf("u+%04x", r))
		}
	}
}

// texMarks are the characters that LaTeX needs a name for in text.
var texMarks = sync.OnceValue(func() map[rune]string {
	return map[rune]string{
		'\\': `\textbackslash{}`, '{': `\{`, '}': `\}`, '$': `\$`, '&': `\&`, '#': `\#`, '%': `\%`, '_': `\_`,
		'^': `\textasciicircum{}`, '~': `\textasciitilde{}`, '<': `\textless{}`, '>': `\textgreater{}`, '|': `\textbar{}`,
		'"': `''`, '\'': `'`, '-': `-{}`, '`': "`{}",
		'′': `\ensuremath{'}`, '″': `\ensuremath{''}`, '°': `\ensuremath{^{\circ}}`, '×': `\ensuremath{\times}`,
		'·': `\ensuremath{\cdot}`, '⋅': `\ensuremath{\cdot}`, '−': `\ensuremath{-}`, '±': `\ensuremath{\pm}`,
		'√': `\ensuremath{\surd}`, '∞': `\ensuremath{\infty}`, '≤': `\ensuremath{\le}`, '≥': `\ensuremath{\ge}`,
		'≠': `\ensuremath{\ne}`, '≈': `\ensuremath{\approx}`, '⇒': `\ensuremath{\Rightarrow}`, '→': `\ensuremath{\to}`,
		'∝': `\ensuremath{\propto}`, '–': "--", '—': "---", '’': `'`, '‘': "`{}", '“': "``", '”': `''`, '…': `\dots{}`,
	}
})

// texGreek are the Greek letters of math mode. Those that look like a Latin
// letter have no name there.
var texGreek = sync.OnceValue(func() map[rune]string {
	return map[rune]string{
		'α': `\alpha`, 'β': `\beta`, 'γ': `\gamma`, 'δ': `\delta`, 'ε': `\varepsilon`, 'ζ': `\zeta`, 'η': `\eta`, 'θ': `\theta`,
		'ι': `\iota`, 'κ': `\kappa`, 'λ': `\lambda`, 'μ': `\mu`, 'µ': `\mu`, 'ν': `\nu`, 'ξ': `\xi`, 'ο': `o`, 'π': `\pi`, 'ρ': `\rho`,
		'ς': `\varsigma`, 'σ': `\sigma`, 'τ': `\tau`, 'υ': `\upsilon`, 'φ': `\varphi`, 'χ': `\chi`, 'ψ': `\psi`, 'ω': `\omega`,
		'ϑ': `\vartheta`, 'ϕ': `\phi`, 'ϵ': `\epsilon`, 'ϖ': `\varpi`, 'ϱ': `\varrho`,
		'Γ': `\Gamma`, 'Δ': `\Delta`, '∆': `\Delta`, 'Θ': `\Theta`, 'Λ': `\Lambda`, 'Ξ': `\Xi`, 'Π': `\Pi`, 'Σ': `\Sigma`,
		'Υ': `\Upsilon`, 'Φ': `\Phi`, 'Ψ': `\Psi`, 'Ω': `\Omega`, '\u2126': `\Omega`,
		'Α': `\mathrm{A}`, 'Β': `\mathrm{B}`, 'Ε': `\mathrm{E}`, 'Ζ': `\mathrm{Z}`, 'Η': `\mathrm{H}`, 'Ι': `\mathrm{I}`,
		'Κ': `\mathrm{K}`, 'Μ': `\mathrm{M}`, 'Ν': `\mathrm{N}`, 'Ο': `\mathrm{O}`, 'Ρ': `\mathrm{P}`, 'Τ': `\mathrm{T}`, 'Χ': `\mathrm{X}`,
	}
})

// texAccents are the accents that follow their letter.
var texAccents = sync.OnceValue(func() map[rune]string {
	return map[rune]string{
		'\u0300': "\\`", '\u0301': `\'`, '\u0302': `\^`, '\u0303': `\~`, '\u0304': `\=`, '\u0306': `\u`, '\u0307': `\.`,
		'\u0308': `\"`, '\u030a': `\r`, '\u030b': `\H`, '\u030c': `\v`, '\u0323': `\d`, '\u0327': `\c`, '\u0331': `\b`,
	}
})

// texLatin are the Latin letters beyond ASCII that LaTeX's first fonts have.
var texLatin = sync.OnceValue(latin)

func latin() map[rune]string {
	m := map[rune]string{
		'ß': `\ss{}`, 'æ': `\ae{}`, 'Æ': `\AE{}`, 'œ': `\oe{}`, 'Œ': `\OE{}`, 'ø': `\o{}`, 'Ø': `\O{}`, 'ł': `\l{}`, 'Ł': `\L{}`,
		'å': `\aa{}`, 'Å': `\AA{}`, '\u212b': `\AA{}`, 'ı': `\i{}`,
	}
	for _, row := range [...]struct{ accent, letters, bases string }{
		{"\\`", "ÀÈÌÒÙàèìòùǸǹ", "AEIOUaeiouNn"},
		{`\'`, "ÁÉÍÓÚÝáéíóúýĆćĹĺŃńŔŕŚśŹź", "AEIOUYaeiouyCcLlNnRrSsZz"},
		{`\^`, "ÂÊÎÔÛâêîôûĈĉĜĝĤĥĴĵŜŝŴŵŶŷ", "AEIOUaeiouCcGgHhJjSsWwYy"},
		{`\"`, "ÄËÏÖÜäëïöüÿŸ", "AEIOUaeiouyY"},
		{`\~`, "ÃÑÕãñõĨĩŨũ", "ANOanoIiUu"},
		{`\c`, "ÇçŞşŢţ", "CcSsTt"},
		{`\v`, "ČčĎďĚěŇňŘřŠšŤťŽžǍǎ", "CcDdEeNnRrSsTtZzAa"},
		{`\=`, "ĀāĒēĪīŌōŪū", "AaEeIiOoUu"},
		{`\u`, "ĂăĔĕĞğĬĭŎŏŬŭ", "AaEeGgIiOoUu"},
		{`\.`, "ĊċĖėĠġİŻż", "CcEeGgIZz"},
		{`\H`, "ŐőŰű", "OoUu"},
		{`\r`, "Ůů", "Uu"},
	} {
		i := 0
		for _, r := range row.letters {
			m[r] = row.accent + "{" + row.bases[i:i+1] + "}"
			i++
		}
	}
	return m
}

// TeXGreek is the name of a Greek letter in math mode, or empty.
func TeXGreek(r rune) string { return texGreek()[r] }

// TeXAccent is the command of an accent that follows its letter, or empty.
func TeXAccent(r rune) string { return texAccents()[r] }
