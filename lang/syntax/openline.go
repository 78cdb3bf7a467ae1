package syntax

import (
	"slices"
	"strings"
	"unicode/utf8"

	"steelyard/lang/ops"
)

// What print leaves open, its signs and brackets, is looked for here: the other
// readings of a line that print allows. The line itself is read by the rules of
// the language alone; which reading makes most sense is not known here.

// Scope is what the readings of a line depend on.
//
// It is an interface, since the page knows names, values and units, and this package none of
// them. All of its questions are about words; none is about what a reading comes to.
type Scope interface {
	// Known tells whether a word is a name of the worksheet.
	Known(name string) bool
	// Function tells whether a word is a function or a formula.
	Function(name string) bool
	// Number is the value of a name that is given as a plain number.
	Number(name string) (float64, bool)
	// Angle tells whether a name is an angle.
	Angle(name string) bool
	// Turns tells whether the line of a name is in turns, as rev/min is.
	Turns(name string) bool
	// Everyday tells whether a word of a unit is a common one.
	Everyday(word string) bool
	// IsUnit tells whether a text is a unit, and Unit whether it is that of a
	// quantity that has a name.
	IsUnit(text string) bool
	Unit(text string) bool
	// Measures tells whether a name is a quantity of a unit.
	Measures(name, unit string) bool
	// Ways are the units that a text may mean which is none: ms^-1.
	Ways(text string) []string
}

// Open is what print leaves open in a line.
type Open struct {
	// Readings are all ways to read it; fewer than two where nothing is open.
	Readings []Reading
	// Letters tells that only letters after numbers are open; Within, that what else is
	// open is so because they are: what is below the bar of 3 J/kg, if k and g are names.
	Letters, Within bool
	// Words are the open letters, as they are written; Bound tells that the line itself
	// gives the first a meaning, as an argument or what a curve is drawn against.
	Words []string
	Bound bool
	// Beside tells that names stand side by side, or run together.
	Beside bool
	// SetOff tells of each open letter whether a blank sets its quantity off,
	// which fills a bracket or the whole right side; Bracket is the first that
	// fills a bracket.
	SetOff  []bool
	Bracket Span
	// Uncertain tells that u(t) may be the uncertainty of t, or a product.
	Uncertain bool
	// Exponential tells that a power of e is written, and e is no name.
	Exponential bool
	// Equation tells that the line is an equation, and no statement; Apart that a
	// word of it holds a name of the page and a letter that has no value.
	Equation, Apart bool
	// Posed tells that an equation has the clauses of a solve, Several that it is one of several.
	Posed, Several bool
	// Lacking are the names without a value of several equations, where they are more or fewer
	// than these.
	Lacking []string
	// Degrees tells that a plain number may be in degrees, Turns that turns may be counted twice.
	Degrees, Turns bool
	// Tens is a number that may be a factor and a name: 2E1, where E1 is one.
	Tens string
	// Power is a name with a number behind it that may be its power: v 2.
	Power string
	// Many tells that there are more readings than are looked at.
	Many bool
	// InClause tells that a quantity is open which is all that a clause says.
	InClause bool

	typed []token // of the line, if it is a name and an expression
}

// choice is one way to read a part of a line.
type choice struct {
	pieces pieces
	units  int
	names  bool // its letter is a name
	goesOn bool // its unit goes on behind a sign
}

// slot is a part of a line with the ways to read it.
type slot struct {
	from, to int
	choices  []choice
	letter   int // its place among the open letters
}

// openLetter is a unit with letters that may be names.
type openLetter struct {
	unit   int  // its piece
	beside bool // two of them stand side by side
	joined bool // one is joined to the word before it by a blank or a dot, and none by a slash
	words  []string
}

// opener looks for the readings of one line.
//
// What it finds open it notes in the answer, which has its readings last.
type opener struct {
	Open
	in      inner
	letters bool
	headed  bool // the statement is more than a name and an expression
	others  bool // something else than letters is open
	clauses OpenClause
	within  bool // a bar or root between such letters is open
	open    []openLetter
	room    pieces // of the reading that is being made
	written pieceWriter
	ints    []int // of the readings
}

// OpenIn looks for what print leaves open in a statement, which is nil if the text
// can't be read.
//
// Four steps lead to the readings: the letters after numbers and the names that run together
// are found, each with its choices (slots); all combinations of them are made (readings); for
// each the bars, roots, angles and turns that it leaves open are (shaped); and each of those
// is written out. A line has few of these, but may have many: past limit.Readings the two
// outermost are returned, and that there are more.
func OpenIn(text string, stmt Stmt, in Scope) Open {
	return OpenClauses(text, stmt, in, NoClause)
}

// OpenClause tells which quantities are open that are all that a clause says, as 2T in
// from 0 s to 2T.
type OpenClause uint8

// Only a unit directly behind its number may be a name in a statement that is right
// otherwise; in one that can't be right, any may be.
const (
	NoClause OpenClause = iota
	GluedClauses
	AllClauses
)

// in tells whether a unit that is all of a clause is open.
func (c OpenClause) in(unit *token) bool {
	return c == AllClauses || c == GluedClauses && unit.gap == ""
}

// OpenClauses is OpenIn with such clauses.
func OpenClauses(text string, stmt Stmt, in Scope, clauses OpenClause) Open {
	r, lines, bad := stretches(text, stmt)
	if bad != nil || len(lines) == 0 {
		return Open{}
	}
	o := &opener{in: within(stmt, in), headed: r.headed(), clauses: clauses}
	if stmt == nil {
		o.in.names = boundIn(lines[0])
	}
	open := o.openIn(piecesOf(text, lines))
	if !o.headed {
		open.typed = lines[0]
	}
	return open
}

// headed tells whether a statement is more than a name and an expression: it has a word of its
// own, a body, or words about its name.
func (r *reader) headed() bool { return r.word != nil || len(r.body) > 0 || r.words != "" }

// openIn is OpenIn for the pieces of a line.
func (o *opener) openIn(base pieces) Open {
	o.words(base)
	base = o.exponentials(base)
	slots := o.slots(base)
	o.Readings, o.Many = o.readings(base, slots)
	o.Within = o.letters && !o.others
	o.Letters = o.Within && !o.within
	for _, l := range o.open {
		o.Words = append(o.Words, l.words...)
	}
	o.Bound = len(o.Words) > 0 && slices.Contains(o.in.names, Canonical(o.Words[0]))
	o.SetOff, o.Bracket = o.setOff(base)
	return o.Open
}

// words takes a word that the language keeps for names that run together, where
// an operand should be: at in v0 + at.
//
// at is kept for slope of x(t) at t = 1 s, and is a times t in half of the formulas of motion.
func (o *opener) words(ps pieces) {
	for i := range ps {
		p := &ps[i]
		if p.kind != wordToken || i == 0 || ps[i-1].kind != numToken && (ps[i-1].kind != signToken || ps[i-1].sign(")")) {
			continue
		}
		if _, ok := namesIn(p.text, o.in.Known); ok {
			p.kind = nameToken
		}
	}
}

// slots finds the parts of a line that letters leave open.
//
// The name that a line gives is what it is, and so is the head of a function: they are left
// out, as all up to the first equals sign is there.
func (o *opener) slots(ps pieces) []slot {
	var out []slot
	first := 0
	for i := range ps { // the name that a line gives is none
		if ps[i].sign("=") {
			if i <= 1 || ps[0].kind == nameToken && ps[0].call {
				first = i
			}
			break
		}
	}
	for i := first; i < len(ps); i++ {
		var s slot
		ok := false
		switch ps[i].kind {
		case unitToken:
			s, ok = o.unitSlot(ps, i)
		case nameToken:
			s, ok = o.nameSlot(ps, i)
		case numToken:
			if s, ok = o.exponentSlot(ps, i); !ok {
				s, ok = o.powerSlot(ps, i)
			}
		}
		if ps.implied(i) && ps[i].kind == nameToken && ps[i-1].kind == nameToken {
			o.Beside = true
		}
		if ok {
			out = append(out, s)
			i = s.to - 1
		}
	}
	return out
}

// spelled are two ways to read names of which one is a Greek letter spelled out, each letter of
// which is a name too: with μ, and with m*u. Nil where there is none.
func (o *opener) spelled(ps pieces) (greek, letters pieces) {
	for i, p := range ps {
		name := Canonical(p.text)
		if word, both := spelledGreek(name, o.in.Known); both && p.kind == nameToken && !p.call && p.text == word && o.in.Scope.Known(name) {
			apart := piecesOfNames(strings.Split(word, ""))
			apart[0].gap = p.gap
			p.text = name
			return slices.Concat(ps[:i], pieces{p}, ps[i+1:]), slices.Concat(ps[:i], apart, ps[i+1:])
		}
	}
	return nil, nil
}

// spellings are the ways to read names, as they are where none is spelled out.
func (o *opener) spellings(names pieces) []pieces {
	if greek, letters := o.spelled(names); greek != nil {
		return []pieces{letters, greek}
	}
	return []pieces{names}
}

// nameSlot finds names that run together, and a function with letters before it.
//
// In order: one word as several names (mgh); a function that is a name of the page too, or
// whose bracket is a factor, u(t); names before a function, Fsin(30°).
func (o *opener) nameSlot(ps pieces, i int) (slot, bool) {
	p := ps[i]
	name := Canonical(p.text)
	s := slot{from: i, to: i + 1}
	if !p.call {
		if greek, letters := o.spelled(ps[i : i+1]); greek != nil {
			o.Beside = true
			s.choices = []choice{{pieces: greek}, {pieces: letters}}
			return s, true
		}
		if o.in.Known(name) {
			return s, false
		}
		if ends := o.argumentEnds(ps, i); ends != nil {
			s.to = ends[len(ends)-1]
			for _, end := range ends {
				call := p
				call.call = true
				argument := slices.Clone(ps[i+1 : end])
				argument[0].gap = ""
				s.choices = append(s.choices, choice{pieces: slices.Concat(pieces{call, {kind: signToken, text: "("}}, argument, pieces{{kind: signToken, text: ")"}}, ps[end:s.to])})
			}
			o.Beside, o.others = true, true
			return s, true
		}
		if before, argument, ok := o.endsInFunction(ps, i); ok {
			before[0].gap = p.gap
			o.Beside, o.others = true, true
			s.to, s.choices = i+1+argument, []choice{{pieces: before}}
			return s, true
		}
		if ops.IsFunction(name) {
			return s, false
		}
		names, ok := o.names(p.text)
		if !ok {
			names, ok = o.gluedFunction(p.text, longestApart)
		}
		if !ok {
			return s, false
		}
		o.Beside, o.others = true, true
		s.choices = []choice{{pieces: names}}
		if letters, ok := o.letterNames(p.text); ok && len(letters) > len(names) {
			s.choices = append(s.choices, choice{pieces: letters}) // m*g*h, where mg is a name too
		}
		if first, _ := o.gluedFunction(p.text, 1); len(first) > 0 && !slices.Equal(first, names) {
			s.choices = append(s.choices, choice{pieces: first})
		}
		for _, c := range s.choices {
			c.pieces[0].gap = p.gap
		}
		return s, true
	}
	if ops.IsFunction(p.text) {
		whole := p
		if strings.HasPrefix(p.text, "a") && ops.IsFunction("arc"+p.text[1:]) {
			whole.text = "arc" + p.text[1:] // which holds no other function
		} else if p.text == "u" && o.in.Known(name) {
			whole.text = "uncertainty" // so that it is told from the product
		}
		s.choices = append(s.choices, choice{pieces: pieces{whole}})
	}
	if quantity := p; o.in.Known(name) && !o.in.Function(name) && (name == "u" || !o.ofLetter(ps[i+1:])) {
		quantity.call = false
		o.Uncertain = o.Uncertain || name == "u"
		s.choices = append(s.choices, choice{pieces: pieces{quantity}})
		if i > 0 && ps[i-1].kind == numToken && p.gap == "" && o.in.IsUnit(p.text) {
			unit := token{kind: unitToken, text: p.text, gap: " ", open: true} // (9 V) of 9V(1-x)
			s.choices = append(s.choices, choice{pieces: pieces{unit}, units: 1})
		}
	}
	inverse := len(s.choices) > 0 && s.choices[0].pieces[0].text != p.text
	for cut := range p.text {
		if inverse && !o.ofAngle(ps[i+1:ps.closing(i+1)]) {
			break // acos(0.5): letters stand before the cosine of an angle
		}
		if tail := p.text[cut:]; cut == 0 || !o.in.Function(Canonical(tail)) && (!ops.IsFunction(tail) || len(tail) < 2) {
			continue
		}
		names, ok := o.names(p.text[:cut])
		if !ok {
			continue
		}
		names[0].gap = p.gap
		s.choices = append(s.choices, choice{pieces: append(names, token{kind: nameToken, text: p.text[cut:], call: true})})
		break
	}
	if !ops.IsFunction(p.text) && !o.in.Function(name) && len(s.choices) == 0 && !o.in.Known(name) {
		if names, ok := o.names(p.text); ok { // mg(h1 - h2)
			names[0].gap = p.gap
			s.choices = append(s.choices, choice{pieces: names})
		}
	}
	if len(s.choices) == 0 || len(s.choices) == 1 && len(s.choices[0].pieces) == 1 && s.choices[0].pieces[0].call {
		return s, false
	}
	o.others = true
	return s, true
}

// gluedFunction reads names, a function and its argument that run together: Fdcosθ,
// sin2θ, sinθcosθ. The argument has so many names at most, and those behind it are
// factors: the t of v0cosθt.
func (o *opener) gluedFunction(text string, most int) (pieces, bool) {
	from, to := functionIn(text)
	if to == 0 {
		return nil, false
	}
	names, ok := o.names(text[:from])
	if from > 0 && !ok {
		return nil, false
	}
	word := strings.TrimLeft(text[to:], "0123456789")
	number := strings.TrimSuffix(text[to:], word)
	var more pieces
	if next, _ := functionIn(word); next > 0 {
		if more, ok = o.gluedFunction(word[next:], most); !ok {
			return nil, false
		}
		word = word[:next]
	}
	argument, ok := o.names(word)
	if word == "" && text[from:to] != "ln" {
		argument, ok = pieces{{kind: unitToken, text: "°"}}, true // hardly any angle in radians is a whole number
	}
	if !ok && word != "" {
		return nil, false
	}
	out := append(names, token{kind: nameToken, text: text[from:to], call: true}, token{kind: signToken, text: "("})
	if number != "" {
		out = append(out, token{kind: numToken, text: number})
	}
	most = min(most, len(argument))
	out = append(append(out, argument[:most]...), token{kind: signToken, text: ")"})
	return append(append(out, argument[most:]...), more...), true
}

// functionIn is the first function in a word that print writes without brackets, with
// something behind it.
func functionIn(text string) (from, to int) {
	for from := range text {
		for to := from + 2; to <= from+3 && to < len(text); to++ {
			if bareFunction(text[from:to]) {
				return from, to
			}
		}
	}
	return 0, 0
}

// ofLetter tells whether a bracket holds one name alone that has no value, as the
// argument of a function: x(t).
//
// Where v is a name and t has no value, v(t) is hardly a product.
func (o *opener) ofLetter(ps pieces) bool {
	if len(ps) < 3 || ps[1].kind != nameToken || !ps[2].sign(")") {
		return false
	}
	name := Canonical(ps[1].text)
	return slices.Contains(o.in.names, name) || !o.in.Known(name)
}

// angleUnit tells whether a piece is a unit of angle.
func angleUnit(p *token) bool {
	return p.text == "rad" || p.text == "deg" || isDegree(firstRune(p.text)) && utf8.RuneCountInString(p.text) == 1
}

// ofAngle tells whether there is an angle among pieces.
func (o *opener) ofAngle(ps pieces) bool {
	for i := range ps {
		p := &ps[i]
		switch p.kind {
		case unitToken:
			if angleUnit(p) {
				return true
			}
		case nameToken:
			if angleLetter(p.text) || o.in.Angle(Canonical(p.text)) {
				return true
			}
		}
	}
	return false
}
