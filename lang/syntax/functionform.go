package syntax

import (
	"strings"
	"unicode/utf8"

	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/units"
)

// functionForm finds built-in functions written as print does: sin 30°, sin²(θ),
// sin⁻¹(x), sin-1(x), and log(x), which books read in two ways, or lg(x), which is log10
// (ISO 80000-2, 2-13.6).
//
// A function needs its brackets here, as soon as more than one number or name could belong to
// its argument: sin 2θ/g is printed for sin(2θ)/g and for sin(2θ/g). Both are offered then.
//
// sin²(30°) is offered as sin(30°)^2, sin⁻¹(0.5) as asin(0.5) or 1/sin(0.5),
// log(3) as log10(3) or ln(3), and sin x/2 as sin(x)/2 or sin(x/2).
func (p among) functionForm() *fault {
	text, tokens, i := p.text, p.tokens, p.i
	t := &tokens[i]
	if t.kind != nameToken || len(t.text) < 2 {
		return nil
	}
	if bad := p.bookFunction(); bad != nil {
		return bad
	}
	if !ops.IsFunction(t.text) || t.call || i+1 >= len(tokens) {
		return nil
	}
	n := &tokens[i+1]
	switch {
	case n.kind == superToken || n.text == "^", n.from == t.to && isMinus(firstRune(n.text)) && i+2 < len(tokens) && tokens[i+2].text == "1":
		return functionPower(text, tokens, i)
	case n.kind == numToken || n.kind == nameToken || n.kind == piToken || n.text == "√":
		end := argumentEnd(tokens, i+1)
		arg := text[n.from:end]
		u := i + 2
		if u < len(tokens) && tokens[u].kind == unitToken {
			angle, _, _ := strings.Cut(tokens[u].text, "/")
			if angleName(angle) { // sin 2θ/g
				arg, end = n.text+"*"+angle, tokens[u].from+len(angle)
			}
		}
		at, readings := Span{From: t.from, To: end}, []string{t.text + "(" + arg + ")"}
		if rest, to := p.reach(end); rest != "" {
			short := strings.TrimSuffix(arg, rest)
			if short == arg {
				arg += rest
			}
			at.To, readings = to, []string{t.text + "(" + short + ")" + rest, t.text + "(" + arg + ")"}
		}
		return &fault{finding.New(finding.NotWritten, at, t.text+" needs brackets here.",
			"Write "+strings.Join(readings, " or ")+".", readings...)}
	}
	return nil
}

// bookFunctions are functions that books have and this language has not, or by another name,
// each with what it is of the x in it: log10 is lg (ISO 80000-2, 2-13.6), and the reciprocals
// of the circular functions are 2-14.4 to 2-14.6 there.
var bookFunctions = map[string][]string{
	"log": {"log10(x)", "ln(x)"},
	"lg":  {"log10(x)"},
	"tg":  {"tan(x)"},
	"cot": {"1/tan(x)"}, "ctg": {"1/tan(x)"}, "cotan": {"1/tan(x)"},
	"sec": {"1/cos(x)"},
	"csc": {"1/sin(x)"}, "cosec": {"1/sin(x)"},
}

// bookFunction finds such a function, with its brackets or without: N cot 20° is N*(1/tan(20°)),
// and N*cot(20°) is N/tan(20°).
//
// A name of the page is none, nor is one that nothing follows.
func (p among) bookFunction() *fault {
	tokens, t := p.tokens, &p.tokens[p.i]
	word := strings.TrimRight(t.text, "0123456789") // cot20°
	ways := bookFunctions[word]
	if ways == nil || p.known != nil && p.known(t.text) {
		return nil
	}
	at, argument := Span{From: t.from}, t.text[len(word):]
	switch next := p.i + 1; {
	case argument != "":
		r, n := utf8.DecodeRuneInString(p.text[t.to:])
		if at.To = t.to + n; !isDegree(r) {
			return nil
		}
		argument += "°"
	case t.call:
		closing := pieces(tokens).closing(next)
		if !tokens[closing].closes() {
			return nil
		}
		at.To = tokens[closing].to
		argument = p.text[tokens[next].to:tokens[closing].from]
	case next < len(tokens) && tokens[next].begins():
		at.To = argumentEnd(tokens, next)
		argument = p.text[tokens[next].from:at.To]
	default:
		return nil
	}
	before := &token{}
	if p.i > 0 {
		before = &tokens[p.i-1]
	}
	var readings []string
	for _, way := range ways {
		head, tail, _ := strings.Cut(way, "x")
		reading := head + argument + tail
		switch over := strings.HasPrefix(reading, "1/"); {
		case over && before.ends():
			at.From, reading = before.to, "*("+reading+")"
		case over && before.times():
			at.From, reading = before.from, reading[len("1"):]
		case over && !before.is("="):
			reading = "(" + reading + ")"
		}
		readings = append(readings, reading)
	}
	if len(ways) > 1 {
		return &fault{finding.New(finding.NotWritten, at, "log means ln in some books and log10 in others.", "Write log10 or ln.", readings...)}
	}
	named := strings.Replace(strings.TrimSuffix(ways[0], "(x)"), "x", "", 1)
	return &fault{finding.New(finding.NotWritten, at, "The function "+word+" is written "+named+" here.", "", readings...)}
}

// reach is what may belong to the argument of a function without brackets, or to its
// value: a power of the argument that ends at a place, or what it is divided by or
// multiplied with; and where that ends.
//
// Print writes sin x² for the sine of a square, and sin x/2 for either.
func (p among) reach(end int) (string, int) {
	for j := p.i + 2; j < len(p.tokens); j++ {
		next := &p.tokens[j]
		if next.from < end && (next.kind == superToken || next.text == "^") {
			return p.text[next.from:end], end
		}
		if _, ok := productOp(next); (ok || next.text == "^") && next.from >= end && j+1 < len(p.tokens) {
			to := operandEnd(p.tokens, j+1)
			return p.text[end:to], to
		}
		if next.from >= end {
			break
		}
	}
	return "", 0
}

// angleName tells whether a word after a number is the usual name of an angle
// rather than a unit: sin 2θ.
//
// Behind a number a letter is read as a unit, also where it can be none, as θ.
func angleName(word string) bool {
	name := Canonical(word)
	return units.Usual(name) == "rad" || name == "ω" || name == "ωt"
}

// argumentEnd returns where an argument without brackets ends: a product of
// what stands side by side.
func argumentEnd(tokens []token, i int) int {
	end := operandEnd(tokens, i)
	for i++; i < len(tokens); i++ {
		if tokens[i].from < end {
			continue
		}
		if tokens[i-1].kind == piToken && tokens[i].begins() ||
			tokens[i-1].kind == numToken && tokens[i].kind == piToken || tokens[i].kind == unitToken {
			end = operandEnd(tokens, i)
			continue
		}
		break
	}
	return end
}

// functionPower finds sin²(θ), sin^2(θ), sin⁻¹(x), sin^(-1)(x) and sin-1(x).
//
// sin²(x) is the square of the sine in all books. sin⁻¹(x) is the arc sine in most, and the
// reciprocal by the same rule as the square: it is asked.
func functionPower(text string, tokens []token, i int) *fault {
	t := &tokens[i]
	j := pieces(tokens).power(i + 1)
	if tokens[i+1].plusOrMinus() {
		j = i + 3
	}
	if j == i+1 || j >= len(tokens) { // nothing is behind the ^, or behind the power
		return nil
	}
	power := strings.NewReplacer("(", "", ")", "", "−", "-").Replace(superOrPlain(text[tokens[i+1].from:tokens[j-1].to]))
	if last := tokens[j-1].kind; last != superToken && last != numToken && power != "-1" || !tokens[j].begins() {
		return nil
	}
	end := argumentEnd(tokens, j)
	arg := text[tokens[j].from:end]
	if !strings.HasPrefix(arg, "(") {
		arg = "(" + arg + ")"
	}
	at := Span{From: t.from, To: end}
	if power == "-1" {
		switch t.text {
		case "sin", "cos", "tan":
			inverse := "a" + t.text
			return &fault{finding.New(finding.NotWritten, at, t.text+"⁻¹ could mean the inverse function, or one divided by "+t.text+".",
				"Write "+inverse+" for the inverse.", inverse+arg, "1/"+t.text+arg)}
		}
	}
	readings := []string{t.text + arg + "^" + power}
	if rest, to := (among{text: text, tokens: tokens, i: j - 1}).reach(end); rest != "" && text[tokens[j].from] != '(' {
		at.To = to
		readings = []string{readings[0] + rest, t.text + "(" + text[tokens[j].from:to] + ")^" + power}
	}
	return &fault{finding.New(finding.NotWritten, at, "A power of "+t.text+" has its exponent after the bracket.",
		"Write "+strings.Join(readings, " or ")+".", readings...)}
}
