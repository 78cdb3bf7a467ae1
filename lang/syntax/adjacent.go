package syntax

import (
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/ops"
)

// adjacent looks through the tokens of a line for two operands side by side
// where no product is implied, and for notations of print that are written in
// another way here. What it lets pass, the expression's production takes for an
// implied product.
func adjacent(text string, tokens []token, known func(string) bool) *fault {
	for i := range tokens {
		at := among{text, tokens, i, known}
		if kind := tokens[i].kind; kind == nameToken || kind == unitToken {
			if bad := first(tokenSlips, at); bad != nil {
				return bad
			}
		}
		if i > 0 && startsOperand(&tokens[i]) && endsOperand(&tokens[i-1]) && !implied(tokens, i) && !namesBeside(tokens, i, known) {
			return first(sideSlips, at)
		}
	}
	return nil
}

// namesBeside tells whether two names of the page stand side by side at i, the
// first perhaps with a power, and make a product.
func namesBeside(tokens []token, i int, known func(string) bool) bool {
	t, before := &tokens[i], &tokens[i-1]
	if known == nil || t.kind != nameToken || before.to == t.from {
		return false
	}
	if power(tokens, i-1) {
		before = baseOf(tokens, i-1)
	}
	return before != nil && before.kind == nameToken && !before.call && known(Canonical(before.text)) &&
		(known(Canonical(t.text)) || t.call && ops.IsFunction(t.text))
}

// endsOperand tells whether an operand may end with a token.
func endsOperand(t *token) bool {
	switch t.kind {
	case numToken, unitToken, nameToken, piToken, thatToken, superToken, lineToken:
		return true
	case signToken:
		return t.text == ")"
	}
	return false
}

// startsOperand tells whether an operand may begin with a token.
func startsOperand(t *token) bool {
	switch t.kind {
	case numToken, nameToken, piToken, thatToken:
		return true
	case signToken:
		return t.text == "(" || t.text == "√"
	}
	return false
}

// implied tells whether the token at i goes on with an operand or a product that
// the tokens before it have begun, as print does without a sign.
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
	if power(tokens, i-1) {
		// 4π²m, x²(a+b): what counts is the base.
		base := baseOf(tokens, i-1)
		if base != nil && base.kind == piToken {
			return bracket || t.kind == nameToken
		}
		return bracket || function || t.kind == piToken
	}
	if before.kind == piToken {
		return bracket || t.kind == nameToken
	}
	// after a number or a closing bracket
	return bracket || function || t.kind == piToken
}

// power tells whether the token at i is a written exponent.
func power(tokens []token, i int) bool {
	if tokens[i].kind == superToken {
		return true
	}
	if tokens[i].kind != numToken || i == 0 {
		return false
	}
	p := &tokens[i-1]
	if p.kind == signToken && (p.text == "-" || p.text == "−" || p.text == "+") && i > 1 {
		p = &tokens[i-2]
	}
	return p.kind == signToken && p.text == "^"
}

// baseOf returns the last token of the base of the exponent at i.
func baseOf(tokens []token, i int) *token {
	if tokens[i].kind == superToken {
		if i > 0 {
			return &tokens[i-1]
		}
		return nil
	}
	for i--; i >= 0; i-- {
		if tokens[i].text == "^" && i > 0 {
			return &tokens[i-1]
		}
	}
	return nil
}

// operands are the two that stand side by side, with what goes on as a product
// without signs behind them.
func (p among) operands() (left, right string, at Span) {
	from, to := operandStart(p.tokens, p.i-1), operandEnd(p.tokens, p.i)
	left, right = p.text[from:p.tokens[p.i-1].to], p.text[p.tokens[p.i].from:to]
	more, end := factorsAfter(p.text, p.tokens, to)
	return left, right + more, Span{From: from, To: end}
}

// ofProduct finds 3 % of m and 1/3 of m; the step of a table is told as such.
func (p among) ofProduct() *fault {
	before := &p.tokens[p.i-1]
	if p.tokens[p.i].text != "of" || before.kind != unitToken && before.kind != numToken && before.text != ")" || p.i+1 == len(p.tokens) {
		return nil
	}
	if in := p.i - 2; before.text == "steps" && in >= 0 && p.tokens[in].text == "in" {
		at := Span{From: p.tokens[in].from, To: p.tokens[len(p.tokens)-1].to}
		return &fault{finding.New(finding.NotWritten, at, "The step of a table comes after `by`.", "", "by "+p.text[p.tokens[p.i+1].from:at.To])}
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

// shares are words for a number before what it is of.
var shares = map[string]string{
	"half": "1/2", "third": "1/3", "quarter": "1/4", "fifth": "1/5", "tenth": "1/10",
	"twice": "2", "double": "2", "thrice": "3",
}

// shareWord finds half of 6 m, a third of d and twice 3 m.
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
func (p among) perQuotient() *fault {
	if p.tokens[p.i].text != "per" || p.tokens[p.i-1].kind != unitToken || p.i+1 == len(p.tokens) {
		return nil
	}
	from, next := operandStart(p.tokens, p.i-1), &p.tokens[p.i+1]
	return &fault{finding.New(finding.NotWritten, Span{From: from, To: next.to}, "\"per\" after a number is the sign / here.",
		"Write / without spaces.", p.text[from:p.tokens[p.i-1].to]+"/"+p.text[next.from:next.to])}
}

// signAsked finds W is negative.
func (p among) signAsked() *fault {
	if p.tokens[p.i].text != "is" || p.i+1 == len(p.tokens) || signWords[p.tokens[p.i+1].text] == NoSign {
		return nil
	}
	sign := &p.tokens[p.i+1]
	line := Span{From: p.tokens[0].from, To: sign.to}
	return &fault{finding.New(finding.NotWritten, line, "Whether a value is "+sign.text+" is a question for check.",
		"Write `check` in front.", "check "+p.text[line.From:line.To])}
}

// remarked finds m = 5 kg (mass).
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
func remark(text string, tokens []token, line Span, from int, words string) *fault {
	statement := strings.TrimRightFunc(text[line.From:from], isBlank)
	_, named := functionHead(tokens)
	named = named || tokens[0].is(letText) || len(tokens) > 1 && tokens[0].kind == nameToken && tokens[1].is("=")
	if named && areWords(words) && !strings.Contains(words, "=") {
		with := statement + ", " + strings.TrimSpace(words)
		return &fault{finding.New(finding.NotWritten, line, "Words about a name come after a comma.", "Write `"+with+"`.", with)}
	}
	return &fault{finding.New(finding.NotWritten, line, "A remark has a line of its own.",
		"Write `# "+strings.TrimSpace(words)+"` on the line before.", statement)}
}

// sideBySide says that the token at i stands beside an operand.
func (p among) sideBySide() *fault {
	text, tokens, i := p.text, p.tokens, p.i
	t, before := &tokens[i], &tokens[i-1]
	left, right, at := p.operands()
	gap := text[before.to:t.from]
	message := "There is no sign between these two factors."
	hint := "Put `*` between them."
	readings := []string{left + "*" + right}
	unit, end := shownIn(text, tokens, i)
	if base := before; p.known != nil && unit != "" {
		if power(tokens, i-1) {
			base = baseOf(tokens, i-1)
		}
		if base != nil && base.kind == nameToken && !base.call && !p.known(Canonical(base.text)) {
			unit = "" // ρ V g, of which none has a value
		}
	}
	if unit != "" {
		at.To = end
		readings = []string{left + "*" + strings.ReplaceAll(unit, " ", "*"), left + " in " + unit}
		if p.known != nil && !p.known(Canonical(t.text)) {
			readings = readings[1:]
		}
		hint += " To say the unit that a value is shown in, write `in` before it."
	}
	switch {
	case before.kind == nameToken && t.kind == nameToken, power(tokens, i-1) && t.kind == nameToken:
		if !power(tokens, i-1) {
			message = "`" + left + "` and `" + right + "` are names with no sign between them."
		}
		if last := i == len(tokens)-1 || tokens[i+1].text == "in"; last && unit == "" {
			hint += " To say the unit that a value is shown in, write `in` before it."
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
func factorsAfter(text string, tokens []token, to int) (string, int) {
	var more strings.Builder
	for i := range tokens {
		t := &tokens[i]
		if t.from < to || i == 0 {
			continue
		}
		if !startsOperand(t) || !endsOperand(&tokens[i-1]) || implied(tokens, i) {
			break
		}
		to = operandEnd(tokens, i)
		more.WriteString("*" + text[t.from:to])
	}
	return more.String(), to
}

// operandStart returns where the operand begins whose last token is at i.
func operandStart(tokens []token, i int) int {
	for power(tokens, i) && i > 0 {
		if tokens[i].kind == superToken {
			i--
			continue
		}
		for i > 0 && tokens[i].text != "^" {
			i--
		}
		i--
		if i < 0 {
			return tokens[0].from
		}
	}
	if tokens[i].text == ")" {
		depth := 0
		for ; i > 0; i-- {
			switch tokens[i].text {
			case ")":
				depth++
			case "(":
				depth--
			}
			if depth == 0 {
				break
			}
		}
		if i > 0 && tokens[i-1].kind == nameToken && tokens[i-1].call {
			i--
		}
		return tokens[i].from
	}
	if i > 0 && (tokens[i].kind == unitToken || tokens[i].kind == lineToken) {
		return operandStart(tokens, i-1)
	}
	if i > 0 && tokens[i-1].text == "√" {
		i--
	}
	return tokens[i].from
}

// operandEnd returns where the operand ends that begins at i.
func operandEnd(tokens []token, i int) int {
	if tokens[i].text == "√" && i+1 < len(tokens) {
		return operandEnd(tokens, i+1)
	}
	end := tokens[i].to
	if tokens[i].kind == nameToken && tokens[i].call && i+1 < len(tokens) {
		i++
	}
	if tokens[i].text == "(" {
		depth := 0
		for ; i < len(tokens); i++ {
			switch tokens[i].text {
			case "(":
				depth++
			case ")":
				depth--
			}
			end = tokens[i].to
			if depth == 0 {
				break
			}
		}
	}
	for i+1 < len(tokens) {
		n := &tokens[i+1]
		switch {
		case n.kind == superToken, n.kind == unitToken && tokens[i].kind == numToken, n.kind == lineToken:
			i++
		case n.text == "^" && i+2 < len(tokens) && tokens[i+2].kind == numToken:
			i += 2
		default:
			return end
		}
		end = tokens[i].to
	}
	return end
}

func isSignText(s string) bool { return s == "-" || s == "−" || s == "+" }

func plainMinus(s string) string {
	if s == "−" {
		return "-"
	}
	return s
}
