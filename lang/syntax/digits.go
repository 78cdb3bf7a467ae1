package syntax

import (
	"math/big"
	"strings"
	"unicode/utf8"

	"steelyard/lang/finding"
	"steelyard/units"
)

// continues tells whether a text goes on with a letter, a digit or a decimal
// point.
func continues(text string) bool {
	r, _ := utf8.DecodeRuneInString(text)
	return text != "" && (continuesName(r) || r == '.')
}

// wholeAndFraction finds 3 1/2, a whole number with a fraction less than one.
//
// 3 1/2 is three and a half in English; read as a product it would be one and a half.
func (l *scanner) wholeAndFraction(pos int, whole string) *fault {
	over := l.digits(pos)
	if over == pos || over >= l.end || l.text[over] != '/' || strings.Trim(whole, "0123456789") != "" || len(whole) > 9 {
		return nil
	}
	to := l.digits(over + 1)
	if to == over+1 || to-pos > 8 || to < l.end && l.text[to] == '.' {
		return nil
	}
	sum, ok := new(big.Rat).SetString(l.text[pos:to])
	if !ok || sum.Cmp(big.NewRat(1, 1)) >= 0 || sum.Sign() == 0 {
		return nil
	}
	n, _ := new(big.Rat).SetString(whole)
	reading, ok := exactDecimal(sum.Add(sum, n))
	if !ok {
		reading = "(" + whole + "+" + l.text[pos:to] + ")"
	}
	return l.badNumber(to, "A whole number and a fraction are side by side.", "Write one number, or add them in brackets.", reading)
}

// exactDecimal writes a number that few decimals hold.
//
// A third has no decimals, and is written as a sum in brackets then.
func exactDecimal(x *big.Rat) (string, bool) {
	for places := range 7 {
		text := x.FloatString(places)
		if back, ok := new(big.Rat).SetString(text); ok && back.Cmp(x) == 0 {
			return text, true
		}
	}
	return "", false
}

// letterTimes finds 3 x 4 m and 3 m x 4 m: the letter x for the sign of
// multiplication.
//
// The x is read as part of a unit there, and no unit ends so.
func letterTimes(first, second *Quantity, at Span) *fault {
	unit, ok := strings.CutSuffix(first.Unit.Text, "x")
	if !ok || unit != "" && !strings.HasSuffix(unit, " ") {
		return nil
	}
	left := first.Value.Text
	if unit = strings.TrimSpace(unit); unit != "" {
		if _, bad := units.NewTable().Parse(unit, units.AfterNumber); bad != nil {
			return nil // 2 k x 2
		}
		left += " " + unit
	}
	right := second.Value.Text
	if second.Unit.Present() {
		right += " " + second.Unit.Text
	}
	return &fault{finding.New(finding.BadNumber, Span{From: first.At.From, To: at.To},
		"The letter x is a name here, not times.", "Write * or ×.", left+"*"+right, left+"*x*"+right)}
}

// mostExact is how many letters a number has at most that is worked with exactly.
const mostExact = 12

// unitIn is a unit in another one, exactly; nil where that can't be. Alike tells whether they are of
// one kind.
func unitIn(unit, other string) (x *big.Rat, alike bool) {
	table := units.NewTable()
	u, bad := table.Parse(unit, units.AfterNumber)
	v, worse := table.Parse(other, units.AfterNumber)
	if bad != nil || worse != nil || u.Affine() || v.Affine() || u.Dim() != v.Dim() || u.Tag() != v.Tag() {
		return nil, false
	}
	if u.PiPower() != v.PiPower() {
		return nil, true
	}
	return new(big.Rat).Quo(u.Factor(), v.Factor()), true
}

// inOneUnit adds two quantities of one dimension in the unit of the first, if
// few decimals hold the sum. Alike tells whether they are of one dimension.
//
// The sum is made of exact fractions, so that what is offered is what was written: no digit
// of 5 ft 7 in comes from rounding.
func inOneUnit(a, b *Quantity) (sum string, alike bool) {
	x, alike := unitIn(b.Unit.Text, a.Unit.Text)
	if x == nil || len(a.Value.Text) > mostExact || len(b.Value.Text) > mostExact {
		return "", alike
	}
	x.Add(x.Mul(x, b.Value.Rat()), a.Value.Rat())
	text, ok := exactDecimal(x)
	if !ok {
		return "", true
	}
	return text + " " + a.Unit.Text, true
}
