package syntax

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"steelyard/lang/ops"
	"steelyard/units"
	"steelyard/units/writing"
)

// unitScan finds where a unit in a line ends, by its shape alone: words in a row
// between single blanks or raised dots, with exponents, and a tight solidus.
// Which units these are, and whether they are any, is looked up when the line is
// planned.
type unitScan struct {
	text string
	end  int // of the text
	// alone marks a place where nothing but a unit can stand, as after `in`:
	// `*`, blanks round operators and `per` are read too.
	alone bool
}

// scan returns where the unit that begins at pos ends, or pos if none does.
//
// Behind a number a unit ends where a formula may go on: at *, at a slash with blanks round
// it, and at a word that the language keeps. So 5 N*m is 5 N times m, and 5 N m is 5 newton
// metres. After in, or in the brackets of J/(kg*K), nothing but a unit can stand, and all of
// these go on with it.
func (u unitScan) scan(pos int) int {
	s := u.parts(pos)
	leadingOne(&s)
	if !u.factor(&s) {
		return pos
	}
	for {
		last := s.At
		if !u.joint(&s) || !u.factor(&s) {
			return last
		}
	}
}

// parts reads the parts of a unit from pos onward.
func (u unitScan) parts(pos int) units.Scanner {
	return units.Scanner{Text: u.text[:u.end], At: pos}
}

// leadingOne reads the `1/` of a unit such as 1/s; the bare `1` is the unit of
// pure numbers.
func leadingOne(s *units.Scanner) {
	next := *s
	if p := next.Next(); p.Kind == units.PartNumber && p.Text == "1" && afterBlanks(&next).Kind == units.PartSolidus {
		*s = next
		skipBlanks(s)
	}
}

// afterBlanks returns the next part that is not blank.
func afterBlanks(s *units.Scanner) units.Part {
	p := s.Next()
	if p.Kind == units.PartBlank {
		p = s.Next()
	}
	return p
}

// skipBlanks goes on to the next part that is not blank.
func skipBlanks(s *units.Scanner) { s.At = afterBlanks(s).From }

// joint reads what stands between two factors of a unit, up to the next one.
//
// A blank and a raised dot join two words. A slash is tight behind a number. A point between
// letters, N.m, and the hyphen of ft-lb are no joints, and are read as such all the same:
// whoever looks the unit up can then say how it is written.
func (u unitScan) joint(s *units.Scanner) bool {
	next := *s
	p := afterBlanks(&next)
	blank := p.From > s.At
	switch p.Kind {
	case units.PartDot:
		if !u.alone && isMark(u.before(s.At)) {
			return false // 15 % · E: a mark ends a product
		}
		skipBlanks(&next)
	case units.PartStar:
		skipBlanks(&next)
		if !u.alone {
			return false
		}
	case units.PartSolidus:
		if u.alone {
			skipBlanks(&next)
		} else if blank {
			return false
		}
	case units.PartHyphen:
		if blank || u.text[p.From] != '-' || !u.poundFoot(p.To) {
			return false
		}
	case units.PartOther: // N.m
		if u.text[p.From:p.To] != "." || blank || !startsName(u.at(p.To)) {
			return false
		}
	case units.PartWord:
		switch {
		case !blank && isDegree(u.at(p.From)) && utf8.RuneCountInString(p.Text) > 1: // J/kg°C
			next.At = p.From
		case !blank:
			return false
		case u.alone && p.Text == "per":
			skipBlanks(&next)
		case isMark(u.before(s.At)), isMark(u.at(p.From)) && utf8.RuneCountInString(p.Text) == 1:
			return false // a mark ends a product, and no mark but °C goes on with one
		default:
			next.At = p.From
		}
	default:
		return false
	}
	*s = next
	return true
}

// factor reads one word with its exponent, or a bracket of words after a
// solidus.
func (u unitScan) factor(s *units.Scanner) bool {
	next := *s
	p := next.Next()
	switch {
	case p.Kind == units.PartOpen:
		if prev := u.before(p.From); !u.alone && writing.Sign(prev) != '/' {
			return false
		}
		if !u.bracket(&next) {
			return false
		}
	case p.Kind == units.PartWord && startsUnit(u.at(p.From)):
		end, ok := u.wordEnd(p)
		if !ok {
			return false
		}
		next.At = end
	default:
		return false
	}
	next.At = u.exponent(next.At)
	*s = next
	return true
}

// bracket reads what follows the bracket of J/(g °C), the other bracket with it.
// Brackets do not nest.
//
// It stands under a slash, J/(kg K): behind a number any other bracket is a factor.
func (u unitScan) bracket(s *units.Scanner) bool {
	skipBlanks(s)
	if end := strings.IndexByte(u.text[s.At:u.end], ')'); end >= 0 && unitsAlone(u.text[s.At:s.At+end]) {
		u.alone = true
	}
	end := u.scan(s.At)
	if u.at(s.At) == '(' || end == s.At {
		return false
	}
	s.At = end
	return afterBlanks(s).Kind == units.PartClose
}

// unitsAlone tells whether a product holds what is a unit and no name, so that all of it is one:
// kcal/(kg*°C), kJ/(kg*K), J/(mol*K). No name has a degree sign, or is kg or mol.
func unitsAlone(product string) bool {
	return strings.ContainsFunc(product, isDegree) ||
		strings.HasPrefix(product, "kg*") || strings.HasPrefix(product, "mol*") || strings.HasSuffix(product, "*kg") || strings.HasSuffix(product, "*mol")
}

// wordEnd returns where the word of a unit ends. A word that is followed directly
// by a bracket is a function or a name; one that the language keeps ends the unit.
//
// In 2 sin(30°) and 3 k_1*x the words after the numbers are a function and a name, as what
// follows them shows: a bracket, an index, the number of a line.
func (u unitScan) wordEnd(p units.Part) (int, bool) {
	if isMark(u.at(p.From)) {
		return p.To, true
	}
	end := p.To
	if i := strings.IndexFunc(u.text[p.From:p.To], foreign); i >= 0 {
		end = p.From + i
	}
	word := u.text[p.From:end]
	if endsUnit(word) {
		return end, false
	}
	if u.alone {
		return end, true
	}
	switch r := u.at(end); {
	case u.beforeDecimal(p.From, end) < end, r == '(', r == '_', r == '@', r == '\'', r >= '₀' && r <= '₉', isLoweredLetter(r):
		return end, false
	case isBlank(r) && ops.IsFunction(word) && u.at(u.skip(end)) == '(' && len(word) > 1:
		return end, false
	case isBlank(r) && operandNext(u.at(u.skip(end))) && functionWord(word), bareFunction(word) && powerAt(u.text[end:u.end]) != "":
		return end, false
	}
	return end, true
}

// beforeDecimal returns where a word ends whose last digits would be cut at their point: the
// sin of sin30.5 and the x of x2.5, which are no sin30 and x2 before .5; or that are in degrees:
// the cos of cos30° and of Fcos30°.
func (u unitScan) beforeDecimal(from, to int) int {
	degrees := isDegree(u.at(to))
	if !degrees && (u.at(to) != '.' || u.digits(to+1) == to+1) {
		return to
	}
	word := strings.TrimRight(u.text[from:to], "0123456789")
	if word == u.text[from:to] || strings.HasSuffix(word, "_") || degrees && !runsIntoFunction(word) {
		return to
	}
	return from + len(word)
}

// foreign tells whether a character has no place in the word of a unit that
// stands in a line, though names have it.
func foreign(r rune) bool { return r == '_' || unicode.Is(unicode.Mn, r) }

// exponent returns where the exponent ends that stands here: ^2, ^-1, ^(1/2)
// or raised digits. A point is no part of one: whether m^0.5 means the unit or
// the quantity is asked.
func (u unitScan) exponent(from int) int {
	s := u.parts(from)
	if u.at(from) != '^' {
		for r := u.at(s.At); isSuper(r) && r != 'ⁿ'; r = u.at(s.At) {
			s.Next() // signs in a wrong place too, so that the whole is refused
		}
		return s.At
	}
	p := s.Next()
	point := strings.IndexByte(u.text[p.From:p.To], '.')
	switch {
	case p.Kind != units.PartPower, point >= 0 && u.text[p.From+1] == '(':
		return from
	case point >= 0:
		return p.From + point
	}
	return p.To
}

// at returns the character at pos, or -1 behind the text.
func (u unitScan) at(pos int) rune {
	if pos >= u.end {
		return -1
	}
	r, _ := utf8.DecodeRuneInString(u.text[pos:u.end])
	return r
}

// skip returns where the blanks at pos end.
func (u unitScan) skip(pos int) int {
	for pos < u.end {
		c := u.text[pos]
		if c == ' ' {
			pos++
			continue
		}
		if c < utf8.RuneSelf && c > ' ' {
			break
		}
		r, n := utf8.DecodeRuneInString(u.text[pos:u.end])
		if !isBlank(r) {
			break
		}
		pos += n
	}
	return pos
}

// before returns the character that ends at pos.
func (u unitScan) before(pos int) rune {
	r, _ := utf8.DecodeLastRuneInString(u.text[:pos])
	return r
}

// poundFoot tells whether a word after a tight hyphen is one that units are
// wrongly joined to by hyphens, as in ft-lb; such a text is kept whole so that
// it can be put right.
func (u unitScan) poundFoot(pos int) bool {
	switch u.word(pos) {
	case "lb", "lbf", "lbs", "ft", "kg", "hr", "kgf":
		return true
	case "m", "s":
		// kg-m, N-m, W-s; not `5 m-s`, where s may well be a name.
		r := u.before(pos - 1)
		return r == 'g' || r == 'N' || r == 'W' || r == 'J'
	case "h":
		return u.before(pos-1) == 'W'
	}
	return false
}

// digits returns where the digits at pos end.
func (u unitScan) digits(pos int) int {
	for pos < u.end && u.text[pos] >= '0' && u.text[pos] <= '9' {
		pos++
	}
	return pos
}

// word returns the word at pos, letters only.
func (u unitScan) word(pos int) string {
	end := pos
	for end < u.end {
		r, n := utf8.DecodeRuneInString(u.text[end:u.end])
		if !startsName(r) {
			break
		}
		end += n
	}
	return u.text[pos:end]
}

// startsUnit tells whether a word of a unit may begin with r.
func startsUnit(r rune) bool { return startsName(r) || isMark(r) }

// isMark tells whether r is a unit that is not a letter.
func isMark(r rune) bool {
	return r == '%' || r == '‰' || r == '′' || r == '″' || isDegree(r)
}
