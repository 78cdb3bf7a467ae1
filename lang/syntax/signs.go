package syntax

import (
	"strconv"
	"strings"
	"unicode"

	"steelyard/lang/finding"
	"steelyard/lang/limit"
	"steelyard/units"
)

// sign reads an operator, a bracket or a comparison.
//
// Signs of two characters are looked for first: <= is no <. Then come remarks at the end of a
// line, brackets, and what each sign is in its place: ; and , are the commas of a list, of
// arguments and of a with; → and = ? are in where a unit follows; a comma in any other bracket
// parts the components of a vector.
//
// A minus may be any of the dashes that look like one, and × and · are * as well:
// the token keeps the sign as it was typed.
func (l *scanner) sign(r rune, width int) *fault {
	at := Span{From: l.pos, To: l.pos + width}
	for i := range otherSigns {
		if o := &otherSigns[i]; o.sign[0] == l.text[l.pos] && strings.HasPrefix(l.text[l.pos:l.end], o.sign) {
			return l.otherWay(o)
		}
	}
	switch l.text[l.pos:min(l.pos+2, l.end)] {
	case "<=", ">=":
		l.emit(signToken, l.pos+2)
		return nil
	case "->":
		if l.converts(l.pos + 2) {
			return l.inUnit(l.pos + 2)
		}
	}
	if words, ok := strings.CutPrefix(strings.TrimPrefix(l.text[l.pos:l.end], "/"), "/"); (ok || r == '#') && len(l.tokens) > 0 {
		return remark(l.text, l.tokens, Span{From: l.tokens[0].from, To: l.end}, l.pos, strings.TrimPrefix(words, "#"))
	}
	switch {
	case r == '(' || r == '[' || r == '{':
		return l.bracket(byte(r), at)
	case r == ')' || r == ']' || r == '}':
		return l.closeBracket(byte(r), at)
	case l.head == barsText && quotes[r] != 0:
		return l.place(r, at)
	case r == '|' && l.head != barsText: // there it ends a place
		return l.bar(at)
	case r == ';' && len(l.open) > 0 && l.open[len(l.open)-1].sign == '[':
		return l.listParts(";")
	case r == '+' && strings.HasPrefix(l.text[l.pos:l.end], "+/-"), r == '±':
		if before := strings.TrimRight(l.text[:l.pos], " \t"); len(before) > 0 && isDigit(rune(before[len(before)-1])) {
			return notSpread(at, "An uncertainty is a number of 0 or more.", "Write it like 0.842 ± 0.002 m.")
		}
		return notSpread(at, "± comes after a written number.", "Write it like 0.842 ± 0.002 m. A result has the uncertainty that follows from its givens.")
	case r == ',' && len(l.open) > 0 && l.open[len(l.open)-1].sign == '|':
		return &fault{finding.New(finding.Unreadable, at, "A magnitude has one value between its strokes.", "A vector is in brackets, as in |(3, 4) m|.")}
	case r == '→' && l.converts(at.To):
		return l.inUnit(at.To)
	case r == '=' && l.asks(at.To):
		return l.inUnit(l.skip(at.To) + 1)
	case strings.ContainsRune("+*/÷∕⁄^√,=<>≤≥:|", r), isMinus(r), isTimes(r):
		l.emit(signToken, at.To)
		return nil
	}
	return l.strange(r, at)
}

// asks tells whether a question mark and a unit follow: 100 km/h = ? m/s.
//
// So an exercise asks for another unit.
func (l *scanner) asks(end int) bool {
	mark := l.skip(end)
	return mark < l.end && l.text[mark] == '?' && l.converts(mark+1)
}

// otherSign is a sign that is known but written in another way here, or in none.
//
// Instead is empty where there is nothing to put in its place.
type otherSign struct{ sign, message, instead string }

const (
	turnedRound = "The two signs are the wrong way round."
	noNotEqual  = "There is no sign for \"not equal\" here. Use = < > ≤ ≥."
	plusMinus   = "This can mean ± or a minus. ± comes after a written number."
)

// Most are from programming languages, where == compares and ** is a power.
var otherSigns = []otherSign{
	{"**", "Write a power with ^.", "^"},
	{"==", "One = is enough.", "="},
	{":=", "Write `=` to define a name.", "="},
	{"=<", turnedRound, "<="},
	{"=>", turnedRound, ">="},
	{"!=", noNotEqual, ""},
	{"/=", noNotEqual, ""},
	{"<>", noNotEqual, ""},
	{"≠", noNotEqual, ""},
	{"+-", plusMinus, "-"},
	{"+−", plusMinus, "-"},
	{"+–", plusMinus, "-"},
}

// Where there is nothing to write instead, as for ≠, the sentence alone is told.
func (l *scanner) otherWay(o *otherSign) *fault {
	f := finding.New(finding.NotWritten, Span{From: l.pos, To: l.pos + len(o.sign)}, o.message, "")
	if o.instead != "" {
		f.Hint, f.Readings = "Write "+o.instead+" instead of "+o.sign+".", []string{o.instead}
	}
	return &fault{f}
}

// bracket opens a bracket.
//
// Square brackets hold the values of a list. Behind a name they would take one value out of
// it, which the language has no way for.
//
// Brackets are at most limit.Nesting deep, so that no line can exhaust the stack.
func (l *scanner) bracket(sign byte, at Span) *fault {
	if len(l.open) >= limit.Nesting {
		return tooDeep(at)
	}
	if sign == '{' {
		return l.curly(at)
	}
	t := l.last(1)
	if sign == '[' && t != nil && t.ends() && t.kind != unitToken {
		return &fault{finding.New(finding.NotWritten, at, "Square brackets hold the values of a list, as in [1.21, 1.19] s.",
			"For a product put `*` between them. One value can't be taken out of a list.")}
	}
	b := bracket{sign: sign, at: l.pos, first: len(l.tokens) + 1}
	if t != nil {
		b.call = sign == '(' && t.kind == nameToken && t.call
		b.bare = t.kind == signToken && (t.text == "^" || t.text == "√")
	}
	l.open = append(l.open, b)
	l.emit(signToken, at.To)
	return nil
}

// curly finds {3 + 4}, v_{0} and x^{2}: an index needs no brackets, and a number or a name
// as an exponent neither.
func (l *scanner) curly(at Span) *fault {
	f := finding.New(finding.Unreadable, at, "Curly brackets can't be used here.", "Write round brackets.")
	inside, _, closed := strings.Cut(l.text[at.To:l.end], "}")
	if inside = strings.TrimSpace(inside); !closed || inside == "" {
		return &fault{f}
	}
	f.At.To = at.To + strings.IndexByte(l.text[at.To:], '}') + 1
	switch before := lastRune(l.text[:at.From]); {
	case before == '_':
		inside, f.Hint = strings.ReplaceAll(inside, ",", ""), "An index needs no brackets."
	case before != '^' || strings.ContainsFunc(inside, func(r rune) bool { return !continuesName(r) }):
		inside = "(" + inside + ")"
	default:
		f.Hint = "This exponent needs no brackets."
	}
	f.Readings = []string{inside}
	return &fault{f}
}

// closing is the sign that closes a bracket.
func (b bracket) closing() string {
	switch b.sign {
	case '[':
		return "]"
	case '|':
		return "|"
	}
	return ")"
}

func tooDeep(at Span) *fault {
	return &fault{finding.New(finding.TooLong, at,
		"More than "+strconv.Itoa(limit.Nesting)+" brackets and signs are inside each other here.",
		"Split it into several lines.")}
}

// closeBracket closes a bracket, and reads the unit that may follow a bracket of
// written numbers.
//
// A bracket of written numbers is a number, and takes a unit: (10 - 4) m. The arguments of a
// function, an exponent and what is under a root do not.
func (l *scanner) closeBracket(sign byte, at Span) *fault {
	n := len(l.open)
	if n == 0 || l.open[n-1].closing() != string(sign) {
		opening := "("
		if sign == ']' {
			opening = "["
		}
		return &fault{finding.New(finding.Unreadable, at, "This bracket closes nothing.",
			"Take it out, or add the `"+opening+"` that is missing.")}
	}
	b := l.open[n-1]
	l.open = l.open[:n-1]
	if t := l.last(1); t.kind == signToken && (t.text == "(" || t.text == "[") {
		if b.call {
			return &fault{finding.New(finding.WrongCall, Span{From: b.at, To: at.To},
				"These brackets are empty.", "Write a value in them.")}
		}
		return &fault{finding.New(finding.Unreadable, Span{From: b.at, To: at.To},
			"There is nothing in these brackets.", "Write something in them, or take them out.")}
	}
	l.emit(signToken, at.To)
	if !b.call && !b.bare && plain(l.tokens[b.first:len(l.tokens)-1]) {
		if bad := l.exponentBehind(b.at); bad != nil {
			return bad
		}
		l.unitHere(false)
		return nil
	}
	l.productUnit()
	return nil
}

// strange says what may be meant by a character that the language has not.
//
// Each has a sentence that says what to write: a sign that is refused without one leaves the
// writer with nothing.
func (l *scanner) strange(r rune, at Span) *fault {
	if r == '∛' {
		return cubeRoot(l.text[l.skip(at.To):l.end], Span{From: at.From, To: l.skip(at.To)})
	}
	if r == '∫' {
		return &fault{finding.New(finding.NotSolved, at, "∫ is the area under a curve.", integral(l.text[at.To:l.end]))}
	}
	for _, s := range strangeSigns {
		if strings.ContainsRune(s.any, r) {
			if t := l.last(1); r == '.' && t != nil && figureWord(t.text) {
				return notFigures(Span{From: t.from, To: at.To}, t.text)
			}
			f := finding.New(s.id, at, s.message, s.hint)
			if rest, ok := strings.CutPrefix(l.text[at.To:l.end], "/"); ok && s.instead != "" {
				rest = strings.TrimLeft(strings.TrimLeftFunc(rest, unicode.IsLetter), " ")
				if r := firstRune(rest); !startsName(r) && r != '·' { // 0.32 €/kWh P, which would be a unit
					f.Readings = []string{s.instead}
				}
			}
			return &fault{f}
		}
	}
	if strings.ContainsRune("°′″%º", r) {
		return &fault{finding.New(finding.Unreadable, at, "The unit "+string(r)+" comes directly after a number.",
			"Write a number before it, or show a value with `in "+string(r)+"`.")}
	}
	return &fault{finding.New(finding.Unreadable, at, "The character "+string(r)+" can't be used here.", "Take it out.")}
}

// cubeRoot says how the root is written of what the rest of a line begins with: a bracket, or
// a name or a number.
func cubeRoot(rest string, at Span) *fault {
	n := strings.IndexFunc(rest+" ", func(r rune) bool { return !continuesName(r) && r != '.' })
	root := "cbrt"
	if !strings.HasPrefix(rest, "(") {
		root += "(" + rest[:n] + ")"
	}
	at.To += n
	f := finding.New(finding.NotWritten, at, "The cube root is written cbrt( ).", "", root)
	if n == 0 && root != "cbrt" {
		f.Readings = nil // nothing is under it
	}
	return &fault{f}
}

// integral says how the area is written of which the rest of a line has the function and
// what it is against: p dV.
//
// The bounds are an example in the unit that the letter usually has, so that it can be typed as
// it stands.
func integral(rest string) string {
	y, x := "F", "x"
	if words := strings.Fields(rest); len(words) > 1 && IsName(words[0]) && strings.HasPrefix(words[1], "d") && IsName(words[1][1:]) {
		y, x = words[0], words[1][1:]
	}
	from, to := "0", "2"
	if unit := units.Usual(Canonical(x)); unit != "" {
		from, to = from+" "+unit, to+" "+unit
	}
	return "Give " + y + " as a function, " + y + "(" + x + ") = …, and write `area under " + y + "(" + x + ") from " + from + " to " + to + "`."
}

// IsName tells whether a text has the form of a name.
//
// A word of the language has that form too.
func IsName(text string) bool {
	return text != "" && startsName(firstRune(text)) && !strings.ContainsFunc(text, func(r rune) bool { return !continuesName(r) })
}

// strangeSigns are characters that mean something elsewhere.
var strangeSigns = []struct {
	any           string
	id            finding.ID
	message, hint string
	instead       string // what is offered in its place before a slash, if anything
}{
	{"!", finding.NotWritten, "There are no factorials here.", "Write the product out.", ""},
	{"#", finding.Unreadable, "A remark needs its own line.", "Put it on the line before.", ""},
	{"\"'“”‘’", finding.Unreadable, "A quotation mark can't be used here.", "Take it out.", ""},
	{";", finding.Unreadable, "One statement a line.", "Start a new line for the next one.", ""},
	{"≈≅~", finding.NotWritten, "For \"about equal\", use = and within.", "Write it as in `check k = 257 N/m within 1 %`.", ""},
	{"∞", finding.Unreadable, "∞ isn't a number.", "Write a large value, such as 1000 s, and see whether a larger one changes the result.", ""},
	{"€$£¥₹", finding.Unreadable, units.NoMoney, units.Price, "1"},
	{".…", finding.Unreadable, "A point can only be part of a number.", "Write digits on both sides of it; for times write `*`.", ""},
}
