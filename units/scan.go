package units

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"steelyard/units/writing"
)

type tokenKind uint8

const (
	tokEnd tokenKind = iota
	tokWord
	tokBlank
	tokSlash
	tokDot
	tokStar
	tokHyphen
	tokOpen
	tokClose
	tokPower
	tokNumber
	tokOther
)

// token is one piece of the text of a unit; from and to are byte offsets.
type token struct {
	kind     tokenKind
	from, to int
	text     string
	exp      Exp
	bad      bool // an exponent out of range
}

// scanner takes the text of a unit apart.
type scanner struct {
	text string
	at   int
}

func (s *scanner) peek() (rune, int) {
	if s.at >= len(s.text) {
		return -1, 0
	}
	if c := s.text[s.at]; c < utf8.RuneSelf {
		return rune(c), 1
	}
	r, n := utf8.DecodeRuneInString(s.text[s.at:])
	return folded(r), n
}

// next returns the next token.
func (s *scanner) next() token {
	from := s.at
	r, n := s.peek()
	t := token{from: from}
	switch {
	case r < 0:
		t.kind = tokEnd
	case r == ' ':
		t.kind = tokBlank
		for r == ' ' {
			s.at += n
			r, n = s.peek()
		}
	case isWordStart(r):
		t.kind = tokWord
		t.text = s.word()
	case isMarkRune(r):
		t.kind = tokWord
		t.text = s.mark()
	case r >= '0' && r <= '9':
		t.kind = tokNumber
		for r >= '0' && r <= '9' || r == '.' {
			s.at += n
			r, n = s.peek()
		}
		t.text = s.text[from:s.at]
	case r == '^' || isRaised(r):
		t.kind = tokPower
		t.kind, t.exp, t.bad = s.power()
	default:
		s.at += n
		t.kind = signs(r)
	}
	t.to = s.at
	return t
}

func signs(r rune) tokenKind {
	switch r {
	case '/':
		return tokSlash
	case '·':
		return tokDot
	case '*':
		return tokStar
	case '-':
		return tokHyphen
	case '(':
		return tokOpen
	case ')':
		return tokClose
	}
	return tokOther
}

// word reads letters, digits and _, with a degree sign after a leading Δ.
func (s *scanner) word() string {
	from, plain := s.at, true
	for {
		r, n := s.peek()
		inDelta := r == '°' && s.at-from <= len("∆") && foldText(s.text[from:s.at]) == "Δ"
		if !isWordStart(r) && !(r >= '0' && r <= '9') && r != '_' && !inDelta {
			break
		}
		plain = plain && n == 1
		s.at += n
	}
	if plain {
		return s.text[from:s.at]
	}
	return foldText(s.text[from:s.at])
}

// mark reads % ′ ″ or ° and, after the last, the letter of a temperature scale.
func (s *scanner) mark() string {
	r, n := s.peek()
	s.at += n
	if r != '°' {
		return string(r)
	}
	next, n := s.peek()
	if next != 'C' && next != 'F' && next != 'R' {
		return "°"
	}
	s.at += n
	if after, _ := s.peek(); isWordStart(after) {
		s.at -= n
		return "°"
	}
	return "°" + string(next)
}

// power reads ^2 ^-2 ^(1/2) ^0.5 or raised digits.
func (s *scanner) power() (kind tokenKind, e Exp, bad bool) {
	r, n := s.peek()
	if r != '^' {
		return s.raisedPower()
	}
	s.at += n
	bracket := s.skip('(')
	neg := s.skip('-')
	if !neg {
		s.skip('+')
	}
	num, numScale, ok := s.number()
	den, denScale := 1, 1
	if ok && bracket && s.skip('/') {
		den, denScale, ok = s.number()
	}
	if bracket && ok {
		ok = s.skip(')')
	}
	if !ok {
		return tokOther, Exp{}, false
	}
	if neg {
		num = -num
	}
	e, fits := NewExp(num*denScale, den*numScale)
	return tokPower, e, !fits
}

func (s *scanner) skip(want rune) bool {
	r, n := s.peek()
	if r == want {
		s.at += n
		return true
	}
	return false
}

// number reads digits with an optional point, as an integer over a power of
// ten. A number too large to matter is returned as one out of range.
func (s *scanner) number() (n, scale int, ok bool) {
	scale = 1
	point := false
	for {
		r, w := s.peek()
		switch {
		case r >= '0' && r <= '9':
			ok = true
			if n < 1e8 {
				n = n*10 + int(r-'0')
			}
			if point && scale < 1e8 {
				scale *= 10
			}
		case r == '.' && !point && ok:
			point = true
		default:
			return n, scale, ok
		}
		s.at += w
	}
}

func (s *scanner) raisedPower() (kind tokenKind, e Exp, bad bool) {
	num, neg, digits := 0, false, 0
	for {
		r, n := s.peek()
		c := writing.Unraised(r)
		sign := c == '-' || c == '+'
		if !isRaised(r) || sign && digits > 0 {
			break
		}
		s.at += n
		if sign {
			neg = neg != (c == '-')
			continue
		}
		digits++
		if num < 1e8 {
			num = num*10 + int(c-'0')
		}
	}
	if digits == 0 {
		return tokOther, Exp{}, false
	}
	if neg {
		num = -num
	}
	e, fits := NewExp(num, 1)
	return tokPower, e, !fits
}

// isRaised tells whether r is a raised digit or sign.
func isRaised(r rune) bool { c := writing.Unraised(r); return c != 0 && c != 'n' }

func isWordStart(r rune) bool {
	if r < utf8.RuneSelf {
		return r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z'
	}
	return unicode.IsLetter(r) && !unicode.Is(unicode.Lm, r) || unicode.Is(unicode.Mn, r)
}

func isMarkRune(r rune) bool { return r == '°' || r == '′' || r == '″' || r == '%' }

// folded returns the character that a look-alike stands for in a unit.
func folded(r rune) rune {
	switch r {
	case '\t', '\n', '\r', '\u00a0', '\u202f', '\u3000', '\u205f':
		return ' '
	case '\u212a':
		return 'K'
	case '\u212b':
		return 'Å'
	case 'º', '˚', '∘':
		return '°'
	case '−', '–', '‐', '‑':
		return '-'
	case '⋅', '∙', '•', '・':
		return '·'
	case '×', '∗':
		return '*'
	case '⁄', '∕':
		return '/'
	case '＾':
		return '^'
	}
	if r >= '\u2000' && r <= '\u200a' {
		return ' '
	}
	return writing.LookAlike(r)
}

// foldText folds every character of a text.
func foldText(s string) string {
	for i := range len(s) {
		if s[i] >= utf8.RuneSelf {
			s = strings.Map(folded, s)
			return strings.ReplaceAll(s, "A\u030a", "Å")
		}
	}
	return s
}
