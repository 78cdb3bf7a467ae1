package units

import (
	"slices"

	"strings"
)

// slip is a short form that people write for a unit.
//
// The wrong form is compared as it is typed, and longer ones whatever their capitals: Sec and
// SEC are the second, but S is the siemens.
type slip struct {
	wrong, right string
	read         reach // where it is read, since nothing else can be meant
}

// reach is where a short form is read; elsewhere its unit is offered.
type reach uint8

const (
	nowhere    reach = iota
	everywhere       // hr, sec
	below            // right of a slash alone: cm/y
)

// slips are the short forms. The exponent that stood at the wrong word goes to the
// last word of the right one.
//
// One is read (everywhere) where nobody could mean anything else, as sec and hr. It is
// only offered (nowhere) where a letter of it is a unit or a name that may be meant: kms
// may be kilometres, or kilometre-seconds, mps may be a name.
//
// In a text right of a slash a y can be nothing but a year: cm/y.
var slips = [...]slip{
	{"sec", "s", everywhere}, {"secs", "s", everywhere}, {"hr", "h", everywhere}, {"hrs", "h", everywhere}, {"mins", "min", everywhere},
	{"y", "yr", below}, {"yrs", "yr", everywhere}, {"wks", "wk", everywhere}, {"msec", "ms", everywhere}, {"usec", "μs", everywhere},
	{"nsec", "ns", everywhere}, {"mtr", "m", nowhere}, {"mtrs", "m", nowhere}, {"mt", "m", nowhere}, {"kms", "km", nowhere}, {"cms", "cm", nowhere},
	{"mms", "mm", nowhere}, {"in", "inch", nowhere}, {"ins", "inch", nowhere}, {"yds", "yd", everywhere}, {"gm", "g", nowhere}, {"gms", "g", nowhere},
	{"gr", "g", nowhere}, {"gr", "grain", nowhere}, {"kgs", "kg", nowhere}, {"kilo", "kg", nowhere}, {"ltr", "L", nowhere}, {"ltrs", "L", nowhere}, {"kilos", "kg", nowhere}, {"lbs", "lb", everywhere},
	{"mcg", "μg", nowhere}, {"amp", "A", everywhere}, {"amps", "A", everywhere}, {"mamp", "mA", nowhere},
	{"kph", "km h^-1", everywhere}, {"kmph", "km h^-1", everywhere}, {"kmh", "km h^-1", everywhere}, {"kmhr", "km h^-1", nowhere},
	{"mps", "m s^-1", nowhere}, {"fps", "ft s^-1", nowhere}, {"rps", "rev s^-1", nowhere}, {"cps", "Hz", nowhere}, {"rads", "rad", nowhere},
	{"degs", "deg", nowhere}, {"degK", "K", nowhere}, {"celcius", "celsius", nowhere}, {"centigrade", "celsius", nowhere},
	{"sqm", "m^2", nowhere}, {"cbm", "m^3", nowhere}, {"ccm", "cm^3", nowhere}, {"sqcm", "cm^2", nowhere}, {"ohms", "Ω", everywhere},
	{"cycles", "rev", nowhere}, {"turns", "rev", nowhere}, {"turn", "rev", nowhere}, {"revs", "rev", everywhere}, {"ftlb", "ft lbf", nowhere}, {"ftlbs", "ft lbf", nowhere},
	{"lbft", "lbf ft", nowhere}, {"inlb", "inch lbf", nowhere}, {"cal_th", "cal", nowhere}, {"PSI", "psi", everywhere},
	{"D", "dpt", nowhere}, {"RPM", "rpm", everywhere}, {"KPH", "km h^-1", everywhere}, {"Lb", "lb", nowhere},
}

// ShortFor are the units that a word is short for, or another word for, whether it is read or offered
// alone: rev for turns.
func ShortFor(word string) (out []string) {
	for i := range slips {
		if slips[i].wrong == word || len(word) >= 3 && strings.EqualFold(slips[i].wrong, word) {
			out = append(out, slips[i].right)
		}
	}
	return out
}

// money are words that are near to units by chance: erg is no price.
var money = [...]string{"euro", "euros", "eur", "cent", "cents", "dollar", "dollars", "usd", "franc", "francs", "chf", "gbp", "ct", "cts", "pence", "penny"}

// What is said of a price, in a word or by a sign.
const (
	NoMoney = "Money has no unit here."
	Price   = "Write a price as a number: 0.32 a kWh is `0.32 1/kWh`."
)

// diagnose says what is wrong with a text that is no unit, with every reading.
// A fault of form comes first; else it is the first word that is none. Whatever is
// offered was put together, read again and found to be a unit.
//
// A message names the word, and the hint what to write: the sentence is made here, with the
// readings in it, so that it can stand alone in a table of readings or behind `in`.
//
// A level in dB and a price are words that students do write, and no other unit is meant by
// them: each has its own sentence, and no reading is offered.
func (t *Table) diagnose(s *shape, bad *trouble, text string, place Place) *Problem {
	if f := bad.fault; f != nil {
		p := &Problem{Kind: ProblemText, From: f.from, To: f.to, Message: f.message, Hint: f.hint}
		if f.rangeError {
			p.Kind = ProblemRange
		}
		if !f.lost {
			p.Readings = t.readings(s, -1, "", place)
		}
		return p.spelledOut()
	}
	f := &s.factors[bad.factor]
	if f.metreSecond() {
		return t.metreSecond(s, bad.factor, place)
	}
	p := &Problem{From: f.from, To: f.from + len(textWord(text, f)), Message: "`" + printable(shorten(f.word)) + "` isn't a unit."}
	if isLevel(f.word) {
		p.Message = "`" + f.word + "` is a level, the logarithm of a ratio, so it can't be used as a unit here."
		p.Hint = "Write the ratio itself: a level of L in dB is a ratio of 10^(L/10) of powers."
		return p
	}
	if slices.Contains(money[:], strings.ToLower(f.word)) {
		p.Message, p.Hint = NoMoney, Price
		return p
	}
	ways, glued := t.ways(f)
	for _, w := range ways {
		for _, r := range t.readings(s, bad.factor, w, place) {
			p.add(r)
		}
	}
	switch {
	case glued:
		p.Kind = ProblemText
		p.Message = "`" + shorten(f.word) + "` isn't a unit."
		p.Hint = "Put a space between units, and ^ before a power"
	case len(p.Readings) > 0:
		p.Hint = didYouMean
	default:
		p.Hint = "`help length` lists the units of length. Define your own like this: 1 lap = 400 m."
	}
	return p.spelledOut()
}

// textWord is the word of a factor as it stands in the text.
func textWord(text string, f *factor) string {
	end := min(f.to, len(text))
	word := text[f.from:end]
	if i := strings.IndexAny(word, "^"); i > 0 {
		word = word[:i]
	}
	return word
}

// shorten cuts a word that is too long for a message, between two characters.
//
// Characters of UTF-8 go on with bytes 10xxxxxx: a cut is never before one of those.
func shorten(s string) string {
	const most = 40
	if len(s) <= most {
		return s
	}
	cut := most
	for cut > 0 && s[cut]&0xC0 == 0x80 {
		cut--
	}
	return s[:cut] + "…"
}

// add adds a reading that is not there yet; more than three are no help.
//
// They come best first.
func (p *Problem) add(reading string) {
	const most = 3
	if slices.Contains(p.Readings, reading) {
		return
	}
	if len(p.Readings) < most {
		p.Readings = append(p.Readings, reading)
	}
}

const didYouMean = "Did you mean"

// spelledOut puts the readings into the hint, so that it can stand alone.
func (p *Problem) spelledOut() *Problem {
	if len(p.Readings) > 0 {
		end, list := ".", strings.Join(p.Readings, " or ")
		if p.Hint == didYouMean {
			end = "?"
		} else {
			p.Hint = strings.TrimSuffix(p.Hint, ".") + ":"
		}
		p.Hint += " " + list + end
	}
	return p
}

// metreSecond offers both readings of ms^-1.
//
// By the rules of prefixes it is one over a millisecond; most people mean metres per second.
func (t *Table) metreSecond(s *shape, at int, place Place) *Problem {
	f := &s.factors[at]
	e := f.exp.String()
	p := &Problem{
		Kind: ProblemText, From: f.from, To: f.to,
		Message: "`ms` is the millisecond, so ms^" + e + " can be read in two ways.",
		Hint:    "Put a space between metres and seconds, or write millisecond",
	}
	for _, w := range []string{"m s", "millisecond"} {
		for _, r := range t.readings(s, at, w, place) {
			p.add(r)
		}
	}
	return p.spelledOut()
}

// ways lists what an unknown word may be meant as, as texts of units. Glued tells
// that it is made of units written without what belongs between them: rads^-1 is rad/s,
// for no plural has a negative power.
//
// In order: a short form that people use; the name of a unit that has no symbol here; a word
// with a digit for its power; symbols run together; else the words that are spelled nearly so.
// The first that finds something ends it, but for words that differ in capitals alone, which
// stand before what was taken apart.
//
// No word of more than 64 letters is looked up: what was pasted by mistake should cost nothing.
func (t *Table) ways(f *factor) (out []string, glued bool) {
	if len(f.word) > 64 {
		return nil, false
	}
	if head, ok := strings.CutSuffix(f.word, "s"); ok && f.exp.num < 0 && !f.den && t.Has(head) {
		return []string{head + " s"}, true
	}
	out = ShortFor(f.word)
	if name, ok := longForm(f.word); ok {
		out = append(out, name)
	}
	if len(out) > 0 {
		return out, false
	}
	if w, ok := t.digitPower(f); ok {
		return []string{w}, true
	}
	same, w := sameLetters(f.word), split(f)
	first, _, _ := strings.Cut(w, " ")
	switch {
	case w != "" && (len(same) == 0 || strings.Contains(heads, " "+first+" ")):
		return []string{w}, true
	case w != "":
		return append(same, w), false
	}
	return t.Suggest(f.word), false
}

// longForm returns the name by which a unit is read whose symbol is not: t may be a time,
// and the tonne is read by its name.
//
// The tonne has the symbol t and is read as tonne, for t is a time in every other line.
func longForm(symbol string) (string, bool) {
	for i := range catalogue {
		if r := &catalogue[i]; r.symbol == symbol && !r.has(core) && r.names != "" {
			return r.name(), true
		}
	}
	return "", false
}

// isLevel tells whether a word is a unit of a level. That is the logarithm of a ratio, so
// that no factor makes another unit of it.
//
// Decibels are defined by a ratio and a logarithm (ISO 80000-3:2006, 3-22): to turn a level
// into a ratio takes more than a factor.
func isLevel(word string) bool {
	switch strings.TrimSuffix(word, "s") {
	case "dB", "B", "Np", "decibel", "bel", "neper", "dBA", "dBm":
		return true
	}
	return false
}

// IsLevel tells whether a word is a unit of a level that nothing else goes by: dB, where B
// may be a magnetic field.
func IsLevel(word string) bool { return isLevel(word) && strings.HasPrefix(word, "d") }

// digitPower reads s2 as s^2. A digit 1 or 0 behind a word is an index rather, as in m1.
//
// kgm2 is taken apart and its digit goes to the last symbol, kg m^2.
func (t *Table) digitPower(f *factor) (string, bool) {
	word := strings.TrimRight(f.word, "0123456789")
	digits := f.word[len(word):]
	if word == "" || len(digits) != 1 || f.raised || digits == "0" || digits == "1" {
		return "", false
	}
	if !t.Has(word) {
		inner := *f
		inner.word = word
		word = split(&inner)
	}
	return word + "^" + digits, word != ""
}

// maxGlued is the length of the longest word that is taken apart.
const maxGlued = 12

// split reads Nm as N m: the fewest symbols that make up the word, the first
// as long as can be.
//
// Few symbols are likelier than many. None begins with a kelvin, which people write last:
// J/kgK.
func split(f *factor) string {
	if len(f.word) > maxGlued {
		return ""
	}
	for pieces := 2; pieces <= maxPieces; pieces++ {
		if w := splitInto(f.word, pieces, f.exp.num < 0); w != "" && !strings.HasPrefix(w, "K ") {
			return w
		}
	}
	return ""
}

// maxPieces is the most symbols that a word is taken apart into.
const maxPieces = 4

// heads are the units that others are run together with: Nm, kgm/s.
const heads = " N J W V A Pa kg "

// splits counts the ways to take a word apart that follows a symbol; none has a
// symbol twice in a row, which is a power.
//
// That a word comes apart in one way only is the reason to read it so.
func splits(word, before string) (n int) {
	if joinable(word) && word != before && before != "" {
		n++
	}
	for cut := 1; cut < len(word); cut++ {
		head := word[:cut]
		if a, ok := find(head); before == "" && (!ok || !strings.Contains(heads, " "+a.row.symbol+" ")) {
			continue
		}
		if head != before && joinable(head) {
			n += splits(word[cut:], head)
		}
	}
	return n
}

// splitInto takes a word apart into so many symbols, joined by blanks; "" if it can't be.
// With a negative exponent, ms stays apart: it would be a millisecond again.
//
// It tries the longest symbol first: dam is no d beside am.
func splitInto(word string, pieces int, negative bool) string {
	if pieces == 1 {
		if joinable(word) && !(negative && word == "ms") {
			return word
		}
		return ""
	}
	for n := len(word) - 1; n > 0; n-- {
		if !joinable(word[:n]) {
			continue
		}
		if rest := splitInto(word[n:], pieces-1, negative); rest != "" {
			return word[:n] + " " + rest
		}
	}
	return ""
}

// joinable tells whether people write a symbol without a blank beside others.
// Rare prefixes and units are left out, or every word could be taken apart.
func joinable(s string) bool {
	a, ok := find(s)
	if !ok || a.row == nil || !strings.Contains(" m g kg s N Pa J W V A C Ω F T K h L mol rad Hz ft lb lbf ", " "+a.row.symbol+" ") {
		return false
	}
	w, whole := findWord(s)
	return whole && w.symbol || a.tens >= -9 && a.tens <= 9 && a.tens != 1 && a.tens != 2 && a.tens != -1 && len(s) <= 3 && s != "Ω"
}

// readings renders a text with the word at a place put right, and keeps the
// rendering if it can be read.
//
// Nothing is offered unread: a reading that is refused when it is typed would be worse than
// none.
func (t *Table) readings(s *shape, at int, meant string, place Place) []string {
	var out []part
	for i, f := range s.factors {
		if i != at {
			fixed, ok := t.mended(&f)
			if !ok {
				return nil
			}
			out = append(out, fixed...)
			continue
		}
		parts, ok := t.instead(&f, meant)
		if !ok {
			return nil
		}
		out = append(out, parts...)
	}
	text := written(out, File)
	if place == AfterNumber && len(out) > 0 && (&Unit{text: text, parts: out}).startsWithOne() {
		text = (&Unit{text: text, parts: out}).Behind(File)
	}
	again := shapeOf(text, place)
	if _, bad := t.unitOf(&again, text); bad != nil || text == "" {
		return nil
	}
	return []string{text}
}

// startsWithOne tells whether all of a unit is below the solidus, as in 1/s. Behind a
// number it is written with a power, s^-1, since 3 1/s would be two numbers.
func (u *Unit) startsWithOne() bool {
	return !slices.ContainsFunc(u.parts, func(p part) bool { return !p.den })
}

// mended puts right a further word beside the one that is reported.
//
// A text with two slips has one message, and an offer in which both are put right.
func (t *Table) mended(f *factor) ([]part, bool) {
	if a, ok := t.find(f.word); ok && f.metreSecond() {
		return t.instead(f, "m s")
	} else if ok {
		if a.text != "ms" {
			a.text = asWritten(a, f)
		}
		return []part{{a, f.exp, f.den}}, true
	}
	ways, _ := t.ways(f)
	if len(ways) == 0 {
		return nil, false
	}
	return t.instead(f, ways[0])
}

// asWritten keeps the word of the text in what is offered, so that metres
// stay metres.
//
// square metre becomes m^2 by its exponent and its symbol; metres alone stay a word.
func asWritten(a atom, f *factor) string {
	if f.named {
		return a.text
	}
	return f.word
}

// instead replaces a factor by what was meant.
//
// A power of the whole goes to the last word that was meant: Nm^2 is N m^2. One that is below
// already, as in km h^-1 for kph, moves under the stroke.
func (t *Table) instead(f *factor, meant string) ([]part, bool) {
	right := shapeOf(meant, AloneInPlace).factors
	out := make([]part, 0, len(right))
	for i, p := range right {
		a, ok := t.find(p.word)
		if !ok {
			return nil, false
		}
		a.text = p.word
		e, den := p.exp, f.den
		switch {
		case len(right) == 1 || i == len(right)-1 && e.num > 0:
			if e = e.Mul(f.exp); e.Lost() {
				return nil, false
			}
		case e.num < 0 && !f.den && f.exp == whole(1):
			den, e = true, e.Neg()
		}
		out = append(out, part{a, e, den})
	}
	return out, true
}
