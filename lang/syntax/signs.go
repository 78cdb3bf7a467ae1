package syntax

import (
	"strconv"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/limit"
)

// sign reads an operator, a bracket or a comparison.
func (l *scanner) sign(r rune, width int) *fault {
	at := Span{From: l.pos, To: l.pos + width}
	two := l.text[l.pos:min(l.pos+2, l.end)]
	switch two {
	case "**":
		return l.otherWay(2, "Write a power with ^.", "^")
	case "==":
		return l.otherWay(2, "One = is enough.", "=")
	case ":=":
		return l.otherWay(2, "Write `=` to define a name.", "=")
	case "<=", ">=":
		l.emit(signToken, l.pos+2)
		l.notPlain()
		return nil
	case "->":
		if l.converts(l.pos + 2) {
			return l.inUnit(l.pos + 2)
		}
	case "!=", "/=", "<>", "=<", "=>":
		if two == "=<" || two == "=>" {
			return l.otherWay(2, "The two signs are the wrong way round.", map[string]string{"=<": "<=", "=>": ">="}[two])
		}
		return l.otherWay(2, "There is no sign for \"not equal\" here. Use = < > ≤ ≥.")
	}
	switch {
	case r == '(' || r == '[' || r == '{':
		return l.bracket(byte(r), at)
	case r == ')' || r == ']' || r == '}':
		return l.closeBracket(byte(r), at)
	case r == '+' && strings.HasPrefix(l.text[l.pos:l.end], "+/-"):
		return notYet(Span{From: l.pos, To: l.pos + 3}, "A value with an uncertainty")
	case r == '±':
		return notYet(at, "A value with an uncertainty")
	case r == ',':
		if n := len(l.open); n > 0 && l.open[n-1].sign == '(' && !l.open[n-1].call && !l.open[n-1].with {
			if i := strings.IndexByte(l.text[at.To:l.end], ')'); i >= 0 {
				at.To += i + 1
			}
			return notYet(Span{From: l.open[n-1].at, To: at.To}, "A bracket with a comma in it, which is a vector,")
		}
		l.emit(signToken, at.To)
		return nil
	case r == '+', isMinus(r), r == '*', r == '/', r == '÷', r == '∕', r == '⁄', r == '^', isTimes(r), r == '√':
		l.emit(signToken, at.To)
		return nil
	case r == '→' && l.converts(at.To):
		return l.inUnit(at.To)
	case r == '=' && l.asks(at.To):
		return l.inUnit(l.skip(at.To) + 1)
	case r == '=', r == '<', r == '>', r == '≤', r == '≥', r == ':':
		l.emit(signToken, at.To)
		l.notPlain()
		return nil
	}
	return l.strange(r, at)
}

// asks tells whether a question mark and a unit follow: 100 km/h = ? m/s.
func (l *scanner) asks(end int) bool {
	mark := l.skip(end)
	return mark < l.end && l.text[mark] == '?' && l.converts(mark+1)
}

// otherWay says that a sign is known but written in another way here.
func (l *scanner) otherWay(n int, message string, readings ...string) *fault {
	at := Span{From: l.pos, To: l.pos + n}
	hint := ""
	if len(readings) > 0 {
		hint = "Write " + readings[0] + " instead of " + l.text[at.From:at.To] + "."
	}
	return &fault{finding.New(finding.NotWritten, at, message, hint, readings...)}
}

// bracket opens a bracket.
func (l *scanner) bracket(sign byte, at Span) *fault {
	if len(l.open) >= limit.Nesting {
		return tooDeep(at)
	}
	switch sign {
	case '[':
		return notYet(at, "A list in square brackets")
	case '{':
		return &fault{finding.New(finding.Unreadable, at, "Curly brackets can't be used here.", "Write round brackets.", "(")}
	}
	t := l.last(1)
	if t != nil && t.kind == numToken && t.to == l.pos && strings.Contains(t.text, ".") {
		if end := l.digits(l.pos + 1); end > l.pos+1 && end < l.end && l.text[end] == ')' {
			return notYet(Span{From: t.from, To: end + 1}, "A number with its uncertainty in brackets")
		}
	}
	b := bracket{sign: sign, at: l.pos, plain: true}
	if t != nil {
		b.call = t.kind == nameToken && t.call
		b.bare = t.kind == signToken && (t.text == "^" || t.text == "√")
	}
	l.open = append(l.open, b)
	l.emit(signToken, at.To)
	return nil
}

func tooDeep(at Span) *fault {
	return &fault{finding.New(finding.TooLong, at,
		"More than "+strconv.Itoa(limit.Nesting)+" brackets and signs are inside each other here.",
		"Split it into several lines.")}
}

// closeBracket closes a bracket, and reads the unit that may follow a bracket of
// written numbers.
func (l *scanner) closeBracket(sign byte, at Span) *fault {
	n := len(l.open)
	if n == 0 || sign != ')' {
		return &fault{finding.New(finding.Unreadable, at, "This bracket closes nothing.",
			"Take it out, or add the `(` that is missing.")}
	}
	b := l.open[n-1]
	l.open = l.open[:n-1]
	if t := l.last(1); t.kind == signToken && t.text == "(" {
		if b.call {
			return &fault{finding.New(finding.WrongCall, Span{From: b.at, To: at.To},
				"These brackets are empty.", "Write a value in them.")}
		}
		return &fault{finding.New(finding.Unreadable, Span{From: b.at, To: at.To},
			"There is nothing in these brackets.", "Write something in them, or take them out.")}
	}
	l.emit(signToken, at.To)
	if !b.plain || b.call {
		l.notPlain() // nor does the bracket around hold numbers only
	} else if !b.bare {
		l.unitHere(false)
	}
	return nil
}

// strange says what may be meant by a character that the language has not.
func (l *scanner) strange(r rune, at Span) *fault {
	switch r {
	case '|':
		rest := l.text[at.To:l.end]
		if i := strings.IndexByte(rest, '|'); i > 0 {
			inner := strings.TrimSpace(rest[:i])
			return &fault{finding.New(finding.NotWritten, Span{From: at.From, To: at.To + i + 1},
				"For the size without the sign, use abs( ).", "Write abs("+inner+").", "abs("+inner+")")}
		}
	case '!':
		return &fault{finding.New(finding.NotWritten, at, "There are no factorials here.", "Write the product out.")}
	case '#':
		return &fault{finding.New(finding.Unreadable, Span{From: at.From, To: l.end},
			"A remark needs its own line.", "Put it on the line before.")}
	case '"', '\'', '“', '”', '‘', '’':
		return &fault{finding.New(finding.Unreadable, at, "A quotation mark can't be used here.", "Take it out.")}
	case ';':
		return &fault{finding.New(finding.Unreadable, at, "One statement a line.", "Start a new line for the next one.")}
	case '≠':
		return l.otherWay(at.To-at.From, "There is no sign for \"not equal\" here. Use = < > ≤ ≥.")
	case '≈', '≅', '~':
		return &fault{finding.New(finding.NotWritten, at, "For \"about equal\", use = and within.", "Write it as in `check k = 257 N/m within 1 %`.")}
	case '°', '′', '″', '%', 'º':
		return &fault{finding.New(finding.Unreadable, at, "The unit "+string(r)+" comes directly after a number.",
			"Write a number before it, or show a value with `in "+string(r)+"`.")}
	case '.', '…':
		return &fault{finding.New(finding.Unreadable, at, "A point can only be part of a number.", "Write digits on both sides of it; for times write `*`.")}
	}
	return &fault{finding.New(finding.Unreadable, at, "The character "+string(r)+" can't be used here.", "Take it out.")}
}
