package typeset

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"steelyard/lang/syntax"
)

// parted is a name taken apart.
//
// x_0' and x0' are one name with an index and a prime.
type parted struct {
	change bool   // a Δ stands before the rest
	base   string // the letter, or the whole of a long name
	sub    string
	primes int
}

// letterEnd returns where the first letter of a text ends, with its accents.
//
// x̄ is a letter of two characters.
func letterEnd(s string) int {
	_, n := utf8.DecodeRuneInString(s)
	for n < len(s) {
		r, size := utf8.DecodeRuneInString(s[n:])
		if !unicode.Is(unicode.Mn, r) {
			break
		}
		n += size
	}
	return n
}

// parts takes a name apart.
//
// An index is what follows a _ or a digit; of a name of several letters only a symbol, such as
// KE_max, has one. speed2 and spring_force are words, and are set as such.
func parts(name string) parted {
	var s parted
	for strings.HasSuffix(name, "'") {
		name = name[:len(name)-1]
		s.primes++
	}
	if rest, ok := strings.CutPrefix(name, "Δ"); ok && rest != "" && rest[0] != '_' && !isDigit(rest[0]) && rest[0] != '\'' {
		s.change, name = true, rest
	}
	cut := 0
	for cut < len(name) && name[cut] != '_' && name[cut] != '\'' && !isDigit(name[cut]) {
		cut++
	}
	if cut == 0 || cut == len(name) {
		s.base = name
		return s
	}
	below := strings.TrimLeft(name[cut:], "'")
	strokes := len(name) - cut - len(below)
	s.base, s.sub = name[:cut], strings.TrimLeft(below, "_")
	if s.primes += strokes; strokes > 0 {
		name = s.base + below
	}
	if s.sub == "" {
		s.base = name
	}
	// KE_max is a symbol of two letters; spring_force and speed2 are words.
	if letterEnd(s.base[letterEnd(s.base):])+letterEnd(s.base) < len(s.base) {
		s.base, s.sub = name, ""
	}
	return s
}

// isChange tells whether a name is a Δ with the name of what changes.
func isChange(name string) bool { return strings.HasPrefix(name, "Δ") && parts(name).change }

// long tells whether a name has more than one letter, its subscript apart.
//
// mass is one word to a reader and no product of four letters, so it is set as a word; v_max is
// a v.
func long(name string) bool {
	s := parts(name)
	return letterEnd(s.base) < len(s.base)
}

// named lays out a name in its canonical form, with an exponent unless that is
// empty. A single letter is in italics, with what follows it as a subscript; an
// index letter there is in italics too, a word or a number upright. A long name
// stays one word, in italics.
//
// Symbols of quantities slope and their indices do if they are quantities or numbers that vary
// themselves; words and numbers in an index are upright (ISO 80000-1, 7.1.2). A vector has its
// arrow over the letter and not over the index.
func (l *layout) named(n *syntax.Name, exponent Box) Box {
	s, typed := parts(n.Name), n.Name
	if n.Line > 0 {
		typed += "@" + strconv.Itoa(n.Line)
	}
	b := Box{kind: symbol, text: s.base}
	if n.Vector {
		b = l.holding(arrowed, "", b)
	}
	if s.sub != "" || s.primes > 0 || !exponent.IsEmpty() {
		b = l.scripted(typed, b, l.subscript(s.sub), l.above(s.primes, exponent))
	}
	switch {
	case s.change:
		b = l.holding(row, typed, Box{kind: upright, text: "Δ"}, b)
	case n.Line > 0 && b.kind == symbol:
		b = l.holding(group, typed, b)
	}
	return b
}

// above is what stands above a name: primes, an exponent or both.
//
// x′² has the prime first: it belongs to the name, and the exponent to all of it.
func (l *layout) above(strokes int, exponent Box) Box {
	if strokes == 0 {
		return exponent
	}
	marks := Box{kind: primes, text: strings.Repeat("′", strokes)}
	if strokes == 2 {
		marks.text = "″" // which has a character of its own
	}
	if exponent.IsEmpty() {
		return marks
	}
	return l.holding(row, "", marks, exponent)
}

// subscript is what stands below: letters, numbers and words.
//
// Of v_x0 the index is an x with a 0; of v_A_max it is two, with a comma between.
//
// The commas in an index are those of print, and are typed as _.
func (l *layout) subscript(sub string) Box {
	if sub == "" {
		return Box{}
	}
	if !mixedIndex(sub) && !strings.Contains(sub, "_") {
		return index(sub)
	}
	outer := l.begin()
	for i, s := range strings.Split(sub, "_") {
		if i > 0 {
			l.put(Box{kind: close, text: ","})
		}
		if mixedIndex(s) {
			n := letterEnd(s)
			l.put(index(s[:n]))
			s = s[n:]
		}
		l.put(index(s))
	}
	return l.one(outer)
}

// mixedIndex tells whether a subscript is one letter with a number: x0.
//
// The letter slopes and the number does not.
func mixedIndex(s string) bool {
	n := letterEnd(s)
	return n > 0 && n < len(s) && !allDigits(s[:n]) && allDigits(s[n:])
}

func allDigits(s string) bool {
	for i := range len(s) {
		if !isDigit(s[i]) {
			return false
		}
	}
	return s != ""
}

// index is one piece of a subscript.
//
// max is a word and upright, A and x slope, 0 is a number.
func index(s string) Box {
	switch {
	case allDigits(s):
		return Box{kind: digits, text: s}
	case letterEnd(s) == len(s) && s != "":
		return Box{kind: symbol, text: s}
	}
	return Box{kind: word, text: s}
}

// proper writes the strokes in a name as primes.
func proper(s string) string { return strings.ReplaceAll(s, "'", "′") }

// spaced writes the long name of a function as words: spring energy.
func spaced(s string) string { return strings.ReplaceAll(proper(s), "_", " ") }

func isLetter(c byte) bool { return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' }
func isDigit(c byte) bool  { return c >= '0' && c <= '9' }
