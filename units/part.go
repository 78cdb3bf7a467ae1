package units

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"steelyard/units/writing"
)

// PartKind says what a part of the text of a unit is.
type PartKind uint8

// The parts of the text of a unit, as in kg·m^2/(s °C).
const (
	PartEnd     PartKind = iota
	PartWord             // a word or a mark: kg, metres, %, ′, °C
	PartBlank            // one blank or more
	PartSolidus          // /
	PartDot              // ·
	PartStar             // * or ×
	PartHyphen           // - or a minus sign
	PartOpen             // (
	PartClose            // )
	PartPower            // ^2, ^-1, ^(1/2), ^0.5, ², ⁻¹
	PartNumber           // 1, as in 1/s; 2.5
	PartOther            // a character that no unit has
)

// Part is one piece of the text of a unit.
//
// The word is folded and the span is not: the text of the line stays what was typed.
type Part struct {
	Kind     PartKind
	From, To int    // byte offsets
	Text     string // of a word or a number, look-alikes folded
	Exp      Exp    // of a power
}

// Scanner takes the text of a unit apart from a place onward. It knows what a
// part looks like in all the forms that people type, and neither which words are
// units nor in what order parts make sense: a shaper asks for that, the reader of
// a line for where a unit ends, typesetting for how each part is set.
//
// A copy of a Scanner looks ahead.
type Scanner struct {
	Text string
	At   int // byte offset of the next part
}

// peek is the next character, folded, and how many bytes it takes; -1 at the end.
//
// ASCII is folded without a look at the tables of Unicode, as it is nearly all there is.
func (s *Scanner) peek() (rune, int) {
	if s.At >= len(s.Text) {
		return -1, 0
	}
	if c := s.Text[s.At]; c < utf8.RuneSelf {
		return folded(rune(c)), 1
	}
	r, n := utf8.DecodeRuneInString(s.Text[s.At:])
	return folded(r), n
}

// Next returns the next part; behind the last one it is PartEnd for ever.
//
// Each call reads one part whatever stands before it: 3 m^2 and a broken m^^2 alike. What is
// no part of any unit is PartOther, one character at a time, so that a reader always comes to
// the end.
func (s *Scanner) Next() Part {
	from := s.At
	r, n := s.peek()
	t := Part{From: from}
	switch {
	case r < 0:
		t.Kind = PartEnd
	case r == ' ':
		t.Kind = PartBlank
		for r == ' ' {
			s.At += n
			r, n = s.peek()
		}
	case isWordStart(r):
		t.Kind = PartWord
		t.Text = s.word()
	case isMarkRune(r):
		t.Kind = PartWord
		t.Text = s.mark()
	case r >= '0' && r <= '9':
		t.Kind = PartNumber
		for r >= '0' && r <= '9' || r == '.' {
			s.At += n
			r, n = s.peek()
		}
		t.Text = s.Text[from:s.At]
	case r == '^' || isRaised(r):
		t.Kind = PartPower
		t.Kind, t.Exp = s.power()
	default:
		s.At += n
		t.Kind = signs(r)
	}
	t.To = s.At
	return t
}

// signs is the part that one sign is. Its look-alikes, such as × or ⋅, were folded.
func signs(r rune) PartKind {
	switch r {
	case '/':
		return PartSolidus
	case '·':
		return PartDot
	case '*':
		return PartStar
	case '-':
		return PartHyphen
	case '(':
		return PartOpen
	case ')':
		return PartClose
	}
	return PartOther
}

// word reads letters, digits and _, with a degree sign after a leading Δ.
// The degree sign is in no other word: 30° ends with a mark, Δ°C is one word.
//
// A digit belongs to a word, so that m2 is one: whether it is m^2 or a name is not known here.
func (s *Scanner) word() string {
	from, plain := s.At, true
	for {
		r, n := s.peek()
		inDelta := r == '°' && s.At-from <= len("∆") && foldText(s.Text[from:s.At]) == "Δ"
		if !isWordStart(r) && !(r >= '0' && r <= '9') && r != '_' && !inDelta {
			break
		}
		plain = plain && n == 1
		s.At += n
	}
	if plain {
		return s.Text[from:s.At]
	}
	return foldText(s.Text[from:s.At])
}

// mark reads % ′ ″ or ° and, after the last, the letter of a temperature scale.
// °C is one mark; before a longer word the sign stands alone: °Celsius.
//
// R is the degree Rankine. A K never follows the sign: the kelvin has none.
func (s *Scanner) mark() string {
	r, n := s.peek()
	s.At += n
	if r != '°' {
		return string(r)
	}
	next, n := s.peek()
	if next != 'C' && next != 'F' && next != 'R' {
		return "°"
	}
	s.At += n
	if after, _ := s.peek(); isWordStart(after) {
		s.At -= n
		return "°"
	}
	return "°" + string(next)
}

// power reads ^2 ^-2 ^(1/2) ^0.5 or raised digits.
//
// A bracket may hold a fraction, and a point makes tenths of the number: ^0.5 is 5/10. What
// has a ^ and no number behind it is no part of a unit.
//
// Points may be above and below, as in ^(0.5/0.25): the tenths of one go to the other side.
func (s *Scanner) power() (PartKind, Exp) {
	r, n := s.peek()
	if r != '^' {
		return s.raisedPower()
	}
	s.At += n
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
		return PartOther, Exp{}
	}
	if neg {
		num = -num
	}
	return PartPower, NewExp(num*denScale, den*numScale)
}

// skip passes a sign, and tells whether it was there.
//
// Only power asks, where a sign stands in one place.
func (s *Scanner) skip(want rune) bool {
	r, n := s.peek()
	if r == want {
		s.At += n
		return true
	}
	return false
}

// number reads digits with an optional point, as an integer over a power of
// ten. A number too large to matter is returned as one out of range.
//
// Past eight digits the number is out of the range of any exponent, whatever follows.
func (s *Scanner) number() (n, scale int, ok bool) {
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
		s.At += w
	}
}

// raisedPower reads ² or ⁻¹. Several signs in front turn each other round, as in ⁻⁻².
// Raised letters are no exponents: they end the part.
//
// A sign behind digits ends the part: in m²⁻ it belongs to nothing.
func (s *Scanner) raisedPower() (PartKind, Exp) {
	num, neg, digits := 0, false, 0
	for {
		r, n := s.peek()
		c := writing.Unraised(r)
		sign := c == '-' || c == '+'
		if !isRaised(r) || sign && digits > 0 {
			break
		}
		s.At += n
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
		return PartOther, Exp{}
	}
	if neg {
		num = -num
	}
	return PartPower, NewExp(num, 1)
}

// isRaised tells whether r is a raised digit or sign.
func isRaised(r rune) bool { c := writing.Unraised(r); return c != 0 && c != 'n' }

// isWordStart tells whether r is a letter of a word. π is a number everywhere.
//
// Modifier letters (Lm), such as ʰ, look raised and are in no unit; accents (Mn) belong to the
// letter before them.
func isWordStart(r rune) bool {
	if r < utf8.RuneSelf {
		return r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z'
	}
	return r != 'π' && unicode.IsLetter(r) && !unicode.Is(unicode.Lm, r) || unicode.Is(unicode.Mn, r)
}

// isMarkRune tells whether r is a unit by itself, without letters. ′ and ″ are those of
// angles; feet and inches have names.
func isMarkRune(r rune) bool { return r == '°' || r == '′' || r == '″' || r == '%' || r == '‰' }

// folded returns the character that a look-alike stands for in a unit.
//
// U+212A and U+212B are the kelvin and the ångström as signs of their own, which Unicode keeps
// for old texts alone (Unicode Standard, 22.2): the letters are meant.
func folded(r rune) rune {
	switch r {
	case '\u212a':
		return 'K'
	case '\u212b':
		return 'Å'
	}
	return writing.LookAlike(writing.Sign(r))
}

// foldText folds every character of a text.
//
// An Å may be two characters, the letter and its ring.
func foldText(s string) string {
	for i := range len(s) {
		if s[i] >= utf8.RuneSelf {
			s = strings.Map(folded, s)
			return strings.ReplaceAll(s, "A\u030a", "Å")
		}
	}
	return s
}
