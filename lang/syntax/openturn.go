package syntax

import (
	"math"
	"slices"
)

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
		t := ps.product(i)
		if !t.look() {
			continue
		}
		o.others, o.Turns, found = true, true, true
		if without2, ok := t.without(); ok && len(without) == len(ps) {
			without = without2.unwrapped()
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
	return append(out, counted.unwrapped())
}

// turnTerm is a product with a name in turns, and with those in its brackets.
//
// Each place is one among the pieces, or -1 where it has none. The term goes from
// from up to, but without, to.
type turnTerm struct {
	ps           pieces
	from, to, at int
	pi           int // π on the same side of the bar, or -1
	two          int // the 2 before it, or the same place where it is 6.28
	thirty       int // 30 on the other side
	sixty        int // 60 on the other side
}

// product is the term that the piece at i is in, out of the brackets that are all product: of
// 60*P/(2π*n) all of it. A bracket that has a power, or is that of a function, is a term by itself.
func (ps pieces) product(i int) turnTerm {
	t := turnTerm{ps: ps, at: i}
	for t.from, t.to = ps.term(i); t.from > 0 && ps.factorIn(t.from-1) == t.to; {
		t.from, t.to = ps.term(t.from - 1)
	}
	return t
}

// factorIn is the place of the bracket that closes the one at i, if it holds a product that is
// a factor as it is; 0 if not.
func (ps pieces) factorIn(i int) int {
	if !ps[i].sign("(") || i > 0 && (ps[i-1].sign("√") || ps[i-1].kind == nameToken && ps[i-1].call) {
		return 0
	}
	end := ps.closing(i)
	if _, to := ps.term(i + 1); to != end || ps.power(end+1) > end+1 || i+1 < end && ps[i+1].plusOrMinus() {
		return 0
	}
	return end
}

// look finds what says that turns are counted.
//
// A number counts only where it is a plain factor: not an exponent, and not with a
// unit behind it, as 60 s says what it is. A 2 must be on the side of the bar
// where the name is; 30 and 60 on the other one, as in π*n/30 and 2π*n/60. For π and 2π
// the numbers 3.14 and 6.28 count too.
//
// A name under a bar is left alone: in 60/n the n is what is divided by.
func (t *turnTerm) look() bool {
	t.pi, t.two, t.thirty, t.sixty = -1, -1, -1, -1
	sides := map[int]side{}
	t.sides(t.from, t.to, above, sides)
	mine, other := sides[t.at], sides[t.at].other()
	if mine == noFactor || t.perTurn() {
		return false
	}
	for i := t.from; i < t.to; i++ {
		p := &t.ps[i]
		if p.kind == piToken && sides[i] == mine {
			t.pi = i
		}
		if p.kind != numToken || i+1 < len(t.ps) && t.ps[i+1].kind == unitToken {
			continue
		}
		switch v, _ := decimal(p.text, Span{}, false); {
		case HalfTurns(v.Float()) == 1 && sides[i] == mine:
			t.pi = i
		case HalfTurns(v.Float()) == 2 && sides[i] == mine:
			t.pi, t.two = i, i
		case p.text == "2" && sides[i] == mine:
			t.two = i
		case p.text == "30" && sides[i] == other:
			t.thirty = i
		case p.text == "60" && sides[i] == other:
			t.sixty = i
		}
	}
	inner, _ := t.ps.term(t.at)
	own := map[int]side{}
	t.sides(inner, t.at+1, above, own)
	return own[t.at] == above && (t.pi >= 0 || t.sixty >= 0)
}

// perTurn tells whether the name is divided by a turn, and so is a number of them: (n/(1 rev)).
func (t *turnTerm) perTurn() bool {
	at := t.at + 1
	if at < 2 || at+4 >= len(t.ps) || !t.ps[at-2].sign("(") || !t.ps[at].over() || !t.ps[at+1].sign("(") {
		return false
	}
	unit := &t.ps[at+3]
	return unit.kind == unitToken && (unit.text == "rev" || unit.text == "rad")
}

// HalfTurns is 1 for a number that is π and 2 for one that is 2π, to three figures or more: 3.14,
// 3.1416, 6.28; else 0.
func HalfTurns(v float64) int {
	for n := 1; n <= 2; n++ {
		if math.Abs(v-float64(n)*math.Pi) < 0.001*v {
			return n
		}
	}
	return 0
}

// side is where a factor of a product is, about its fraction bars.
type side int8

const (
	noFactor side = iota // it is in a sum, an exponent or a function
	above
	below
)

func (s side) other() side { return above + below - s }

// sides tells of each factor from one place to another where it is.
//
// The term goes on below a bar up to the next sign of multiplication: in a/b*c the c is above.
// The factors of a bracket that holds a product are factors too; any other bracket is one.
func (t *turnTerm) sides(from, to int, on side, out map[int]side) {
	now := on
	for i := from; i < to; {
		switch {
		case t.ps[i].over():
			now = on.other()
			i++
			continue
		case t.ps[i].times():
			now = on
			i++
			continue
		}
		if t.ps[i].sign("√") && !t.ps[i+1].sign("(") {
			i++
			continue
		}
		if end := t.ps.factorIn(i); end > 0 {
			t.sides(i+1, min(end, to), now, out)
			i = end + 1
			continue
		}
		out[i] = now
		i = max(t.ps.operand(i), i+1)
	}
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

// dropped leaves factors out of a product, each with its sign and with a bracket round it alone.
//
// Out of 2*π*n go 2 and π with one sign each, and n is left. Where a factor is all
// that is above a bar, as the 60 of 60/(2π*n), a 1 takes its place.
func (ps pieces) dropped(at []int) pieces {
	slices.Sort(at)
	out := slices.Clone(ps)
	for _, from := range slices.Backward(slices.Compact(at)) {
		to := from + 1
		for from > 0 && to < len(out) && out.factorIn(from-1) == to {
			from, to = from-1, to+1
		}
		gap := out[from].gap
		switch {
		case from > 0 && (out[from-1].over() || out[from-1].times()):
			out = slices.Delete(out, from-1, to)
		case to < len(out) && out[to].times():
			if out = slices.Delete(out, from, to+1); from < len(out) {
				out[from].gap = gap
			}
		case out.implied(to) || out.implied(from):
			if out = slices.Delete(out, from, to); from < len(out) && out[from].gap == "" {
				out[from].gap = gap
			}
		default:
			out = slices.Replace(out, from, to, token{kind: numToken, text: "1", gap: gap})
		}
	}
	return out
}

// unwrapped leaves out brackets round one piece or another bracket: (n) of which 60 was dropped.
func (ps pieces) unwrapped() pieces {
	for i := 0; i+2 < len(ps); i++ {
		if !ps[i].sign("(") || i > 0 && (ps[i-1].sign("√") || ps[i-1].kind == nameToken && ps[i-1].call) {
			continue
		}
		end := ps.closing(i)
		if end == i+2 || ps[i+1].sign("(") && ps.closing(i+1) == end-1 {
			inner := slices.Clone(ps[i+1 : end])
			inner[0].gap = ps[i].gap
			ps = slices.Replace(slices.Clone(ps), i, end+1, inner...)
			i--
		}
	}
	return ps
}
