package syntax

import (
	"slices"
	"strings"
	"unicode"

	"steelyard/lang/finding"
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

// apart says of several statements on a line, each of which begins behind a comma,
// that they need a line each; nil where there is one. The fault that the line has
// is at the first comma.
func (r *reader) apart(why *fault, begins func(text string) bool, lead string) *fault {
	line := r.text[r.from:r.to]
	at := why.At.From - r.from
	if at <= 0 || at >= len(line) || line[at] != ',' {
		return nil
	}
	lines := []string{line[:at]}
	for rest := line[at+1:]; rest != ""; {
		rest = strings.TrimLeftFunc(rest, isBlank)
		if !begins(rest) {
			return nil
		}
		end := strings.IndexByte(rest, ',')
		if end < 0 {
			end = len(rest)
		}
		lines = append(lines, lead+strings.TrimRightFunc(rest[:end], isBlank))
		rest = rest[min(end+1, len(rest)):]
	}
	if len(lines) < 2 || len(lines) > maxApart {
		return nil
	}
	return &fault{finding.New(finding.NotWritten, Span{From: r.from, To: r.to}, "Each of these statements needs its own line.",
		"Write `"+strings.Join(lines, "` and then `")+"`.", lines...)}
}

// twoNames finds m = 36 g, M = 2 kg.
func (r unread) twoNames() *fault {
	return r.apart(r.why, func(text string) bool { return meaningFrom(text) > 0 }, "")
}

// strayComma finds F = 5 N, in kN and m = 36 g,mass of the frog.
func (r unread) strayComma() *fault {
	line := r.text[r.from:r.to]
	at := strings.LastIndexByte(line, ',')
	if at < 0 || r.why.At.From < r.from+at {
		return nil
	}
	rest, sign := line[at+1:], Span{From: r.from + at, To: r.from + at + 1}
	switch {
	case strings.HasPrefix(strings.TrimLeftFunc(rest, isBlank), "in "):
		return &fault{finding.New(finding.NotWritten, sign, "There is no comma before `in`.", "Take it out.", "")}
	case meaningFrom(line) > 0 && !isBlank(firstRune(rest)) && areWords(rest):
		return &fault{finding.New(finding.NotWritten, sign, "Words about a name come after a comma and a space.", "Put the space in.", ", ")}
	}
	return nil
}

// nameless finds 1/2*m*v^2 in J, energy of the ball.
func (r unread) nameless() *fault {
	line := r.text[r.from:r.to]
	at := comma(line, 0)
	if at == len(line) || meaningFrom(line) > 0 || r.why.At.From < r.from+at {
		return nil
	}
	return &fault{finding.New(finding.NotWritten, Span{From: r.from + at, To: r.to}, "Words after a comma say what a name means. This line has no name.",
		"Begin the line with a name and =, or leave the words out.", "")}
}

// maxApart is the most statements of one line that are told apart.
const maxApart = 8
