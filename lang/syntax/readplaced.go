package syntax

import (
	"slices"
	"strings"
	"unicode/utf8"

	"steelyard/lang/finding"
)

// Glued is a part of a line that is read with signs or brackets which print leaves out:
// mgh, ½mv², ω²r, mgsinθ, m(v-u), 1/2mv^2.
type Glued struct {
	At    Span
	Parts []string // the names, in their order, but for those in brackets
	Means string   // with its signs
	Calls bool     // a function is in it
	// Open tells that names run together in it, or a bar or a root may reach otherwise.
	Open bool
	// Joined tells that something is directly behind a name in it, which might be one with it.
	Joined bool
	// Within are the words in its brackets that come apart: LC of 2π√(LC).
	Within []Glued
}

// ReadPlaced reads a line as one of its readings has it, with the places of what was
// typed. It reads nothing where the reading is more than the line with signs and brackets
// put in, or takes a unit for names that nobody can tell from one.
//
// Open is what the reading is one of.
//
// A reading is a text of its own, in which signs and brackets have moved everything to the
// right. The tree must point at what was typed: for carets, for a rename, and for the line as
// it is kept. So the tokens of the reading are found again in the typed text, one after the
// other, and those that are not there have no width.
func (rd *Reader) ReadPlaced(text string, open *Open, r *Reading, of Stmt, in Scope) (Stmt, []finding.Finding, []Glued) {
	var lines [][]token
	if r.tokens != nil {
		rd.last.room = tokensAt(rd.last.room, r.Text, r.tokens)
		lines = [][]token{rd.last.room}
	} else {
		_, lines, _ = stretches(r.Text, of)
	}
	p := &placed{in: in, text: text, reading: r.Text, out: make([]token, 0, len(r.tokens))}
	for _, tokens := range lines {
		if !p.place(tokens) {
			return nil, nil, nil
		}
	}
	if strings.TrimSpace(text[p.at:]) != strings.TrimSpace(r.Text[p.read:]) {
		return nil, nil, nil // the point behind x = 5 m.
	}
	s, notes := rd.read(text, reader{placed: p, silent: true, scanned: open.typed})
	if s == nil || p.unsure || p.partsQuotient() {
		return nil, nil, nil
	}
	return s, notes, p.glued()
}

// ReadSolve reads equations as the solve that one of its readings has them for, solve EQ for
// NAME, with the places of what was typed; nil where the reading is more than the equations
// with signs and brackets put in. A name is where it is first in them.
func (rd *Reader) ReadSolve(text string, r *Reading, in Scope) *Solve {
	_, lines, bad := stretches(r.Text, nil)
	if bad != nil || len(lines) == 0 {
		return nil
	}
	tokens := lines[0]
	put := slices.IndexFunc(tokens, func(t token) bool { return t.is("for") })
	p := &placed{in: in, text: text, reading: r.Text, read: tokens[0].to}
	if !p.place(tokens[1:put]) {
		return nil
	}
	if strings.Contains(text, " for ") {
		if !p.place(tokens[put:]) || strings.TrimSpace(text[p.at:]) != "" {
			return nil
		}
		tokens[0].from, tokens[0].to = 0, 0
		return solveOf(slices.Concat(tokens[:1], p.out), len(text))
	}
	sides, what := len(p.out), tokens[put:]
	if clauses := slices.IndexFunc(what[1:], func(t token) bool { return t.kind == wordToken }); clauses >= 0 {
		what = what[:1+clauses]
	}
	p.read = what[len(what)-1].to
	if !p.place(tokens[put+len(what):]) || strings.TrimSpace(text[p.at:]) != "" {
		return nil
	}
	for i := range what {
		name := what[i].text
		what[i].from, what[i].to = p.out[sides-1].to, p.out[sides-1].to
		if what[i].kind == nameToken {
			what[i] = p.out[slices.IndexFunc(p.out, func(t token) bool { return t.kind == nameToken && Canonical(t.text) == name })]
		}
	}
	tokens[0].from, tokens[0].to = 0, 0
	return solveOf(slices.Concat(tokens[:1], p.out[:sides], what, p.out[sides:]), len(text))
}

// solveOf is the solve that equations are read as.
func solveOf(tokens []token, to int) *Solve {
	s, bad := solveLines(tokens, to)
	if bad != nil {
		return nil
	}
	s.Alone = true
	return s
}

// placed are the tokens of a reading with the places of the text as it was typed. What
// the reading puts in has a place without width.
type placed struct {
	in            Scope
	text, reading string
	at, read      int // how far the two texts have been gone through
	out           []token
	shut          []bool // of the brackets that are open: whether each is put in
	raised        string // the power of a function whose argument is being placed
	unsure        bool   // a unit is taken for names that may well be one
}

// place finds tokens of the reading in the text.
//
// A bracket that the reading puts in closes with one that is put in too, though the text may
// have one at that very place. Powers of functions stand before the argument in the text and
// behind it in the reading; e^ is typed for exp(, and pi for π.
func (p *placed) place(tokens []token) bool {
	for _, t := range tokens {
		t.gap = p.reading[p.read:t.from]
		between := strings.TrimSpace(t.gap)
		at := p.skip(p.at)
		if !strings.HasPrefix(p.text[at:], between) {
			return false
		}
		at = p.skip(at + len(between))
		p.read = t.to
		typed := t.text
		switch {
		case t.kind == piToken && strings.HasPrefix(p.text[at:], "pi"):
			typed = "pi"
		case t.kind == unitToken && !strings.HasPrefix(p.text[at:], typed):
			for end := at; end <= len(p.text); end++ {
				if samePowers(typed, p.text[at:end]) { // m s-1
					typed = p.text[at:end]
					break
				}
			}
		case t.text == "exp" && t.call && strings.HasPrefix(p.text[at:], "e^"):
			typed = "e^"
		case t.is("and") && strings.ContainsRune(",;", rune(p.text[at])):
			typed = p.text[at : at+1]
			if next := p.skip(at + 1); strings.HasPrefix(p.text[next:], "and ") {
				typed = p.text[at : next+len("and")]
			}
		case t.text == "abs" && t.call && strings.HasPrefix(p.text[at:], "|"):
			typed = "|" // |v|
		case t.kind == nameToken:
			typed = p.lowered(at, typed)
			t.text = typed
		}
		if t.sign(")") && len(p.shut) > 0 {
			if put := p.shut[len(p.shut)-1]; put {
				typed = "\x00" // the bracket that it closes is put in, and so is it
			} else if strings.HasPrefix(p.text[at:], "|") {
				typed = "|"
			}
			p.shut = p.shut[:len(p.shut)-1]
		}
		switch found := strings.HasPrefix(p.text[at:], typed); {
		case p.raised != "" && strings.HasPrefix(p.raised, typed): // the ² of sin²θ
			t.from, t.to = p.at, p.at
			p.raised = p.raised[len(typed):]
		case found:
			t.from, t.to = at, at+len(typed)
			p.at = t.to
			if t.call && bareFunction(t.text) {
				p.raised = powerAt(p.text[p.at:])
				p.at += len(p.raised)
				t.to = p.at
			}
		case t.sign("*") || t.sign(")"):
			t.from, t.to = p.at, p.at
		case t.sign("("):
			t.from, t.to = at, at
		default:
			return false
		}
		if t.sign("(") {
			stroke := len(p.out) > 0 && p.out[len(p.out)-1].text == "abs" && p.text[p.out[len(p.out)-1].from] == '|'
			p.shut = append(p.shut, t.from == t.to && !stroke)
		}
		p.out = append(p.out, t)
	}
	return true
}

// lowered is how a name of the reading is typed at a place: m₁ for m1.
func (p *placed) lowered(at int, name string) string {
	if strings.HasPrefix(p.text[at:], name) {
		return name
	}
	first, width := utf8.DecodeRuneInString(name)
	if micro := "µ"; name == "μ" && strings.HasPrefix(p.text[at:], micro) {
		return micro // of a keyboard
	}
	for end := at + width; firstRune(p.text[at:]) == first && end < len(p.text); end += width {
		if _, width = utf8.DecodeRuneInString(p.text[end:]); !continuesName(firstRune(p.text[end:])) {
			break
		}
		if typed := p.text[at : end+width]; Canonical(typed) == Canonical(name) {
			return typed
		}
	}
	return name
}

// skip is the place of what follows blanks.
func (p *placed) skip(at int) int { return len(p.text) - len(strings.TrimLeft(p.text[at:], " \t\n")) }

// tokens are those of a stretch of the line as the reading has them; typed are those that
// could be read in it as it is. There may be room for them.
func (p *placed) tokens(room, typed []token, from, to int) []token {
	for i := range typed {
		if typed[i].kind != unitToken {
			continue
		}
		if split, part := p.split(&typed[i]); split {
			p.unsure = p.unsure || part && !p.endsInName(&typed[i]) || !part && !p.mayBeNames(typed, i)
		}
	}
	out := slices.Grow(room[:0], len(p.out))
	for i := range p.out {
		if t := &p.out[i]; t.from >= from && t.to <= to {
			out = append(out, *t)
		}
	}
	return out
}

// split tells whether a unit of the line is something else in the reading, and whether a
// part of it is a unit still.
func (p *placed) split(unit *token) (split, part bool) {
	for i := range p.out {
		if t := &p.out[i]; t.from == unit.from && t.to > t.from {
			part = t.kind == unitToken
			return !part || t.to < unit.to, part
		}
	}
	return false, false
}

// endsInName tells whether what ends as a unit is none, but names of the page of which the first can
// be no unit, or one that the unit before it is divided by and measures: the T1 of 3 kg T1, the I of
// 2.0 Ah/I, the T of 60 s/T, which is a time.
func (p *placed) endsInName(unit *token) bool {
	fs, _ := unitFactors(unit.text)
	words := wordsOf(fs)
	none := slices.IndexFunc(words, func(word string) bool { return !p.in.IsUnit(word) })
	if last := len(words) - 1; none < 0 && last > 0 && fs[len(fs)-1].power == "" {
		over, found := strings.CutSuffix(unit.text, "/"+words[last])
		return found && p.in.Measures(Canonical(words[last]), over)
	}
	return none > 0 && fs[len(fs)-1].power == "" && !p.in.IsUnit(unit.text) &&
		!slices.ContainsFunc(words[none:], func(word string) bool { return !p.in.Known(Canonical(word)) })
}

// partsQuotient tells whether the reading ends a quotient of names before what stands
// directly behind it: (v/2)*L for v/2L. Only a number above its bar is a factor by itself,
// as the 1/2 of 1/2mv^2 is.
func (p *placed) partsQuotient() bool {
	for i := range p.out {
		if !p.out[i].sign("(") || !p.put(i) || i > 0 && p.out[i-1].sign("√") {
			continue
		}
		within := pieces(p.out[i+1 : max(i+1, pieces(p.out).closing(i))])
		over := slices.IndexFunc(within, func(t token) bool { return t.over() })
		if over > 0 && !within[:over].numbers() {
			return true
		}
	}
	return false
}

// mayBeNames tells whether what is in the place of the unit at i may be names, if all of it
// is: a blank before a unit says that it is one, but for several behind a number that
// formulas have, ½ m v². Directly behind another number it is asked about if it begins with
// a unit that people use, as 7N/n does.
//
// The unit must look like letters of a formula: glued to its number or beside others, behind a
// number that formulas have, and not an everyday unit of a quantity: 5kg stays one, ½mv² does
// not.
func (p *placed) mayBeNames(tokens []token, i int) bool {
	unit, number := &tokens[i], &tokens[i-1]
	fs, ok := unitFactors(unit.text)
	glued := number.to == unit.from || !p.in.IsUnit(unit.text)
	from := pieces(tokens).start(i - 1)
	barred := from > 1 && tokens[from-1].over() && tokens[from-2].kind == numToken // 5/7 g
	if barred || IsCoefficient(p.text[tokens[from].from:number.to]) {
		return glued || len(fs) > 1 || pieces(tokens).implied(i+1) || barred
	}
	return ok && glued && number.kind != wordToken && !(p.in.IsUnit(fs[0].word) && (p.in.Known(Canonical(fs[0].word)) || p.in.Everyday(fs[0].word)))
}

// glued are the parts of the line in which something was put in.
//
// They are what the line says of itself, "`mgh` is read as m*g*h": a stretch from the first
// factor to the last between which nothing but what was put in, or a power, stands. Words
// within brackets are named by themselves, since they may be read otherwise than what is around
// them.
func (p *placed) glued() (out []Glued) {
	for i := 0; i < len(p.out); i++ {
		t := &p.out[i]
		typed := t.to > t.from
		if end := pieces(p.out).power(pieces(p.out).closing(i) + 1); t.sign("(") && end < len(p.out) && p.put(end) && !p.out[end].sign(")") {
			typed = false // (u+v)t
		}
		if !t.begins() || t.sign("(") && typed || (t.call || t.sign("√")) && !p.cut(i) && i+1 < len(p.out) && !p.put(i+1) {
			continue // what is in brackets is looked at by itself
		}
		end, any := p.run(i)
		if !any {
			continue
		}
		from, g := i, Glued{}
		switch {
		case i > 1 && p.put(i) && p.out[i-1].over():
			from, _ = pieces(p.out).term(i - 2) // with what is above the bar
			if n := len(out) - 1; n >= 0 && out[n].At.From >= p.out[from].from {
				g.Parts, out = out[n].Parts, out[:n]
			}
		case t.kind == numToken && end > i+4 && p.put(i+1) && slices.ContainsFunc(p.out[i+2:end], func(t token) bool { return t.from == t.to }):
			i += 2 // the mv² of ½mv²
			from = i
		}
		g.At = p.out[from].span().Join(p.out[end-1].span())
		depth := 0
		for k := i; k < end; k++ {
			t := &p.out[k]
			g.Calls = g.Calls || t.call
			g.Joined = g.Joined || k > i && depth == 0 && t.sign("*") && p.put(k) && p.out[k-1].kind == nameToken && p.text[t.from] != ' '
			g.Open = g.Open || k > 0 && p.put(k) && (t.sign("(") && !p.out[k-1].call || t.sign("*") && !p.out[k-1].sign(")") && !p.out[k+1].sign("(")) || k == 0 && p.put(k)
			switch {
			case t.sign("(") && (!p.put(k) || depth > 0 || k > 0 && p.out[k-1].call):
				depth++
			case t.sign(")") && depth > 0:
				depth--
			case t.kind != nameToken || t.call:
			case depth == 0 && !p.out[max(k-1, 0)].sign("^"):
				g.Parts = append(g.Parts, Canonical(t.text))
			case depth > 0 && p.out[k-1].sign("*") && p.put(k-1) && p.out[k-2].kind == nameToken:
				if n := len(g.Within) - 1; n >= 0 && g.Within[n].At.To == p.out[k-2].to {
					g.Within[n].At.To, g.Within[n].Parts = t.to, append(g.Within[n].Parts, Canonical(t.text))
					break
				}
				before := &p.out[k-2]
				g.Within = append(g.Within, Glued{At: before.span().Join(t.span()), Parts: []string{Canonical(before.text), Canonical(t.text)}})
			}
		}
		means, _ := pieces(p.out[from:end]).text(nil)
		g.Means = strings.TrimSpace(means)
		out = append(out, g)
		i = end - 1
	}
	return out
}

// put tells whether the reading puts a token in.
func (p *placed) put(k int) bool { return p.out[k].from == p.out[k].to }

// cut tells whether the reading begins another token within a word, r of pir, or has another
// word, exp of e^x.
func (p *placed) cut(k int) bool {
	t := &p.out[k]
	return t.text == "exp" && t.to-t.from < len(t.text) || t.kind == piToken && t.to < len(p.text) && startsName(firstRune(p.text[t.from:])) && startsName(firstRune(p.text[t.to:]))
}

// run returns where the factors end that begin at i and have no sign or blank between
// them but what the reading puts in, and whether it does.
func (p *placed) run(i int) (end int, any bool) {
	for end = i; ; end++ {
		if p.out[end].sign("(") {
			for closing := pieces(p.out).closing(end); end < closing; end++ {
				any = any || p.put(end) || p.cut(end)
			}
		}
		any = any || p.put(end) || p.cut(end)
		t, next := &p.out[end], end+1
		if next == len(p.out) || !(p.put(next) || p.put(end) && (t.sign("(") || t.sign("*")) || t.sign("√") || t.sign("^") || t.call ||
			p.out[next].kind == superToken || p.out[next].sign("^") || p.out[next].kind == unitToken ||
			p.out[next].from == t.to && p.out[next].begins() && t.ends()) {
			return next, any
		}
	}
}
