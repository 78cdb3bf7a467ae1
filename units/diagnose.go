package units

import "strings"

// piece is one word of what was meant.
type piece struct {
	text string
	exp  int8
}

// meant is one way to put a wrong word right: the words to write instead. The
// exponent that stood at the wrong word goes to the last of them.
type meant []piece

// slips are short forms that people write, and what the unit is. They are
// offered, not read: the text of a worksheet keeps one form for one unit.
var slips = [...]struct {
	wrong string
	right meant
}{
	{"sec", meant{{"s", 1}}}, {"secs", meant{{"s", 1}}}, {"hr", meant{{"h", 1}}}, {"hrs", meant{{"h", 1}}},
	{"mins", meant{{"min", 1}}}, {"y", meant{{"yr", 1}}}, {"yrs", meant{{"yr", 1}}}, {"wks", meant{{"wk", 1}}},
	{"msec", meant{{"ms", 1}}}, {"usec", meant{{"μs", 1}}}, {"nsec", meant{{"ns", 1}}},
	{"mtr", meant{{"m", 1}}}, {"mtrs", meant{{"m", 1}}}, {"mt", meant{{"m", 1}}},
	{"kms", meant{{"km", 1}}}, {"cms", meant{{"cm", 1}}}, {"mms", meant{{"mm", 1}}},
	{"in", meant{{"inch", 1}}}, {"ins", meant{{"inch", 1}}}, {"yds", meant{{"yd", 1}}},
	{"gm", meant{{"g", 1}}}, {"gms", meant{{"g", 1}}}, {"gr", meant{{"g", 1}}}, {"gr", meant{{"grain", 1}}}, {"kgs", meant{{"kg", 1}}}, {"kilo", meant{{"kg", 1}}},
	{"kilos", meant{{"kg", 1}}}, {"lbs", meant{{"lb", 1}}}, {"mcg", meant{{"μg", 1}}},
	{"amp", meant{{"A", 1}}}, {"amps", meant{{"A", 1}}}, {"mamp", meant{{"mA", 1}}},
	{"kph", meant{{"km", 1}, {"h", -1}}}, {"kmph", meant{{"km", 1}, {"h", -1}}}, {"kmh", meant{{"km", 1}, {"h", -1}}},
	{"kmhr", meant{{"km", 1}, {"h", -1}}}, {"mps", meant{{"m", 1}, {"s", -1}}}, {"fps", meant{{"ft", 1}, {"s", -1}}},
	{"rps", meant{{"rev", 1}, {"s", -1}}}, {"cps", meant{{"Hz", 1}}}, {"rads", meant{{"rad", 1}}}, {"degs", meant{{"deg", 1}}},
	{"degK", meant{{"K", 1}}}, {"celcius", meant{{"celsius", 1}}}, {"centigrade", meant{{"celsius", 1}}},
	{"sqm", meant{{"m", 2}}}, {"cbm", meant{{"m", 3}}}, {"ccm", meant{{"cm", 3}}}, {"sqcm", meant{{"cm", 2}}},
	{"ohms", meant{{"Ω", 1}}}, {"cycles", meant{{"rev", 1}}}, {"turns", meant{{"rev", 1}}}, {"turn", meant{{"rev", 1}}},
	{"ftlb", meant{{"ft", 1}, {"lbf", 1}}}, {"ftlbs", meant{{"ft", 1}, {"lbf", 1}}}, {"lbft", meant{{"lbf", 1}, {"ft", 1}}},
	{"inlb", meant{{"inch", 1}, {"lbf", 1}}}, {"cal_th", meant{{"cal", 1}}}, {"PSI", meant{{"psi", 1}}},
}

// diagnose says what is wrong with a text that is no unit, with every reading.
func (t *Table) diagnose(s *shape, bad *trouble, text string, place Place) *Problem {
	if f := bad.fault; f != nil {
		p := &Problem{Kind: ProblemText, From: f.from, To: f.to, Message: f.message, Hint: f.hint}
		if f.rangeError {
			p.Kind = ProblemRange
		}
		if !f.lost {
			p.Readings = t.readings(s, -1, nil, place)
		}
		return p.spelledOut()
	}
	f := &s.factors[bad.factor]
	if f.metreSecond() {
		return t.metreSecond(s, bad.factor, place)
	}
	p := &Problem{From: f.from, To: f.from + len(textWord(text, f)), Message: "No unit is called `" + printable(shorten(f.word)) + "`."}
	if isLevel(f.word) {
		p.Message = "`" + f.word + "` is a level, the logarithm of a ratio, and no unit that a quantity can be multiplied by."
		p.Hint = "Write the ratio itself: a level of L in dB is a ratio of 10^(L/10) of powers."
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
		p.Message = "`" + shorten(f.word) + "` is not written as units are."
		p.Hint = "The units of a product stand apart, and a power is written with ^."
	case len(p.Readings) > 0:
		p.Hint = "The nearest units are offered."
	default:
		p.Hint = "`help` with the name of a quantity shows its units; a unit of your own is defined as 1 lap = 400 m."
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

func (p *Problem) add(reading string) {
	const most = 3
	for _, r := range p.Readings {
		if r == reading {
			return
		}
	}
	if len(p.Readings) < most {
		p.Readings = append(p.Readings, reading)
	}
}

// spelledOut puts the readings into the hint, so that it can stand alone.
func (p *Problem) spelledOut() *Problem {
	if len(p.Readings) > 0 {
		p.Hint = strings.TrimSuffix(p.Hint, ".") + ": " + strings.Join(p.Readings, " or ") + "."
	}
	return p
}

// metreSecond offers both readings of ms^-1.
func (t *Table) metreSecond(s *shape, at int, place Place) *Problem {
	f := &s.factors[at]
	e := f.exp.String()
	p := &Problem{
		Kind: ProblemText, From: f.from, To: f.to,
		Message: "`ms` is the millisecond, so ms^" + e + " can be read in two ways.",
		Hint:    "Put a blank between metres and seconds, or name the millisecond",
	}
	for _, w := range []meant{{{"m", 1}, {"s", 1}}, {{"millisecond", 1}}} {
		for _, r := range t.readings(s, at, w, place) {
			p.add(r)
		}
	}
	return p.spelledOut()
}

// ways lists what an unknown word may be meant as. Glued tells that it is
// made of units written without what belongs between them.
func (t *Table) ways(f *factor) (out []meant, glued bool) {
	if len(f.word) > 64 {
		return nil, false
	}
	for i := range slips {
		if slips[i].wrong == f.word || len(f.word) >= 3 && strings.EqualFold(slips[i].wrong, f.word) {
			out = append(out, slips[i].right)
		}
	}
	if name, ok := longForm(f.word); ok {
		out = append(out, meant{{name, 1}})
	}
	if len(out) > 0 {
		return out, false
	}
	if w, ok := t.digitPower(f); ok {
		return []meant{w}, true
	}
	same, w := sameLetters(f.word), t.split(f)
	switch {
	case w != nil && (len(same) == 0 || strings.Contains(" N J W V A Pa kg ", " "+w[0].text+" ")):
		return []meant{w}, true
	case w != nil:
		return append(asWays(same), w), false
	}
	return asWays(t.Suggest(f.word)), false
}

// longForm returns the name by which a unit is read whose symbol is not.
func longForm(symbol string) (string, bool) {
	for i := range catalogue {
		if r := &catalogue[i]; r.symbol == symbol && !r.has(core) && r.names != "" {
			return r.name(), true
		}
	}
	return "", false
}

// isLevel tells whether a word is a unit of a level, which is not linear.
func isLevel(word string) bool {
	switch strings.TrimSuffix(word, "s") {
	case "dB", "B", "Np", "decibel", "bel", "neper", "dBA", "dBm":
		return true
	}
	return false
}

func asWays(words []string) (out []meant) {
	for _, w := range words {
		out = append(out, meant{{w, 1}})
	}
	return out
}

// digitPower reads s2 as s^2.
func (t *Table) digitPower(f *factor) (meant, bool) {
	n := len(f.word)
	word := strings.TrimRight(f.word, "0123456789")
	digits := f.word[len(word):]
	if word == "" || len(word) == n || len(digits) > 1 || f.raised || digits == "0" || digits == "1" {
		return nil, false
	}
	power := int8(digits[0] - '0')
	if t.Has(word) {
		return meant{{word, power}}, true
	}
	inner := *f
	inner.word = word
	if w := t.split(&inner); w != nil {
		w[len(w)-1].exp = power
		return w, true
	}
	return nil, false
}

// split reads Nm as N m: the fewest symbols that make up the word, the first
// as long as can be.
func (t *Table) split(f *factor) meant {
	const most = 12
	if len(f.word) > most {
		return nil
	}
	for pieces := 2; pieces <= 4; pieces++ {
		if w := t.splitInto(f.word, pieces, f.exp.num < 0); w != nil && w[0].text != "K" {
			return w
		}
	}
	return nil
}

func (t *Table) splitInto(word string, pieces int, negative bool) meant {
	if pieces == 1 {
		if joinable(word) && !(negative && word == "ms") {
			return meant{{word, 1}}
		}
		return nil
	}
	for n := len(word) - 1; n > 0; n-- {
		if !joinable(word[:n]) {
			continue
		}
		if rest := t.splitInto(word[n:], pieces-1, negative); rest != nil {
			return append(meant{{word[:n], 1}}, rest...)
		}
	}
	return nil
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
func (t *Table) readings(s *shape, at int, w meant, place Place) []string {
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
		parts, ok := t.instead(&f, w)
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

func (u *Unit) startsWithOne() bool {
	for _, p := range u.parts {
		if !p.den {
			return false
		}
	}
	return true
}

// mended puts right a further word beside the one that is reported.
func (t *Table) mended(f *factor) ([]part, bool) {
	if a, ok := t.find(f.word); ok && f.metreSecond() {
		return t.instead(f, meant{{"m", 1}, {"s", 1}})
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
func asWritten(a atom, f *factor) string {
	if f.named {
		return a.text
	}
	return f.word
}

// instead replaces a factor by what was meant.
func (t *Table) instead(f *factor, w meant) ([]part, bool) {
	out := make([]part, 0, len(w))
	for i, p := range w {
		a, ok := t.find(p.text)
		if !ok {
			return nil, false
		}
		a.text = p.text
		e := whole(p.exp)
		den := f.den
		switch {
		case len(w) == 1 || i == len(w)-1 && p.exp > 0:
			if e, ok = e.Mul(f.exp); !ok {
				return nil, false
			}
		case p.exp < 0 && !f.den && f.exp == whole(1):
			den, e = true, e.Neg()
		}
		out = append(out, part{a, e, den})
	}
	return out, true
}
