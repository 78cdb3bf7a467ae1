package syntax

import (
	"strings"

	"steelyard/lang/ops"
)

// A unit may stand behind a product of written numbers whatever its last factor is: the
// product has one unit, and none of its factors has another. So it is read behind a
// power, a root or a function, too: ½×2×3² J, √(2×9.8×5) m/s, 40 cos(60°) J.

// productUnit reads the unit behind such a product, if one stands here.
//
// An x that begins ×10^ is no unit: 3² x10^2.
func (l *scanner) productUnit() {
	at := l.skip(l.pos)
	u := l.units()
	r := u.at(at)
	if startsUnit(r) && l.timesTen(at) == at && u.scan(at) > at && ofNumbers(l.tokens, isDegree(r)) {
		l.unitHere(false)
	}
}

// ofNumbers tells whether the term of a sum that tokens end with is worked out from
// written numbers alone. An angle is in degrees by `in °` only. What is behind π, as in
// 4π²m, is a name, and 2.10^8 a slip.
//
// It goes back from the end to the sign of a sum, an open bracket or a word, and meets nothing
// on the way but numbers, π and functions of them: with a name in it, the unit could be a name.
func ofNumbers(tokens []token, degrees bool) bool {
	if base := baseOf(tokens, len(tokens)-1); base.kind == piToken || strings.HasSuffix(base.text, ".10") {
		return false
	}
	depth, angle := 0, 0 // of brackets, and at which an angle is in one
	for i := len(tokens) - 1; i >= 0; i-- {
		t := &tokens[i]
		switch t.kind {
		case numToken, piToken, superToken:
		case unitToken:
			if angle = depth; depth == 0 || !isDegree(firstRune(t.text)) && t.text != "rad" {
				return false
			}
		case nameToken:
			f, ok := ops.Named(t.text)
			turned := ok && (f.Takes == ops.PureToAngle || f.Takes == ops.SameToAngle)
			if !ok || !t.call || degrees && turned || angle > depth && f.Takes != ops.AngleToPure {
				return false
			}
			angle = 0
		case signToken:
			switch {
			case t.text == ")":
				depth++
			case t.text == "(" && depth == 0:
				return true
			case t.text == "(":
				if depth--; angle > depth && (i == 0 || !tokens[i-1].call) {
					return false
				}
			case depth == 0 && (t.bounds() || t.plusOrMinus() && !(i > 0 && tokens[i-1].sign("^"))):
				return true
			}
		default: // a word, or what a name is told by
			return depth == 0 && t.kind == wordToken
		}
	}
	return true
}

// measured is what is read of written numbers, with the unit that follows them.
func (p *exprParser) measured(x Expr) Expr {
	u := p.unitNext()
	if !u.Present() {
		return x
	}
	in, ok := x.(*Paren)
	if ok {
		if q, ok := in.X.(*Quantity); ok && q.Unit.Text == "1" { // (0.842 ± 0.002) m
			return &Quantity{At: in.At.Join(u.At), Value: q.Value, Unit: u}
		}
	}
	if !ok {
		in = &Paren{At: x.Span(), X: x}
	}
	return &Measured{At: in.At.Join(u.At), X: in, Unit: u}
}
