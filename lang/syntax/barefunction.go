package syntax

import (
	"slices"
	"strings"

	"steelyard/lang/ops"
	"steelyard/units/writing"
)

// bareFunction tells whether print writes a function without brackets round its
// argument, where that is one number or name: sin 30°, cos θ.
//
// The list is short on purpose: exp x and sqrt x are not printed so.
func bareFunction(name string) bool {
	switch name {
	case "sin", "cos", "tan", "ln":
		return true
	}
	return false
}

// runsIntoFunction tells whether a word is sin, cos or tan, or runs into one: mgcos.
func runsIntoFunction(word string) bool { return bareFunction(word[max(0, len(word)-len("cos")):]) }

// functionWord tells whether a word before an operand is a function: 2 log 100. Only
// min is a unit, too.
func functionWord(word string) bool {
	return word == "log" || len(word) > 1 && word != "min" && ops.IsFunction(word)
}

// operandNext tells whether the argument of such a function may begin with r.
func operandNext(r rune) bool { return r >= '0' && r <= '9' || r == 'π' || startsName(r) }

// bracketed puts brackets of no width round the argument of a function that has
// none, where it can reach no further: before the sign of a sum, another function
// or the end. What sin θ/2 and sin θ^2 mean is asked. A power of the function goes behind
// its argument, so that sin²θ is sin(θ)²; there sin²θ/2 is asked.
//
// sin θ + 1, cos 30° and 2 sin θ cos θ have one reading each, and print has no other way to
// write them. The brackets have no width, so that a caret still points into the line as it was
// typed.
func bracketed(tokens []token) []token {
	for i := 0; i+1 < len(tokens); i++ {
		tokens = functionApart(tokens, i)
		t := &tokens[i]
		if t.kind != nameToken || t.call || !bareFunction(t.text) {
			continue
		}
		power := powerOfFunction(tokens, i+1)
		from := i + 1 + power
		if from == len(tokens) {
			break
		}
		if power > 0 {
			tokens = functionApart(tokens, from)
		}
		arg := &tokens[from]
		if power > 0 && arg.sign("(") {
			tokens[i].call = true
			moved(tokens, i+1, from, pieces(tokens).closing(from)+1)
			continue
		}
		if arg.kind != numToken && arg.kind != piToken && (arg.kind != nameToken || arg.call) || bareFunction(arg.text) {
			continue
		}
		end := from + 1
		if end < len(tokens) && tokens[end].kind == unitToken {
			if unit := tokens[end].text; !(isMark(firstRune(unit)) && isMark(lastRune(unit))) && unit != "rad" && unit != "deg" {
				continue // sin 2θ, sin 30°^2
			}
			end++
		}
		inDegrees := isDegree(firstRune(tokens[end-1].text)) // sin 30°/m: the angle is written out
		if end < len(tokens) && !endsArgument(&tokens[end]) && !(inDegrees && (tokens[end].over() || tokens[end].times())) && !(power > 0 && endsSquared(tokens[end:])) {
			continue
		}
		tokens[i].call = true
		to := tokens[end-1].to
		tokens = slices.Insert(tokens, end, token{kind: signToken, from: to, to: to, text: ")"})
		tokens = slices.Insert(tokens, from, token{kind: signToken, from: tokens[from-1].to, to: tokens[from-1].to, text: "("})
		moved(tokens, i+1, from, end+2)
		i = end
	}
	return tokens
}

// functionApart parts a name that ends in a function with a power, as nobody calls a
// quantity: I0cos of I0cos²θ.
//
// I0cos²θ is three words in print and one here; the power behind the function says where it
// ends.
func functionApart(tokens []token, i int) []token {
	t := &tokens[i]
	n := len(t.text) - len("cos")
	if t.kind != nameToken || t.call || n < 1 || ops.IsFunction(t.text) || !bareFunction(t.text[n:]) || i+1 == len(tokens) {
		return tokens
	}
	power := powerOfFunction(tokens, i+1)
	if next := i + 1 + power; power == 0 || next == len(tokens) || !tokens[next].begins() {
		return tokens
	}
	function := token{kind: nameToken, from: t.from + n, to: t.to, text: t.text[n:]}
	t.to, t.text = t.from+n, t.text[:n]
	return slices.Insert(tokens, i+1, function)
}

// powerOfFunction is how many tokens the power has that stands at i, between a function and
// its argument: a whole number above 1, since sin⁻¹ may be two things.
func powerOfFunction(tokens []token, i int) int {
	switch t := &tokens[i]; {
	case t.kind == superToken && strings.ContainsAny(writing.OnTheLine(t.text)[:1], "23456789"):
		return 1
	case t.sign("^") && i+1 < len(tokens) && tokens[i+1].kind == numToken && len(tokens[i+1].text) == 1 && tokens[i+1].text > "1":
		return 2
	}
	return 0
}

// powerAt is such a power at the beginning of a text.
func powerAt(text string) string {
	if rest, ok := strings.CutPrefix(text, "^"); ok && rest != "" && rest[0] > '1' && rest[0] <= '9' {
		return text[:2]
	}
	return text[:len(text)-len(strings.TrimLeft(text, "²³⁴⁵⁶⁷⁸⁹"))]
}

// moved puts the tokens of a power at i behind the argument from one place to another.
//
// The tree has no power of a function: sin²θ is sin(θ)^2, with the power in its place in the
// text.
func moved(tokens []token, i, from, to int) {
	if from == i {
		return
	}
	power, at := slices.Clone(tokens[i:from]), tokens[to-1].to
	tokens[i-1].to = power[len(power)-1].to // with its power the function is in one place
	copy(tokens[i:], tokens[from:to])
	for k := range power {
		power[k].from, power[k].to = at, at
	}
	copy(tokens[to-len(power):], power)
}

// endsSquared tells whether the argument of the square of a function ends before tokens:
// sin²θ*m and sin²θ/g, but not sin²θ/2, which may be of half the angle.
//
// A 2 below the bar may be of the angle, sin²(θ/2), which physics writes as often as (sin²θ)/2;
// a name there is of the whole: nobody takes the sine of an angle over a g.
func endsSquared(tokens []token) bool {
	next := &tokens[0]
	if from, to := functionIn(next.text); next.times() || next.kind == nameToken && from == 0 && to > 0 {
		return true // sin²θ*m, sin²θ cosθ
	}
	return next.over() && len(tokens) > 1 && !(tokens[1].kind == numToken && (len(tokens) == 2 || endsArgument(&tokens[2])))
}

// endsInFunction reads a word that is or ends in a function, and the number behind it with
// its unit of angle as its argument: sin30.5°/2, mgsin30.5°, Fcos 60°. A number with a blank
// before it is all of the argument only where nothing goes on behind it. It returns how many
// pieces the argument has.
//
// The digits run into the name as it is scanned, Fcos60 is one word, and only the degree sign,
// or what stands behind, shows the argument.
func (o *opener) endsInFunction(ps pieces, i int) (out pieces, argument int, ok bool) {
	word, end := ps[i].text, i+2
	at := 0
	for at < len(word) && !bareFunction(word[at:]) {
		at++
	}
	if at == len(word) || end > len(ps) || ps[i+1].kind != numToken {
		return nil, 0, false
	}
	if at > 0 {
		if out, ok = o.names(word[:at]); !ok {
			return nil, 0, false
		}
	}
	number := ps[i+1]
	number.gap = ""
	inside, behind := pieces{number}, pieces(nil)
	if end < len(ps) && ps[end].kind == unitToken {
		fs, _ := unitFactors(ps[end].text)
		if len(fs) == 0 || fs[0].power != "" || !angleUnit(&token{text: fs[0].word}) {
			return nil, 0, false
		}
		if len(fs) > 1 { // the °/F of sin30.5°/F
			if behind, ok = o.asNames(fs[1:]); !ok || number.gap != ps[i+1].gap {
				return nil, 0, false
			}
		}
		inside = append(inside, token{kind: unitToken, text: fs[0].word, gap: ps[end].gap})
		end++
	}
	if end < len(ps) && !endsArgument(&ps[end]) && (ps[i+1].gap != "" || !ps[end].times() && !ps[end].over()) {
		return nil, 0, false
	}
	out = append(out, token{kind: nameToken, text: word[at:], call: true}, token{kind: signToken, text: "("})
	out = append(append(out, inside...), token{kind: signToken, text: ")"})
	return append(out, behind...), end - i - 1, true
}

// argumentEnds are where the argument of the function at i may end, which has no brackets:
// before a sign for times or a bar with a quantity behind it, as the θ of sin θ/g, since no
// angle is over one; where names go on behind it, cos θ L, before the first of them or behind
// the last. There are none for another piece, and where a number is behind the bar: sin θ/2.
func (o *opener) argumentEnds(ps pieces, i int) []int {
	if !bareFunction(ps[i].text) || i+2 >= len(ps) || ps[i+1].kind != nameToken || ps[i+1].call {
		return nil
	}
	if sign := &ps[i+2]; sign.over() || sign.times() {
		if i+3 < len(ps) && o.ofQuantity(ps[i+3:ps.operand(i+3)]) {
			return []int{i + 2}
		}
		return nil
	}
	end := i + 2
	for ps.implied(end) && ps[end].kind == nameToken && !ps[end].call && !bareFunction(ps[end].text) {
		end = ps.operand(end)
	}
	if end == i+2 {
		return nil
	}
	return []int{i + 2, end}
}

// ofQuantity tells whether a factor behind a sign has a name that is neither a plain number nor
// an angle, and no bar in it.
func (o *opener) ofQuantity(ps pieces) bool {
	return !slices.ContainsFunc(ps, func(t token) bool { return t.over() }) && slices.ContainsFunc(ps, func(t token) bool {
		_, number := o.in.Number(Canonical(t.text))
		return t.kind == nameToken && o.in.Known(Canonical(t.text)) && !number && !o.in.Angle(Canonical(t.text))
	})
}

// endsArgument tells whether the argument of a function without brackets ends
// before a token, whatever is meant.
func endsArgument(t *token) bool {
	_, sum := sumOp(t)
	_, product := productOp(t)
	switch t.kind {
	case nameToken:
		return bareFunction(t.text)
	case signToken:
		return sum || !product && t.text != "^" && t.text != "(" && t.text != "√"
	}
	return t.kind == wordToken
}

// connectives are what a line that follows from others may begin with: ∴ a = F/m, so a = F/m.
var connectives = [...]string{"=>", "⇒", "⟹", "∴", "->", "→", "•", "so", "then", "thus", "hence", "therefore"}

// withoutConnective is a line that gives a name a value, or an equation, without such a word or
// sign before it.
func withoutConnective(text string) string {
	for _, c := range connectives {
		if len(text) <= len(c) || text[0]|' ' != c[0]|' ' || !strings.EqualFold(text[:len(c)], c) {
			continue
		}
		rest := text[len(c):]
		if isLetterByte(c[0]) {
			if rest = strings.TrimLeft(rest, ",:"); !isBlank(firstRune(rest)) {
				continue
			}
		}
		if from, _ := trimBlanks(rest, 0, len(rest)); startsName(firstRune(rest[from:])) && strings.Contains(rest, "=") {
			return rest[from:]
		}
	}
	return text
}

// AsStored returns a statement as a worksheet keeps it: as it is typed, but for
// `to`, -> and = ? before the unit that a value is shown in, which are `in`, and for a word or
// sign before it that says it follows from others.
func AsStored(text string) string {
	if _, n := For(text); n > 0 {
		return text[:n] + AsStored(text[n:])
	}
	text = withoutConnective(text)
	if !otherIn(text) || prose(text) {
		return text
	}
	if w := statementNear(text); w != nil && !w.Stored { // renam m to q
		return text
	}
	_, tokens, bad := statementTokens(text)
	if bad != nil {
		return text
	}
	for _, t := range slices.Backward(tokens) {
		if t.kind == wordToken && t.text == "in" && text[t.from:t.to] != "in" {
			text = text[:t.from] + "in" + text[t.to:]
		}
	}
	return text
}

// otherIn tells whether a text may hold another word or sign for `in`. Of the `to` in it
// one for each `from` belongs to that.
func otherIn(text string) bool {
	to := 0
	for i := 0; i < len(text); i++ {
		switch c := text[i]; {
		case c == '?', c == "→"[0] && strings.HasPrefix(text[i:], "→"), c == '>' && i > 0 && text[i-1] == '-':
			return true
		case c == 'o' && i > 0 && text[i-1] == 't':
			to++
		}
	}
	return to > 0 && to > strings.Count(text, " from ")
}
