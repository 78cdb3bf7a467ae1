package units

import (
	"strings"

	"steelyard/units/writing"
)

// factor is one word of the text of a unit, before it is looked up.
//
// The word is kept as it was typed with where it stands, so that what is wrong with it can be
// shown there.
type factor struct {
	word     string
	from, to int
	exp      Exp
	raised   bool // has an exponent of its own
	den      bool
	named    bool // square or cubic went before: square metre
}

// fault is something wrong with the shape of a text. The factors say what was
// meant all the same.
type fault struct {
	from, to      int
	message, hint string
	rangeError    bool
	lost          bool // no reading can be offered
	sure          bool // nothing else can be meant, and nothing else is wrong
}

// shape is the text of a unit by its form alone.
//
// J/(kg K) has three factors, of which two are below (den). A text with a fault has its factors
// all the same: what it was meant for is offered from them.
type shape struct {
	factors []factor
	fault   *fault
	solidus bool // there is a slash, or the word per
}

// shaper reads the form of a text: which words it holds, and where.
//
// The form is that of the SI Brochure (9th edition, 5.2): words with exponents, joined by
// blanks or dots, one solidus at most unless brackets say what is below it. People write
// more than that. What can only be meant in one way is read with a fault that says how it
// is written (sure), what leaves two ways open has readings, and what leaves none is lost.
// No word is looked up here, so that a text has one form whatever units a page defines.
type shaper struct {
	text   string
	place  Place
	toks   []Part
	at     int
	out    shape
	per    bool // the solidus was the word per
	den    bool
	inside bool // an open bracket
	one    bool // a leading 1/ was read
	pow    int  // exponent that square or cubic puts on the next word
}

// The most bytes and words that the text of a unit may have.
const (
	maxText  = 1024
	maxWords = 64
)

// shapeOf reads the form of a text that stands in a place.
//
// The parts of the text are found first, all of them, since what a sign means hangs on what is
// behind it.
func shapeOf(text string, place Place) shape {
	if len(text) > maxText {
		return shape{fault: &fault{0, maxText, "This unit is too long.", "Write a unit of a few words, such as kg m/s^2.", false, true, false}}
	}
	var room [16]Part
	p := shaper{text: text, place: place, toks: room[:0]}
	sc := Scanner{Text: text}
	for {
		t := sc.Next()
		p.toks = append(p.toks, t)
		if t.Kind == PartEnd {
			break
		}
	}
	p.out.factors = make([]factor, 0, 4)
	p.read()
	return p.out
}

// tok is the part that is read next, and peek the kind of the one behind it; the last
// part is an end, which is never passed.
func (p *shaper) tok() Part { return p.toks[p.at] }

// peek is the kind of the next part. The last is always the end, so that looking beyond it
// finds the end again.
func (p *shaper) peek() PartKind { return p.toks[min(p.at+1, len(p.toks)-1)].Kind }

// blanks skips what blanks there are, and tells whether there were any.
func (p *shaper) blanks() bool {
	if p.tok().Kind == PartBlank {
		p.at++
		return true
	}
	return false
}

// wrong records the first fault: one is enough for a reader, and what follows may only
// follow from it.
func (p *shaper) wrong(t Part, message, hint string) {
	if p.out.fault == nil {
		p.out.fault = &fault{from: t.From, to: t.To, message: message, hint: hint}
	}
	p.out.fault.sure = false
}

// loose records what is not written so, though nothing else can be meant.
func (p *shaper) loose(t Part, message, hint string) {
	if p.out.fault == nil {
		p.wrong(t, message, hint)
		p.out.fault.sure = true
	}
}

// stop records a fault that leaves nothing to offer.
func (p *shaper) stop(t Part, message, hint string) bool {
	p.wrong(t, message, hint)
	p.out.fault.lost = true
	return false
}

// read reads a text from its front to its end, or to what leaves nothing to read on.
func (p *shaper) read() {
	p.blanks()
	p.leadingOne()
	for p.step() {
	}
}

// leadingOne reads the 1 of 1/s, or the 1 that is the unit of pure numbers.
//
// Anything else that begins with a number is told: 5 m is a quantity and no unit.
func (p *shaper) leadingOne() {
	t := p.tok()
	if t.Kind != PartNumber || t.Text != "1" {
		return
	}
	after := p.at + 1
	for p.toks[after].Kind == PartBlank {
		after++
	}
	next := p.toks[after]
	switch {
	case next.Kind == PartEnd:
		p.at = after
	case next.Kind == PartSolidus || next.Kind == PartWord && next.Text == "per":
		p.at, p.one = after, true
	}
}

// step reads one factor with what stands before it, and tells whether to go on.
//
// There is a case for each kind of part that a text may go on with.
//
// What can't be read is recorded once, and reading goes on where the meaning is still clear: a
// hyphen between two units is a slip, and the units are read. Where it is not clear, reading
// stops.
func (p *shaper) step() bool {
	blank := p.blanks()
	t := p.tok()
	switch t.Kind {
	case PartEnd:
		return false
	case PartSolidus:
		return p.slash(t, blank)
	case PartDot, PartStar:
		return p.times(t)
	case PartHyphen:
		if p.minusPower(t) {
			return true
		}
		if len(p.out.factors) == 0 || p.peek() != PartWord {
			return p.stop(t, "A hyphen can't be part of a unit.", "Write N m or N·m.")
		}
		p.wrong(t, "A hyphen can't join units.", "Put a space or a dot between units, as in N m or N·m.")
		p.at++
		p.hyphenPounds()
		return true
	case PartOpen:
		return p.bracket(t)
	case PartClose:
		return p.stop(t, "This bracket closes nothing.", "Take the `)` out.")
	case PartPower:
		return p.stop(t, "There is no unit before this exponent.", "Put it directly after its unit: m^2.")
	case PartNumber:
		return p.stop(t, "`"+t.Text+"` is a number in a unit.", "Write a power with ^, as in m/s^2.")
	case PartOther:
		return p.stray(t)
	}
	return p.wordOrKeyword(t)
}

// stray is a character that no unit has. A point or a comma between two words is one of a
// product; a mark of feet or inches has two meanings, in lengths and in angles.
//
// kg.m/s is typed where no raised dot is at hand; a comma between two units may as well be one
// between two columns, so that it is told and not read.
func (p *shaper) stray(t Part) bool {
	found := p.text[t.From:t.To]
	switch found {
	case ".", ",":
		if len(p.out.factors) > 0 && p.peek() == PartWord {
			if p.loose(t, "`"+found+"` can't join units.", "Put a space or a dot between units, as in N m or N·m."); found == "," {
				p.out.fault.sure = false
			}
			p.at++
			return true
		}
	case "'", "’", "‘":
		return p.stop(t, "The sign "+found+" isn't a unit: it could mean feet or minutes of arc.", "Write ft for feet, arcminutes for minutes of arc, min for minutes.")
	case `"`, "”", "“":
		return p.stop(t, "The sign "+found+" isn't a unit: it could mean inches or seconds of arc.", "Write inch for inches, arcseconds for seconds of arc, s for seconds.")
	}
	if found == "^" || strings.HasPrefix(found, "^") {
		return p.stop(t, "The exponent of a unit must be a number.", "Write m^2, m^-2 or m^(1/2).")
	}
	return p.stop(t, "`"+printable(found)+"` can't be part of a unit.", "Write a unit like this: kg m/s^2.")
}

// minusPower reads s-1 as s^-1: a label of a graph has it so where its exponents could
// not be raised.
//
// One digit alone is an exponent, and 0 none: m s-10 is no power that anyone writes.
func (p *shaper) minusPower(t Part) bool {
	n := len(p.out.factors)
	number := p.toks[min(p.at+1, len(p.toks)-1)]
	if n == 0 || number.Kind != PartNumber || len(number.Text) != 1 || number.Text == "0" || p.out.factors[n-1].raised || p.out.factors[n-1].to != t.From {
		return false
	}
	p.wrong(Part{From: t.From, To: number.To}, "An exponent needs ^.", "Put ^ before it.")
	f := &p.out.factors[n-1]
	f.exp, f.raised = whole(-int8(number.Text[0]-'0')), true
	p.at += 2
	return true
}

// slash begins what stands below a slash. With spaces round it, one behind a number may
// be meant as a division: in 3 m / s, s may be a name.
func (p *shaper) slash(t Part, blank bool) bool {
	p.at++
	spaced := p.blanks() || blank
	if spaced && p.place == AfterNumber {
		p.wrong(t, "The slash in a unit can't have spaces round it.", "Take the spaces out.")
	}
	if len(p.out.factors) == 0 && !p.one {
		p.wrong(t, "A unit can't begin with a slash.", "Write a unit before it, or the exponent -1.")
	}
	return p.denominator(t, false)
}

// denominator begins what stands under the solidus. All that follows is below it, up to
// the end or to a further per: metres per second per second.
//
// With per it is the next word that begins anew: metres per second per second has two strokes
// and nobody is misled.
func (p *shaper) denominator(t Part, per bool) bool {
	what, write := "the slash", "a unit after it: m/s"
	if per {
		what, write = "`per`", "metres per second, or m/s"
	} else if p.den {
		p.loose(t, "A unit can have one slash only.", "Use brackets, as in J/(kg K).")
	}
	p.den, p.per, p.out.solidus = true, per, true
	if k := p.tok().Kind; k != PartWord && k != PartOpen {
		return p.stop(t, "No unit follows "+what+".", "Write "+write+".")
	}
	return true
}

// times reads the sign between two words. Behind a number a star joins values: 5 N*m may
// be 5 N times a mass m.
//
// In brackets a star can join nothing but units.
func (p *shaper) times(t Part) bool {
	p.at++
	p.blanks()
	if t.Kind == PartStar && p.place == AfterNumber {
		if p.loose(t, "`*` multiplies values, not units.", "Put a space or a dot between units, as in N m or N·m."); !p.inside {
			p.out.fault.sure = false
		}
	}
	if k := p.tok().Kind; len(p.out.factors) == 0 || k != PartWord && k != PartOpen {
		return p.stop(t, "There is a unit missing beside this sign.", "Write N m or N·m.")
	}
	return true
}

// hyphenPounds reads the pound joined to a foot as the pound-force, which is
// what ft-lb means: a foot times a mass is nothing that anyone measures. The in beside it
// is an inch, though it is the word of a conversion elsewhere.
func (p *shaper) hyphenPounds() {
	last, next := &p.out.factors[len(p.out.factors)-1], &p.toks[p.at]
	pound := func(s string) bool { return s == "lb" || s == "lbs" }
	foot := func(s string) bool {
		return s == "ft" || s == "foot" || s == "feet" || s == "in" || s == "inch"
	}
	if pound(next.Text) && foot(last.word) {
		next.Text = "lbf"
	}
	if pound(last.word) && foot(next.Text) {
		last.word = "lbf"
	}
	if next.Text == "in" {
		next.Text = "inch"
	}
	if last.word == "in" {
		last.word = "inch"
	}
}

// bracket reads (kg K), which stands after a solidus. Behind a number it would be a
// product with whatever is in it, names too: 3 m (s) has another meaning.
//
// A bracket in a place for none is read to its end all the same, so that what was meant can be
// offered whole.
func (p *shaper) bracket(t Part) bool {
	if !p.den && p.place == AfterNumber && len(p.out.factors) > 0 {
		p.wrong(t, "In a unit, a bracket can only come after the slash.", "Take the bracket out.")
	}
	first := len(p.out.factors)
	p.at++
	p.inside = true
	p.blanks()
	for p.tok().Kind != PartClose {
		switch p.tok().Kind {
		case PartWord:
			p.wordOrKeyword(p.tok())
		case PartDot, PartStar:
			if !p.times(p.tok()) {
				return false
			}
		case PartOpen:
			return p.stop(p.tok(), "A unit can't have brackets in brackets.", "Write one pair, after the slash: J/(kg K).")
		case PartSolidus:
			return p.stop(p.tok(), "A unit can have one slash only.", "Use powers instead, such as m^-1.")
		default:
			return p.stop(p.tok(), "The bracket in this unit isn't closed.", "Write it like J/(kg K).")
		}
		if len(p.out.factors) > maxWords || p.out.fault != nil && p.out.fault.lost {
			return false
		}
		p.blanks()
	}
	p.at++
	p.inside = false
	p.afterBracket(p.out.factors[first:])
	return p.afterFactor()
}

// afterBracket applies an exponent to all that the bracket holds.
//
// (m/s)^2 has both words squared.
func (p *shaper) afterBracket(inside []factor) {
	t := p.tok()
	if t.Kind != PartPower {
		return
	}
	p.at++
	for i := range inside {
		e := inside[i].exp.Mul(t.Exp)
		if e.Lost() {
			p.tooLarge(t)
			return
		}
		inside[i].exp, inside[i].raised = e, true
	}
}

// tooLarge records an exponent out of range, which is a slip and no unit.
//
// Nothing is offered: m^100 is a slip of which no one knows what was meant.
func (p *shaper) tooLarge(t Part) {
	if p.out.fault == nil {
		p.out.fault = &fault{t.From, t.To, "The exponent is too large.", "Use exponents up to 99.", true, true, false}
	}
}

// printable quotes characters that can't be seen by their number.
func printable(s string) string {
	var b strings.Builder
	for _, r := range s {
		switch {
		case r == '\uFFFD':
			b.WriteString("an unreadable byte")
		case writing.Hidden(r):
			b.WriteString("an invisible character")
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}
