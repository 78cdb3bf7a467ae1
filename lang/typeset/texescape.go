package typeset

import (
	"fmt"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"

	"steelyard/units/writing"
)

// TeXText writes text so that no part of it is a command to LaTeX, in plain ASCII
// that compiles with the first fonts. What those don't have gets a readable
// stand-in: Cyrillic its usual Latin spelling, all else its number. A very long
// word may be parted.
//
// Everything that a page says goes through here: titles, notes, names of files. None of it can
// begin a command, and none can end the document.
func TeXText(text string) string { return texEscaper{parted: true}.text(text) }

// TeXCode is TeXText for typewriter text, where every blank counts.
func TeXCode(text string) string { return texEscaper{code: true, parted: true}.text(text) }

// TeXRow is TeXCode for a row that is drawn with characters, which is never parted.
func TeXRow(text string) string { return texEscaper{code: true}.text(text) }

// It goes letter by letter, with the accents of each, as LaTeX has accents before their letter
// and Unicode behind it. Whatever comes in, what goes out compiles: text of a page is anyone's.
type texEscaper struct {
	b            *strings.Builder
	code, parted bool
	last         rune
	run          int // characters since the last place where a line may end
}

func (e texEscaper) text(text string) string {
	e.b = new(strings.Builder)
	for s := norm.NFC.String(writing.Clean(text, writing.Page)); s != ""; {
		n := letterEnd(s)
		e.letter(s[:n])
		s = s[n:]
	}
	return e.b.String()
}

// longRun is how many characters a word may have before it may be parted.
const longRun = 22

// letter writes a character with the accents that follow it.
//
// A long word without a blank, a file's name, say, would run over the margin: it may be parted
// after so many letters, without a hyphen.
func (e *texEscaper) letter(s string) {
	r, n := utf8.DecodeRuneInString(s)
	if e.run++; unicode.IsSpace(r) {
		e.run = 0
	} else if e.parted && e.run > longRun {
		e.b.WriteString(`\allowbreak{}`)
		e.run = 1
	}
	closing := ""
	for _, accent := range s[n:] {
		if command := texAccents()[accent]; command != "" {
			e.b.WriteString(command + "{")
			closing += "}"
		}
	}
	e.one(r)
	e.b.WriteString(closing)
	e.last = r
}

// What has a Latin spelling is spelled, what has a command gets it, what can be taken apart is,
// and only what is left over shows its number.
func (e *texEscaper) one(r rune) {
	switch {
	case r < 0x80:
		e.ascii(r)
	case texMarks()[r] != "":
		e.b.WriteString(texMarks()[r])
	case writing.Unraised(r) != 0:
		e.b.WriteString(`\ensuremath{^{` + string(rune(writing.Unraised(r))) + `}}`)
	case writing.Unlowered(r) != 0:
		e.b.WriteString(`\ensuremath{_{` + string(rune(writing.Unlowered(r))) + `}}`)
	case texGreek()[r] != "":
		e.b.WriteString(`\ensuremath{` + texGreek()[r] + `}`)
	case cyrillic()[unicode.ToLower(r)] != "":
		s := cyrillic()[unicode.ToLower(r)]
		if unicode.IsUpper(r) {
			s = strings.ToUpper(s[:1]) + s[1:]
		}
		e.b.WriteString(s)
	case unicode.In(r, unicode.Mn, unicode.Cf):
		// An accent without a letter that has it, or a mark that can't be seen.
	case unicode.IsSpace(r):
		e.b.WriteString(`~`)
	default:
		e.taken(r)
	}
}

// taken writes a character by what it is made of: é as e with an accent, ½ as 1/2.
//
// NFKD (Unicode Standard Annex 15) takes a character apart as far as it goes; what is left over
// is told by its number, so that a reader knows that something is missing.
func (e *texEscaper) taken(r rune) {
	parts := []rune(norm.NFKD.String(string(r)))
	if len(parts) == 1 && parts[0] == r {
		e.b.WriteString(fmt.Sprintf("[U+%04X]", r))
		return
	}
	if len(parts) == 2 && parts[0] < 0x80 && texAccents()[parts[1]] != "" {
		base := string(parts[0])
		if base == "i" || base == "j" {
			base = `\` + base
		}
		e.b.WriteString(texAccents()[parts[1]] + "{" + base + "}")
		return
	}
	for _, p := range parts {
		e.one(p)
	}
}

func (e *texEscaper) ascii(r rune) {
	switch r {
	case '\\':
		e.b.WriteString(`\textbackslash{}`)
	case '{', '}', '$', '&', '#', '%', '_':
		e.b.WriteString(`\` + string(r))
	case '^':
		e.b.WriteString(`\textasciicircum{}`)
	case '~':
		e.b.WriteString(`\textasciitilde{}`)
	case '<':
		e.b.WriteString(`\textless{}`)
	case '>':
		e.b.WriteString(`\textgreater{}`)
	case '|':
		e.b.WriteString(`\textbar{}`)
	case '`':
		e.b.WriteString("\\char96{}")
	case '"':
		e.quote()
	case '-', '\'', '!', '?', ',':
		// No ligature is made of two, or of one with a quote.
		e.b.WriteString(string(r) + `{}`)
	case '\n', '\t', ' ':
		e.blank()
	default:
		e.b.WriteRune(r)
	}
}

func (e *texEscaper) blank() {
	if e.code {
		e.b.WriteString(`\ `)
		return
	}
	e.b.WriteByte(' ')
}

// LaTeX parts opening and closing marks, and a keyboard does not: what stands before the mark
// tells.
func (e *texEscaper) quote() {
	switch {
	case e.code:
		e.b.WriteString(`\char34{}`)
	case e.last == 0, unicode.IsSpace(e.last), unicode.Is(unicode.Ps, e.last):
		e.b.WriteString("``")
	default:
		e.b.WriteString(`''`)
	}
}

var texMarks = sync.OnceValue(func() map[rune]string {
	return map[rune]string{
		'\u00a0': "~", '\u202f': `\,`, '\u2009': `\,`, '\u200b': `\allowbreak{}`, '\u2011': "-{}", '\u2010': "-{}",
		'‘': "`{}", '’': "'{}", '“': "``", '”': "''", '„': ",,", '‚': ",{}", '«': `\ensuremath{\ll}`, '»': `\ensuremath{\gg}`,
		'–': "--", '—': "---", '…': `\dots{}`, '•': `\ensuremath{\bullet}`, '§': `\S{}`, '¶': `\P{}`, '©': `\copyright{}`, '£': `\pounds{}`, '€': "EUR",
		'¡': "!`", '¿': "?`", 'ß': `\ss{}`, 'æ': `\ae{}`, 'Æ': `\AE{}`, 'œ': `\oe{}`, 'Œ': `\OE{}`, 'ø': `\o{}`, 'Ø': `\O{}`, 'ł': `\l{}`, 'Ł': `\L{}`, 'ı': `\i{}`,
		'å': `\aa{}`, 'Å': `\AA{}`, 'ð': "d", 'Ð': "D", 'þ': "th", 'Þ': "Th", 'đ': "d", 'Đ': "D",
		'°': `\ensuremath{^{\circ}}`, '′': `\ensuremath{'}`, '″': `\ensuremath{''}`, '×': `\ensuremath{\times}`, '÷': `\ensuremath{\div}`,
		'·': `\ensuremath{\cdot}`, '⋅': `\ensuremath{\cdot}`, '−': `\ensuremath{-}`, '±': `\ensuremath{\pm}`, '√': `\ensuremath{\surd}`,
		'∞': `\ensuremath{\infty}`, '≤': `\ensuremath{\le}`, '≥': `\ensuremath{\ge}`, '≠': `\ensuremath{\ne}`, '≈': `\ensuremath{\approx}`,
		'≡': `\ensuremath{\equiv}`, '∝': `\ensuremath{\propto}`, '→': `\ensuremath{\to}`, '←': `\ensuremath{\leftarrow}`, '⇒': `\ensuremath{\Rightarrow}`,
		'⇔': `\ensuremath{\Leftrightarrow}`, '↔': `\ensuremath{\leftrightarrow}`, '∑': `\ensuremath{\sum}`, '∫': `\ensuremath{\int}`, '∂': `\ensuremath{\partial}`,
		'∠': `\ensuremath{\angle}`, '⊥': `\ensuremath{\perp}`, '∥': `\ensuremath{\parallel}`, '∈': `\ensuremath{\in}`, '⁄': "/", '⟂': `\ensuremath{\perp}`,
	}
})

// cyrillic is the usual spelling in Latin letters.
var cyrillic = sync.OnceValue(func() map[rune]string {
	return map[rune]string{
		'а': "a", 'б': "b", 'в': "v", 'г': "g", 'ґ': "g", 'д': "d", 'е': "e", 'ё': "yo", 'є': "ye", 'ж': "zh", 'з': "z", 'и': "i", 'і': "i", 'ї': "yi", 'й': "y",
		'к': "k", 'л': "l", 'м': "m", 'н': "n", 'о': "o", 'п': "p", 'р': "r", 'с': "s", 'т': "t", 'у': "u", 'ў': "w", 'ф': "f", 'х': "kh", 'ц': "ts", 'ч': "ch",
		'ш': "sh", 'щ': "shch", 'ъ': "''", 'ы': "y", 'ь': "'", 'э': "e", 'ю': "yu", 'я': "ya", 'ђ': "dj", 'ј': "j", 'љ': "lj", 'њ': "nj", 'ћ': "c", 'џ': "dzh",
	}
})

// texGreek are the Greek letters of math mode, and others that stand for quantities. Those that look like a Latin
// letter have no name there.
var texGreek = sync.OnceValue(func() map[rune]string {
	return map[rune]string{
		'α': `\alpha`, 'β': `\beta`, 'γ': `\gamma`, 'δ': `\delta`, 'ε': `\varepsilon`, 'ζ': `\zeta`, 'η': `\eta`, 'θ': `\theta`,
		'ι': `\iota`, 'κ': `\kappa`, 'λ': `\lambda`, 'μ': `\mu`, 'µ': `\mu`, 'ν': `\nu`, 'ξ': `\xi`, 'ο': `o`, 'π': `\pi`, 'ρ': `\rho`,
		'ς': `\varsigma`, 'σ': `\sigma`, 'τ': `\tau`, 'υ': `\upsilon`, 'φ': `\varphi`, 'χ': `\chi`, 'ψ': `\psi`, 'ω': `\omega`,
		'ℓ': `\ell`, 'ħ': `\hbar`, 'ℏ': `\hbar`, 'ϑ': `\vartheta`, 'ϕ': `\phi`, 'ϵ': `\epsilon`, 'ϖ': `\varpi`, 'ϱ': `\varrho`,
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
