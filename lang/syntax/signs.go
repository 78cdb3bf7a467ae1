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
		return l.otherWay(2, "A power is written with ^.", "^")
	case "==":
		return l.otherWay(2, "One = is enough.", "=")
	case ":=":
		return l.otherWay(2, "A name is given its value with =.", "=")
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
			return l.otherWay(2, "This comparison is written the other way round.", map[string]string{"=<": "<=", "=>": ">="}[two])
		}
		return l.otherWay(2, "There is no sign for \"not equal\" here; a check compares with = < > ≤ ≥.")
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
		return &fault{finding.New(finding.Unreadable, at, "Curly brackets have no meaning here.", "Write round brackets.", "(")}
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
		"More than "+strconv.Itoa(limit.Nesting)+" brackets, calls, signs and powers stand within each other here.",
		"Work it out in several lines, each with a name.")}
}

// closeBracket closes a bracket, and reads the unit that may follow a bracket of
// written numbers.
func (l *scanner) closeBracket(sign byte, at Span) *fault {
	n := len(l.open)
	if n == 0 || sign != ')' {
		return &fault{finding.New(finding.Unreadable, at, "This bracket closes nothing: no bracket is open here.",
			"Take it out, or open one before it.")}
	}
	b := l.open[n-1]
	l.open = l.open[:n-1]
	if t := l.last(1); t.kind == signToken && t.text == "(" {
		if b.call {
			return &fault{finding.New(finding.WrongCall, Span{From: b.at, To: at.To},
				"The brackets of this call are empty.", "Write what it is to be worked out for between them.")}
		}
		return &fault{finding.New(finding.Unreadable, Span{From: b.at, To: at.To},
			"There is nothing in these brackets.", "Write an expression between them, or take them out.")}
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
				"The size of a value without its sign is written abs( ) here.", "Write abs("+inner+").", "abs("+inner+")")}
		}
	case '!':
		return &fault{finding.New(finding.NotWritten, at, "Factorials are not part of this language.", "Write the product out.")}
	case '#':
		return &fault{finding.New(finding.Unreadable, Span{From: at.From, To: l.end},
			"A remark stands on a line of its own here.", "Put it on the line before.")}
	case '"', '\'', '“', '”', '‘', '’':
		return &fault{finding.New(finding.Unreadable, at, "A quotation mark has no meaning here.", "Take it out.")}
	case ';':
		return &fault{finding.New(finding.Unreadable, at, "A line holds one statement.", "Begin a new line for the next one.")}
	case '≠':
		return l.otherWay(at.To-at.From, "There is no sign for \"not equal\" here; a check compares with = < > ≤ ≥.")
	case '≈', '≅', '~':
		return &fault{finding.New(finding.NotWritten, at, "\"About equal\" is said with = and within.", "Write it as in `check k = 257 N/m within 1 %`.")}
	case '°', '′', '″', '%', 'º':
		return &fault{finding.New(finding.Unreadable, at, "The unit "+string(r)+" stands only directly after a written number.",
			"Write the number before it, or report a value with `in "+string(r)+"`.")}
	case '.', '…':
		return &fault{finding.New(finding.Unreadable, at, "A point stands only within a number here.", "Write digits on both sides of it; a product is written with *.")}
	}
	return &fault{finding.New(finding.Unreadable, at, "The character "+string(r)+" has no meaning here.", "Take it out.")}
}
