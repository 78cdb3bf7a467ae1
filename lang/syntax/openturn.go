package syntax

import "slices"

// turned returns the pieces as they are, then as they would be if a name in turns
// (300 rev/min) is not counted twice: without the factors 2π, π/30 and 60, and
// with the turns themselves.
//
// A formula with 2πn counts n in turns. Where n is given as 300 rev/min, that is an angle per
// time here, and already holds the 2π: with it, the result would be off by 6.28. The same goes
// for π/30, which turns rev/min into rad/s, and for 60.
//
// Where n = 300 rev/min is a line of the page:
//
//	2π*n        as it is, then n, then 2π*(n/(1 rev))
//	π*d*n       as it is, then with the turns for n; no reading without π
//	n           nothing is open
//
// The first is always the line by the rules. Which of them has the kind that fits
// is for the caller to find, who knows dimensions.
func (o *opener) turned(ps pieces) []pieces {
	out := []pieces{ps}
	without, counted := ps, ps
	can, found := true, false
	for i := len(ps) - 1; i >= 0; i-- {
		p := &ps[i]
		if p.kind != nameToken || p.call || ps.asked(i) || !o.in.Turns(Canonical(p.text)) {
			continue
		}
		from, to := ps.term(i)
		t := turnTerm{ps: ps, from: from, to: to, at: i}
		if !t.look() {
			continue
		}
		o.others, found = true, true
		if without2, ok := t.without(); ok && len(without) == len(ps) {
			without = without2
		} else {
			can = false
		}
		if len(counted) == len(ps) || t.sixty < 0 {
			counted = t.counted(counted)
		}
	}
	if !found {
		return out
	}
	if can {
		out = append(out, without)
	}
	return append(out, counted)
}

// turnTerm is a product with a name in turns.
//
// Each place is one among the pieces, or -1 where it has none. The term goes from
// from up to, but without, to.
type turnTerm struct {
	ps           pieces
	from, to, at int
	pi           int // π on the same side of the bar, or -1
	two          int // the 2 before it
	thirty       int // 30 on the other side
	sixty        int // 60 on the other side
}

// look finds what says that turns are counted.
//
// A number counts only where it is a plain factor: not an exponent, and not with a
// unit behind it, as 60 s says what it is. A 2 must be on the side of the bar
// where the name is; 30 and 60 on the other one, as in π*n/30 and 2π*n/60.
//
// A name under a bar is left alone: in 60/n the n is what is divided by.
func (t *turnTerm) look() bool {
	t.pi, t.two, t.thirty, t.sixty = -1, -1, -1, -1
	below := t.sides()
	mine := below[t.at-t.from]
	for i := t.from; i < t.to; i++ {
		p := &t.ps[i]
		same := below[i-t.from] == mine
		exponent := i > 0 && t.ps[i-1].sign("^")
		lone := p.kind == numToken && !exponent && (i+1 >= len(t.ps) || t.ps[i+1].kind != unitToken)
		switch {
		case p.kind == piToken && same:
			t.pi = i
		case lone && p.text == "2" && same:
			t.two = i
		case lone && p.text == "30" && !same:
			t.thirty = i
		case lone && p.text == "60" && !same:
			t.sixty = i
		}
	}
	if from := t.from - 2; t.sixty < 0 && from >= 0 && t.ps[t.from-1].sign("(") && t.ps[from].over() { // 60*P/(2π*n)
		for i, _ := t.ps.term(from); i < from; i++ {
			if t.ps[i].kind == numToken && t.ps[i].text == "60" && !t.ps[i+1].sign("^") && t.ps[i+1].kind != unitToken {
				t.sixty = i
			}
		}
	}
	return !mine && (t.pi >= 0 || t.sixty >= 0)
}

// sides tells of each piece of the term whether it is under a bar.
//
// The term goes on below a bar up to the next sign of multiplication: in a/b*c the c is above.
//
// A bracket counts as one operand, with all that is in it on one side.
func (t *turnTerm) sides() []bool {
	out := make([]bool, t.to-t.from)
	below := false
	for i := t.from; i < t.to; {
		switch {
		case t.ps[i].over():
			below = true
			out[i-t.from] = true
			i++
			continue
		case t.ps[i].times():
			below = false
			i++
			continue
		}
		end := min(max(t.ps.operand(i), i+1), t.to)
		for ; i < end; i++ {
			out[i-t.from] = below
		}
	}
	return out
}

// without leaves out 2π, π/30 and 60; false where π is there without its 2 or 30.
//
// A π alone is no factor of a turn, as in π·d·n, and a power of it is another formula.
//
// From 2π*n/60 it makes n, from π*n/30 as well.
func (t *turnTerm) without() (pieces, bool) {
	var drop []int
	switch {
	case t.pi >= 0 && t.ps.power(t.pi+1) > t.pi+1: // 2π²*I*n²
		return nil, false
	case t.pi >= 0 && t.two >= 0:
		drop = append(drop, t.pi, t.two)
	case t.pi >= 0 && t.thirty >= 0:
		drop = append(drop, t.pi, t.thirty)
	case t.pi >= 0:
		return nil, false
	}
	if t.sixty >= 0 {
		drop = append(drop, t.sixty)
	}
	return t.ps.dropped(drop), true
}

// counted has the number of turns for the name, and no 60.
//
// n/(1 rev) is the plain number of turns, for a formula that counts them.
//
// The 60 goes because rev/min is divided by it already when it is put into
// seconds: with it, the number of turns in a second would be too small by 60.
// Pieces are changed from the right to the left, so that the places before stay
// right.
//
// The brackets round 1 rev keep the unit with its number whatever stands behind.
func (t *turnTerm) counted(ps pieces) pieces {
	name := t.ps[t.at]
	out := slices.Clone(ps)
	turns := pieces{{kind: signToken, text: "(", gap: name.gap}, {kind: nameToken, text: name.text}, {kind: signToken, text: "/"},
		{kind: signToken, text: "("}, {kind: numToken, text: "1"}, {kind: unitToken, text: "rev", gap: " "},
		{kind: signToken, text: ")"}, {kind: signToken, text: ")"}}
	if t.sixty > t.at {
		out = out.dropped([]int{t.sixty})
		return slices.Replace(out, t.at, t.at+1, turns...)
	}
	out = slices.Replace(out, t.at, t.at+1, turns...)
	if t.sixty >= 0 {
		out = out.dropped([]int{t.sixty})
	}
	return out
}

// dropped leaves factors out of a product, each with its sign.
//
// Out of 2*π*n go 2 and π with one sign each, and n is left. Where a factor is all
// that is above a bar, as the 60 of 60/(2π*n), a 1 takes its place.
func (ps pieces) dropped(at []int) pieces {
	slices.Sort(at)
	out := slices.Clone(ps)
	for k := len(at) - 1; k >= 0; k-- {
		i := at[k]
		switch {
		case i > 0 && (out[i-1].over() || out[i-1].times()):
			out = slices.Delete(out, i-1, i+1)
		case i+1 < len(out) && out[i+1].times():
			gap := out[i].gap
			out = slices.Delete(out, i, i+2)
			if i < len(out) {
				out[i].gap = gap
			}
		case i+1 < len(out) && (out.implied(i+1) || out.implied(i)):
			gap := out[i].gap
			out = slices.Delete(out, i, i+1)
			if i < len(out) && out[i].gap == "" {
				out[i].gap = gap
			}
		default:
			out[i] = token{kind: numToken, text: "1", gap: out[i].gap}
		}
	}
	return out
}
