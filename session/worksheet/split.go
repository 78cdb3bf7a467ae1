package worksheet

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"steelyard/lang/limit"
	"steelyard/session/record"
)

// split cuts the text behind the first line into statements.
func (s *Sheet) split() {
	lines := strings.Count(s.text, "\n") - strings.Count(s.text, "\n ") // records are indented
	s.Statements = make([]Statement, 0, lines+1)
	at := lineEnd(s.text, 0)
	for number := 2; at < len(s.text); number++ {
		next := lineEnd(s.text, at)
		s.line(number, at, next)
		at = next
	}
}

// lineEnd returns the byte behind the line that begins at a byte, its LF
// included.
func lineEnd(text string, at int) int {
	if i := strings.IndexByte(text[at:], '\n'); i >= 0 {
		return at + i + 1
	}
	return len(text)
}

// line adds the line between two bytes to the statement above it, or begins
// one with it.
func (s *Sheet) line(number, from, to int) {
	text := dropEnd(s.text[from:to])
	body := strings.TrimFunc(text, unicode.IsSpace)
	above := s.above()
	switch {
	case body == "" || !beginsBlank(text) || above == nil:
		s.Statements = append(s.Statements, Statement{Line: number, Text: text, end: to})
	case body[0] == '=':
		above.records = append(above.records, record.Line{Number: number, Text: body, From: from, To: from + len(text)})
	case len(above.records) > 0:
		// A line of a body under a record is read all the same; records are
		// still written where the first of them stands.
		end := above.end
		above.extend("", text, 0)
		above.end = end
	default:
		above.extend(s.text, text, to)
	}
}

// above returns the statement that an indented line belongs to, or nil: a
// blank line and a remark have nothing under them.
func (s *Sheet) above() *Statement {
	if len(s.Statements) == 0 {
		return nil
	}
	last := &s.Statements[len(s.Statements)-1]
	if last.silent() {
		return nil
	}
	return last
}

// extend adds a line to a statement's body, sharing the bytes of the file
// where its lines end in LF. A statement that is too long already grows no
// further: it is a finding either way.
func (st *Statement) extend(file, text string, to int) {
	from := st.end - len(st.Text) - 1
	switch {
	case len(st.Text) > limit.Line:
	case from >= 0 && file != "" && file[from:st.end-1] == st.Text && file[st.end-1] == '\n':
		st.Text = file[from : st.end+len(text)]
	default:
		st.Text += "\n" + text
	}
	st.end = to
}

// silent tells whether the statement is a blank line or a remark, which has no
// effect.
func (st *Statement) silent() bool {
	return strings.HasPrefix(st.Text, "#") || strings.TrimFunc(st.Text, unicode.IsSpace) == ""
}

// dropEnd takes the end of the line off.
func dropEnd(line string) string {
	return strings.TrimSuffix(strings.TrimSuffix(line, "\n"), "\r")
}

// beginsBlank tells whether a line begins with white space.
func beginsBlank(line string) bool {
	r, _ := utf8.DecodeRuneInString(line)
	return unicode.IsSpace(r)
}
