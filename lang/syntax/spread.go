package syntax

import (
	"math/big"
	"slices"
	"strings"

	"steelyard/lang/finding"
	"steelyard/units"
)

// A number with its uncertainty is one token: 0.842 ± 0.002, of which the text is
// 0.842±0.002, with the first letter of uniform or triangular behind it. It is written
// before the unit, behind it, or as the digits of the last places in brackets: 0.842(2).

// moreOrLess are the signs between a value and its uncertainty.
var moreOrLess = [...]string{"±", "+/-", "+/−", "+-", "+−"}

// numberGoesOn reads what belongs to the number that was read last: its uncertainty and
// its unit.
//
// 0.842 m ± 2 mm and 0.842 m ± 0.002 m say the same; only one unit for both is read, so that
// the number of decimals of the one can be held against the other.
func (l *scanner) numberGoesOn() *fault {
	n := len(l.tokens) - 1
	from := l.tokens[n].from
	if l.lastPlaces(n); l.tokens[n].to > from && l.text[l.pos-1] == ')' {
		if bad := l.exponentBehind(from); bad != nil {
			return bad
		}
	}
	off, end := l.spread()
	if off != "" {
		l.spreadOut(n, off, end)
	}
	if l.unitHere(false) {
		unit := l.last(1).text
		percent := unit == "%" && off != ""
		if own, end := l.spread(); own != "" && off == "" {
			l.pos = end
			if !l.unitHere(false) {
				return notSpread(Span{From: from, To: end}, "The uncertainty has no unit.", "Write its unit, or both before the unit: 0.842 ± 0.002 m.")
			}
			its := *l.last(1)
			l.tokens = l.tokens[:len(l.tokens)-1]
			switch off = own; {
			case its.text == "%" && unit != "%":
				off = partOf(l.tokens[n].text, own)
			case its.text != unit:
				bad := notSpread(Span{From: from, To: its.to}, "The value is in "+unit+" and its uncertainty in "+its.text+".", "Write both in one unit.")
				if same, ok := inUnitOf(unit, own, its.text); ok {
					bad.Readings = []string{l.tokens[n].text + " " + unit + " ± " + same + " " + unit}
				}
				return bad
			}
			if l.tokens[n].text += "±" + plainNumber(off); off == "" {
				return notSpread(Span{From: from, To: its.to}, "This uncertainty can't be read.", "Write it like 0.842 m ± 2 %.")
			}
		}
		if percent {
			return notSpread(Span{From: from, To: l.pos}, "The % can belong to the uncertainty or to both.", "Write the uncertainty as a number, or the value with %: 30 % ± 2 %.")
		}
	}
	if strings.Contains(l.tokens[n].text, "±") {
		l.spreadShape(n)
		l.last(1).to = l.pos // the quantity ends with its uncertainty
	}
	return nil
}

// lastPlaces reads the digits in brackets behind a number with decimals, which are how far
// its last places may be off.
//
// 0.842(2) is 0.842 ± 0.002. Without a decimal point, 5(2), it is a bracket.
func (l *scanner) lastPlaces(n int) {
	number := l.tokens[n].text
	_, decimals, point := strings.Cut(number, ".")
	if !point || strings.ContainsAny(decimals, "eE×") || l.pos >= l.end || l.text[l.pos] != '(' {
		return
	}
	end := l.digits(l.pos + 1)
	if end == l.pos+1 || end >= l.end || l.text[end] != ')' {
		return
	}
	digits := strings.TrimLeft(l.text[l.pos+1:end], "0")
	off := digits
	if n := len(decimals) - len(digits); n >= 0 {
		off = "0." + strings.Repeat("0", n) + digits
	} else {
		off = digits[:-n] + "." + digits[-n:]
	}
	l.spreadOut(n, off, end+1)
}

// exponentBehind finds an exponent behind a bracket: 8.42(2)e-3, (8.42 ± 0.02)e-3.
func (l *scanner) exponentBehind(from int) *fault {
	if l.pos >= l.end || l.text[l.pos] != 'e' && l.text[l.pos] != 'E' {
		return nil
	}
	to := l.signedDigits(l.pos + 1)
	if to == l.pos+1 || continues(l.text[to:l.end]) {
		return nil
	}
	power := strings.TrimPrefix(superOrPlain("^"+l.text[l.pos+1:to]), "+")
	return &fault{finding.New(finding.BadNumber, Span{From: from, To: to}, "After a bracket, write the exponent as ×10^.",
		"Write ×10^"+power+".", l.text[from:l.pos]+"×10^"+power)}
}

// spread reads ± and a number, and returns that and where it ends.
func (l *scanner) spread() (string, int) {
	at := l.skip(l.pos)
	for _, sign := range moreOrLess {
		if !strings.HasPrefix(l.text[at:l.end], sign) {
			continue
		}
		from := l.skip(at + len(sign))
		if end := l.number(from, true); end > from {
			return l.text[from:end], end
		}
	}
	return "", l.pos
}

// spreadOut adds an uncertainty to a number.
//
// The token then goes on to the end of the uncertainty.
func (l *scanner) spreadOut(n int, off string, end int) {
	l.tokens[n].text += "±" + plainNumber(off)
	l.tokens[n].to, l.pos = end, end
}

// spreadShape reads uniform or triangular behind a value with its uncertainty, also behind a
// comma at the end, where else the meaning of a name begins.
//
// The word says how values lie in the interval (JCGM 100:2008, 4.3.7 and 4.3.9): with uniform,
// half of the width over √3 is the standard uncertainty, with triangular over √6.
func (l *scanner) spreadShape(n int) {
	at := l.skip(l.pos)
	comma := at < l.end && l.text[at] == ','
	if comma {
		at = l.skip(at + 1)
	}
	word := l.units().word(at)
	end := at + len(word)
	if next := l.skip(end); comma && next < l.end && l.text[next] != ',' {
		return
	}
	for _, shape := range spreadWords {
		if word == shape.word {
			l.tokens[n].text += shape.letter
			l.pos = end
		}
	}
}

// shapeFirst is where the word for how a value spreads ends, with the comma before it, if the
// words behind a value with its uncertainty begin with one and a comma or nothing follows; 0
// for other words.
func shapeFirst(value, words string) int {
	first, _, _ := strings.Cut(words[1:], ",")
	uncertain := slices.ContainsFunc(moreOrLess[:], func(sign string) bool { return strings.Contains(value, sign) })
	if !uncertain || !slices.ContainsFunc(spreadWords[:], func(w spreadWord) bool { return w.word == strings.TrimSpace(first) }) {
		return 0
	}
	return 1 + len(first)
}

// spreadWords are the words for how values are spread, and what stands for each in the text
// of a number. That of JCGM 100:2008, 4.3.7, is rectangular.
var spreadWords = [...]spreadWord{{"uniform", "u"}, {"rectangular", "u"}, {"triangular", "t"}, {"normal", ""}}

type spreadWord struct{ word, letter string }

// partOf is a percentage of a number.
//
// 2 % of 0.842 is 0.01684: worked out with rational numbers, and without a sign.
func partOf(number, percent string) string {
	of, ok := new(big.Rat).SetString(plainNumber(number))
	part, ok2 := new(big.Rat).SetString(plainNumber(percent))
	if !ok || !ok2 {
		return ""
	}
	of.Mul(of.Abs(of), part).Quo(of, big.NewRat(100, 1))
	v, _ := of.Float64()
	return units.FormatNumber(v, units.Figures{N: 15}, units.HalfAway, units.File)
}

// inUnitOf is a number with one unit in another of the same kind, if a few decimals hold it: 0.1
// for 1 mm in cm.
func inUnitOf(unit, number, its string) (string, bool) {
	d, ok := units.ParseDecimal(plainNumber(number))
	x, _ := unitIn(its, unit)
	if x == nil || !ok || len(number) > mostExact {
		return "", false
	}
	return exactDecimal(x.Mul(x, d.Rat()))
}

func notSpread(at Span, message, hint string) *fault {
	return &fault{finding.New(finding.NotWritten, at, message, hint)}
}

// spreadOf reads the uncertainty in the text of a number, behind ±.
func spreadOf(text string) (*units.Spread, bool) {
	s := &units.Spread{}
	for _, shape := range [...]units.SpreadShape{units.Uniform, units.Triangular} {
		if rest, ok := strings.CutSuffix(text, shape.String()[:1]); ok {
			text, s.Shape = rest, shape
		}
	}
	d, ok := units.ParseDecimal(text)
	s.Text, s.Width = d.Text, d.Float()
	return s, ok
}
