package syntax

import (
	"strings"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"

	"steelyard/units/writing"
)

// isBlank tells whether r is white space within a line, no-break and narrow
// spaces included.
func isBlank(r rune) bool {
	switch r {
	case ' ', '\t', '\n', '\r', '\u00a0', '\u202f', '\u3000', '\u205f':
		return true
	}
	return r >= '\u2000' && r <= '\u200a'
}

// isSuper tells whether r is a raised digit, sign or n.
func isSuper(r rune) bool { return r >= utf8.RuneSelf && writing.Unraised(r) != 0 }

// isMinus tells whether r is a minus sign or looks like one.
func isMinus(r rune) bool { return r == '-' || r == '−' || r == '–' || r == '‐' || r == '‑' }

// isTimes tells whether r is a sign of multiplication that is not `*`.
func isTimes(r rune) bool { return r == '×' || isDot(r) || r == '∗' }

// isDot tells whether r is the raised dot of a product.
func isDot(r rune) bool { return r == '·' || r == '⋅' || r == '∙' || r == '•' || r == '・' }

// isVulgar returns the two numbers of a fraction in one character, such as ½.
func isVulgar(r rune) (over, under string, ok bool) {
	if (r < '¼' || r > '¾') && (r < '⅐' || r > '⅞') {
		return "", "", false
	}
	return strings.Cut(norm.NFKD.String(string(r)), "⁄")
}

// foldUnit returns a unit's text with look-alikes replaced and blanks single.
func foldUnit(text string) string {
	plain := true
	for i := 0; i < len(text) && plain; i++ {
		c := text[i]
		plain = c < utf8.RuneSelf && c != '\t' && c != '\n' && c != '\r' && (c != ' ' || i+1 < len(text) && text[i+1] != ' ')
	}
	if plain {
		return text
	}
	var b strings.Builder
	blank := false
	for _, r := range norm.NFC.String(text) {
		if isBlank(r) {
			blank = true
			continue
		}
		if blank && b.Len() > 0 {
			b.WriteByte(' ')
		}
		blank = false
		switch {
		case isDot(r):
			r = '·'
		case isMinus(r):
			r = '-'
		case r == 'º', r == '˚', r == '∘':
			r = '°'
		case r == '∕', r == '⁄':
			r = '/'
		default:
			r = foldUnitRune(r)
		}
		b.WriteRune(r)
	}
	return b.String()
}

func foldUnitRune(r rune) rune {
	switch r {
	case 'µ':
		return 'μ'
	case '∆':
		return 'Δ'
	case '×', '∗':
		return '*'
	}
	return r
}

// trimBlanks cuts white space off both ends of a range of text.
func trimBlanks(text string, from, to int) (int, int) {
	for from < to {
		r, n := utf8.DecodeRuneInString(text[from:to])
		if !isBlank(r) {
			break
		}
		from += n
	}
	for from < to {
		r, n := utf8.DecodeLastRuneInString(text[from:to])
		if !isBlank(r) {
			break
		}
		to -= n
	}
	return from, to
}
