package syntax

import (
	"slices"
	"strings"
	"unicode/utf8"

	"steelyard/lang/finding"
	"steelyard/units"
)

// besideUnit finds what stands directly after a unit and was meant as a part of
// it: the letter of a scale of temperature, or the digit of a negative power.
//
// 20° C would else be told as two factors with no sign, and 5 m s-1 be read as a
// quantity less 1.
func (p among) besideUnit() *fault {
	text, tokens, i := p.text, p.tokens, p.i
	if tokens[i].kind != unitToken || i+1 >= len(tokens) {
		return nil
	}
	switch next := &tokens[i+1]; next.kind {
	case nameToken:
		return degreeLetter(text, tokens, i)
	case signToken:
		if next.from == tokens[i].to && isMinus(firstRune(next.text)) {
			return minusPower(text, tokens, i)
		}
	}
	return nil
}

// degreeLetter finds 20° C, 20 °c and 300 °K.
//
// The symbol is °C, one sign (SI Brochure 9, table 4), and K without a degree sign since the
// 13th CGPM of 1967.
//
// 20° C is offered as 20 °C, and 300 °K as 300 K. A call, 20° C(x), is none.
func degreeLetter(text string, tokens []token, i int) *fault {
	mark, letter := &tokens[i], &tokens[i+1]
	if !isDegree(firstRune(mark.text)) || utf8.RuneCountInString(mark.text) != 1 || letter.call {
		return nil
	}
	unit := ""
	switch letter.text {
	case "C", "c":
		unit = "°C"
	case "F", "f":
		unit = "°F"
	case "K", "k":
		unit = "K"
	default:
		return nil
	}
	hint := "Write the sign and a capital letter without a space."
	if unit == "K" {
		hint = "The kelvin has no degree sign."
	}
	at, reading := Span{From: mark.from, To: letter.to}, unit
	if i > 0 && tokens[i-1].kind == numToken {
		at.From, reading = tokens[i-1].from, tokens[i-1].text+" "+unit
	}
	return &fault{finding.New(finding.UnitText, at, "`"+text[at.From:at.To]+"` isn't a unit of temperature.", hint, reading)}
}

// minusPower finds m s-1 and J kg-1 K-1, where powers are written without ^. A
// number less another one, as in 5 %-1, is left alone.
//
// Tables of data write units so. Only a text that is a unit then, or nearly one, is told of;
// a pure number less another is left alone.
//
// 5 m s-1 is offered as 5 m s^-1; by the rules it would be 5 m·s less 1.
func minusPower(text string, tokens []token, i int) *fault {
	u := &tokens[i]
	if got, bad := units.NewTable().Parse(foldUnit(u.text), units.AfterNumber); bad == nil && got.Dim().IsOne() {
		return nil
	}
	unit, to, ok := powered(text, u.from, tokens[len(tokens)-1].to)
	if !ok {
		return nil
	}
	readings := []string{unit}
	if _, bad := units.NewTable().Parse(unit, units.AfterNumber); bad != nil {
		if readings = bad.Readings; len(readings) == 0 {
			return nil
		}
	}
	at := Span{From: u.from, To: to}
	return &fault{finding.New(finding.UnitText, at, "`"+text[at.From:at.To]+"` needs ^ before the minus.",
		"Write a power with ^.", readings...)}
}

// raisedUnits reads m s-1 as m s^-1, where the digit is behind several words of a unit and
// ends its term: a pure number is never taken from a quantity. What goes on as a product is
// asked, as in 5 m s-2*x; so is 5 m-2, in which 2 may lack its unit.
func raisedUnits(text string, tokens []token) []token {
	for i := 0; i+2 < len(tokens); i++ {
		t := &tokens[i]
		if t.kind != unitToken || tokens[i+1].from != t.to || !isMinus(firstRune(tokens[i+1].text)) {
			continue
		}
		bad := minusPower(text, tokens, i)
		if bad == nil || !LacksPower(text, &bad.Finding) || !strings.Contains(bad.Readings[0], " ") {
			continue
		}
		end := i + 2
		for end < len(tokens) && tokens[end].to <= bad.At.To {
			end++
		}
		if tokens[end-1].to != bad.At.To || end < len(tokens) && !tokens[end].plusOrMinus() && !tokens[end].sign(")") && !tokens[end].bounds() {
			continue
		}
		t.to, t.text = bad.At.To, bad.Readings[0]
		tokens = slices.Delete(tokens, i+1, end)
	}
	return tokens
}

// LacksPower tells whether what a finding offers differs from a line in the ^ of a negative
// power of a unit alone: m s^-2 for m s-2.
func LacksPower(text string, f *finding.Finding) bool {
	return f.ID == finding.UnitText && len(f.Readings) == 1 && strings.Contains(f.Readings[0], "^-") && samePowers(f.Readings[0], text[f.At.From:f.At.To])
}

// samePowers tells whether two texts of a unit differ in the signs of their powers alone.
func samePowers(a, b string) bool { return withoutPowers.Replace(a) == withoutPowers.Replace(b) }

// withoutPowers takes the signs of powers off a unit, and has a blank for each dot in it.
var withoutPowers = strings.NewReplacer("^", "", "−", "-", "·", " ", "⋅", " ", ".", " ")

// powered reads words of a unit whose powers stand directly behind them, and
// writes them with ^. The last must have a negative one.
//
// J kg-1 K-1 has a power behind each word, and the whole is one unit. More than two digits are
// a number and no power, and so is what has a decimal point: 1.0s-4.0 s is a difference.
func powered(text string, from, end int) (string, int, bool) {
	var b strings.Builder
	u := unitScan{text: text, end: end, alone: true}
	at, negative := from, false
	for at < end {
		word := u.word(at)
		if b.Len() > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(word)
		at += len(word)
		power := at
		if r, n := utf8.DecodeRuneInString(text[at:end]); isMinus(r) {
			power += n
		}
		negative = power > at
		digits := u.digits(power)
		if digits > power && u.at(digits) == '.' { // 1.0s-4.0 s
			return "", 0, false
		}
		if digits == power || digits > power+2 {
			if u.exponent(at) > at {
				b.WriteString(text[at:u.exponent(at)])
				at = u.exponent(at)
			} else if negative {
				return "", 0, false
			}
		} else {
			b.WriteByte('^')
			if negative {
				b.WriteByte('-')
			}
			b.WriteString(text[power:digits])
			at = digits
		}
		next := u.skip(at)
		if r, n := utf8.DecodeRuneInString(text[next:end]); isDot(r) {
			next = u.skip(next + n)
		} else if r == '.' { // km.h-1
			next += n
		}
		if !startsName(u.at(next)) || endsUnit(u.word(next)) {
			break
		}
		at = next
	}
	return b.String(), at, negative
}

// dotForTimes finds 2.10^8 m/s, where the point was meant as a sign of
// multiplication.
//
// A unit behind a power shows it: 2.10 to the power 8 can't have one.
//
// 2.10^8 m/s is offered as 2×10^8 m/s and as 2e8 m/s.
func (p among) dotForTimes() *fault {
	text, tokens, i := p.text, p.tokens, p.i
	power := powerStart(tokens, i-1)
	if power <= 0 {
		return nil
	}
	from := operandStart(tokens, i-1)
	head := text[from:tokens[power].from]
	number, ok := strings.CutSuffix(head, ".10")
	if !ok || number == "" || strings.Trim(number, "0123456789") != "" {
		return nil
	}
	exponent := strings.TrimPrefix(superOrPlain(text[tokens[power].from:tokens[i-1].to]), "+")
	return &fault{finding.New(finding.BadNumber, Span{From: from, To: tokens[i-1].to},
		"The point is a decimal point here: "+head+" to a power can't have a unit.",
		"Write × or * for times.", number+"×10^"+exponent, number+"e"+exponent)}
}

// shownIn offers `in` where the rest of a line is a unit: v^2 J. It returns
// where the unit ends and its text, or "".
//
// A product that ends in the letters of a unit may have been meant in that unit. Where the
// words before are a number alone, they are its unit anyway.
func shownIn(text string, tokens []token, i int) (string, int) {
	end := tokens[len(tokens)-1].to
	if tokens[i].call || startsWithNumber(tokens, i) {
		return "", 0
	}
	u := unitScan{text: text, end: end, alone: true}
	if u.scan(tokens[i].from) != end {
		return "", 0
	}
	unit := text[tokens[i].from:end]
	if _, bad := units.NewTable().Parse(foldUnit(unit), units.AloneInPlace); bad != nil {
		return "", 0
	}
	return unit, end
}

// startsWithNumber tells whether the operand before i is a written number alone,
// whose unit would need no `in`.
func startsWithNumber(tokens []token, i int) bool {
	return tokens[i-1].kind == unitToken || tokens[i-1].kind == numToken && powerStart(tokens, i-1) < 0
}

// angleBeside finds cos30 J and 50cos30, where the angle of a function has no brackets.
//
// Print has it and a calculator has it; here cos30 would be a name like any other.
func (p among) angleBeside() *fault {
	for _, t := range p.tokens[p.i-1 : p.i+1] {
		if word := strings.TrimRight(t.text, "0123456789"); t.kind == nameToken && word != t.text && len(word) == 3 && bareFunction(word) {
			call := word + "(" + t.text[len(word):] + "°)"
			return &fault{finding.New(finding.NotWritten, t.span(), word+" needs brackets here.", "Write "+call+".", call)}
		}
	}
	return nil
}

// functionBehind finds mgcos θ, where letters run into a function and a blank is before what
// it is of.
//
// Without the blank, mgcosθ, the opener reads it where it makes sense (openline.go); with it
// there are two words, of which the first is no name.
func (p among) functionBehind() *fault {
	t, arg := &p.tokens[p.i-1], &p.tokens[p.i]
	if t.kind != nameToken || len(t.text) < 4 || arg.kind != nameToken && arg.kind != numToken && arg.kind != piToken {
		return nil
	}
	head, name := t.text[:len(t.text)-3], t.text[len(t.text)-3:]
	isName := func(part string) bool { return units.IsSymbol(part) || p.known != nil && p.known(part) }
	if _, _, ok := Apart(head, isName, nil); !ok || !bareFunction(name) {
		return nil
	}
	at := Span{From: t.from, To: argumentEnd(p.tokens, p.i)}
	call := name + "(" + p.text[arg.from:at.To] + ")"
	return &fault{finding.New(finding.NotWritten, at, name+" needs brackets here.", "Write "+head+"*"+call+".", head+"*"+call)}
}

// level finds a number or a product in dB, which is no unit: a level is a plain number.
//
// Sound levels and gains are logarithms of a ratio, so that no factor turns them into a plain
// number.
func (p among) level() *fault {
	t := &p.tokens[p.i]
	if p.i == 0 || !units.IsLevel(t.text) || t.kind != unitToken && t.kind != nameToken || p.known != nil && p.known(Canonical(t.text)) {
		return nil
	}
	before := &p.tokens[p.i-1]
	if before.is("*") || before.is("in") {
		before = &p.tokens[max(p.i-2, 0)]
	}
	if !before.ends() {
		return nil
	}
	return &fault{finding.New(finding.UnitText, Span{From: before.from, To: t.to}, "`"+t.text+"` isn't a unit here: a level is a plain number.",
		"Leave it out.", p.text[before.from:before.to])}
}

// pointInName finds x_2.5: a name can't have a point in it.
//
// The number behind the point would else be a factor: x_2*.5.
func (p among) pointInName() *fault {
	name, number := &p.tokens[p.i-1], &p.tokens[p.i]
	if name.kind != nameToken || number.from != name.to || !strings.HasPrefix(number.text, ".") || !isDigit(rune(name.text[len(name.text)-1])) {
		return nil
	}
	return &fault{finding.New(finding.NameKind, Span{From: name.from, To: number.to}, "A name can't have a point in it.",
		"Write _ instead.", name.text+"_"+number.text[1:])}
}

// fractionIndex finds t½, which is t/2 in no book.
//
// It is a half-life, or what a letter is at half of something: an index, as all books write it.
//
// t½ is offered as t_half.
func (p among) fractionIndex() *fault {
	t, before := &p.tokens[p.i], &p.tokens[p.i-1]
	index := map[string]string{"½": "half", "⅓": "third", "¼": "quarter"}[t.text]
	if index == "" || before.kind != nameToken || before.to != t.from {
		return nil
	}
	return &fault{finding.New(finding.NameKind, Span{From: before.from, To: t.to}, "`"+before.text+t.text+"` can't be a name.",
		"A name begins with a letter, then has letters, digits or _.", strings.TrimSuffix(before.text, "_")+"_"+index)}
}

// unitGoesOn finds a power in a unit with more of the unit directly behind it: W/m²K⁴.
// All that follows a stroke is under it.
//
// A product with a name of the page is offered beside it, if the next word is one.
//
// W/m²K is W/(m² K) in every table of data; the power ends the word for a reader of signs.
func (p among) unitGoesOn() *fault {
	u, next := &p.tokens[p.i-1], &p.tokens[p.i]
	if u.kind != unitToken || next.kind != nameToken || next.from != u.to || strings.Contains(u.text, "(") {
		return nil
	}
	scan := unitScan{text: p.text, end: len(p.text), alone: true}
	end := scan.scan(next.from)
	if i := strings.IndexAny(p.text[next.from:end], " /*"); i >= 0 {
		end = next.from + i
	}
	over, under, stroke := strings.Cut(u.text, "/")
	unit := over + " " + p.text[next.from:end]
	if stroke {
		unit = over + "/(" + under + " " + p.text[next.from:end] + ")"
	}
	if _, bad := units.NewTable().Parse(foldUnit(unit), units.AfterNumber); bad != nil {
		return nil
	}
	readings := []string{unit}
	if p.known != nil && p.known(Canonical(next.text)) {
		readings = append(readings, p.text[u.from:u.to]+"*"+p.text[next.from:end])
	}
	return &fault{finding.New(finding.UnitText, Span{From: u.from, To: end}, "`"+p.text[u.from:end]+"` needs a blank between its units.",
		"Write "+strings.Join(readings, " or ")+".", readings...)}
}
