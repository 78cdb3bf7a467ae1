package syntax

import (
	"strings"
	"unicode/utf8"

	"steelyard/lang/finding"
	"steelyard/units/writing"
)

// numeral is a written number and what stands behind it.
//
// In 1,280 m the number is 1, and the comma is next.
type numeral struct {
	scanner
	number string
	to     int  // where it ends
	next   rune // what stands there
}

// numberSlip is a slip that shows by a number and what is directly behind it. In what is said
// and offered $1 is the number, $2 what is behind it, and $3 a part of that.
type numberSlip struct {
	written       pattern
	id            finding.ID
	message, hint string
	readings      []string
	joined        bool // the reading has no blanks, commas and marks between its digits
}

// misread is a slip that has a number of one form, and something behind it, before an end.
func misread(number, behind, end string, message, hint string, readings ...string) numberSlip {
	return numberSlip{patternWith(`^(`+number+`)\x00(`+behind+`)`+end, "\x00"), finding.BadNumber, message, hint, readings, false}
}

// grouped is misread for digits that are parted into groups.
func grouped(number, behind, end string, message, hint string) numberSlip {
	s := misread(number, behind, end, message, hint, "$1$2")
	s.joined = true
	return s
}

// mark is misread for a mark that means two units.
func mark(signs, could, hint, unit, arc string) numberSlip {
	s := misread(`.+`, signs, "", "The mark $2 could mean "+could+" of arc.", hint, "$1 "+unit, "$1"+arc)
	s.id = finding.NotWritten
	return s
}

// The parts of patterns for numbers.
const (
	aBlank  = `[\s\p{Z}]`
	aSign   = `\+?([-−–‐‑]?\d+)`               // an exponent with its sign
	oneWord = `(?:$|[^\pL\pN\p{Mn}_'′″’])`     // no name goes on
	noDigit = `(?:$|[^\d'’])`                  // no digit, or mark between some
	noComma = `(?:$|[^\d,]|,(?:$|\D))`         // no comma between digits
	noGroup = `(?:$|[^\d\s]|\s+(?:$|[^\d\s]))` // no more digits behind a blank
)

const twoExponents = "This number has two exponents."

// numberSlips are looked for at each written number, in this order.
//
// Half of the world writes 0,5, and half 1,280 for what is 1280 here. A group of three digits
// may be either, so that both are offered; any other comma is a decimal one. Which point of 1.2.3
// is too much can't be seen; digits behind a blank belong to 0. 5 m, since nobody multiplies by 5
// without a sign. Calculators show 1 e3 so, and 1'000 is Swiss; 5' is on every keyboard, and
// means feet to some and minutes of arc to others.
var numberSlips = []numberSlip{
	misread(`.*[eE^].*`, aBlank+`+[eE]`+aSign, oneWord, twoExponents, "Write one."),
	misread(`[^eE^]+`, aBlank+`+([eE](\d+))`, oneWord, "There is a space before the exponent of this number.", "Take the space out.", "$1*$3", "${1}e$4"),
	misread(`[^eE^]+`, aBlank+`+[eE]`+aSign, oneWord, "There is a space before the exponent of this number.", "Take the space out.", "${1}e$3"),
	grouped(`\d{1,3}`, `(?:`+aBlank+`+\d{3})+(?:\.\d+)?`, noGroup, "A number has no spaces between its digits.", "Take the space out."),
	misread(`[1-9]|\d{2,3}`, `,(\d{3})`, `(?:$|[^\d,.]|[,.](?:$|\D))`, "A number has no commas between its digits here.", "Take the comma out, or write a decimal point.", "$1$3", "$1.$3"),
	grouped(`[1-9]|\d{2,3}`, `(?:,\d{3})+(?:\.\d+)?`, noComma, "A number has no commas between its digits here.", "Take the comma out, or write a decimal point."),
	misread(`[^.]+`, `,(\d+)`, noComma, "There is a comma in this number.", "Write a decimal point.", "$1.$3"),
	misread(`.+`, `(?:,\d+)+`, "", "There are commas in this number.", "Write it with digits and one decimal point."),
	misread(`.+`, `\.\d+`, "", "This number has two decimal points.", "Write one."),
	misread(`[^.e^]+`, `\.`+aBlank+`+(\d+)`, "", "There is a space after the decimal point of this number.", "Take the space out.", "$1.$3"),
	misread(`[^.e^]+`, `\.`, "", "A digit is missing after the decimal point.", "Write $1.0, or take the point out.", "$1.0", "$1"),
	grouped(`\d{1,3}`, `(?:['’]\d{3})+(?:\.\d+)?`, noDigit, "A number has no marks between its digits.", "Take the marks out."),
	mark(`["”]`, "inches or seconds", "Write inch, or ″ for seconds of arc.", "inch", "″"),
	mark(`['’]`, "feet or minutes", "Write ft, or ′ for minutes of arc.", "ft", "′"),
	misread(`.+`, `[eE]`+aSign, "", twoExponents, "Write one."),
	misread(`[^eE^]+`, `[xX]10([-−–‐‑]\d+)`, noDigit, "The exponent of this number needs ^ before it.", "", "$1×10^$3", "$1*x10$3"),
	misread(`[^eE^]+`, `[eE]`+aBlank+`+`+aSign, `(?:$|[^\pL\pN\p{Mn}_'′″’.])`, "There is a space in the exponent of this number.", "Take the space out.", "${1}e$3"),
}

// dashes writes each dash that looks like a minus as one, and apart takes out what parts digits.
var (
	dashes = strings.NewReplacer("−", "-", "–", "-", "‐", "-", "‑", "-")
	apart  = patternWith(`[\s\p{Z},'’]`)
)

// mistyped finds what is wrong round a written number that ends at end.
//
// What follows a number is nearly always a blank and a sign or a unit: that is seen by one
// character, and no rule is tried.
//
// Each slip is told with what to write: 1280 or 1.280, 0.5, 1e3. None is mended in
// silence, as a comma or a blank in a number may mean another number.
func (l *scanner) mistyped(end int) *fault {
	rest := l.text[end:l.end]
	if !mayBeMistyped(rest) {
		return nil
	}
	n := numeral{scanner: *l, number: l.text[l.pos:end], to: end, next: firstRune(rest)}
	if bad, told := n.inBrackets(); told {
		return bad
	}
	for i := range numberSlips {
		s := &numberSlips[i]
		text := n.number + "\x00" + rest
		at := s.written.compiled().FindStringSubmatchIndex(text)
		if at == nil {
			continue
		}
		told := func(words string) string { return string(s.written.compiled().ExpandString(nil, words, text, at)) }
		f := finding.New(s.id, Span{From: l.pos, To: end + at[5] - at[4]}, told(s.message), told(s.hint))
		for _, r := range s.readings {
			if r = dashes.Replace(told(r)); s.joined {
				r = apart.compiled().ReplaceAllString(r, "")
			}
			f.Readings = append(f.Readings, r)
		}
		return &fault{f}
	}
	if bad := n.fractionBeside(); bad != nil {
		return bad
	}
	return n.numberBeside()
}

// mayBeMistyped tells by the first sign behind a number, and by that behind an e, whether it may
// be a slip: the π of 2π and the eV of 3 eV are none.
func mayBeMistyped(rest string) bool {
	blank := func(r rune) bool { return isBlank(r) && r != '\n' } // the rows of a table are apart
	next := strings.TrimLeftFunc(rest, blank)
	switch r := firstRune(next); r {
	case 'e', 'E':
		behind := firstRune(strings.TrimLeftFunc(next[1:], blank))
		return behind == '+' || isMinus(behind) || '0' <= behind && behind <= '9'
	case ',', '.', '\'', '’', '"', '”':
		return true
	case 'x', 'X':
		return strings.HasPrefix(next[1:], "10")
	default:
		_, _, vulgar := isVulgar(r)
		return vulgar || '0' <= r && r <= '9'
	}
}

// inBrackets settles a number in a list, a vector or a call, where commas part values; false
// where what is behind it is no sign between two values.
func (n numeral) inBrackets() (bad *fault, told bool) {
	if len(n.open) == 0 {
		return nil, false
	}
	open, at := n.open[len(n.open)-1], n.skip(n.to)
	switch {
	case n.next == ',' && open.call:
		return nil, true
	case n.next == ',' && (open.sign == '[' || n.parts(open)):
		return n.listCommas(open), true
	case open.sign == '[' && at > n.to && n.digits(at) > at && !strings.Contains(n.text[open.at:n.end], ","):
		return n.listParts(" "), true
	}
	return nil, false
}

func (l *scanner) badNumber(to int, message, hint string, readings ...string) *fault {
	return &fault{finding.New(finding.BadNumber, Span{From: l.pos, To: to}, message, hint, readings...)}
}

// fractionBeside finds 3½.
//
// 3½ is a product by the rule of factors without a sign, and three and a half to
// all who write it.
func (n numeral) fractionBeside() *fault {
	if a, b, ok := isVulgar(n.next); ok {
		return n.badNumber(n.to+utf8.RuneLen(n.next), "A number and a fraction are side by side.", "Add them in brackets.", "("+n.number+"+"+a+"/"+b+")")
	}
	return nil
}

// numberBeside finds two numbers with a blank between them, which may be a whole one and its
// fraction, 3 1/2; but not a number and its unit, 0.05 1/m.
func (n numeral) numberBeside() *fault {
	next := n.skip(n.to)
	if next == n.to || n.digits(next) == next || n.units().scan(next) > next {
		return nil
	}
	if len(n.open) > 0 && n.open[len(n.open)-1].sign == '[' {
		return n.listParts(" ")
	}
	if bad := n.wholeAndFraction(next, n.number); bad != nil {
		return bad
	}
	to := n.scanner.number(next, false)
	return n.badNumber(to, "There are two numbers side by side.", "Put `*` between them.", n.number+"*"+n.text[next:to])
}

// superOrPlain turns ^8 or ⁸ into 8.
func superOrPlain(text string) string {
	text = strings.TrimSpace(text)
	if strings.HasPrefix(text, "^") {
		return strings.Map(writing.Sign, strings.TrimSpace(text[1:]))
	}
	return writing.OnTheLine(text)
}
