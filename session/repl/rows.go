package repl

import (
	"regexp"
	"strings"
)

// statement is the first of the statements of pasted lines, and how many of them it has: an
// indented line belongs to the one above it. One that asks for indented lines, as data does
// for a table, goes on with what can be read as more of it. The first line may be several
// rows of a statement that was begun.
func statement(pad Pad, lines []string) (text string, n int) {
	text = fold(pad, strings.Split(lines[0], "\n"))
	for n = 1; n < len(lines) && isText(lines[n]); n++ {
		if !isIndented(lines[n]) && !goesOn(pad, text) && !pad.Continues(text, lines[n]) {
			break
		}
		text = joinLine(pad, text, lines[n])
	}
	return text, n
}

// fold makes a statement of rows as they were typed; a blank one ends it.
func fold(pad Pad, rows []string) string {
	text := rows[0]
	for _, row := range rows[1:] {
		if isText(row) {
			text = joinLine(pad, text, row)
		}
	}
	return text
}

// joinLine adds a further line to a statement: where the last line is whole by
// itself, or asks for a body, the next is a line of the body; else it goes on
// with the expression.
func joinLine(pad Pad, text, next string) string {
	last := lastLine(text)
	switch {
	case isIndented(next):
		return text + "\n" + next
	case strings.HasSuffix(strings.TrimSpace(last), "=") || !pad.Incomplete(strings.TrimSpace(last)) || strings.HasPrefix(last, "formula ") || strings.TrimSpace(last) == "data":
		return text + "\n  " + next
	}
	return strings.TrimRight(text, " ") + " " + next
}

func lastLine(text string) string { return text[strings.LastIndexByte(text, '\n')+1:] }

// goesOn tells whether a statement is cut off in the middle of an expression.
func goesOn(pad Pad, text string) bool {
	last := strings.TrimSpace(lastLine(text))
	return !strings.HasPrefix(last, "formula ") && pad.Incomplete(last)
}

func isIndented(line string) bool {
	return line != "" && (line[0] == ' ' || line[0] == '\t')
}

// numbered and continued are how the lines of a page begin on our screen.
var (
	numbered  = regexp.MustCompile(`^ {0,2}[0-9]+\.  (\S.*)$`)
	continued = regexp.MustCompile(`^ +… (.*)$`)
)

// pastedRows are the rows of a paste. Of a page copied from the screen these are the
// statements: numbers, results and findings are left out; a line that is none of these stays.
func pastedRows(rows []string) []string {
	ours := false
	for _, row := range rows {
		ours = ours || numbered.MatchString(row)
	}
	if !ours {
		return rows
	}
	var out []string
	for _, row := range rows {
		if m := numbered.FindStringSubmatch(row); m != nil {
			out = append(out, m[1])
		} else if m := continued.FindStringSubmatch(row); m != nil && isText(m[1]) {
			out = append(out, "  "+strings.TrimLeft(m[1], " "))
		} else if row != "" && !isIndented(row) { // nothing below a statement begins so
			out = append(out, row)
		}
	}
	if len(rows) > 1 {
		out = append(out, "") // all of them are whole
	}
	return out
}
