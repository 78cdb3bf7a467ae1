package syntax

import (
	"slices"
	"strings"

	"steelyard/lang/finding"
)

// sharedUnit gives a bare number in a range the unit that another has: from 1 to 3 s goes
// from 1 s, and by 1 in steps of 1 s. A 0 fits every range as it is.
//
// Nobody goes from a pure number to a time, so that this is the one reading of the line.
// Where no end has a unit there is none to take.
func (r *reader) sharedUnit(tokens []token) []token {
	for i := range tokens {
		if !tokens[i].is("from") || tokens[i].kind != wordToken {
			continue
		}
		var bare []int
		unit := token{}
		for _, word := range [...]string{"from", "to", "by"} {
			if i == len(tokens) || !tokens[i].is(word) {
				break
			}
			number, next, ok := rangeEnd(tokens, i+1)
			if !ok {
				return tokens
			}
			switch {
			case number < next-1:
				unit = tokens[number+1]
			case strings.Trim(tokens[number].text, "0.") != "":
				bare = append(bare, number)
			}
			i = next
		}
		if unit.kind != unitToken {
			return tokens
		}
		for _, number := range slices.Backward(bare) {
			n, blank := &tokens[number], " "
			if isMark(firstRune(unit.text)) {
				blank = ""
			}
			r.notes = append(r.notes, finding.New(finding.ReadAs, n.span(), "`"+n.text+"` is read as "+n.text+blank+unit.text+", as the rest of its range.", ""))
			unit.from, unit.to = n.to, n.to
			tokens = slices.Insert(tokens, number+1, unit)
		}
		return tokens
	}
	return tokens
}

// rangeEnd is a written number that is all of an end of a range, perhaps with a unit, and
// what is behind it.
//
// An end that is worked out, from 0 to 2*T, has a unit of its own and needs none.
func rangeEnd(tokens []token, i int) (number, next int, ok bool) {
	if i < len(tokens) && tokens[i].plusOrMinus() {
		i++
	}
	if i == len(tokens) || tokens[i].kind != numToken {
		return 0, 0, false
	}
	next = i + 1
	if next < len(tokens) && tokens[next].kind == unitToken {
		next++
	}
	return i, next, next == len(tokens) || tokens[next].kind == wordToken
}
