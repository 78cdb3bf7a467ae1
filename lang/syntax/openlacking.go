package syntax

import (
	"cmp"
	"strings"
)

// OpenLacking is OpenIn for a line that is refused, of which some symbols may have no
// value: each way to read it where those are names too. Symbol tells which letters
// quantities go by. It returns the symbols; none where the line has none.
//
// A refused line cannot be told by its names: what it lacks has no value yet. So every letter
// that formulas have for some quantity counts as a name too, if nothing else speaks for it.
func OpenLacking(text string, in Scope, symbol func(name string) bool) (Open, []string) {
	r, lines, bad := stretches(text, nil)
	if bad != nil || len(lines) == 0 {
		return Open{}, nil
	}
	l := lackingSymbols{in: within(nil, in), symbol: symbol}
	l.in.names = boundIn(lines[0])
	for _, tokens := range lines {
		l.look(tokens)
	}
	if len(l.found) == 0 {
		return Open{}, nil
	}
	o := &opener{in: l.in, headed: r.headed()}
	o.in.names = append(o.in.names, l.found...)
	return o.openIn(piecesOf(text, lines)), l.found
}

// lackingSymbols collects the symbols of a line that have no value.
type lackingSymbols struct {
	in     inner
	symbol func(string) bool
	found  []string
}

// look goes through the words of a line, but for the name that it gives. Behind a number
// a word may be symbols if no blank is between them, if formulas have the number, or if it
// is no unit.
//
// The first word is the name that the line gives, unless it is an equation: then it is a symbol
// like the others.
func (l *lackingSymbols) look(tokens []token) {
	for i := range tokens {
		t := &tokens[i]
		switch {
		case t.kind == nameToken && !(i == 0 && len(tokens) > 1 && tokens[1].is("=")):
			word := t.text
			if i+1 < len(tokens) && (tokens[i+1].is("^") || tokens[i+1].kind == superToken) && !l.in.Known("e") {
				word = strings.TrimSuffix(word, "e") // of V0e^(-t/τ)
			}
			if word != "" && !l.unitBeside(tokens, i) {
				l.word(word)
			}
		case t.kind == unitToken && i > 0 && (tokens[i-1].to == t.from || IsCoefficient(tokens[i-1].text) || !l.in.IsUnit(t.text)):
			fs, _ := unitFactors(t.text)
			for _, word := range wordsOf(fs) {
				l.word(word)
			}
		}
	}
}

// unitBeside tells whether the word at i is a unit beside a plain number of the page: x m,
// but neither the u2 of m2 u2 nor the A of ρ A.
//
// In 5*x m the m is a unit that has lost its number's place; in m2 u2 the second word has a
// number and is a name.
func (l *lackingSymbols) unitBeside(tokens []token, i int) bool {
	if text := tokens[i].text; i == 0 || tokens[i-1].to == tokens[i].from || isDigit(rune(text[len(text)-1])) {
		return false
	}
	base := baseOf(tokens, i-1)
	_, plain := l.in.Number(Canonical(base.text))
	return base.kind == nameToken && plain && l.in.IsUnit(tokens[i].text)
}

// word takes a word apart into names of the page, symbols and a function with its
// argument.
//
// Fdcosθ is taken apart round its function first, since cos would else be three names.
func (l *lackingSymbols) word(word string) {
	for cut := range word {
		for n := 2; n <= 3 && cut+n <= len(word); n++ {
			if !bareFunction(word[cut : cut+n]) {
				continue
			}
			before, after := len(l.found), strings.TrimLeft(word[cut+n:], "0123456789")
			if (cut == 0 || l.letters(word[:cut])) && (after == "" || l.letters(after)) {
				return
			}
			l.found = l.found[:before]
		}
	}
	l.letters(word)
}

// letters takes a word without a function in it apart, and tells whether it could. A word
// of a language comes apart into no symbols, nor does one that holds a symbol twice, nor the
// difference of a name: ΔKE.
func (l *lackingSymbols) letters(word string) bool {
	if of, difference := strings.CutPrefix(word, "Δ"); difference && l.in.Known(of) && !l.in.Known(word) && !l.symbol(word) {
		return false
	}
	symbol := l.symbol
	if IsSpoken(word) {
		symbol = nil
	}
	_, lacking, ok := Apart(cmp.Or(afterPi(word), word), l.in.Known, symbol)
	if !ok || HasTwice(lacking) {
		return false
	}
	l.found = addNew(l.found, lacking...)
	return true
}
