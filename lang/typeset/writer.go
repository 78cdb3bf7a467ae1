package typeset

import (
	"strings"
	"unicode/utf8"
)

// writer collects the text of one formula. Everything that is set goes through
// it, so that a deep tree costs no copies.
type writer struct {
	b    strings.Builder
	form Form
	// word tells that LaTeX ends with a control word, which a letter after it
	// would become part of.
	word bool
	// raised counts the exponents round what is set.
	raised int
}

// tex writes LaTeX as it is.
func (w *writer) tex(s string) {
	if s == "" {
		return
	}
	if w.word && isLetter(s[0]) {
		w.b.WriteByte(' ')
	}
	w.b.WriteString(s)
	n := len(s)
	for n > 0 && isLetter(s[n-1]) {
		n--
	}
	w.word = n > 0 && n < len(s) && s[n-1] == '\\'
}

func isLetter(c byte) bool { return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' }
func isDigit(c byte) bool  { return c >= '0' && c <= '9' }

// ready writes a piece that is already set.
func (w *writer) ready(s string) {
	if w.form == LaTeX {
		w.tex(s)
		return
	}
	w.b.WriteString(s)
}

// both writes what stands for the same thing in either form.
func (w *writer) both(mathml, latex string) {
	if w.form == LaTeX {
		w.tex(latex)
		return
	}
	w.b.WriteString(mathml)
}

// open and close write a row. LaTeX needs none.
func (w *writer) open()  { w.both("<mrow>", "") }
func (w *writer) close() { w.both("</mrow>", "") }

// group and ungroup write what is one argument of a fraction, a root or a power.
func (w *writer) group()   { w.both("<mrow>", "{") }
func (w *writer) ungroup() { w.both("</mrow>", "}") }

// element writes <tag>text</tag>, escaped.
func (w *writer) element(tag, text string) {
	w.b.WriteByte('<')
	w.b.WriteString(tag)
	w.b.WriteByte('>')
	w.xml(text)
	w.b.WriteString("</")
	if i := strings.IndexByte(tag, ' '); i >= 0 {
		tag = tag[:i]
	}
	w.b.WriteString(tag)
	w.b.WriteByte('>')
}

// xml writes text so that no part of it is markup. What XML 1.0 has no place for
// (section 2.2) becomes U+FFFD.
func (w *writer) xml(text string) {
	for i, r := range text {
		switch {
		case r == '&':
			w.b.WriteString("&amp;")
		case r == '<':
			w.b.WriteString("&lt;")
		case r == '>':
			w.b.WriteString("&gt;")
		case r == '\t', r == '\n', r == '\r':
			w.b.WriteByte(' ')
		case r < ' ', r == 0xfffe, r == 0xffff:
			w.b.WriteRune(utf8.RuneError)
		case r < utf8.RuneSelf:
			w.b.WriteByte(text[i])
		default:
			w.b.WriteRune(r)
		}
	}
}

// minus is a sign before its operand.
func (w *writer) minus() { w.both(`<mo form="prefix">−</mo>`, "-") }

// dot is the sign of a product that needs one.
func (w *writer) dot() { w.both("<mo>⋅</mo>", ` \cdot `) }

// times is the place of a product that needs no sign.
func (w *writer) times() { w.both("<mo>\u2062</mo>", " ") }

// thin is the space between a number and its unit (SI Brochure, 5.4.3).
func (w *writer) thin() { w.both("<mtext>\u2009</mtext>", `\,`) }

// comma stands between arguments and between readings.
func (w *writer) comma() { w.both("<mo>,</mo>", ", ") }

func (w *writer) bracket(open bool) {
	if open {
		w.both("<mrow><mo>(</mo>", `\left(`)
		return
	}
	w.both("<mo>)</mo></mrow>", `\right)`)
}

// relation writes a sign between two sides, with room round it.
func (w *writer) relation(sign string) {
	sign = strings.TrimSpace(sign)
	if w.form == MathML {
		w.element("mo", sign)
		return
	}
	if s, ok := relations[sign]; ok {
		w.tex(" " + s + " ")
		return
	}
	w.tex(` \mathrel{`)
	w.texText(roman, sign)
	w.tex("} ")
}

var relations = map[string]string{
	"=": "=", "<": "<", ">": ">", "≤": `\le`, "≥": `\ge`, "≠": `\ne`, "≈": `\approx`, "≡": `\equiv`,
	"~": `\sim`, "∼": `\sim`, "∝": `\propto`, "⇒": `\Rightarrow`, "⇔": `\Leftrightarrow`, "→": `\to`,
	"≪": `\ll`, "≫": `\gg`, ":=": `:=`, "±": `\pm`, "≟": `\overset{?}{=}`,
}
