package syntax

import (
	"strings"
	"unicode/utf8"
)

// Powered is a line with a sign before digits that may be powers: F = m*v^2/r for
// F = mv2/r.
//
// By the rules v2 is one name, since x1 and x2 are in every book; but where it has
// no value and v has one, v2 is a power that has lost its sign.
type Powered struct {
	Text string
	// Equation is the line with a power of the name that it begins with too, as an equation:
	// v^2 = u^2 + 2*a*s; empty where that has no such digit.
	Equation string
	At       Span   // of the first word with such a digit, as it was typed
	Name     string // that is one by the rules, v2
	Base     string // of the power, v
}

// DigitPowers writes a line so: a 2 or 3 behind a letter is a power where the word is no
// name of the page and comes apart there into names and symbols.
//
// The name that a line gives is left alone: v2 = 3 m/s.
func DigitPowers(text string, in Scope, symbol func(name string) bool) (Powered, bool) {
	_, lines, bad := stretches(text, nil)
	if bad != nil || len(lines) == 0 {
		return Powered{}, false
	}
	var out Powered
	at := 0
	for _, tokens := range lines {
		l := lackingSymbols{in: within(nil, in), symbol: symbol}
		l.in.names = boundIn(tokens)
		for i := range tokens {
			t := &tokens[i]
			if i == 0 && len(tokens) > 1 && tokens[1].is("=") {
				if head, ok := l.powered(t.text); ok {
					out.Equation = text[:t.from] + head.Text + text[t.to:tokens[1].from]
				}
				continue
			}
			if t.call || t.kind != nameToken && t.kind != unitToken || t.kind == unitToken && in.IsUnit(t.text) && in.Everyday(strings.TrimRight(t.text, "23")) || t.from < at {
				continue
			}
			out.Text += text[at:t.from]
			at = t.to
			for word, rest := nextWord(t.text); word != ""; word, rest = nextWord(rest) {
				if power, ok := l.powered(word); ok {
					if out.Name == "" {
						out.At, out.Name, out.Base = t.span(), power.Name, power.Base
					}
					word = power.Text
				}
				out.Text += word
			}
		}
	}
	out.Text += text[at:]
	if out.Equation != "" {
		out.Equation += out.Text[strings.IndexByte(out.Text, '='):]
	}
	return out, out.Name != ""
}

// nextWord is the first word of a text, or the signs before it.
//
// Both parts put together are the text. Of no text, no word is left.
func nextWord(text string) (word, rest string) {
	end := strings.IndexFunc(text, func(r rune) bool { return !continuesName(r) })
	switch end {
	case -1:
		return text, ""
	case 0:
		_, n := utf8.DecodeRuneInString(text)
		return text[:n], text[n:]
	}
	return text[:end], text[end:]
}

// powered writes one word with a sign before the digit that may be a power.
//
// The word must come apart on both sides of the digit: mv2 into m and v, and v2 alone into v. A
// name of the page with that digit, v2 = 3 m/s, is what it is.
func (l *lackingSymbols) powered(word string) (Powered, bool) {
	if l.in.Known(Canonical(word)) {
		return Powered{}, false
	}
	for k := 1; k < len(word); k++ {
		stem, rest := word[:k], word[k+1:]
		if word[k] != '2' && word[k] != '3' || !startsName(lastRune(stem)) || rest != "" && !startsName(firstRune(rest)) {
			continue
		}
		_, n := utf8.DecodeLastRuneInString(stem)
		base := stem
		if !l.in.Known(Canonical(stem)) {
			base = stem[len(stem)-n:]
		}
		if l.in.Known(Canonical(base+word[k:k+1])) || !l.letters(stem) || rest != "" && !l.letters(rest) {
			continue
		}
		text := stem + "^" + word[k:k+1]
		if rest != "" {
			text += "*" + rest
		}
		return Powered{Text: text, Name: Canonical(base + word[k:k+1]), Base: base}, true
	}
	return Powered{}, false
}
