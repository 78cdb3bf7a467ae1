package units

import "strings"

// wordOrKeyword reads a word, or one of those that are said in place of signs.
//
// Per, squared and the others are words of units in speech. Behind a number per is refused: in
// a line of mathematics it may be a name.
func (p *shaper) wordOrKeyword(t Part) bool {
	switch t.Text {
	case "per":
		p.at++
		p.blanks()
		if p.place == AfterNumber {
			p.wrong(t, "`per` can't be used after a number.", "Write a slash.")
		}
		return p.denominator(t, true)
	case "squared", "cubed":
		if n := len(p.out.factors); n > 0 {
			return p.said(t, &p.out.factors[n-1])
		}
	case "square", "cubic":
		if p.peek() == PartBlank {
			p.at++
			p.blanks()
			p.pow = 2
			if t.Text == "cubic" {
				p.pow = 3
			}
			if p.tok().Kind != PartWord {
				return p.stop(t, "No unit follows `"+t.Text+"`.", "Write square metres, or m^2.")
			}
		}
	}
	return p.factor()
}

// said reads `squared` and `cubed`.
//
// They are behind their unit, metres per second squared, while square and cubic are before it:
// square metres.
func (p *shaper) said(t Part, f *factor) bool {
	p.at++
	n := int8(2)
	if t.Text == "cubed" {
		n = 3
	}
	e := f.exp.Mul(whole(n))
	if e.Lost() {
		p.tooLarge(t)
		return false
	}
	f.exp, f.raised = e, true
	return true
}

// factor reads one word, or several that are one name, with its exponent.
//
// An exponent in signs multiplies the one in words: square m^2 is m^4, if anyone writes it.
func (p *shaper) factor() bool {
	t := p.tok()
	f := factor{word: t.Text, from: t.From, to: t.To, exp: whole(1), den: p.den}
	p.at++
	p.longName(&f)
	if p.pow != 0 {
		f.exp, f.raised, f.named, p.pow = whole(int8(p.pow)), true, true, 0
	}
	if t := p.tok(); t.Kind == PartPower {
		p.at++
		if e := f.exp.Mul(t.Exp); e.Lost() {
			p.tooLarge(t)
		} else {
			f.exp = e
		}
		f.raised, f.to = true, t.To
	}
	p.out.factors = append(p.out.factors, f)
	if len(p.out.factors) > maxWords {
		return p.stop(t, "This unit has too many words.", "Write a unit of a few words, such as kg m/s^2.")
	}
	return p.afterFactor()
}

// longName takes in the further words of a name such as `nautical mile`: as many as the
// index has a name for, so that light year stays one and metre second two.
func (p *shaper) longName(f *factor) {
	if p.tok().Kind != PartBlank || p.peek() != PartWord || !beginsLongName(f.word) {
		return
	}
	joined, best := f.word, p.at
	for at := p.at; p.toks[at].Kind == PartBlank && p.toks[at+1].Kind == PartWord; {
		joined += " " + p.toks[at+1].Text
		at += 2
		if _, ok := findWord(joined); ok {
			f.word, f.to, best = joined, p.toks[at-1].To, at
		}
		if !beginsLongName(joined) {
			break
		}
	}
	p.at = best
}

// afterFactor looks for a product under the solidus that has no brackets. J/kg K is
// joules per kilogram-kelvin to who writes it and (J/kg)·K by the rules of arithmetic, so
// that it is asked about.
func (p *shaper) afterFactor() bool {
	if !p.den || p.per || p.inside {
		return true
	}
	at := p.at
	for p.toks[at].Kind == PartBlank {
		at++
	}
	switch t := p.toks[at]; {
	case t.Kind == PartWord && at == p.at && strings.HasPrefix(t.Text, "°"):
		p.loose(t, "It isn't clear what is below the slash.", "Put it in brackets.") // J/kg°C
	case t.Kind == PartWord && t.Text != "per" && t.Text != "squared" && t.Text != "cubed",
		t.Kind == PartDot, t.Kind == PartStar, t.Kind == PartOpen:
		p.wrong(t, "It isn't clear what is below the slash.", "Put it in brackets.")
	}
	return true
}
