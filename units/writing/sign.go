package writing

import "unicode/utf8"

// Sign returns the sign that is meant by one that looks like it or is another form of it,
// and any other character as it is:
//
//	a blank     white space within a line, no-break and narrow spaces included
//	-           the minus sign, the hyphens and the dash of a range
//	·           the dots that a product is written with
//	*           the crosses and the star of a product
//	/           the strokes of a fraction
//	°           the rings that keyboards have for a degree
//	^           the wide form of it
//
// People do not see which of them they type, or what a page that they copy from has.
func Sign(r rune) rune {
	if r < utf8.RuneSelf {
		if r == '\t' || r == '\n' || r == '\r' {
			return ' '
		}
		return r
	}
	switch r {
	case '\u00a0', '\u202f', '\u3000', '\u205f':
		return ' '
	case '−', '–', '‐', '‑':
		return '-'
	case '⋅', '∙', '•', '・':
		return '·'
	case '×', '∗':
		return '*'
	case '⁄', '∕':
		return '/'
	case 'º', '˚', '∘':
		return '°'
	case '＾':
		return '^'
	}
	if r >= '\u2000' && r <= '\u200a' {
		return ' '
	}
	return r
}
