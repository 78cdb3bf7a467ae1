package syntax

import (
	"io"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/alecthomas/participle/v2/lexer"

	"steelyard/lang/finding"
	"steelyard/lang/limit"
	"steelyard/lang/ops"
)

// language is the lexer's definition that the grammar is built on.
type language struct{}

// Symbols implements lexer.Definition.
//
// A Sign is any sign or bracket, and a Word one that the language keeps in this place: what
// a grammar writes as 'with' is a token of either kind with that text.
func (language) Symbols() map[string]lexer.TokenType {
	return map[string]lexer.TokenType{
		"EOF": eofToken, "Number": numToken, "Unit": unitToken, "Name": nameToken, "Word": wordToken, "Pi": piToken,
		"That": thatToken, "Super": superToken, "Sign": signToken, "Line": lineToken,
	}
}

// Lex implements lexer.Definition. Nobody asks: a production is given tokens, since what a
// word is depends on the statement that it stands in.
func (language) Lex(string, io.Reader) (lexer.Lexer, error) { return &tokenStream{}, nil }

// bracket is an open bracket while its line is read.
type bracket struct {
	sign  byte
	at    int
	first int  // the token that is the first within it
	call  bool // the arguments of a function
	bare  bool // an exponent, or under a root
	with  bool // values are replaced in it, with commas between them
}

// plain tells whether tokens are written numbers and signs between them alone, so that (10 - 4) m
// has a unit, and (x - 4) m has none: there m is a factor.
func plain(tokens []token) bool {
	for i := range tokens {
		switch t := &tokens[i]; t.kind {
		case numToken, piToken, superToken:
		case signToken:
			if _, compared := t.compares(); compared || t.text == ":" || t.text == "|" {
				return false
			}
		default:
			return false
		}
	}
	return true
}

// scanner turns a range of a text into tokens.
//
// It decides by place alone what a word is, so that a line reads the same on every page: a
// unit follows a written number, a bracket of written numbers or the word in; all else is a
// name. What it keeps in mind for that is the open brackets and the tokens so far.
type scanner struct {
	text   string
	pos    int
	end    int
	head   string // the word of the statement, if it is one's first line
	tokens []token
	open   []bracket
	ranges int  // `from` whose `to` has not come yet
	facing bool // the direction of a vector may follow
	bare   bool // a function without brackets has been read
}

// scan reads the tokens of a range of text; head is the word of the statement
// that the range follows.
func scan(text string, from, to int, head string) ([]token, *fault) {
	return scanInto(nil, text, from, to, head)
}

// scanInto is scan where there may be room for the tokens.
//
// Reading ends at the first fault. A bracket that is never shut is told last, so that a slip
// within it comes first.
func scanInto(room []token, text string, from, to int, head string) ([]token, *fault) {
	l := scanner{text: text, pos: from, end: to, head: head, tokens: room[:0]}
	if room == nil {
		l.tokens = make([]token, 0, min((to-from)/2+4, 256))
	}
	if head != "" {
		l.emit(wordToken, from+len(head))
	}
	for {
		l.pos = l.skip(l.pos)
		if l.pos >= l.end {
			break
		}
		if bad := l.one(); bad != nil {
			return l.tokens, bad
		}
	}
	if n := len(l.open); n > 0 {
		b := l.open[n-1]
		return l.tokens, &fault{finding.New(finding.Incomplete, Span{From: b.at, To: b.at + 1},
			"This bracket isn't closed.", "Add the `"+b.closing()+"` that is missing.")}
	}
	if l.bare {
		l.tokens = bracketed(l.tokens)
	}
	return raisedUnits(l.text, l.tokens), nil
}

func (l *scanner) units() unitScan { return unitScan{text: l.text, end: l.end} }

func (l *scanner) skip(pos int) int { return l.units().skip(pos) }

// emit adds a token that ends at to.
//
// It begins where the scanner is, which goes on behind it.
func (l *scanner) emit(kind lexer.TokenType, to int) *token {
	l.tokens = append(l.tokens, token{kind: kind, from: l.pos, to: to, text: l.text[l.pos:to]})
	l.pos = to
	return &l.tokens[len(l.tokens)-1]
}

// last returns the token before, at most n back.
//
// 1 is the last one; nil where there are not so many.
func (l *scanner) last(n int) *token {
	if len(l.tokens) < n {
		return nil
	}
	return &l.tokens[len(l.tokens)-n]
}

// one reads one token, with the unit that follows it.
//
// A number may begin with its point (.5), and ½ is one. An @ begins the line that a name is
// taken from: v@12.
func (l *scanner) one() *fault {
	r, n := utf8.DecodeRuneInString(l.text[l.pos:l.end])
	switch {
	case r >= '0' && r <= '9', r == '.' && l.pos+1 < l.end && l.text[l.pos+1] >= '0' && l.text[l.pos+1] <= '9':
		return l.writtenNumber()
	case r == 'π':
		l.pi(n)
	case startsName(r):
		return l.word()
	case isSuper(r):
		l.super()
	case r == '@':
		l.emit(lineToken, l.digits(l.pos+1))
	default:
		if _, _, ok := isVulgar(r); ok {
			return l.writtenNumber()
		}
		return l.sign(r, n)
	}
	return nil
}

// underRoot tells whether the last number stands under a bare root, √16 m²: how far
// that reaches is asked.
func (l *scanner) underRoot() bool { return l.last(2).sign("√") }

// isBare tells whether a number that begins here is an exponent, or stands under
// a bare root.
//
// In x^2 m the m is no unit of the 2, and √2 m may be the root of 2 m: neither is decided
// here.
func (l *scanner) isBare() bool {
	t := l.last(1)
	if t == nil {
		return false
	}
	if t.kind == signToken && (t.text == "-" || t.text == "−" || t.text == "+") {
		if t = l.last(2); t == nil {
			return false
		}
	}
	return t.kind == signToken && (t.text == "^" || t.text == "√")
}

// Slips within the number are told before it is taken, since half of 1,280 is a number too.
func (l *scanner) writtenNumber() *fault {
	bare := l.isBare()
	end := l.number(l.pos, bare)
	if bad := l.mistyped(end); bad != nil {
		return bad
	}
	l.emit(numToken, end)
	if !bare {
		return l.numberGoesOn()
	} else if !l.underRoot() {
		l.productUnit()
	}
	return nil
}

// unitHere reads a unit if one stands here.
//
// Alone says that it is behind in, where anything that looks like a unit is one.
// Whether it has the text of a known unit is not asked.
func (l *scanner) unitHere(alone bool) bool {
	at := l.skip(l.pos)
	for _, per := range [...]string{"/°C", "/°F"} { // no name has the sign of degrees
		if rest, ok := strings.CutPrefix(l.text[at:l.end], per); ok && !alone && !continuesName(firstRune(rest)) {
			l.pos = at
			l.emit(unitToken, at+len(per)).text = "1" + per
			return true
		}
	}
	u := l.units()
	u.alone = alone
	if t := l.last(2); t != nil && t.kind == nameToken && !t.call && isDegree(u.at(at)) && runsIntoFunction(t.text) {
		u.end = at + utf8.RuneLen(u.at(at)) // sin 30°/m is sin(30°)/m
	}
	if l.head == barsText {
		if then := strings.Index(l.text[at:l.end], " then "); then >= 0 {
			u.end = at + then
		}
	}
	end := u.scan(at)
	if end == at {
		return false
	}
	l.pos = at
	l.emit(unitToken, end)
	return true
}

// pi reads π, and rad or sr after it.
//
// Of all names π alone takes a unit, rad or sr, as in 2π rad: with any other word behind it,
// it is a factor.
func (l *scanner) pi(width int) {
	l.emit(piToken, l.pos+width)
	if word := l.units().word(l.skip(l.pos)); word == "rad" || word == "sr" {
		l.unitHere(false)
	}
}

// word reads a name, or a word that the language keeps.
//
// The words of clauses are kept in every line. Those of one statement are kept in that one
// alone, so that sign and of may be names elsewhere, and those of a direction behind its at.
// A range has its to after its from;
// any other to, before a unit, is in: 5 km to m.
//
// A name directly before a bracket is called; so is a function of several letters with a
// blank between: sin (30°). The function u( ) has one letter, which may be a name.
func (l *scanner) word() *fault {
	if t := l.last(1); t != nil && t.kind == numToken && l.timesTen(l.pos) > l.pos {
		l.emit(signToken, l.pos+1).text = "×" // 10^3x10^2, as in 3x10^2
		return nil
	}
	end := l.pos
	for end < l.end {
		r, n := utf8.DecodeRuneInString(l.text[end:l.end])
		if !continuesName(r) {
			break
		}
		end += n
	}
	end = l.units().beforeDecimal(l.pos, end)
	if end-l.pos > limit.Name {
		return &fault{finding.New(finding.TooLong, Span{From: l.pos, To: end},
			"This name is too long: a name has at most "+strconv.Itoa(limit.Name)+" letters.", "Use a shorter name.")}
	}
	switch word := l.text[l.pos:end]; word {
	case "pi":
		l.pi(2)
		return nil
	case "that":
		l.emit(thatToken, end)
		return nil
	case "in":
		return l.inUnit(end)
	case "to":
		if l.ranges == 0 && l.units().word(l.skip(end)) != "the" && l.converts(end) {
			return l.inUnit(end)
		}
		l.ranges = max(l.ranges-1, 0)
		l.emit(wordToken, end)
		return nil
	case "for", "from", "by", "and", "where", "within", "against", "at", "with":
		if n := len(l.open); n > 0 && word == "with" {
			l.open[n-1].with = true
		}
		if word == "from" {
			l.ranges++
		}
		l.facing = word == "at"
		l.emit(wordToken, end)
		return nil
	case slopeText, areaText:
		if second := l.skip(end); readsCurve(word, l.units().word(second)) {
			l.emit(wordToken, end)
			l.pos = second
			l.emit(wordToken, second+len(l.units().word(second)))
			return nil
		}
		fallthrough
	default:
		if l.keeps(word) {
			l.emit(wordToken, end)
			return nil
		}
	}
	if word := l.text[l.pos:end]; strings.Contains(word, "pi") && strings.Contains(Canonical(word), "π") {
		return &fault{finding.New(finding.NameKind, Span{From: l.pos, To: end},
			"π is always the number, so it can't be part of a name.", "Use another name, or write `*` after pi.")}
	}
	t := l.emit(nameToken, end)
	t.call = l.text[end:min(end+1, l.end)] == "(" ||
		ops.IsFunction(t.text) && len(t.text) > 1 && l.skip(end) < l.end && l.text[l.skip(end)] == '('
	l.bare = l.bare || !t.call && runsIntoFunction(t.text)
	return nil
}

// keeps tells whether a word belongs to the statement in this place: figures
// after a number, `is negative` in a check, the words of `round halves to even`.
//
// In any other line these may be names: is = 3 and figures = 2 are read.
func (l *scanner) keeps(word string) bool {
	t := l.last(1)
	switch word {
	case "north", "east", "south", "west", "above", "below":
		return l.facing && t != nil && (t.ends() || t.is("of"))
	case "along", "across":
		next := firstRune(l.text[l.skip(l.pos+len(word)):l.end])
		return t != nil && t.ends() && (startsName(next) || isDigit(next) || strings.ContainsRune("(-−√.", next))
	case "figure", "figures", "point", "points":
		return t != nil && t.kind == numToken && (l.head == "report" || l.head == "results" || word != "point" && word != "points" && l.within("round"))
	case "is":
		return l.head == "check" && t != nil && len(l.open) == 0
	case "negative", "positive", "zero":
		return t != nil && t.kind == wordToken && t.text == "is"
	case "sign":
		return l.head == "report" && len(l.tokens) == 1 && l.units().word(l.skip(l.pos+4)) == "of"
	case "of":
		return t != nil && t.kind == wordToken && (l.head == "report" && t.text == "sign" || l.facing && facing(t.text))
	case "halves", "even", "away":
		return l.head == "round"
	case "head":
		return l.head == "arrows" && l.units().word(l.skip(l.pos+len(word))) == "to"
	}
	return false
}

// within tells whether the bracket that is open is that of a function.
func (l *scanner) within(function string) bool {
	n := len(l.open)
	return n > 0 && l.open[n-1].call && l.tokens[l.open[n-1].first-2].text == function
}

// converts tells whether a unit follows what ends here, and an operand is before:
// `to`, -> and = ? are `in` there.
//
// So 5 km to m is 5 km in m, and the to of from 0 s to 2 s is that of a range.
func (l *scanner) converts(end int) bool {
	next := l.skip(end)
	u := unitScan{text: l.text, end: l.end, alone: true}
	unit := u.scan(next)
	return len(l.tokens) > 0 && l.last(1).ends() && len(l.open) == 0 && unit > next && u.at(u.skip(unit)) != '=' && l.head != "results" && l.head != "round"
}

// inUnit reads `in` and the unit after it. In is never inches: those are inch.
//
// What follows in is a unit and nothing else, and is read as far as it goes. Where none
// follows, in may have been meant as inches, 5 in, or as a name: each is told.
func (l *scanner) inUnit(end int) *fault {
	before := l.last(1)
	from := l.pos
	next := l.skip(end)
	u := unitScan{text: l.text, end: l.end, alone: true}
	if u.scan(next) == next && (next >= l.end || l.text[next] != '1') {
		if before == nil && next < l.end && l.text[next] == '=' || before != nil && before.kind == wordToken {
			return keptWord(Span{From: from, To: end}, "in")
		}
		if before != nil && before.kind == numToken {
			n := l.text[before.from:before.to]
			at := Span{From: before.from, To: end}
			return &fault{finding.New(finding.NotWritten, at, "`in` comes before the unit of a result; the inch is written `inch`.",
				"Write `inch`.", n+" inch")}
		}
		return &fault{finding.New(finding.Unreadable, Span{From: from, To: end},
			"The unit is missing after `in`.", "Write one, as in `in N/m`.")}
	}
	l.emit(wordToken, end).text = "in"
	if !l.unitHere(true) {
		l.pos = next // the unit 1 of pure numbers
		l.emit(unitToken, next+1)
	}
	return nil
}

// super reads raised digits: the ² of m² where m is a name, the ⁻¹² of x⁻¹². Those
// of a unit are a part of the unit.
func (l *scanner) super() {
	l.emit(superToken, l.end-len(strings.TrimLeftFunc(l.text[l.pos:l.end], isSuper)))
	l.productUnit()
}
