package typeset

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"steelyard/units/writing"
)

// Quantity lays out a value as it is shown: "4.63e6 N m", "4.63×10⁶ N·m", "30°",
// "13 h 4 min 58 s", "(0.842 ± 0.002) m" or plain "257". What is no number and no
// sign is taken for a unit.
func Quantity(text string) Box {
	var r shownReader
	for text = strings.TrimSpace(text); text != ""; text = strings.TrimLeftFunc(text, unicode.IsSpace) {
		text = r.piece(text)
	}
	return Row(r.to...)
}

// shownReader collects the boxes of a shown value.
type shownReader struct{ to []Box }

func (r *shownReader) add(k kind, text string) { r.to = append(r.to, Box{kind: k, text: text}) }

// piece lays out one piece of a shown value and returns the rest.
func (r *shownReader) piece(text string) string {
	if plain, n := shownNumber(text); n > 0 {
		r.to = number(r.to, plain)
		return r.unit(text[n:])
	}
	c, n := utf8.DecodeRuneInString(text)
	switch c {
	case '(', '[':
		r.add(loose, string(c))
	case ')', ']':
		r.add(loose, string(c))
		return r.unit(text[n:])
	case ',':
		r.to = append(r.to, Comma())
	case '−', '-':
		r.to = append(r.to, minus)
	case '+', '±':
		r.add(infix, string(c))
	case '/':
		r.add(close, "/")
	case 'π':
		r.add(symbol, "π")
		return r.unit(text[n:])
	case '∞':
		r.add(digits, "∞")
		return r.unit(text[n:])
	case '=', '≈', '<', '>', '≤', '≥':
		r.add(relation, string(c))
	default:
		n = unitEnd(text)
		r.to = unit(r.to, strings.TrimRightFunc(text[:n], unicode.IsSpace))
	}
	return text[n:]
}

// unit lays out the unit that stands behind a number, if there is one, and the
// gap before another number.
func (r *shownReader) unit(text string) string {
	rest := strings.TrimLeftFunc(text, unicode.IsSpace)
	if rest == "" {
		return ""
	}
	if _, n := shownNumber(rest); n > 0 {
		r.add(gap, "")
		return rest
	}
	c, _ := utf8.DecodeRuneInString(rest)
	if strings.ContainsRune("()[],±=≈<>≤≥−-/+π∞", c) {
		return rest
	}
	n := unitEnd(rest)
	r.to = unitAfter(r.to, strings.TrimRightFunc(rest[:n], unicode.IsSpace))
	rest = strings.TrimLeftFunc(rest[n:], unicode.IsSpace)
	if _, n := shownNumber(rest); n > 0 {
		r.add(gap, "")
	}
	return rest
}

// unitEnd returns where a unit ends: before a number, a sign that is no part of a
// unit, or a bracket that it did not open. It is at least one character.
func unitEnd(text string) int {
	depth := 0
	for i, r := range text {
		if i == 0 {
			if r == '(' {
				depth++
			}
			continue
		}
		before, _ := utf8.DecodeLastRuneInString(text[:i])
		apart := unicode.IsSpace(before) || strings.ContainsRune("°′″", before)
		switch {
		case r == '(':
			depth++
		case r == ')' && depth > 0:
			depth--
		case strings.ContainsRune(")],±=≈<>≤≥", r), r == '+' && apart:
			return i
		case depth == 0 && apart:
			if _, n := shownNumber(text[i:]); n > 0 {
				return i
			}
		}
	}
	return len(text)
}

// shownNumber reads a number at the start of a text, and returns it in plain
// ASCII with its length there.
func shownNumber(text string) (plain string, n int) {
	var b strings.Builder
	for _, sign := range [...]string{"-", "−"} {
		if strings.HasPrefix(text, sign) {
			b.WriteByte('-')
			n = len(sign)
			break
		}
	}
	from := n
	n += digitsEnd(text[n:])
	if n == from {
		return "", 0
	}
	if n+1 < len(text) && text[n] == '.' && isDigit(text[n+1]) {
		n += 1 + digitsEnd(text[n+1:])
	}
	b.WriteString(text[from:n])
	if power, size := shownPower(text[n:]); size > 0 {
		b.WriteString("e" + power)
		n += size
	}
	return b.String(), n
}

func digitsEnd(s string) int {
	n := 0
	for n < len(s) && isDigit(s[n]) {
		n++
	}
	return n
}

// shownPower reads e-19, ×10^-19 or ×10⁻¹⁹.
func shownPower(text string) (power string, n int) {
	if strings.HasPrefix(text, "e") || strings.HasPrefix(text, "E") {
		n = caretEnd(text[1:])
		if n == 0 || strings.HasPrefix(text[1:], "(") {
			return "", 0
		}
		return asciiPower(text[1:n]), n
	}
	rest := strings.TrimLeft(text, " \u00a0\u2009\u202f")
	for _, ten := range [...]string{"×", "·", "⋅", "*"} {
		after, ok := strings.CutPrefix(rest, ten)
		if !ok {
			continue
		}
		after = strings.TrimLeft(after, " \u00a0\u2009\u202f")
		up, ok := strings.CutPrefix(after, "10")
		size := superscript(up)
		if !ok || size == 0 || strings.HasPrefix(up, "^(") {
			return "", 0
		}
		return asciiPower(up[:size]), len(text) - len(up) + size
	}
	return "", 0
}

func asciiPower(s string) string {
	return strings.NewReplacer("^", "", "−", "-").Replace(writing.OnTheLine(s))
}
