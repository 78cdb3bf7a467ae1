package syntax

import (
	"slices"
	"strings"
	"unicode/utf8"
)

// CompletionPlace says what kind of word may stand at a place in a line.
type CompletionPlace uint8

// The places.
const (
	AtNothing   CompletionPlace = iota // prose, a number, a file
	AtStatement                        // a statement's word, or a name
	AtName                             // a name, a function or a formula
	AtUnit                             // a unit
	AtTopic                            // what help knows
	AtClause                           // a word that goes on with the statement
)

// PlaceAt says what kind of word may stand at a byte offset of a text, with the
// part of the word that is there already and where it begins.
//
// It must answer for every half-written line, and in no time: each key that completes asks.
// So it reads the tokens before the place, and never the line as a statement.
//
// Some lines, with the place at their end:
//
//	so                  a statement, with the prefix so
//	v = 3 m             a unit, with the prefix m
//	12mm                a unit, with the prefix mm
//	v = m               a name, with the prefix m
//	v = 3               nothing: the number may go on
//	E in                a unit, with a blank at the end
//	solve a = b         a clause, with a blank at the end
//	help ne             a topic, with the prefix ne
//	note a              nothing: prose
func PlaceAt(text string, at int) (prefix string, from int, place CompletionPlace) {
	at = max(0, min(at, len(text)))
	for at > 0 && at < len(text) && !utf8.RuneStart(text[at]) {
		at--
	}
	start := strings.LastIndexByte(text[:at], '\n') + 1
	if guard(text[:at]) != nil {
		return "", at, AtNothing
	}
	from = wordStart(text, start, at)
	prefix = text[from:at]
	line, to := trimBlanks(text, start, from)
	if line >= to {
		if start > 0 {
			return prefix, from, AtName // a line of a body
		}
		if prefix == "" || startsName(firstRune(prefix)) {
			return prefix, from, AtStatement
		}
		return prefix, from, AtNothing
	}
	before := text[line:to]
	if words, end, _ := headLines(text[start:at]); before[0] == '#' || words < end {
		return prefix, from, AtNothing
	}
	head := ""
	w := leadingStatement(text[line:at])
	if half := statementWord(before); w == nil && half != nil && (!half.Stored || prefix == "" && half.second == "") {
		w = half
	}
	var next []string
	if w != nil {
		next = w.next
		switch w.Word {
		case "help":
			return prefix, from, AtTopic
		case "describe":
			return prefix, from, AtName
		case "note", "part", "save", "open", "print", "data", "marking", "names", "undo", "recover", "forget", "replay", "quit",
			"remove", "page", "title", "worksheet":
			return prefix, from, AtNothing
		}
		head = w.Word
	}
	place = placeAfter(text, line, to, head, prefix)
	if to == at && text[to-1] >= '0' && text[to-1] <= '9' {
		place = AtNothing // a number is still being written
	} else if place == AtNothing && to < from && len(next) > 0 {
		place = AtClause
	}
	return prefix, from, place
}

// placeAfter says what may follow a part of a line.
//
// A unit may follow a number, a unit, and all that is behind in. Behind a name or a closed
// bracket stands an operator, which nobody needs to have completed.
func placeAfter(text string, from, to int, head, prefix string) CompletionPlace {
	if endsInWord(text[from:to], "in") {
		return AtUnit
	}
	tokens, _ := scan(text, from, to, head)
	if len(tokens) == 0 {
		return AtName
	}
	last := &tokens[len(tokens)-1]
	alone := slices.ContainsFunc(tokens, func(t token) bool { return t.text == "in" })
	glued := text[to-1]
	switch {
	case alone && last.kind != signToken, alone && (glued == '/' || glued == '*'):
		return AtUnit
	case last.kind == numToken || last.kind == unitToken:
		return AtUnit
	case last.kind == signToken && last.text == "/" && len(tokens) > 1 && tokens[len(tokens)-2].kind == unitToken:
		return AtUnit
	case last.kind == signToken && last.text == ")", last.kind == nameToken, last.kind == superToken:
		return AtNothing
	case last.kind == wordToken && (last.text == "figures" || last.text == "points"):
		return AtNothing
	}
	if prefix != "" && !startsName(firstRune(prefix)) {
		return AtNothing
	}
	return AtName
}

// endsInWord tells whether a text ends with a word.
//
// The end of another word is none: begin does not end in in.
func endsInWord(text, word string) bool {
	head, ok := strings.CutSuffix(text, word)
	return ok && (head == "" || !continuesName(lastRune(head)))
}

// firstRune is the first character of a text; utf8.RuneError if that has none.
func firstRune(s string) rune {
	r, _ := utf8.DecodeRuneInString(s)
	return r
}

// wordStart returns where the word begins that ends at a place. Digits before
// its first letter are a number and not part of it.
//
// In 12mm the word is mm, and in m1 it is m1.
func wordStart(text string, start, at int) int {
	from := at
	for from > start {
		r, n := utf8.DecodeLastRuneInString(text[start:from])
		if !continuesName(r) && !isMark(r) {
			break
		}
		from -= n
	}
	for from < at {
		r, n := utf8.DecodeRuneInString(text[from:at])
		if startsUnit(r) {
			break
		}
		from += n
	}
	return from
}
