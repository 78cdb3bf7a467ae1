package repl

import (
	"regexp"
	"slices"
	"strings"
	"sync"
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
	numbered  = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^ {0,2}[0-9]+\.  (\S.*)$`) })
	continued = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^ +… (.*)$`) })
)

// pastedRows are the rows of a paste. Of a page copied from the screen these are the statements
// and their results: numbers and findings are left out; a line that is none of these stays.
func pastedRows(pad Pad, rows []string) []string {
	if !slices.ContainsFunc(rows, numbered().MatchString) {
		return rows
	}
	var out []string
	text := "" // of the statement, as far as it goes
	for _, row := range rows {
		own := strings.TrimLeft(row, " ")
		if m := numbered().FindStringSubmatch(row); m != nil {
			text = strings.Join(strings.Fields(m[1]), " ") // rows are filled with blanks
			out = append(out, text)
		} else if m := continued().FindStringSubmatch(row); m != nil && isText(m[1]) {
			out = append(out, "  "+strings.TrimLeft(m[1], " "))
		} else if isIndented(row) && isText(own) && pad.Continues(text, own) {
			text += "\n  " + own
			out = append(out, "  "+own)
		} else if isIndented(row) && strings.HasPrefix(own, "= ") && text != "" {
			out = append(out, "  "+own)
		} else if row != "" && !isIndented(row) { // nothing below a statement begins so
			out = append(out, row)
		}
	}
	if len(rows) > 1 {
		out = append(out, "") // all of them are whole
	}
	return out
}
