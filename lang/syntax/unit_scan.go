package syntax

import (
	"unicode/utf8"

	"steelyard/lang/ops"
)

// unitScan reads the text of a unit by its shape alone: words in a row between
// single blanks or raised dots, with exponents, and a tight solidus. Which units
// these are, and whether they are any, is looked up when the line is planned.
type unitScan struct {
	text string
	end  int // of the text
	// alone marks a place where nothing but a unit can stand, as after `in`:
	// `*`, blanks round operators, a leading 1/ and `per` are read too.
	alone bool
}

// scan returns where the unit that begins at pos ends, or pos if none does.
func (u unitScan) scan(pos int) int {
	at := pos
	if u.alone {
		at = u.leadingOne(pos)
	}
	last := u.factor(at)
	if last == at {
		return pos
	}
	slash := at > pos
	for {
		next, solidus := u.joint(last, slash)
		if next < 0 {
			return last
		}
		slash = slash || solidus
		end := u.factor(next)
		if end == next {
			return last
		}
		last = end
	}
}

// leadingOne reads the `1/` of a unit such as 1/s; the bare `1` is the unit of
// pure numbers.
func (u unitScan) leadingOne(pos int) int {
	if u.at(pos) != '1' {
		return pos
	}
	at := u.skip(pos + 1)
	if r := u.at(at); r != '/' && r != '∕' {
		return pos
	}
	_, n := utf8.DecodeRuneInString(u.text[at:u.end])
	return u.skip(at + n)
}

func (u unitScan) at(pos int) rune {
	if pos >= u.end {
		return -1
	}
	r, _ := utf8.DecodeRuneInString(u.text[pos:u.end])
	return r
}

func (u unitScan) skip(pos int) int {
	for pos < u.end {
		r, n := utf8.DecodeRuneInString(u.text[pos:u.end])
		if !isBlank(r) {
			break
		}
		pos += n
	}
	return pos
}

// joint reads what stands between two factors of a unit, and returns where the
// next one begins, or -1.
func (u unitScan) joint(pos int, slash bool) (int, bool) {
	r, n := utf8.DecodeRuneInString(u.text[pos:u.end])
	if pos >= u.end {
		return -1, false
	}
	switch {
	case r == '/' || r == '∕':
		next := u.at(pos + n)
		if u.alone {
			return u.skip(pos + n), true
		}
		if next == '(' || startsUnit(next) {
			return pos + n, true
		}
		return -1, false
	case isDot(r):
		return u.skip(pos + n), false
	case u.alone && (r == '*' || r == '×'):
		return u.skip(pos + n), false
	case r == '-' && u.poundFoot(pos+n):
		return pos + n, false
	case !isBlank(r):
		return -1, false
	}
	next := u.skip(pos)
	r = u.at(next)
	_, width := utf8.DecodeRuneInString(u.text[min(next, u.end):u.end])
	switch {
	case u.alone && (r == '/' || r == '*' || r == '×'), isDot(r):
		after := u.skip(next + width)
		if f := u.at(after); !startsUnit(f) && f != '(' {
			return -1, false
		}
		return after, r == '/'
	case u.alone && u.word(next) == "per":
		return u.skip(next + 3), true
	case markEnds(u.before(pos)):
		return -1, false // ° ′ ″ % end a product
	case startsUnit(r) && (!isMark(r) || u.heatMark(next, width)):
		return next, false
	}
	return -1, false
}

// heatMark tells whether the mark at pos begins °C or °F.
func (u unitScan) heatMark(pos, width int) bool {
	letter := u.at(pos + width)
	return isDegree(u.at(pos)) && (letter == 'C' || letter == 'F')
}

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
	if pos > end {
		return ""
	}
	return u.text[pos:end]
}

// factor reads one word with its exponent, or a bracket of words after a
// solidus, and returns where it ends, or pos.
func (u unitScan) factor(pos int) int {
	r := u.at(pos)
	if r == '(' {
		return u.bracket(pos)
	}
	if !startsUnit(r) {
		return pos
	}
	end, ok := u.unitWord(pos)
	if !ok {
		return pos
	}
	return u.exponent(end)
}

// bracket reads (g °C) after a solidus.
func (u unitScan) bracket(pos int) int {
	if prev := u.before(pos); !u.alone && prev != '/' && prev != '∕' {
		return pos
	}
	inner := unitScan{text: u.text, end: u.end, alone: u.alone}
	from := u.skip(pos + 1)
	at := from
	if u.at(from) == '(' {
		return pos
	}
	at = inner.scan(from)
	if at == from {
		return pos
	}
	at = u.skip(at)
	if u.at(at) != ')' {
		return pos
	}
	return u.exponent(at + 1)
}

// unitWord reads one word of a unit. A word that is followed directly by a
// bracket is a function or a name; one that the language keeps ends the unit.
func (u unitScan) unitWord(pos int) (int, bool) {
	r, n := utf8.DecodeRuneInString(u.text[pos:u.end])
	end := pos + n
	if isMark(r) {
		if r := u.at(end); isDegree(u.before(end)) && (r == 'C' || r == 'F') {
			if !startsName(u.at(end + 1)) {
				end++
			}
		}
		return end, true
	}
	for end < u.end {
		r, n = utf8.DecodeRuneInString(u.text[end:u.end])
		if isDegree(r) && (u.text[pos:end] == "Δ" || u.text[pos:end] == "∆") {
			end += n
			continue
		}
		if !startsName(r) && !(r >= '0' && r <= '9') {
			break
		}
		end += n
	}
	if endsUnit(u.text[pos:end]) {
		return pos, false
	}
	if u.alone {
		return end, true
	}
	switch r = u.at(end); {
	case r == '(', r == '_', r == '@', r == '\'', r >= '₀' && r <= '₉', isLoweredLetter(r):
		return pos, false
	case isBlank(r) && ops.IsFunction(u.text[pos:end]) && u.at(u.skip(end)) == '(' && len(u.text[pos:end]) > 1:
		return pos, false
	}
	return end, true
}

// exponent reads ^2, ^-1, ^(1/2) or raised digits.
func (u unitScan) exponent(pos int) int {
	at := pos
	for at < u.end {
		r, n := utf8.DecodeRuneInString(u.text[at:u.end])
		if !isSuper(r) || r == 'ⁿ' {
			break
		}
		at += n
	}
	if at > pos {
		return at
	}
	if u.at(pos) != '^' {
		return pos
	}
	at = pos + 1
	bracket := u.at(at) == '('
	if bracket {
		at++
	}
	if r, n := utf8.DecodeRuneInString(u.text[at:u.end]); isMinus(r) || r == '+' {
		at += n
	}
	digits := u.digits(at)
	if digits == at {
		return pos
	}
	at = digits
	if !bracket {
		return at
	}
	if u.at(at) == '/' {
		if digits = u.digits(at + 1); digits == at+1 {
			return pos
		}
		at = digits
	}
	if u.at(at) != ')' {
		return pos
	}
	return at + 1
}

func (u unitScan) digits(pos int) int {
	for pos < u.end && u.text[pos] >= '0' && u.text[pos] <= '9' {
		pos++
	}
	return pos
}

// startsUnit tells whether a word of a unit may begin with r.
func startsUnit(r rune) bool { return startsName(r) || isMark(r) }

// isMark tells whether r is a unit that is not a letter.
func isMark(r rune) bool {
	return r == '%' || r == '‰' || r == '′' || r == '″' || isDegree(r)
}

// markEnds tells whether r ends a product of units.
func markEnds(r rune) bool { return isMark(r) }

func isDegree(r rune) bool { return r == '°' || r == 'º' || r == '˚' || r == '∘' }
