package syntax

import "strings"

// exponentSlot finds 2E1 where the page has a name E1: twice that, or the number 20.
//
// A power of ten is written so, e and E alike; and so is a number before an energy, a field or
// a modulus with an index, which is what √(2E1/M) has.
func (o *opener) exponentSlot(ps pieces, i int) (slot, bool) {
	factor, name := namedExponent(ps[i].text)
	if name == "" || !o.in.Known(name) {
		return slot{}, false
	}
	times, power := ps[i], ps[i]
	times.text = factor
	power.text = factor + otherCase(name)
	o.others, o.Tens = true, ps[i].text
	return slot{from: i, to: i + 1, choices: []choice{
		{pieces: pieces{times, {kind: nameToken, text: name}}},
		{pieces: pieces{power}},
	}}, true
}

// powerSlot finds v 2, a power that has lost its sign, or a factor behind its name.
func (o *opener) powerSlot(ps pieces, i int) (slot, bool) {
	if !ps.implied(i) || ps[i-1].kind != nameToken || !lostPower(ps[i].text) {
		return slot{}, false
	}
	number := ps[i]
	number.gap = ""
	o.others, o.Power = true, ps[i-1].text+ps[i].gap+ps[i].text
	return slot{from: i, to: i + 1, choices: []choice{
		{pieces: pieces{{kind: signToken, text: "^"}, number}},
		{pieces: pieces{{kind: signToken, text: "*"}, number}},
	}}, true
}

// lostPower tells whether a number is a usual power. Factors are written before the names.
func lostPower(number string) bool { return number == "2" || number == "3" }

// namedExponent parts a number with a power of ten into its factor and what would be a name:
// 2 and E1 of 2E1. A power with a sign, 2E-1, is no name.
func namedExponent(number string) (factor, name string) {
	i := strings.IndexAny(number, "eE")
	if i < 0 || strings.Trim(number[i+1:], "0123456789") != "" {
		return number, ""
	}
	return number[:i], number[i:]
}

// otherCase writes the e of a power of ten small or large, so that 2e1 can't be the 2E1 of a name.
func otherCase(power string) string {
	if strings.HasPrefix(power, "e") {
		return "E" + power[1:]
	}
	return "e" + power[1:]
}
