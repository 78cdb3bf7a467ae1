package syntax

import (
	"slices"
	"strings"

	"steelyard/lang/ops"
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

// functionWord tells whether a word before an operand is a function: 2 log 100. Only
// min is a unit, too.
func functionWord(word string) bool {
	return word == "log" || len(word) > 1 && word != "min" && ops.IsFunction(word)
}

// operandNext tells whether the argument of such a function may begin with r.
func operandNext(r rune) bool { return r >= '0' && r <= '9' || r == 'π' || startsName(r) }

// bracketed puts brackets of no width round the argument of a function that has
// none, where it can reach no further: before the sign of a sum, another function
// or the end. What sin θ/2 and sin θ^2 mean is asked.
func bracketed(tokens []token) []token {
	for i := 0; i+1 < len(tokens); i++ {
		t, arg := &tokens[i], &tokens[i+1]
		if t.kind != nameToken || t.call || !bareFunction(t.text) ||
			arg.kind != numToken && arg.kind != piToken && (arg.kind != nameToken || arg.call) || bareFunction(arg.text) {
			continue
		}
		end := i + 2
		if end < len(tokens) && tokens[end].kind == unitToken {
			if unit := tokens[end].text; !(isMark(firstRune(unit)) && isMark(lastRune(unit))) && unit != "rad" && unit != "deg" {
				continue // sin 2θ, sin 30°^2
			}
			end++
		}
		if end < len(tokens) && !endsArgument(&tokens[end]) {
			continue
		}
		t.call = true
		to := tokens[end-1].to
		tokens = slices.Insert(tokens, end, token{kind: signToken, from: to, to: to, text: ")"})
		tokens = slices.Insert(tokens, i+1, token{kind: signToken, from: tokens[i].to, to: tokens[i].to, text: "("})
		i = end
	}
	return tokens
}

// endsInFunction reads a word that is or ends in a function, and the number behind it with
// its unit of angle as its argument: sin30.5°/2, mgsin30.5°, Fcos 60°. A number with a blank
// before it is all of the argument only where nothing goes on behind it. It returns how many
// pieces the argument has.
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

// AsStored returns a statement as a worksheet keeps it: as it is typed, but for
// `to`, -> and = ? before the unit that a value is shown in, which are `in`.
func AsStored(text string) string {
	if _, n := For(text); n > 0 {
		return text[:n] + AsStored(text[n:])
	}
	if !otherIn(text) || prose(text) {
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

// otherIn tells whether a text may hold another word or sign for `in`.
func otherIn(text string) bool {
	for i := 0; i < len(text); i++ {
		switch c := text[i]; {
		case c == '?', c == "→"[0] && strings.HasPrefix(text[i:], "→"), c == '>' && i > 0 && text[i-1] == '-', c == 'o' && i > 0 && text[i-1] == 't':
			return true
		}
	}
	return false
}
