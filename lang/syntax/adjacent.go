package syntax

import (
	"slices"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/ops"
)

// adjacent looks through the tokens of a line for two operands side by side
// where no product is implied, and for notations of print that are written in
// another way here. What it lets pass, the expression's production takes for an
// implied product.
//
// Where m, g and h are names, m g h is let pass. What is refused is told by the
// first rule of a table that knows it, of which the last says only that there is
// no sign:
//
//	5 m per s      per is the sign / here
//	1/3 of m       of is the sign * here
//	20° C          the sign is °C
//	sin²(30°)      the power is behind the bracket
func adjacent(text string, tokens []token, known func(string) bool) *fault {
	for i := range tokens {
		at := among{text, tokens, i, known}
		if t := &tokens[i]; t.kind == unitToken || t.kind == nameToken && len(t.text) > 1 {
			if bad := first(tokenSlips, at); bad != nil {
				return bad
			}
		}
		if bad := at.uncertainDigits(); bad != nil {
			return bad
		}
		if i > 0 && tokens[i].begins() && tokens[i-1].ends() && !implied(tokens, i) && !namesBeside(tokens, i, known) {
			return first(sideSlips, at)
		}
	}
	return nil
}

// uncertainDigits finds 842(2) m and 2.0 (1) kg: a product, or a value with its uncertainty in
// brackets (JCGM 100:2008, 7.2.2), which is read directly behind a number with a point alone.
//
// 2.0(1) kg is read as 2.0 ± 0.1 kg (spread.go). With a blank, or without a point, the same
// signs are a product to one reader and a value with its uncertainty to the other.
func (p among) uncertainDigits() *fault {
	if p.i+4 >= len(p.tokens) {
		return nil
	}
	t := p.tokens[p.i : p.i+5]
	if t[0].kind != numToken || !t[1].sign("(") || t[2].kind != numToken || !t[3].sign(")") || t[4].kind != unitToken ||
		strings.Trim(t[2].text, "0123456789") != "" {
		return nil
	}
	at, unit := Span{From: t[0].from, To: t[4].to}, p.text[t[3].to:t[4].to]
	value := "(" + t[0].text + " ± " + t[2].text + ")" + unit
	switch _, places, point := strings.Cut(t[0].text, "."); {
	case point && t[1].from > t[0].to && len(t[2].text) <= 2 && strings.Trim(places, "0123456789") == "":
		value = t[0].text + "(" + t[2].text + ")" + unit
	case point, t[1].from > t[0].to, strings.Trim(t[0].text, "0123456789") != "":
		return nil
	}
	return &fault{finding.New(finding.TwoReadings, at, "`"+p.text[at.From:at.To]+"` may be a product, or a value with its uncertainty.",
		"Choose the one you mean.", value, t[0].text+"*"+t[2].text+unit)}
}

// namesBeside tells whether two names of the page stand side by side at i, the
// first perhaps with a power, and make a product.
//
// There must be a blank between them: mgh is one word, and no name if none is
// called so. With a word that has no value no product is made, as that word may be
// a slip or a remark.
func namesBeside(tokens []token, i int, known func(string) bool) bool {
	t, before := &tokens[i], &tokens[i-1]
	if known == nil || t.kind != nameToken || before.to == t.from {
		return false
	}
	before = baseOf(tokens, i-1)
	return before.kind == nameToken && !before.call && known(Canonical(before.text)) &&
		(known(Canonical(t.text)) || t.call && ops.IsFunction(t.text))
}

// implied tells whether the token at i goes on with an operand or a product that
// the tokens before it have begun, as print does without a sign.
//
// Such are 2πr, 2 sin(θ), (a+b)(a-b) and 4π√2. A number never follows: 2 3 could
// be a slip of 2.3, 23 or 2*3.
func implied(tokens []token, i int) bool {
	t, before := &tokens[i], &tokens[i-1]
	bracket := t.kind == signToken // ( or √
	function := t.kind == nameToken && t.call && ops.IsFunction(t.text)
	switch {
	case before.kind == nameToken:
		return before.call && t.text == "("
	case before.kind == unitToken:
		return t.kind == numToken // a mixed quantity; its production looks closer
	case before.kind == lineToken, before.kind == thatToken, t.kind == thatToken, t.kind == numToken:
		return false
	}
	before = baseOf(tokens, i-1) // 4π²m, x²(a+b): what counts is the base
	if before.kind == piToken {
		return bracket || t.kind == nameToken
	}
	return bracket || function || t.kind == piToken
}

// powerStart is the token with which the exponent begins whose last token is at i: its
// sign ^, or raised digits; -1 if that is none.
//
// Of x^-2 at the 2 it is the ^; of x² at the ² it is that.
func powerStart(tokens []token, i int) int {
	if tokens[i].kind == superToken {
		return i
	}
	from := i - 1
	if from > 0 && tokens[from].plusOrMinus() {
		from--
	}
	if tokens[i].kind == numToken && from >= 0 && tokens[from].sign("^") {
		return from
	}
	return -1
}

// baseOf is the last token of the base of the exponent that ends at i; the token itself
// where that is no exponent.
//
// What may follow a power without a sign is what may follow its base: 4π²m as 4πm, and x² (a+b)
// as x (a+b).
func baseOf(tokens []token, i int) *token {
	if power := powerStart(tokens, i); power > 0 {
		return &tokens[power-1]
	}
	return &tokens[i]
}

// operands are the two that stand side by side, with what goes on as a product
// without signs behind them.
//
// In a b c, of which none has a value, left is a and right is b*c: the offer has
// all of the product.
func (p among) operands() (left, right string, at Span) {
	from, to := operandStart(p.tokens, p.i-1), operandEnd(p.tokens, p.i)
	left, right = p.text[from:p.tokens[p.i-1].to], p.text[p.tokens[p.i].from:to]
	more, end := factorsAfter(p.text, p.tokens, to)
	return left, right + more, Span{From: from, To: end}
}

// ofProduct finds 3 % of m and 1/3 of m.
//
// A fraction goes into brackets, (1/3)*m, so that all of it is seen to be the
// share. A percentage stays as it is: 3 %*m.
func (p among) ofProduct() *fault {
	before := &p.tokens[p.i-1]
	if p.tokens[p.i].text == "of" && before.kind == nameToken && slices.Contains(extremes[:], before.text) && p.known != nil && !p.known(before.text) {
		return &fault{finding.New(finding.NotWritten, Span{From: before.from, To: p.tokens[p.i].to}, "There is no word for the "+before.text+" value of a curve.",
			"Its graph says where it is greatest and least, as in `graph y(t) against t from 0 s to 3 s`.")}
	}
	if p.tokens[p.i].text != "of" || before.kind != unitToken && before.kind != numToken && before.text != ")" || p.i+1 == len(p.tokens) {
		return nil
	}
	from, end := operandStart(p.tokens, p.i-1), operandEnd(p.tokens, p.i+1)
	share := p.text[from:before.to]
	if over := p.i - 3; over >= 0 && before.kind == numToken && p.tokens[over].kind == numToken && p.tokens[over+1].text == "/" {
		from = p.tokens[over].from
		share = "(" + p.text[from:before.to] + ")"
	}
	return &fault{finding.New(finding.NotWritten, Span{From: from, To: end}, "\"of\" means times here: write `*`.",
		"", share+"*"+p.text[p.tokens[p.i+1].from:end])}
}

// extremes are words for the greatest or least value of what is behind their of.
var extremes = [...]string{"maximum", "minimum", "max", "min", "greatest", "least", "largest", "smallest", "highest", "lowest"}

// shares are words for a number before what it is of.
//
// A name of the page goes before them: where half is given, half of it is that.
var shares = map[string]string{
	"half": "1/2", "third": "1/3", "quarter": "1/4", "fifth": "1/5", "tenth": "1/10",
	"twice": "2", "double": "2", "thrice": "3",
}

// shareWord finds half of 6 m, a third of d and twice 3 m.
//
// Before a or the they count too, a third of d. A fraction needs its of, and twice
// may do without.
func (p among) shareWord() *fault {
	word, next := p.i-1, p.i
	if article := p.tokens[word].text; article == "a" || article == "one" || article == "the" {
		word, next = word+1, next+1
	}
	name := p.tokens[word].text
	number := shares[name]
	if number == "" || p.known != nil && p.known(name) {
		return nil
	}
	of := next < len(p.tokens) && p.tokens[next].text == "of"
	if of {
		next++
	}
	if next >= len(p.tokens) || !of && strings.Contains(number, "/") {
		return nil
	}
	end := operandEnd(p.tokens, next)
	return &fault{finding.New(finding.NotWritten, Span{From: p.tokens[p.i-1].from, To: end}, "\""+name+"\" is the number "+number+" here.",
		"", number+"*"+p.text[p.tokens[next].from:end])}
}

// perQuotient finds 5 m per s.
//
// Nobody means a name per there: 5 m/s is offered, a unit with no blanks.
func (p among) perQuotient() *fault {
	if p.tokens[p.i].text != "per" || p.tokens[p.i-1].kind != unitToken || p.i+1 == len(p.tokens) {
		return nil
	}
	from, next := operandStart(p.tokens, p.i-1), &p.tokens[p.i+1]
	return &fault{finding.New(finding.NotWritten, Span{From: from, To: next.to}, "\"per\" after a number is the sign / here.",
		"Write / without spaces.", p.text[from:p.tokens[p.i-1].to]+"/"+p.text[next.from:next.to])}
}

// remarked finds m = 5 kg (mass).
//
// The words in the brackets have three letters or more and no value: with fewer,
// it could be a product with a name that is still to come.
func (p among) remarked() *fault {
	last := len(p.tokens) - 1
	if p.known == nil || p.tokens[p.i-1].kind != unitToken || p.tokens[p.i].text != "(" || p.tokens[last].text != ")" {
		return nil
	}
	for _, t := range p.tokens[p.i+1 : last] {
		if t.kind != nameToken || len(t.text) < 3 || p.known(Canonical(t.text)) {
			return nil
		}
	}
	return remark(p.text, p.tokens, Span{From: p.tokens[0].from, To: p.tokens[last].to}, p.tokens[p.i].from, strings.Trim(p.text[p.tokens[p.i].from:p.tokens[last].to], "()"))
}

// remark says of words that begin at a place behind a statement where they belong: to
// the name that it gives, else on the line before.
//
// For m = 5 kg (mass) the offer is m = 5 kg, mass. A line that names nothing keeps
// its statement alone, and the words go on a line of their own, # mass.
func remark(text string, tokens []token, line Span, from int, words string) *fault {
	statement := strings.TrimRightFunc(text[line.From:from], isBlank)
	_, named := functionHead(tokens)
	named = named || tokens[0].is(letText) || len(tokens) > 1 && tokens[0].kind == nameToken && tokens[1].is("=")
	if named && areWords(words) && !strings.Contains(words, "=") {
		with := statement + ", " + strings.TrimSpace(words)
		return &fault{finding.New(finding.NotWritten, line, "Words about a name come after a comma.", "", with)}
	}
	return &fault{finding.New(finding.NotWritten, line, "A remark needs its own line.",
		"Write `# "+strings.TrimSpace(words)+"` on the line before.", statement)}
}

const inHint = " Before the unit of a result, write `in`."

// sideBySide says that the token at i stands beside an operand.
//
// It is the last rule, for whatever no other knows. It offers the product, and,
// where the rest is a unit, to show the value in it: v^2 J may be v^2*J or v^2 in
// J. A blank before a bracket, f (x), may be a call too.
func (p among) sideBySide() *fault {
	text, tokens, i := p.text, p.tokens, p.i
	t, before := &tokens[i], &tokens[i-1]
	left, right, at := p.operands()
	gap := text[before.to:t.from]
	message := "There is no sign between these two factors."
	hint := "Put `*` between them."
	readings := []string{left + "*" + right}
	unit, end := shownIn(text, tokens, i)
	if base := baseOf(tokens, i-1); p.known != nil && unit != "" {
		if base.kind == nameToken && !base.call && !p.known(Canonical(base.text)) {
			unit = "" // ρ V g, of which none has a value
		}
	}
	if unit != "" {
		at.To = end
		readings = []string{left + "*" + strings.ReplaceAll(unit, " ", "*"), left + " in " + unit}
		if p.known != nil && !p.known(Canonical(t.text)) {
			readings = readings[1:]
		}
		hint += inHint
	}
	switch power := powerStart(tokens, i-1) >= 0; {
	case t.kind == nameToken && (before.kind == nameToken || power):
		if !power {
			message = "`" + left + "` and `" + right + "` are names with no sign between them."
		}
		if last := i == len(tokens)-1 || tokens[i+1].text == "in"; last && unit == "" {
			hint += inHint
		}
	case before.kind == nameToken && t.text == "(":
		message = "There is a space between `" + before.text + "` and its bracket."
		hint = "For a product write `*`; for a function take the space out."
		readings = append(readings, left+right)
	case before.kind == numToken && i > 1 && tokens[i-2].text == "√" && t.kind == nameToken && p.known != nil && !p.known(Canonical(t.text)):
		message, hint = "√ reaches over the number alone.", "Put brackets round what the root is of."
		for j := i + 1; j+1 < len(tokens); j++ { // √16 m²/s²
			if tokens[j].from == at.To && tokens[j].text == "/" && tokens[j+1].kind == nameToken && tokens[j+1].from == tokens[j].to {
				at.To = operandEnd(tokens, j+1)
			}
		}
		readings = []string{"√(" + before.text + " " + text[t.from:at.To] + ")"}
	case t.kind == nameToken && t.call && !ops.IsFunction(t.text):
		message = "`" + left + "` is directly before `" + t.text + "(`; only a built-in function can follow a number like that."
		if p.known == nil || p.known(Canonical(t.text)) {
			readings = append(readings, left+"*"+t.text+"*"+right[len(t.text):])
		}
	case before.kind == nameToken && t.kind == numToken && gap != "":
		message = "The name `" + before.text + "` and a number are side by side."
		if i == 1 && len(before.text) >= 4 && p.known != nil && !p.known(Canonical(before.text)) {
			hint, readings = "For a remark, begin the line with #.", nil // Problem 2
		}
	case before.kind == unitToken && t.call:
		message = "There is no sign between a quantity and the function after it."
	case before.kind == unitToken && t.kind == nameToken:
		message = "There is no sign between a quantity and the name after it."
	}
	return &fault{finding.New(finding.NamesTogether, at, message, hint, readings...)}
}

// factorsAfter goes on with a product of which two factors stand side by side
// without a sign: G m1 m2.
//
// The text of more begins with its sign: *m1*m2.
//
// An offer for half of a product would be refused at the next two factors.
func factorsAfter(text string, tokens []token, to int) (string, int) {
	var more strings.Builder
	for i := range tokens {
		t := &tokens[i]
		if t.from < to || i == 0 {
			continue
		}
		if !t.begins() || !tokens[i-1].ends() || implied(tokens, i) {
			break
		}
		to = operandEnd(tokens, i)
		more.WriteString("*" + text[t.from:to])
	}
	return more.String(), to
}

// operandStart returns where the operand begins whose last token is at i.
//
// The operand has its unit, its power and its brackets with it.
func operandStart(tokens []token, i int) int { return tokens[pieces(tokens).start(i)].from }

// operandEnd returns where the operand ends that begins at i.
func operandEnd(tokens []token, i int) int {
	return tokens[min(pieces(tokens).operand(i), len(tokens))-1].to
}
