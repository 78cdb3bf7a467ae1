package typeset

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"steelyard/lang/syntax"
	"steelyard/units/writing"
)

func quantity(to []Box, q *syntax.Quantity) []Box {
	return unitAfter(number(to, q.Value.Text), q.Unit.Text)
}

func mixed(to []Box, x *syntax.Mixed) []Box {
	if x.Neg {
		to = append(to, minus)
	}
	for i, q := range x.Parts {
		if i > 0 {
			to = append(to, Box{kind: gap})
		}
		to = quantity(to, q)
	}
	return to
}

// unitAfter lays out a unit behind a number, with the space between them.
func unitAfter(to []Box, text string) []Box {
	switch text {
	case "":
		return to
	case "°", "′", "″":
	default:
		to = append(to, Box{kind: thin})
	}
	return unit(to, text)
}

// unit lays out the pieces of a unit: words, marks, signs and what is raised.
func unit(to []Box, text string) []Box {
	for len(text) > 0 {
		n, sign := unitPiece(text)
		piece := unitWord(text[:n])
		text = text[n:]
		if sup := superscript(text); !sign && sup > 0 {
			piece = scripted(piece, Box{}, unitExponent(text[:sup]))
			text = text[sup:]
		}
		to = append(to, piece)
	}
	return to
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
	return writing.Unraised(r) == 0 && (unicode.IsLetter(r) || unicode.Is(unicode.Mn, r) || unicode.IsDigit(r) || r == '_')
}

func hyphen(rest string) bool {
	r, _ := utf8.DecodeRuneInString(rest)
	return unicode.IsLetter(r)
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
		if writing.Unraised(r) == 0 {
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

// unitExponent is what stands raised in a unit.
func unitExponent(text string) Box {
	plain := strings.NewReplacer("^", "", "(", "", ")", "", " ", "", "−", "-").Replace(writing.OnTheLine(text))
	if allDigits(plain) {
		return Box{kind: digits, text: plain}
	}
	var all []Box
	if rest, ok := strings.CutPrefix(plain, "-"); ok {
		all, plain = append(all, minus), rest
	}
	a, b, quotient := strings.Cut(strings.TrimPrefix(plain, "+"), "/")
	all = append(all, Box{kind: digits, text: a})
	if quotient {
		all = append(all, Box{kind: close, text: "/"}, Box{kind: digits, text: b})
	}
	return Row(all...)
}

// unitWord is one piece of a unit without its exponent.
func unitWord(s string) Box {
	switch s {
	case "'":
		s = "′"
	case `"`:
		s = "″"
	case "/":
		return Box{kind: close, text: "/"}
	case "(", ")":
		return Box{kind: loose, text: s}
	case "·", "⋅", "*", "×":
		return Box{kind: close, text: "⋅"}
	}
	if strings.TrimSpace(s) == "" {
		return Box{kind: thin}
	}
	if allDigits(s) {
		return Box{kind: digits, text: s} // 1/s
	}
	return Box{kind: upright, text: s}
}
