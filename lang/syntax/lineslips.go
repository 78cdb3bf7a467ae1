package syntax

import (
	"slices"
	"strings"
	"unicode"

	"steelyard/units"
)

// Words after a comma and a blank are the meaning of the name that a line gives:
// m = 36 g, mass of the frog. They begin with a letter and hold no equals sign, so
// that m = 36 g, M = 2 kg is two lines; and they are words: k = 3, kPa is a slip.

// meaningFrom is the place in a line from which on words for its name may come: behind
// NAME =, NAME(…) = or 1 NAME =, behind the `in` of let, or the `for` of solve. It is 0
// for another line.
func meaningFrom(line string) int {
	switch w := leadingStatement(line); w {
	case nil:
	case &letWord:
		return max(0, strings.Index(line, " in "))
	case &solveWord:
		return max(0, phraseFrom(line))
	default:
		return 0
	}
	eq := strings.IndexByte(line, '=')
	name := strings.TrimRight(strings.TrimPrefix(line[:max(eq, 0)], "1 "), " ")
	if !startsName(firstRune(name)) {
		return 0
	}
	if open := strings.IndexByte(name, '('); open > 0 && strings.HasSuffix(name, ")") {
		name = name[:open]
	}
	if strings.ContainsFunc(name, func(r rune) bool { return !continuesName(r) }) {
		return 0
	}
	return eq
}

// phraseFrom is the place of the last comma of a line, if several words follow that
// are no clause of a statement; else -1.
//
// One word may be a name or a unit: k = 3, kPa.
func phraseFrom(line string) int {
	at := strings.LastIndex(line, ", ")
	if at < 0 || !areWords(line[at+1:]) || strings.ContainsAny(line[at:], "<>=≤≥()") {
		return -1
	}
	words := strings.Fields(line[at+1:])
	if len(words) < 2 || slices.ContainsFunc(words, Reserved) {
		return -1
	}
	return at
}

// remarkBehind finds check A = B, energy is kept: the words have a line of their own.
//
// A check gives no name that words could be about.
func (r *reader) remarkBehind(bad *fault) *fault {
	line := r.text[r.from:r.to]
	if at := phraseFrom(line); at > 0 && bad.At.From >= r.from+at {
		return remark(r.text, []token{{kind: wordToken}}, Span{From: r.from, To: r.to}, r.from+at, line[at+1:])
	}
	return bad
}

// comma is the place in a line of the comma that its words follow, or the line's
// length. The line begins inside so many brackets.
//
// A comma within brackets parts arguments, one before an equals sign parts names.
func comma(line string, depth int) int {
	equals := strings.LastIndexByte(line, '=')
	for i := 0; i < len(line); i++ {
		switch line[i] {
		case '(', '[', '{':
			depth++
		case ')', ']', '}':
			depth--
		case ',':
			if depth == 0 && i > equals && i+1 < len(line) && isBlank(firstRune(line[i+1:])) {
				if areWords(line[i+1:]) {
					return i
				}
				return len(line)
			}
		}
	}
	return len(line)
}

// areWords tells whether a text is words, and no unit or symbol: it begins with a
// letter, and a word of it has three.
//
// A short name or a unit has no three letters in a row, or is in the catalogue.
func areWords(text string) bool {
	text = strings.TrimFunc(text, isBlank)
	if !startsName(firstRune(text)) {
		return false
	}
	letters := 0
	for _, r := range text {
		switch {
		case r > unicode.MaxLatin1 && unicode.IsLetter(r) && !unicode.In(r, unicode.Latin, unicode.Greek):
			letters = 3 // one sign of Han is a word
		case unicode.IsLetter(r):
			letters++
		default:
			letters = 0
		}
		if letters >= 3 {
			break
		}
	}
	word := strings.TrimPrefix(text, "in ")
	if letters < 3 || strings.ContainsFunc(word, isBlank) {
		return letters >= 3
	}
	table := units.NewTable()
	return !table.Has(word) && !strings.ContainsFunc(word, func(r rune) bool { return !unicode.IsLetter(r) && r != '-' && r != '\'' && r != '’' })
}
