package syntax

import (
	"strings"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"

	"steelyard/units/writing"
)

// isBlank tells whether r is white space within a line, no-break and narrow
// spaces included.
func isBlank(r rune) bool { return writing.Sign(r) == ' ' }

// isSuper tells whether r is a raised digit, sign or n.
func isSuper(r rune) bool { return r >= utf8.RuneSelf && writing.Unraised(r) != 0 }

// isMinus tells whether r is a minus sign or looks like one.
func isMinus(r rune) bool { return writing.Sign(r) == '-' }

// isTimes tells whether r is a sign of multiplication that is not `*`.
func isTimes(r rune) bool { return r != '*' && writing.Sign(r) == '*' || isDot(r) }

// isDot tells whether r is the raised dot of a product.
func isDot(r rune) bool { return writing.Sign(r) == '·' }

// isDegree tells whether r is the sign of a degree or looks like it.
func isDegree(r rune) bool { return writing.Sign(r) == '°' }

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
		b.WriteRune(writing.LookAlike(writing.Sign(r)))
	}
	return b.String()
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
