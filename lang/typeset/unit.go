package typeset

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"steelyard/lang/syntax"
	"steelyard/units"
)

// Unit sets the text of a unit as it is written: "N m", "m/s^2", "kg m²/s³".
// Its symbols are upright (SI Brochure, 5.2).
func Unit(f Form, text string) string {
	w := writer{form: f}
	w.open()
	w.unit(text)
	w.close()
	return w.b.String()
}

func mustNumber(text string) *syntax.Number {
	d, _ := units.ParseDecimal(text)
	return &syntax.Number{Value: d}
}

func (w *writer) quantity(q *syntax.Quantity) {
	w.number(q.Value.Text)
	w.unitAfter(q.Unit.Text)
}

func (w *writer) mixed(x *syntax.Mixed) {
	if x.Neg {
		w.minus()
	}
	for i, q := range x.Parts {
		if i > 0 {
			w.gap()
		}
		w.quantity(q)
	}
}

// gap stands between the parts of 13 h 4 min 58 s.
func (w *writer) gap() { w.both(`<mspace width="0.2778em"/>`, `\;`) }

// unitAfter sets a unit behind a number, with the space between them.
func (w *writer) unitAfter(text string) {
	switch text {
	case "":
		return
	case "°", "′", "″":
	default:
		w.thin()
	}
	w.unit(text)
}

// unit sets the pieces of a unit: words, marks, signs and what is raised.
func (w *writer) unit(text string) {
	for len(text) > 0 {
		n, sign := unitPiece(text)
		piece := text[:n]
		text = text[n:]
		sup := superscript(text)
		if sign || sup == 0 {
			w.unitWord(piece)
			continue
		}
		loose := strings.ContainsAny(piece, "°′″)")
		w.both("<msup>", "")
		if loose {
			w.both("", "{")
		}
		w.unitWord(piece)
		if loose {
			w.both("", "}")
		}
		w.both("", "^{")
		w.unitExponent(text[:sup])
		w.both("</msup>", "}")
		text = text[sup:]
	}
}

// unitPiece returns how long the first piece of a unit is, and whether it is a
// sign, which takes no exponent.
func unitPiece(text string) (n int, sign bool) {
	r, n := utf8.DecodeRuneInString(text)
	switch {
	case unicode.IsSpace(r):
		return len(text) - len(strings.TrimLeftFunc(text, unicode.IsSpace)), true
	case strings.ContainsRune("/·⋅*×(", r):
		return n, true
	case r == '°' && (strings.HasPrefix(text[n:], "C") || strings.HasPrefix(text[n:], "F")):
		return n + 1, false
	case !inWord(r):
		return n, false
	}
	for n < len(text) {
		r, size := utf8.DecodeRuneInString(text[n:])
		if !inWord(r) && !(r == '-' && hyphen(text[n+size:])) {
			break
		}
		n += size
	}
	return n, false
}

func inWord(r rune) bool {
	return superDigit(r) == 0 && (unicode.IsLetter(r) || unicode.Is(unicode.Mn, r) || unicode.IsDigit(r) || r == '_')
}

func hyphen(rest string) bool {
	r, _ := utf8.DecodeRuneInString(rest)
	return unicode.IsLetter(r)
}

// superDigit returns the plain form of a raised character, or 0.
func superDigit(r rune) byte {
	switch r {
	case '¹':
		return '1'
	case '²':
		return '2'
	case '³':
		return '3'
	case '⁰', '⁴', '⁵', '⁶', '⁷', '⁸', '⁹':
		return byte('0' + r - '⁰')
	case '⁻':
		return '-'
	case '⁺':
		return '+'
	}
	return 0
}

// superscript returns how long the exponent at the start of a text is: ^2, ^-2,
// ^(1/2), ², ⁻¹.
func superscript(text string) int {
	if rest, ok := strings.CutPrefix(text, "^"); ok {
		return caretEnd(rest)
	}
	n := 0
	for n < len(text) {
		r, size := utf8.DecodeRuneInString(text[n:])
		if superDigit(r) == 0 {
			break
		}
		n += size
	}
	return n
}

// caretEnd returns how long an exponent is with the ^ before it.
func caretEnd(rest string) int {
	if strings.HasPrefix(rest, "(") {
		if end := strings.IndexByte(rest, ')'); end > 1 {
			return 1 + end + 1
		}
		return 0
	}
	n := 0
	for _, sign := range [...]string{"-", "−", "+"} {
		if strings.HasPrefix(rest, sign) {
			n = len(sign)
			break
		}
	}
	from := n
	for n < len(rest) && isDigit(rest[n]) {
		n++
	}
	if n == from {
		return 0
	}
	return n + 1
}

// unitExponent sets an exponent of a unit, as one element.
func (w *writer) unitExponent(text string) {
	plain := strings.Map(func(r rune) rune {
		if c := superDigit(r); c != 0 {
			return rune(c)
		}
		switch r {
		case '^', '(', ')', ' ':
			return -1
		case '−':
			return '-'
		}
		return r
	}, text)
	if allDigits(plain) {
		w.digits(plain)
		return
	}
	w.open()
	if rest, ok := strings.CutPrefix(plain, "-"); ok {
		w.minus()
		plain = rest
	}
	a, b, quotient := strings.Cut(strings.TrimPrefix(plain, "+"), "/")
	w.digits(a)
	if quotient {
		w.solidus()
		w.digits(b)
	}
	w.close()
}

func (w *writer) solidus() { w.both(`<mo lspace="0" rspace="0">/</mo>`, "/") }

// unitWord sets one piece of a unit without its exponent.
func (w *writer) unitWord(s string) {
	switch s {
	case "°":
		w.both(`<mi mathvariant="normal">°</mi>`, `{}^{\circ}`)
	case "°C", "°F":
		w.both("<mi>"+s+"</mi>", `{}^{\circ}\mathrm{`+s[len("°"):]+"}")
	case "′", "'":
		w.both(`<mi mathvariant="normal">′</mi>`, `{}^{\prime}`)
	case "″", `"`:
		w.both(`<mi mathvariant="normal">″</mi>`, `{}^{\prime\prime}`)
	case "%":
		w.both(`<mi mathvariant="normal">%</mi>`, `\%`)
	case "Δ":
		w.both(`<mi mathvariant="normal">Δ</mi>`, `\Delta`)
	case "/":
		w.solidus()
	case "(":
		w.both(`<mo stretchy="false">(</mo>`, "(")
	case ")":
		w.both(`<mo stretchy="false">)</mo>`, ")")
	case "·", "⋅", "*", "×":
		w.both(`<mo lspace="0" rspace="0">⋅</mo>`, `{\cdot}`)
	default:
		if strings.TrimSpace(s) == "" {
			w.thin()
			return
		}
		w.unitSymbol(s)
	}
}

// unitSymbol sets a word. LaTeX has Greek letters outside of text only.
func (w *writer) unitSymbol(s string) {
	if w.form == LaTeX {
		if i := strings.IndexFunc(s, func(r rune) bool { return texGreek()[r] != "" }); i >= 0 {
			r, n := utf8.DecodeRuneInString(s[i:])
			if i > 0 {
				w.upright(s[:i])
			}
			w.tex(texGreek()[r])
			if s = s[i+n:]; s != "" {
				w.unitSymbol(s)
			}
			return
		}
	}
	w.upright(s)
}
