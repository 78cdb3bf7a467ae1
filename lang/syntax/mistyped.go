package syntax

import (
	"strings"
	"unicode/utf8"

	"steelyard/lang/finding"
	"steelyard/units/writing"
)

// mistyped finds what is wrong round a written number that ends at end: a
// decimal comma, digits in groups, x for ×, a blank before an exponent, the
// marks for feet and inches.
func (l *scanner) mistyped(end int) *fault {
	number := l.text[l.pos:end]
	rest := l.text[end:l.end]
	if rest == "" {
		return nil
	}
	switch c := rest[0]; {
	case c == ' ' || c == '\t' || c >= utf8.RuneSelf:
		if bad := l.afterBlank(end, number); bad != nil {
			return bad
		}
	case c == ',':
		return l.comma(end)
	case c == '.':
		return l.point(end, number)
	case c == '\'' || c == '"':
		if bad := l.apostrophes(end, number); bad != nil {
			return bad
		}
		return l.feet(end, number, rest)
	case c == 'e' || c == 'E':
		if to := l.signedDigits(end + 1); to > end+1 {
			return l.badNumber(to, "This number has two exponents.", "Write one.")
		}
		if from := l.skip(end + 1); from > end+1 && !strings.ContainsAny(number, "eE^") {
			if to := l.signedDigits(from); to > from && !continues(l.text[to:l.end]) {
				power := strings.TrimPrefix(superOrPlain("^"+l.text[from:to]), "+")
				return l.badNumber(to, "There is a space in the exponent of this number.", "Take the space out.", number+"e"+power)
			}
		}
	}
	if r, n := utf8.DecodeRuneInString(rest); r >= utf8.RuneSelf {
		if a, b, ok := isVulgar(r); ok {
			return l.badNumber(end+n, "A number and a fraction are side by side.", "Add them in brackets.", "("+number+"+"+a+"/"+b+")")
		}
		if r == '’' || r == '”' {
			if bad := l.apostrophes(end, number); bad != nil {
				return bad
			}
			return l.feet(end, number, rest)
		}
	}
	return nil
}

func (l *scanner) badNumber(to int, message, hint string, readings ...string) *fault {
	return &fault{finding.New(finding.BadNumber, Span{From: l.pos, To: to}, message, hint, readings...)}
}

// comma finds 1,280 and 0,5. Between the arguments of a call a comma is right.
func (l *scanner) comma(end int) *fault {
	if n := len(l.open); n > 0 && l.open[n-1].call {
		return nil
	}
	at, groups := end, 0
	whole := l.text[l.pos:end]
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
func (l *scanner) point(end int, number string) *fault {
	if to := l.digits(end + 1); to > end+1 {
		return l.badNumber(to, "This number has two decimal points.", "Write one.")
	}
	if strings.ContainsAny(number, ".e^") {
		return nil
	}
	return l.badNumber(end+1, "A digit is missing after the decimal point.", "Write "+number+".0, or take the point out.", number+".0", number)
}

// feet finds 5' and 6".
func (l *scanner) feet(end int, number, rest string) *fault {
	r, n := utf8.DecodeRuneInString(rest)
	if r == '"' || r == '”' {
		return &fault{finding.New(finding.NotWritten, Span{From: l.pos, To: end + n},
			"The mark "+string(r)+" could mean inches or seconds of arc.", "Write inch, or ″ for seconds of arc.", number+" inch", number+"″")}
	}
	return &fault{finding.New(finding.NotWritten, Span{From: l.pos, To: end + n},
		"The mark "+string(r)+" could mean feet or minutes of arc.", "Write ft, or ′ for minutes of arc.", number+" ft", number+"′")}
}

// superOrPlain turns ^8 or ⁸ into 8.
func superOrPlain(text string) string {
	text = strings.TrimSpace(text)
	if strings.HasPrefix(text, "^") {
		return strings.Map(func(r rune) rune {
			if isMinus(r) {
				return '-'
			}
			return r
		}, strings.TrimSpace(text[1:]))
	}
	return writing.OnTheLine(text)
}

// afterBlank finds what follows a number after a blank: 1 e3, 1 280.
func (l *scanner) afterBlank(end int, number string) *fault {
	at := l.skip(end)
	if at == end || at >= l.end {
		return nil
	}
	switch c := l.text[at]; {
	case c == 'e' || c == 'E':
		to := l.signedDigits(at + 1)
		if to == at+1 {
			return nil
		}
		if r, _ := utf8.DecodeRuneInString(l.text[to:l.end]); continuesName(r) && to < l.end {
			return nil
		}
		if strings.ContainsAny(number, "eE^") {
			return l.badNumber(to, "This number has two exponents.", "Write one.")
		}
		power := strings.TrimPrefix(superOrPlain("^"+l.text[at+1:to]), "+")
		return l.badNumber(to, "There is a space before the exponent of this number.", "Take the space out.", number+"e"+power)
	case c >= '0' && c <= '9':
		return l.groups(end, number)
	}
	return nil
}

// groups finds digits in groups of three: 1 280 000.
func (l *scanner) groups(end int, number string) *fault {
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
