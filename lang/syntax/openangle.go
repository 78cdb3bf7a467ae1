package syntax

import (
	"math"
	"slices"
	"strings"

	"steelyard/lang/ops"
)

// angles reads the plain numbers in sine, cosine and tangent, those in a sum with an
// angle, and the names that usually are angles, as degrees and as radians; false where
// there are none beyond a turn.
//
// The language has angles in radians where no unit says otherwise; print gives 30 for 30°.
// Nobody writes sin(30) for thirty radians, nor 90 - θ: numbers beyond a turn of 2π are
// degrees more likely. Smaller ones are not asked about, as sin(0.5) is a usual thing.
//
// So sin(30) is open, with sin(30°) and sin(30 rad), and so is 90 - 30°.
func (o *opener) angles(ps pieces) (degrees, radians pieces, ok bool) {
	var at map[int]bool // few have any
	mark := func(i int) {
		if at == nil {
			at = map[int]bool{}
		}
		at[i] = true
	}
	for i := range ps {
		p := &ps[i]
		if p.kind == numToken && o.beyondTurn(p) && o.besideAngle(ps, i) {
			mark(i)
		}
		if p.kind != nameToken {
			continue
		}
		if p.call && (p.text == "sin" || p.text == "cos" || p.text == "tan") && i+1 < len(ps) {
			o.argument(ps, i+2, ps.closing(i+1), mark)
		} else if !p.call && angleLetter(p.text) && o.beyondTurn(p) && !ps.asked(i) && !ps.inAngle(i) && o.measures(ps) {
			mark(i)
		}
	}
	if len(at) == 0 {
		return nil, nil, false
	}
	return ps.angled(at, "°"), ps.angled(at, " rad"), true
}

// angled puts a unit of angle behind the numbers and the names at some places.
//
// A number gets its unit directly, 30°, and a name is multiplied by one of them, θ*1°.
func (ps pieces) angled(at map[int]bool, unit string) pieces {
	out := make(pieces, 0, len(ps))
	for i, p := range ps {
		switch {
		case !at[i]:
		case p.kind == numToken:
			p.text, p.several = p.text+unit, true
		default:
			p.text, p.several = p.text+"*1"+unit, true
			if !(i > 0 && ps[i-1].sign("(") && i+1 < len(ps) && ps[i+1].sign(")")) {
				p.text = "(" + p.text + ")"
			}
		}
		out = append(out, p)
	}
	return out
}

// asked tells whether the piece at i is on the left of a line, or bound by it.
func (ps pieces) asked(i int) bool { return i+1 < len(ps) && ps[i+1].sign("=") }

// inAngle tells whether the name at i is multiplied, alone or with the bracket that it is in, by
// a unit of angle or by π over a turn in degrees: (θ/2)*1°, (θ + 5)*π/180.
func (ps pieces) inAngle(i int) bool {
	for {
		t := ps.product(i)
		factors := map[int]side{}
		t.sides(t.from, t.to, above, factors)
		pi, degrees := false, false
		for k := range factors {
			p := &ps[k]
			pi = pi || p.kind == piToken
			if p.kind == numToken {
				degrees = degrees || TurnOfDegrees(p.text)
				if k+1 < t.to && ps[k+1].kind == unitToken && angleUnit(&ps[k+1]) {
					return true
				}
			}
		}
		if pi && degrees {
			return true
		}
		if i = t.from - 1; i < 0 || !ps[i].sign("(") || i > 0 && (ps[i-1].sign("√") || ps[i-1].kind == nameToken && ps[i-1].call) {
			return false
		}
	}
}

// measures tells whether a line has a quantity with a unit, as r*θ has: all is a plain number
// where a level β of 85 is, in β - 20*log10(4).
func (o *opener) measures(ps pieces) bool {
	for k := range ps {
		p := &ps[k]
		if p.kind == unitToken || p.kind == thatToken {
			return true
		}
		if _, plain := o.number(p); p.kind == nameToken && !p.call && !plain && !ps.asked(k) {
			return true
		}
	}
	return false
}

// argument notes what is in degrees in the argument of a function: of each term
// the name, or else the first number.
//
// In 2θ + 30 both terms have the degrees: the θ of the first, the 30 of the second. With π,
// a unit or a name of another kind in it, an argument says what it is in, unless a turn is in it
// in degrees: 360*t/T.
func (o *opener) argument(ps pieces, from, to int, degrees func(at int)) {
	named, beyond, turn, ratio := true, false, false, false
	for i := from; i < to; i++ {
		p := &ps[i]
		above := !(i > from && ps[i-1].over())
		ratio = ratio || p.over()
		switch p.kind {
		case piToken, thatToken:
			return
		case unitToken:
			if angleUnit(p) {
				return
			}
			named = false // cos(360*t/(2 s))
		case numToken:
			turn = turn || above && TurnOfDegrees(p.text)
		case nameToken:
			if _, plain := o.number(p); !plain {
				if p.call || o.in.Angle(Canonical(p.text)) {
					return
				}
				named = false
			}
		}
		beyond = beyond || above && o.beyondTurn(p)
	}
	if !(named && beyond || turn && ratio) {
		return
	}
	for i := from; i < to; {
		if ps[i].plusOrMinus() {
			i++
			continue
		}
		end := i
		for end < to && !ps[end].plusOrMinus() {
			end++
		}
		first := -1
		for k := i; k < end; k++ {
			isName := named && ps[k].kind == nameToken && !ps[k].call
			if isName && (first < 0 || ps[first].kind == numToken) || ps[k].kind == numToken && (first < 0 || !named && TurnOfDegrees(ps[k].text)) {
				first = k
			}
		}
		if first >= 0 {
			degrees(first)
		}
		i = end
	}
}

// TurnOfDegrees tells whether a number as it is written is a turn in degrees, or a half or a
// quarter of one, as in sin(360*t/T): the ratio beside it is no angle, and neither is the number.
func TurnOfDegrees(number string) bool { return slices.Contains(turnsOfDegrees[:], number) }

var turnsOfDegrees = [...]string{"90", "180", "360"}

// HoldsTurn tells whether a text may hold such a number.
func HoldsTurn(text string) bool {
	return slices.ContainsFunc(turnsOfDegrees[:], func(turn string) bool { return strings.Contains(text, turn) })
}

// besideAngle tells whether the number at i is a term of a sum with an angle: 90 - θ.
func (o *opener) besideAngle(ps pieces, i int) bool {
	if from, to := ps.term(i); from != i || to != i+1 {
		return false
	}
	for from := i; from > 0 && ps[from-1].plusOrMinus(); {
		if from--; from > 0 && ps[from-1].ends() {
			first, _ := ps.term(from - 1)
			if o.isAngle(ps[first:from]) {
				return true
			}
			from = first
		}
	}
	for to := i + 1; to+1 < len(ps) && ps[to].plusOrMinus(); {
		first := to + 1
		if _, to = ps.term(first); o.isAngle(ps[first:to]) {
			return true
		}
	}
	return false
}

// isAngle tells whether a product holds an angle, and neither a power nor an angle that
// it is divided by.
//
// θ/2 and 2θ are angles; 1/θ and θ² are not.
func (o *opener) isAngle(ps pieces) bool {
	found, under := false, false
	for i := 0; i < len(ps); i++ {
		p := &ps[i]
		angle := false
		switch {
		case p.kind == superToken || p.sign("^"):
			return false
		case p.kind == unitToken:
			angle = angleUnit(p)
		case p.kind == nameToken && p.call:
			angle = ops.IsFunction(p.text) && strings.HasPrefix(p.text, "a") && p.text != "abs"
			i = ps[i:].closing(1) + i
		case p.kind == nameToken:
			name := Canonical(p.text)
			angle = o.in.Angle(name) || angleLetter(name) && slices.Contains(o.in.names, name)
		}
		if under = under || p.over(); angle && under {
			return false
		}
		found = found || angle
	}
	return found
}

// number is the value of a plain number, written or given.
//
// False says that it is neither, or that the name has a unit.
func (o *opener) number(p *token) (float64, bool) {
	switch p.kind {
	case numToken:
		number, _, _ := strings.Cut(p.text, "±")
		d, bad := decimal(number, Span{}, false)
		return d.Float(), bad == nil
	case nameToken:
		return o.in.Number(Canonical(p.text))
	}
	return 0, false
}

// beyondTurn tells whether a plain number is more than a turn of 2π, in either
// direction.
func (o *opener) beyondTurn(p *token) bool {
	v, ok := o.number(p)
	return ok && math.Abs(v) > 2*math.Pi
}

// angleLetter tells whether a name is a letter that usually is an angle.
func angleLetter(name string) bool {
	switch firstRune(Canonical(name)) {
	case 'α', 'β', 'θ', 'φ', 'ϕ':
		return true
	}
	return false
}
