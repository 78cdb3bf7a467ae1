package syntax

import (
	"strings"
	"unicode/utf8"

	"steelyard/lang/finding"
)

// Parse reads one statement with its indented lines. The statement is nil if it
// can't be read; the findings then say why. Spans are byte offsets in text.
func Parse(text string) (Stmt, []finding.Finding) {
	if bad := guard(text); bad != nil {
		return nil, []finding.Finding{bad.Finding}
	}
	r := newReader(text)
	s, bad := r.statement()
	if bad != nil {
		return nil, []finding.Finding{bad.Finding}
	}
	return s, nil
}

// ParseExpr reads an expression that stands alone.
func ParseExpr(text string) (Expr, []finding.Finding) {
	if bad := guard(text); bad != nil {
		return nil, []finding.Finding{bad.Finding}
	}
	r := reader{text: text, to: len(text)}
	r.from, r.to = trimBlanks(text, 0, len(text))
	tokens, bad := r.tokens("")
	if bad == nil {
		var v *valueLine
		if v, bad = parse(valueLines, tokens, r.to); bad == nil {
			if v.In.Type == unitToken {
				bad = unexpected(&v.In)
			} else if bad = r.readings(v.X); bad == nil {
				return v.X, nil
			}
		}
	}
	return nil, []finding.Finding{bad.Finding}
}

// reader reads one statement: the range of its first line, which may go on over
// several if a bracket is open, and its indented lines.
type reader struct {
	text     string
	from, to int
	body     []Span
}

func newReader(text string) *reader {
	r := &reader{text: text}
	first, rest := headLines(text)
	r.from, r.to = trimBlanks(text, 0, first)
	for rest < len(text) {
		end := strings.IndexByte(text[rest:], '\n')
		if end < 0 {
			end = len(text)
		} else {
			end += rest
		}
		if from, to := trimBlanks(text, rest, end); from < to {
			r.body = append(r.body, Span{From: from, To: to})
		}
		rest = end + 1
	}
	return r
}

// headLines returns where the first line of a statement ends, with those lines
// that an open bracket or a final operator makes part of it, and where the next
// begins.
func headLines(text string) (end, next int) {
	if end = strings.IndexByte(text, '\n'); end < 0 {
		return len(text), len(text)
	}
	from, to := trimBlanks(text, 0, end)
	if prose(text[from:to]) {
		return end, end + 1
	}
	depth := 0
	for at := 0; ; {
		line := text[at:end]
		depth += strings.Count(line, "(") - strings.Count(line, ")")
		if depth <= 0 && (!openEnd(line) || at == 0 && takesPieces(text[from:to])) {
			return end, min(end+1, len(text))
		}
		if end == len(text) {
			return end, end
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
func prose(line string) bool {
	if strings.HasPrefix(line, "#") {
		return true
	}
	w, ok := leadingStatement(line)
	return ok && (w.Word == "note" || w.Word == "part" || !w.Stored || !w.Ready)
}

// openEnd tells whether a line ends with an operator, so that it must go on.
func openEnd(line string) bool {
	_, to := trimBlanks(line, 0, len(line))
	r, n := utf8.DecodeLastRuneInString(line[:to])
	switch r {
	case '+', '*', '/', '÷', '^', '√', '(', ',', '=', '<', '>', '≤', '≥', '±':
		return true
	}
	if isMinus(r) || isTimes(r) {
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
	case "for", "to", "from", "by", "and", "where", "within", "against", "at", "with":
		return !continuesName(lastRune(line[:at]))
	}
	return false
}

func lastRune(s string) rune {
	r, _ := utf8.DecodeLastRuneInString(s)
	return r
}

// takesPieces tells whether a line is the head of a function that is given in
// pieces: f(t) = with nothing after it, or with a unit only.
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

// takesBody tells whether a statement goes on over indented lines.
func takesBody(line string) bool {
	if w, ok := leadingStatement(line); ok {
		return w.Word == "formula"
	}
	return takesPieces(line)
}

// Incomplete tells whether a text asks for more: a bracket is open, an operator
// is the last thing on the line, or indented lines belong to the statement. Those
// end with an empty line.
func Incomplete(text string) bool {
	if guard(text) != nil {
		return false
	}
	line := text
	if i := strings.IndexByte(text, '\n'); i >= 0 {
		line = text[:i]
	}
	from, to := trimBlanks(line, 0, len(line))
	if from == to || prose(line[from:to]) {
		return false
	}
	closed := strings.HasSuffix(strings.TrimRight(text, " \t\r"), "\n")
	if closed {
		return false
	}
	if takesBody(line[from:to]) {
		return true
	}
	tail := text
	if i := strings.LastIndexByte(text, '\n'); i >= 0 {
		tail = text[i+1:]
	}
	return strings.Count(text, "(") > strings.Count(text, ")") || openEnd(tail)
}

// leadingStatement finds the statement that a line begins with. A word that is
// followed by an equals sign, an operator or its bracket is a name.
func leadingStatement(line string) (StatementWord, bool) {
	n := 0
	for n < len(line) && isLetterByte(line[n]) {
		n++
	}
	w, ok := statementWord(line[:n])
	if !ok {
		return w, false
	}
	from, _ := trimBlanks(line, n, len(line))
	rest := line[from:]
	if rest == "" {
		return w, !w.Stored || w.Word == "note"
	}
	r, _ := utf8.DecodeRuneInString(rest)
	if from == n && !(r == ':' && (w.Word == "marking" || w.Word == "part" || w.Word == "formula")) {
		return w, false
	}
	if r == '=' {
		return w, false
	}
	switch w.Word {
	case "note", "part", "help", "save", "open", "describe", "diagnose", "data", "marking":
		return w, w.Word != "data" || !operatorNext(rest, r)
	case "check", "solve":
		return w, signBefore(rest, r) || r == '(' || !operatorNext(rest, r)
	}
	if (w.Word == "graph" || w.Word == "table") && strings.Contains(rest, " against ") {
		return w, true
	}
	if operatorNext(rest, r) && !(w.Word == "let" && isLetterByte(rest[0])) {
		return w, false
	}
	return w, secondWord(w.Word, rest)
}

// signBefore tells whether a sign belongs to the operand after it: check -x < 0,
// and not check - x.
func signBefore(rest string, r rune) bool {
	if !isMinus(r) && r != '+' {
		return false
	}
	next := firstRune(rest[utf8.RuneLen(r):])
	return next != utf8.RuneError && !isBlank(next)
}

// operatorNext tells whether what follows a word makes it a name.
func operatorNext(rest string, r rune) bool {
	switch r {
	case '+', '*', '/', '÷', '^', '(', ')', ',', '<', '>', '≤', '≥':
		return true
	}
	if isMinus(r) || isTimes(r) || isSuper(r) {
		return true
	}
	word := unitScan{text: rest, end: len(rest)}.word(0)
	return word == "in" || word == "with" || word == "within"
}

// secondWord tells whether a statement of two words has its second.
func secondWord(word, rest string) bool {
	second := unitScan{text: rest, end: len(rest)}.word(0)
	switch word {
	case "slope":
		return second == "of"
	case "area":
		return second == "under"
	case "round":
		return second == "halves"
	case "results":
		return second == "to"
	case "bars":
		return second == "at"
	}
	return true
}
