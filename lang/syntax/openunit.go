package syntax

import (
	"slices"
	"strings"
)

// asNames reads factors of a unit as names; false if one of them is none.
//
// A slash between two words is then a bar between two names, and a blank a product.
//
// In 3 m g with m and g given, the factors m and g are the names m and g; a power
// goes to the last name of its word.
func (o *opener) asNames(fs []unitFactor) (pieces, bool) {
	var out pieces
	for _, f := range fs {
		var names pieces
		if f.within != nil {
			within, ok := o.asNames(f.within)
			if !ok {
				return nil, false
			}
			names = append(pieces{{kind: signToken, text: "("}}, within...)
			names = append(names, token{kind: signToken, text: ")"})
		} else {
			ok := false
			if names, ok = o.names(f.word); !ok {
				most := longestApart // 2 F cosθ
				if f.power != "" {
					most = 1 // ½g sinθt²
				}
				names, ok = o.gluedFunction(f.word, most)
				ok = ok && (f.power == "" || names[len(names)-1].kind == nameToken)
			}
			if !ok {
				return nil, false
			}
			names = append(names, powerPieces(f.power)...)
		}
		switch f.joint {
		case "/", "*":
			out = append(out, token{kind: signToken, text: f.joint})
		case "·":
			out = append(out, token{kind: signToken, text: "*"})
		case " ":
			names[0].gap = " "
		}
		if out == nil {
			out = names
		} else {
			out = append(out, names...)
		}
	}
	return out, true
}

// powerPieces are those of a power: ², ^2, ^-1.
//
// A negative one is one piece for several tokens.
func powerPieces(power string) pieces {
	number, up := strings.CutPrefix(power, "^")
	switch {
	case power == "":
		return nil
	case up && strings.Trim(number, "0123456789") == "":
		return pieces{{kind: signToken, text: "^"}, {kind: numToken, text: number}}
	}
	return pieces{{kind: superToken, text: power, several: up}}
}

// names reads a word as a name, or as names side by side.
//
// As few names as the word can be made of: ma is a name where the page has one, and else m
// times a. Pi in a word is the number.
//
// So pif is π and f, and mgh is m, g and h where these are names.
func (o *opener) names(word string) (pieces, bool) {
	name := Canonical(word)
	if o.in.Known(name) {
		return pieces{{kind: nameToken, text: word}}, true
	}
	parts, ok := namesIn(word, o.in.Known)        // mu is m*u where μ has no value
	if rest := afterPi(word); !ok && rest != "" { // pir^2
		out, ok := o.names(rest)
		return append(pieces{{kind: piToken, text: "π"}}, out...), ok
	} else if word == "pi" {
		return pieces{{kind: piToken, text: "π"}}, true
	}
	return piecesOfNames(parts), ok
}

func piecesOfNames(names []string) (out pieces) {
	for _, name := range names {
		out = append(out, token{kind: nameToken, text: name})
	}
	return out
}

// IsProductOf tells whether an expression is the product of certain names, in any
// order: m*g of m and g.
//
// A number, a division or a sign in it says no.
func IsProductOf(x Expr, names []string) bool {
	var found []string
	for _, f := range Factors(x) {
		n, ok := f.X.(*Name)
		if !ok || f.Minus || n.Line != 0 {
			return false
		}
		found = append(found, n.Name)
	}
	slices.Sort(found)
	return slices.Equal(found, slices.Sorted(slices.Values(names)))
}

// unitSlot finds the ways in which the unit at i can be read: whole; up to a
// letter from which on all are names; or going on behind a sign.
//
// 3 m g with m and g on the page may be 3 metres times g, 3 times m times g, or 3 metre grams.
// From the right, words turn into names one by one as long as they are names, and what is left
// must be a unit. Whole stands last, but is what the line says by the rules.
//
// Of 3 m g there are the choices 3*m*g, (3 m)*g and (3 m·g), from the one with the
// most names to the one by the rules. A unit of which no letters are names here is
// no slot.
func (o *opener) unitSlot(ps pieces, i int) (slot, bool) {
	fs, ok := unitFactors(ps[i].text)
	if !ok || i == 0 || ps[i-1].kind == wordToken {
		return slot{}, false
	}
	clause := ps.clause(i) && o.in.IsUnit(ps[i].text)
	if clause && !o.clauses.in(&ps[i]) {
		return slot{}, false
	}
	o.InClause = o.InClause || clause
	s := slot{from: i, to: i + 1}
	whole := ps[i]
	whole.text = unitText(oneStroke(fs))
	cuts := make([]choice, 0, len(fs)+2)
	first := len(fs) // of the words that are all names
	allNames := func() bool { _, all := o.asNames(fs); return all }
	for j := len(fs) - 1; j >= 0; j-- {
		names, ok := o.asNames(fs[j:])
		if !ok {
			break
		}
		first = j
		var with pieces
		if j > 0 {
			before := whole
			before.text, before.open = unitText(oneStroke(fs[:j])), true
			if !o.in.IsUnit(before.text) || strings.ContainsAny(unitText(fs[j:]), "-−⁻") && !allNames() && o.in.IsUnit(whole.text) {
				continue // 3 m s^-2 is no 3 m times a power of the name s
			}
			with = append(with, before)
			if names[0].sign("*") && fs[j].joint == "·" && ps.severalNumbers(i-1) {
				names[0].text = "·" // the dot product of two vectors
			}
		} else if len(names) > 0 {
			names[0].gap = whole.gap
		}
		for _, names := range o.spellings(names) {
			if with != nil {
				names = append(with[:1:1], names...)
			}
			cuts = append(cuts, choice{pieces: names, units: j + o.unitsIn(fs[j:]), names: true})
		}
	}
	merged, to, goesOn := o.goesOn(ps, i, fs)
	if len(cuts) == 0 && !goesOn {
		return slot{}, false
	}
	rest := ps[i+1 : i+1]
	if goesOn {
		s.to = to
		rest = ps[i+1 : to]
	}
	if whole.open = len(cuts) > 0; whole.open {
		whole.gap = " " // (3 m) in a bracket is a quantity
	}
	add := func(c choice) {
		c.pieces = append(c.pieces, rest...)
		s.choices = append(s.choices, c)
	}
	letters := len(cuts) > 0
	slices.Reverse(cuts)
	s.choices = cuts[:0]
	for _, c := range cuts {
		add(c)
	}
	if goesOn {
		whole.open = true
	}
	if o.in.IsUnit(whole.text) || !letters {
		if letters && joined(fs, first, " ") && !strings.Contains(whole.text, "/") {
			whole.text = strings.ReplaceAll(whole.text, " ", "·") // with a blank it is open
		}
		add(choice{pieces: pieces{whole}, units: len(fs)})
	} else {
		for _, way := range o.in.Ways(whole.text) {
			of := whole
			of.text = way
			add(choice{pieces: pieces{of}, units: len(fs) + 1})
		}
	}
	if goesOn {
		s.choices = append(s.choices, choice{pieces: pieces{merged}, units: len(fs), goesOn: true})
	}
	o.letters = o.letters || letters
	if letters {
		s.letter = len(o.open)
		o.open = append(o.open, openLetter{unit: i, beside: joined(fs[first:], 0, " "), joined: joined(fs, first, " ·") && !joined(fs, first, "/"), words: wordsOf(fs[first:])})
	}
	return s, true
}

// unitsIn counts the words that are units, and names only if they are taken apart:
// such a reading is less likely.
//
// It is how often a reading goes against what the letters look like.
func (o *opener) unitsIn(fs []unitFactor) (n int) {
	for _, f := range fs {
		if f.word != "" && !o.in.Known(Canonical(f.word)) && o.in.Unit(f.word) {
			n++
		}
		n += o.unitsIn(f.within)
	}
	return n
}

// clause tells whether the quantity with its unit at i is all that a clause says:
// from 0 m to 3 m, at t = 2 s, within 5 cm.
//
// There a name would have nothing to be multiplied with: it is the unit for certain.
//
// In from 0 m to 3 m a page with a name m has no other reading, and nothing is
// asked.
//
// What is directly behind from, to or within stands alone there, so that a product would be one
// of a number with a name and nothing else; 2T in from 0 s to 2T is asked about by AllClauses.
func (ps pieces) clause(i int) bool {
	from := i - 1
	for from > 0 && ps[from-1].plusOrMinus() {
		from--
	}
	if i+1 < len(ps) && !ps[i+1].bounds() || from == 0 || ps[i-1].kind != numToken {
		return false
	}
	before := &ps[from-1]
	if before.kind == wordToken {
		switch before.text {
		case "from", "to", "by", "within", "for":
			return true
		}
		return false
	}
	if before.text == "(" || before.text == "," || !before.bounds() {
		return false
	}
	for k := from - 2; k >= 0; k-- { // with m = 2 kg, for 0 s ≤ t ≤ 2 s
		switch {
		case ps[k].sign(")"):
			k = ps.opening(k)
		case ps[k].kind == wordToken:
			return slices.Contains([]string{"at", "with", "where", "for"}, ps[k].text)
		}
	}
	return false
}

// goesOn finds a unit that goes on behind a sign: 50 N / m, 5 N*m, 9.8 m/s/s,
// 4200 J/(kg*K). Only a unit of a quantity that has a name is one.
//
// By the rules a unit behind a number ends there, and names follow. Where that unit and the
// words behind make one of a quantity that has a name, N*m or J/(kg*K), the whole may have
// been meant. J/kg*K is W/(kg K) in print, though not by the rules of arithmetic.
//
// Of several lengths the longest that is such a unit is returned, in one piece; to
// is where the line goes on behind it. So 5 N / m may be (5 N)/m or 5 N/m.
func (o *opener) goesOn(ps pieces, i int, fs []unitFactor) (merged token, to int, ok bool) {
	if isMark(lastRune(ps[i].text)) { // 30 % and 30° end there
		return merged, to, false
	}
	var all []unitFactor
	for at := i + 1; at < len(ps); {
		sign := &ps[at]
		next := at + 1
		glued := at == i+1 && sign.kind == nameToken && sign.gap == ""
		if glued {
			next = at
		} else if !sign.over() && !sign.times() || next == len(ps) {
			break
		}
		var f unitFactor
		switch {
		case ps[next].kind == nameToken && !ps[next].call:
			f.word = ps[next].text
			next++
		case ps[next].sign("(") && sign.over():
			end := ps.closing(next)
			within, good := factorsOfNames(ps[next+1 : end])
			if !good {
				return merged, to, ok
			}
			f.within = within
			next = end + 1
		default:
			return merged, to, ok
		}
		switch {
		case next < len(ps) && ps[next].kind == superToken:
			f.power = ps[next].text
			next++
		case next+1 < len(ps) && ps[next].sign("^") && ps[next+1].kind == numToken:
			f.power = "^" + ps[next+1].text
			next += 2
		}
		f.joint = "*"
		if sign.over() {
			f.joint = "/"
		}
		if all == nil {
			all = slices.Clone(fs)
		}
		var under []unitFactor
		if under = underStroke(all, f); glued {
			all = under
		} else {
			all = append(all, f)
		}
		text := unitText(oneStroke(all))
		if below := unitText(oneStroke(under)); sign.times() && !o.in.Unit(text) && o.in.Unit(below) {
			all, text = under, below // J/kg*K
		}
		if o.in.Unit(text) || glued && o.in.IsUnit(text) {
			merged, to, ok = ps[i], next, true
			merged.text, merged.open = text, slices.ContainsFunc(wordsOf(all), func(word string) bool { return o.in.Known(Canonical(word)) })
		}
		at = next
	}
	return merged, to, ok
}
