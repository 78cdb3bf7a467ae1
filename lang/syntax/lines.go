package syntax

import (
	"strings"
	"unicode/utf8"
)

// headLines returns where the first line of a statement ends, with those lines
// that an open bracket or a final operator makes part of it; where the words begin
// that it has for its name, with their comma, or else the same place; and where the
// next line begins.
//
// In K = 1/2*m, energy of the frog the words begin at the comma; one within
// brackets, hypot(3 m, 4 m), is none. A line with an open bracket goes on below:
//
//	F = (2 N +
//	  3 N)
//
// All places are byte offsets in text. Prose has no words of its own and no line
// that goes on.
func headLines(text string) (words, end, next int) {
	if end = strings.IndexByte(text, '\n'); end < 0 {
		end = len(text)
	}
	from, to := trimBlanks(text, 0, end)
	if strings.IndexByte(text, '\n') < 0 && strings.IndexByte(text, ',') < 0 || prose(text[from:to]) {
		return end, end, min(end+1, len(text))
	}
	named := meaningFrom(text[from:to]) + from
	depth := 0
	for at := 0; ; {
		line := text[at:end]
		if named > from {
			skip := max(named-at, 0)
			if words := at + skip + comma(line[skip:], depth); words < end {
				return words, end, min(end+1, len(text))
			}
		}
		depth += strings.Count(line, "(") - strings.Count(line, ")")
		if depth <= 0 && (!openEnd(line) || at == 0 && takesPieces(text[from:to])) {
			return end, end, min(end+1, len(text))
		}
		if end == len(text) {
			return end, end, end
		}
		at = end + 1
		if end = strings.IndexByte(text[at:], '\n'); end < 0 {
			end = len(text)
		} else {
			end += at
		}
	}
}

// prose tells whether a line holds text that is not read as an expression.
//
// Such are remarks, notes, parts and commands: a bracket or a final sign in them
// is text, and holds no line back.
func prose(line string) bool {
	if strings.HasPrefix(line, "#") {
		return true
	}
	w := leadingStatement(line)
	return w != nil && (w.prose || !w.Stored || !w.Ready)
}

// openEnd tells whether a line ends with an operator, so that it must go on.
//
// Nobody ends a line with a sign for its own sake: what follows stands on the next one.
//
// So v = u + is open, and solve a = b for. A name that ends in such a word is
// none: wait_for is whole.
func openEnd(line string) bool {
	_, to := trimBlanks(line, 0, len(line))
	r, n := utf8.DecodeLastRuneInString(line[:to])
	if strings.ContainsRune("+*/÷^√(,=<>≤≥±", r) || isMinus(r) || isTimes(r) {
		return true
	}
	if n == 0 || !isLetterByte(line[to-1]) {
		return false
	}
	at := to
	for at > 0 && isLetterByte(line[at-1]) {
		at--
	}
	if at == 0 {
		return false
	}
	switch line[at:to] {
	case "at": // v = u + at is whole: only a slope and bars wait for a place
		return strings.Contains(line, "slope of ") || strings.HasPrefix(line, "bars ")
	case "for", "to", "from", "by", "and", "where", "within", "against", "with":
		return !continuesName(lastRune(line[:at]))
	}
	return false
}

// lastRune is the last character of a text; utf8.RuneError if that has none.
func lastRune(s string) rune {
	r, _ := utf8.DecodeLastRuneInString(s)
	return r
}

// takesPieces tells whether a line is the head of a function that is given in
// pieces: f(t) = with nothing after it, or with a unit only.
//
// The bracket must be directly behind a name, so that this is the head of a
// function and no product: f(t) =, but not 2 (t) =.
func takesPieces(line string) bool {
	eq := strings.LastIndexByte(line, '=')
	if eq < 0 {
		return false
	}
	after := strings.TrimSpace(line[eq+1:])
	if after != "" && after != "in" && !strings.HasPrefix(after, "in ") {
		return false
	}
	_, to := trimBlanks(line, 0, eq)
	open := strings.IndexByte(line, '(')
	return open > 0 && line[to-1] == ')' && !isBlank(lastRune(line[:open])) && strings.IndexByte(line, '=') == eq
}

// StatementsOf are those of a text: each begins on a line that is not indented.
//
// A reading that is offered may be several lines, and one of several rows, a function in
// pieces.
func StatementsOf(text string) (out []string) {
	for row := range strings.SplitSeq(text, "\n") {
		if n := len(out); n > 0 && (row == "" || isBlank(firstRune(row))) {
			out[n-1] += "\n" + row
			continue
		}
		out = append(out, row)
	}
	return out
}

// takesBody tells whether a statement goes on over indented lines.
//
// These are formulas, functions in pieces and data without a file. A note may go on too,
// but needs not, and is complete without.
func takesBody(line string) bool {
	if w := leadingStatement(line); w != nil {
		return w == &formulaWord || w == &dataWord && line == w.Word
	}
	return takesPieces(line)
}

// Incomplete tells whether a text asks for more: a bracket is open, an operator
// is the last thing on the line, or indented lines belong to the statement. Those
// end with an empty line.
//
// It is asked at each Enter of a scratchpad, and must not be wrong in either way: a line that
// is held back seems lost, one that is taken too early is refused.
//
// Some texts, as far as they have been typed:
//
//	m =                       incomplete
//	(2 +                      incomplete
//	solve a = b for           incomplete
//	formula a: b = c          incomplete, until an empty line
//	data                      incomplete: a table belongs to it
//	v = u + at                complete: at may be a times t, and is told as such
//	note this is (            complete: prose
//	m = 3 kg, mass of         complete: words behind a comma
func Incomplete(text string) bool {
	if guard(text) != nil {
		return false
	}
	if _, n := For(text); n > 0 {
		return Incomplete(text[n:])
	}
	line := text
	if i := strings.IndexByte(text, '\n'); i >= 0 {
		line = text[:i]
	}
	from, to := trimBlanks(line, 0, len(line))
	body := takesBody(line[from:to])
	if from == to || !body && prose(line[from:to]) {
		return false
	}
	closed := strings.HasSuffix(strings.TrimRight(text, " \t\r"), "\n")
	if closed {
		return false
	}
	if body {
		return true
	}
	if words, end, _ := headLines(text); words < end {
		return false
	}
	tail := text
	if i := strings.LastIndexByte(text, '\n'); i >= 0 {
		tail = text[i+1:]
	}
	return strings.Count(text, "(") > strings.Count(text, ")") || openEnd(tail)
}
