package entry

import (
	"strconv"
	"strings"
	"unicode"

	"steelyard/lang/ops"
	"steelyard/lang/syntax"
)

// Gives lists the names that the statement gives, or would give if it had not
// failed.
func (e *Entry) Gives() []string {
	if e.Stmt == nil {
		if name := BeginsWith(e.Text); name != "" {
			return []string{name}
		}
		return solvedNames(e.Text)
	}
	var names []string
	for _, n := range e.Stmt.Defines() {
		names = append(names, n.Name)
	}
	return names
}

// longestName is how far into a text that can't be read a name is looked for.
const longestName = 200

// BeginsWith returns the name that a text "NAME = …" begins with, or nothing.
func BeginsWith(text string) string {
	for i, r := range text {
		switch {
		case r == '=':
			name := strings.TrimSpace(text[:i])
			if strings.IndexByte(name, ' ') >= 0 {
				return "" // check F
			}
			if name = syntax.Canonical(name); name == "" || syntax.Reserved(name) || !isName(name) {
				return ""
			}
			return name
		case r == '\n' || r == '(' || i > longestName:
			return ""
		}
	}
	return ""
}

// FunctionOf returns the name of the function that a text "NAME(…) = …" defines, or
// nothing.
func FunctionOf(text string) string {
	head, rest, ok := strings.Cut(text, "(")
	inside, after, closed := strings.Cut(rest, ")")
	for argument := range strings.SplitSeq(inside, ",") {
		if argument = strings.TrimSpace(argument); argument != "" && !isName(syntax.Canonical(argument)) {
			return "" // m1c1(T1-T) = …
		}
	}
	name := syntax.Canonical(head)
	if !ok || !closed || ops.IsFunction(name) || len(head) > longestName || !isName(name) || !strings.HasPrefix(strings.TrimSpace(after), "=") {
		return ""
	}
	return name
}

// solvedNames returns the name that a solve which can't be read was for.
func solvedNames(text string) []string {
	at := strings.LastIndex(text, " for ")
	if !strings.HasPrefix(text, "solve ") || at < 0 {
		return nil
	}
	fields := strings.Fields(text[at+len(" for "):])
	if len(fields) > 2 && fields[0] == "the" {
		fields = fields[2:]
	}
	if len(fields) == 0 {
		return nil
	}
	if name := syntax.Canonical(strings.TrimRight(fields[0], ",")); isName(name) {
		return []string{name}
	}
	return nil
}

// isName tells whether a text is one name, as its writer may mean it: the language has no name
// with π in it, but r_π is one in books, and rπ = 2 kΩ is no equation to be solved for r.
func isName(s string) bool {
	for i, r := range s {
		if !unicode.IsLetter(r) && (i == 0 || !unicode.IsDigit(r) && r != '_' && r != '′' && r != '\'') {
			return false
		}
	}
	return s != ""
}

// mostNamed is how many lines are listed by their names.
const mostNamed = 12

// LinesNamed lists lines with the one name that each gives: W (line 4), line 5.
func LinesNamed(lines []int, at func(line int) *Entry) string {
	var words []string
	for i, line := range lines {
		if i == mostNamed {
			words = append(words, "…")
			break
		}
		word := "line " + strconv.Itoa(line)
		if e := at(line); e != nil {
			if names := e.Gives(); len(names) == 1 {
				word = names[0] + " (" + word + ")"
			}
		}
		words = append(words, word)
	}
	return strings.Join(words, ", ")
}
