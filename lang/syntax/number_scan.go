package syntax

import (
	"strings"
	"unicode/utf8"

	"steelyard/lang/finding"
	"steelyard/lang/limit"
	"steelyard/units"
	"steelyard/units/writing"
)

// number reads a written number at pos and returns where it ends. An exponent
// and a number under a bare root are bare: they take neither a unit nor a power
// of ten.
//
// What a number may be: 12, 0.5, .5, 1e3, 1.6e-19, 1.6×10^-19, 1.6·10⁻¹⁹, 10^5 before a unit,
// ½. A 5. without a digit behind the point is a slip (mistyped.go), and 10^5 alone is a power;
// 100. m has three figures.
//
// Only where it ends is found here; what it is worth, decimal finds from its text.
func (l *scanner) number(pos int, bare bool) int {
	if r, n := utf8.DecodeRuneInString(l.text[pos:l.end]); r > utf8.RuneSelf {
		if _, _, ok := isVulgar(r); ok {
			return pos + n
		}
	}
	whole := l.digits(pos)
	at := whole
	if at < l.end && l.text[at] == '.' {
		switch frac := l.digits(at + 1); {
		case frac > at+1:
			at = frac
		case !bare && l.endsInFigures(pos, at):
			return at + 1
		}
	}
	if at > pos && at < l.end && (l.text[at] == 'e' || l.text[at] == 'E') {
		if end := l.signedDigits(at + 1); end > at+1 {
			return end
		}
	}
	if bare {
		return at
	}
	if end := l.timesTen(at); end > at {
		return end
	}
	if at == pos+2 && l.text[pos:at] == "10" {
		return l.powerOfTen(at)
	}
	return at
}

// endsInFigures tells whether the point behind digits says that the zeros before it are
// figures, as of 100. m (common practice): a unit comes next. At the beginning of a line it is
// a label, and at its end that of a sentence; 5. m may lack a digit.
func (l *scanner) endsInFigures(pos, point int) bool {
	next := l.skip(point + 1)
	return point > pos+1 && l.text[point-1] == '0' && pos > l.skip(0) && next > point+1 && l.units().scan(next) > next
}

// timesTen reads ×10^-19 or ×10⁻¹⁹ after a number; the letter x before a power of
// ten is the sign, too.
//
// Blanks may be round the sign, 1.6 × 10^-19. What has no 10 and power behind the
// sign is a product, 3×4, and pos is returned.
func (l *scanner) timesTen(pos int) int {
	at := l.skip(pos)
	r, n := utf8.DecodeRuneInString(l.text[at:l.end])
	if !timesSign(r) {
		return pos
	}
	at = l.skip(at + n)
	if !strings.HasPrefix(l.text[at:l.end], "10") {
		return pos
	}
	if end := l.tenPower(at + 2); end > at+2 {
		return end
	}
	return pos
}

// A raised dot before 10^ is that sign as well, as in many countries.
func timesSign(r rune) bool { return r == '×' || r == 'x' || r == 'X' || isDot(r) }

// powerOfTen reads the ^5 of 10^5 where a unit follows: one number in
// scientific form.
//
// So 10^5 Pa is a quantity of 10^5 pascals, while 10^5 alone is a power of two
// numbers, which comes to the same.
func (l *scanner) powerOfTen(pos int) int {
	end := l.tenPower(pos)
	if end == pos {
		return pos
	}
	at := l.skip(end)
	if l.units().scan(at) == at || l.timesTen(at) > at {
		return pos
	}
	return end
}

// tenPower reads ^-19 or ⁻¹⁹.
//
// Blanks may stand round the ^, as where a page was copied.
func (l *scanner) tenPower(pos int) int {
	if up := l.skip(pos); up < l.end && l.text[up] == '^' {
		from := l.skip(up + 1)
		if end := l.signedDigits(from); end > from {
			return end
		}
		return pos
	}
	at, digits := pos, false
	for at < l.end {
		r, n := utf8.DecodeRuneInString(l.text[at:l.end])
		if !isSuper(r) || r == 'ⁿ' {
			break
		}
		digits = digits || r != '⁻' && r != '⁺'
		at += n
	}
	if !digits {
		return pos
	}
	return at
}

// signedDigits reads digits with a sign before them, and returns pos if there
// are none.
func (l *scanner) signedDigits(pos int) int {
	at := pos
	if r, n := utf8.DecodeRuneInString(l.text[at:l.end]); r == '+' || isMinus(r) {
		at += n
	}
	if end := l.digits(at); end > at {
		return end
	}
	return pos
}

// digits returns where the digits end that begin at pos.
func (l *scanner) digits(pos int) int { return l.units().digits(pos) }

// decimal returns the value of a written number.
//
// It is held to the digits that were written, so that 0.1 is a tenth and 0.500 has three
// figures. Behind ± stands by how much it may be off.
//
// Refused are a number beyond 10^308 and one with more digits than limit.Digits;
// each says so at the place of the number.
func decimal(text string, at Span, negative bool) (units.Decimal, *fault) {
	text, off, spread := strings.Cut(text, "±")
	text = plainNumber(text)
	if negative {
		text = "-" + text
	}
	d, ok := units.ParseDecimal(text)
	if ok && spread {
		d.Off, ok = spreadOf(off)
	}
	if ok {
		return d, nil
	}
	id, message, hint := finding.BadNumber, "This number can't be read.", "Write it like 0.080 or 3.2e5."
	switch {
	case len(text) > limit.Digits:
		id, message, hint = finding.TooLong, "This number has too many digits.", "Round it to 15 digits."
	case strings.Contains(text, "e"):
		id, message, hint = finding.OutOfRange, "This number is too large or too small: numbers here go from 10^-308 to 10^308.", "Check its exponent."
	}
	return units.Decimal{}, &fault{finding.New(id, at, message, hint)}
}

// plainNumber turns a number as typed into digits with an exponent after e:
// 1.6×10⁻¹⁹ and 1.6×10^-19 are 1.6e-19, and 10^5 is 1e5.
func plainNumber(text string) string {
	plain := true
	for i := 0; i < len(text) && plain; i++ {
		c := text[i]
		plain = c >= '0' && c <= '9' || c == '.' && i > 0 || c == '-' && i > 0 || c == 'e' || c == '+'
	}
	if plain {
		return text
	}
	text = strings.Map(func(r rune) rune {
		if isBlank(r) {
			return -1
		}
		return r
	}, text)
	head, power := text, ""
	cut := strings.IndexAny(text, "^¹²³⁰⁴⁵⁶⁷⁸⁹⁻⁺")
	switch {
	case cut >= 0 && text[cut] == '^':
		head, power = text[:cut], text[cut+1:]
	case cut >= 0:
		head, power = text[:cut], writing.OnTheLine(text[cut:])
	default:
		if e := strings.IndexAny(text, "eE"); e >= 0 {
			head, power = text[:e], text[e+1:]
		}
	}
	if i := strings.IndexFunc(head, timesSign); i >= 0 {
		head = head[:i]
	} else if cut >= 0 && head == "10" {
		head = "1"
	}
	if strings.HasPrefix(head, ".") {
		head = "0" + head
	}
	if power == "" {
		return head
	}
	return head + "e" + strings.Map(writing.Sign, power)
}
