package syntax

import (
	"strings"
	"unicode/utf8"

	"steelyard/lang/finding"
	"steelyard/units/writing"
)

// numeral is a written number and what stands behind it.
//
// In 1,280 m the number is 1, and the comma is next.
type numeral struct {
	scanner
	number string
	to     int  // where it ends
	next   rune // what stands there
	width  int
}

// numberSlips are looked for at each written number.
var numberSlips = []slip[numeral]{
	{"a blank before an exponent: 1 e3", numeral.exponentApart},
	{"digits in groups, and two numbers: 1 280, 3 1/2", numeral.groups},
	{"commas: 0,5 and 1,280", numeral.comma},
	{"a point too much: 1.2.3 and 5.", numeral.point},
	{"marks between digits: 1'000", numeral.apostrophes},
	{"feet and inches: 5' and 6\"", numeral.feet},
	{"two exponents: 1e3e4", numeral.twoExponents},
	{"a blank in an exponent: 1e 3", numeral.exponentParted},
	{"a fraction beside it: 3½", numeral.fractionBeside},
}

// mistyped finds what is wrong round a written number that ends at end.
//
// What follows a number is nearly always a blank and a sign or a unit: that is seen by one
// character, and no rule is tried.
//
// Each slip is told with what to write: 1280 or 1.280, 0.5, 1e3. None is mended in
// silence, as a comma or a blank in a number may mean another number.
func (l *scanner) mistyped(end int) *fault {
	rest := l.text[end:l.end]
	if next := strings.TrimLeft(rest, " \t"); next == "" || next[0] < utf8.RuneSelf && strings.IndexByte(",.'\"eE0123456789", next[0]) < 0 {
		return nil
	}
	n := numeral{scanner: *l, number: l.text[l.pos:end], to: end}
	n.next, n.width = utf8.DecodeRuneInString(rest)
	return first(numberSlips, n)
}

func (l *scanner) badNumber(to int, message, hint string, readings ...string) *fault {
	return &fault{finding.New(finding.BadNumber, Span{From: l.pos, To: to}, message, hint, readings...)}
}

// comma finds 1,280 and 0,5. Between the arguments of a call a comma is right.
//
// Half of the world writes 0,5, and half 1,280 for what is 1280 here. A group of three digits
// may be either, so that both are offered; any other comma is a decimal one. In the brackets
// of a call a comma parts arguments: hypot(3,4).
func (n numeral) comma() *fault {
	if open := len(n.open); n.next != ',' || open > 0 && n.open[open-1].call {
		return nil
	} else if open > 0 && (n.open[open-1].sign == '[' || n.parts(n.open[open-1])) {
		return n.listCommas(n.open[open-1])
	}
	l, end, whole := n.scanner, n.to, n.number
	at, groups := end, 0
	joined := whole
	for at < l.end && l.text[at] == ',' {
		to := l.digits(at + 1)
		if to == at+1 {
			break
		}
		if to-at != 4 || strings.Contains(whole, ".") {
			groups = -1
		} else if groups >= 0 {
			groups++
		}
		joined += l.text[at+1 : to]
		at = to
	}
	if at == end {
		return nil
	}
	text := l.text[l.pos:at]
	if groups > 0 && len(whole) <= 3 && whole != "0" {
		if to := l.digits(at + 1); at < l.end && l.text[at] == '.' && to > at+1 {
			joined += l.text[at:to]
			at = to
		}
		readings := []string{joined}
		if groups == 1 && !strings.Contains(joined, ".") {
			readings = append(readings, strings.Replace(text, ",", ".", 1))
		}
		return l.badNumber(at, "A number has no commas between its digits here.", "Take the comma out, or write a decimal point.", readings...)
	}
	if strings.Count(text, ",") == 1 && !strings.Contains(text, ".") {
		return l.badNumber(at, "There is a comma in this number.", "Write a decimal point.", strings.Replace(text, ",", ".", 1))
	}
	return l.badNumber(at, "There are commas in this number.", "Write it with digits and one decimal point.")
}

// point finds 5. and 1.2.3.
//
// In 1.2.3 nothing is offered: which of the points is too much can't be seen. Digits behind a
// blank belong to the number, 0. 5 m: nobody multiplies by 5 without a sign.
func (n numeral) point() *fault {
	if n.next != '.' {
		return nil
	}
	l, end, number := n.scanner, n.to, n.number
	if to := l.digits(end + 1); to > end+1 {
		return l.badNumber(to, "This number has two decimal points.", "Write one.")
	}
	if strings.ContainsAny(number, ".e^") {
		return nil
	}
	if from := l.skip(end + 1); l.digits(from) > from {
		to := l.digits(from)
		return l.badNumber(to, "There is a space after the decimal point of this number.", "Take the space out.", number+"."+l.text[from:to])
	}
	return l.badNumber(end+1, "A digit is missing after the decimal point.", "Write "+number+".0, or take the point out.", number+".0", number)
}

// feet finds 5' and 6".
//
// The straight marks are on every keyboard, and mean inches to some and seconds of arc to
// others.
func (n numeral) feet() *fault {
	at := Span{From: n.pos, To: n.to + n.width}
	switch n.next {
	case '"', '”':
		return &fault{finding.New(finding.NotWritten, at, "The mark "+string(n.next)+" could mean inches or seconds of arc.",
			"Write inch, or ″ for seconds of arc.", n.number+" inch", n.number+"″")}
	case '\'', '’':
		return &fault{finding.New(finding.NotWritten, at, "The mark "+string(n.next)+" could mean feet or minutes of arc.",
			"Write ft, or ′ for minutes of arc.", n.number+" ft", n.number+"′")}
	}
	return nil
}

// exponentApart finds 1 e3.
//
// Calculators show 1 e3 so; the blank would make e3 a name.
func (n numeral) exponentApart() *fault {
	at := n.skip(n.to)
	if at == n.to || at >= n.end || n.text[at] != 'e' && n.text[at] != 'E' {
		return nil
	}
	to := n.signedDigits(at + 1)
	if r, _ := utf8.DecodeRuneInString(n.text[to:n.end]); to == at+1 || continuesName(r) && to < n.end {
		return nil
	}
	if strings.ContainsAny(n.number, "eE^") {
		return n.badNumber(to, "This number has two exponents.", "Write one.")
	}
	f := n.badExponent("before the exponent", at+1, to)
	if _, name := namedExponent(n.text[at:to]); name != "" {
		f.Readings = append([]string{n.number + "*" + name}, f.Readings...)
	}
	return f
}

// twoExponents finds 1e3e4.
func (n numeral) twoExponents() *fault {
	if n.next == 'e' || n.next == 'E' {
		if to := n.signedDigits(n.to + 1); to > n.to+1 {
			return n.badNumber(to, "This number has two exponents.", "Write one.")
		}
	}
	return nil
}

// exponentParted finds 1e 3.
//
// 1e + 3 is no such slip: a sign with blanks on both sides adds.
func (n numeral) exponentParted() *fault {
	from := n.skip(n.to + 1)
	to := n.signedDigits(from)
	if n.next != 'e' && n.next != 'E' || from == n.to+1 || to == from || strings.ContainsAny(n.number, "eE^") || continues(n.text[to:n.end]) {
		return nil
	}
	return n.badExponent("in the exponent", from, to)
}

// badExponent says where there is a blank too much.
func (n numeral) badExponent(where string, from, to int) *fault {
	power := strings.TrimPrefix(superOrPlain("^"+n.text[from:to]), "+")
	return n.badNumber(to, "There is a space "+where+" of this number.", "Take the space out.", n.number+"e"+power)
}

// fractionBeside finds 3½.
//
// 3½ is a product by the rule of factors without a sign, and three and a half to
// all who write it.
func (n numeral) fractionBeside() *fault {
	if a, b, ok := isVulgar(n.next); ok {
		return n.badNumber(n.to+n.width, "A number and a fraction are side by side.", "Add them in brackets.", "("+n.number+"+"+a+"/"+b+")")
	}
	return nil
}

// superOrPlain turns ^8 or ⁸ into 8.
func superOrPlain(text string) string {
	text = strings.TrimSpace(text)
	if strings.HasPrefix(text, "^") {
		return strings.Map(writing.Sign, strings.TrimSpace(text[1:]))
	}
	return writing.OnTheLine(text)
}

// groups finds digits in groups of three: 1 280 000.
//
// Groups of three are one number: 1 280. Else a blank parts a whole number from its fraction,
// 3 1/2, or two numbers between which a sign is missing; but not a number from its unit, as
// in 0.05 1/m.
func (n numeral) groups() *fault {
	l, end, number := n.scanner, n.to, n.number
	if at := l.skip(end); at == end || l.digits(at) == at {
		return nil
	}
	joined, at, good := number, end, len(number) <= 3 && !strings.Contains(number, ".")
	for {
		next := l.skip(at)
		to := l.digits(next)
		if next == at || to == next {
			break
		}
		good = good && to-next == 3
		joined += l.text[next:to]
		at = to
		if at < l.end && l.text[at] == '.' {
			if to = l.digits(at + 1); to > at+1 {
				joined += l.text[at:to]
				at = to
			}
			break
		}
	}
	if open := len(l.open); open > 0 && l.open[open-1].sign == '[' && !(good && strings.Contains(l.text[l.open[open-1].at:l.end], ",")) {
		return l.listParts(" ")
	}
	if good {
		return l.badNumber(at, "A number has no spaces between its digits.", "Take the space out.", joined)
	}
	next := l.skip(end)
	if l.units().scan(next) > next { // 0.05 1/m
		return nil
	}
	if bad := l.wholeAndFraction(next, number); bad != nil {
		return bad
	}
	return l.badNumber(l.number(next, false), "There are two numbers side by side.", "Put `*` between them.",
		number+"*"+l.text[next:l.number(next, false)])
}
