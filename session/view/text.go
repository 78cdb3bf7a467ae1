// Package view renders an Entry: as text for a terminal or a pipe, and as JSON
// Lines. It evaluates nothing.
package view

import (
	"io"
	"slices"
	"strconv"
	"strings"

	"github.com/mattn/go-runewidth"

	"steelyard/lang/finding"
	"steelyard/session/entry"
	"steelyard/session/rows"
	"steelyard/units/writing"
)

// Options say how an entry is shown as text.
type Options struct {
	// Statement prints the statement after its number, where nothing was typed
	// on the screen.
	Statement bool
	// Bold puts results and findings between BoldOn and BoldOff.
	Bold bool
	// Width is the number of cells of a row; 0 stands for 80.
	Width int
	// Height is the number of rows of the window; 0 if it is not known.
	Height int
	// Folds tells that a statement too long for a row goes on at a blank, below where it
	// began. The row is filled up, so that a terminal takes the two for one line.
	Folds bool
	// ASCII draws graphs with bytes below 128, for plain terminals and pipes.
	ASCII bool
}

// longest is the most cells of one line of a statement that are shown.
const longest = 2000

// BoldOn and BoldOff begin and end bold type. They are codes that Unicode keeps
// for use within a program: what writes to the terminal turns them into its
// sequences, so that no sequence of its own is ever in a text.
const (
	BoldOn  = "\ufdd0"
	BoldOff = "\ufdd1"
)

// Prompt returns the number of a line as it stands before its statement.
func Prompt(line int) string {
	n := strconv.Itoa(line)
	return strings.Repeat(" ", max(0, 3-len(n))) + n + ".  "
}

// page writes the rows of one entry.
type page struct {
	b strings.Builder
	e *entry.Entry
	o Options
	// margin is the number of cells before the statement.
	margin int
}

// Text writes an entry: its statement if asked, its findings, each with a caret
// under what is wrong, and its result.
func Text(w io.Writer, e *entry.Entry, o Options) error {
	if o.Width <= 0 {
		o.Width = 80
	}
	prompt := Prompt(e.Line)
	p := &page{e: e, o: o, margin: len(prompt)}
	p.b.Grow(len(e.Text) + 2*o.Width) // as much as most entries take
	p.statement(prompt)
	for i := range e.Findings {
		p.finding(&e.Findings[i])
	}
	e.Visit(p)
	_, err := io.WriteString(w, p.b.String())
	return err
}

// statement prints the statement after its number, as it was written.
func (p *page) statement(prompt string) {
	if !p.o.Statement {
		return
	}
	lead := prompt
	for line := range strings.SplitSeq(p.e.Text, "\n") {
		p.b.WriteString(lead)
		p.folded(runewidth.Truncate(clean(line), longest, "…"))
		p.b.WriteByte('\n')
		lead = strings.Repeat(" ", p.margin)
	}
}

// folded prints one line of the statement, in rows that a terminal takes for one.
func (p *page) folded(line string) {
	from := 0
	if p.o.Folds {
		for _, to := range rows.Folds(line, p.margin, p.margin, p.o.Width) {
			row := line[from:to]
			if p.margin+rows.Width(row) > p.o.Width {
				row = strings.TrimRight(row, " ")
			}
			p.b.WriteString(row + strings.Repeat(" ", max(0, p.o.Width-rows.Width(row))))
			from = to
		}
	}
	p.b.WriteString(line[from:])
}

// clean takes out of a text what would upset a terminal.
func clean(text string) string { return writing.Clean(text, writing.Screen) }

// wrap breaks a text into the rows that fit the page this far in.
func (p *page) wrap(indent int, text string) []string {
	return rows.Wrap(text, max(p.o.Width-indent-2, 20))
}

// row prints one line of text at an indent.
func (p *page) row(indent int, text string) {
	if text == "" {
		indent = 0
	}
	p.b.WriteString(strings.Repeat(" ", indent))
	p.b.WriteString(text)
	p.b.WriteByte('\n')
}

// pointed tells whether a finding is about a place in the statement. A note, a
// line that failed elsewhere and a record in another line are not.
func pointed(f *finding.Finding) bool {
	switch f.ID {
	case finding.NotWorkedOut, finding.RecordDiffers, finding.Unrecorded:
		return false
	case finding.StrayRecord:
		return f.At.To > f.At.From
	}
	return f.Severity != finding.Note
}

// finding prints a caret, the message and what to do.
func (p *page) finding(f *finding.Finding) {
	if pointed(f) {
		p.caret(f.At)
	}
	mark := "! "
	text := clean(f.Message)
	switch f.Severity {
	case finding.Caution:
		text = "caution: " + text
	case finding.Note:
		mark = "  "
		text = "note: " + text
	}
	for i, part := range strings.Split(text, "\n") {
		for j, line := range p.wrap(p.margin, part) {
			lead := mark
			if i+j > 0 {
				lead = "  "
			}
			p.row(p.margin, p.strong(lead+line, f.Severity != finding.Note))
		}
	}
	for _, line := range p.wrap(p.margin, clean(f.Hint)) {
		p.row(p.margin+2, line)
	}
	p.readings(f)
}

// readings prints what may be written instead, unless the hint has said it.
func (p *page) readings(f *finding.Finding) {
	offers := f.Offers()
	said := offers
	if f.Severity != finding.Error { // a part of the line is enough
		said = f.Readings
	}
	if hinted := strings.ReplaceAll(f.Hint, "` and then `", "\n"); !slices.ContainsFunc(said, func(r string) bool { return !strings.Contains(hinted, r) }) {
		return
	}
	if strings.Contains(offers[0], "\n") {
		for i, r := range offers {
			p.row(p.margin+2, []string{"Write", "or"}[min(i, 1)])
			for line := range strings.SplitSeq(r, "\n") {
				p.row(p.margin+4, clean(line))
			}
		}
		return
	}
	quoted := make([]string, len(offers))
	for i, r := range offers {
		quoted[i] = "`" + clean(r) + "`"
	}
	for _, line := range p.wrap(p.margin, "Write "+strings.Join(quoted, " or ")+".") {
		p.row(p.margin+2, line)
	}
}

// told prints one row of an answer.
func (p *page) told(line string) {
	text := strings.TrimLeft(line, " ")
	p.hung(p.margin+2+len(line)-len(text), "", clean(text))
}

// hung prints a text this far in, its first part bold. What is too long goes on two blanks
// further in than it began.
func (p *page) hung(indent int, first, rest string) {
	text := first + rest
	if indent+rows.Width(text) <= p.o.Width {
		p.row(indent, p.strong(first, first != "")+rest)
		return
	}
	indent = min(indent, max(p.o.Width-22, 2)) // wrap has 20 cells at least
	for i, row := range p.wrap(indent, text) {
		if i == 1 {
			indent += 2
		}
		row = strings.TrimRight(row, " ")
		n := min(len(first), len(row))
		p.row(indent, p.strong(row[:n], n > 0)+row[n:])
		first = strings.TrimPrefix(first[n:], " ")
	}
}

// strong makes a text bold where that is wanted.
func (p *page) strong(text string, really bool) string {
	if p.o.Bold && really {
		return BoldOn + text + BoldOff
	}
	return text
}

// caret prints a ^ under the text of a span. Where the statement has several
// lines, or is too long for the row, the piece that is meant is shown again.
func (p *page) caret(at finding.Span) {
	text := p.e.Text
	from := min(max(at.From, 0), len(text))
	start := strings.LastIndexByte(text[:from], '\n') + 1
	end := len(text)
	if i := strings.IndexByte(text[start:], '\n'); i >= 0 {
		end = start + i
	}
	before, line := clean(text[start:from]), clean(text[start:end])
	col := rows.Width(before)
	last := end == len(text)
	if p.margin+rows.Width(line) >= p.o.Width {
		before, line = excerpt(before, line, p.o.Width-p.margin-4)
		col = rows.Width(before)
		p.row(p.margin, line)
	} else if !last {
		p.row(p.margin, line)
	}
	p.row(p.margin+col, "^")
}

// excerpt cuts a line that is too long down to a piece round a place.
func excerpt(before, line string, room int) (string, string) {
	room = max(room, 16)
	after := strings.TrimPrefix(line, before)
	if cells := rows.Width(before); cells > room/2 {
		before = runewidth.TruncateLeft(before, cells-room/2, "…")
	}
	rest := room - rows.Width(before)
	if rows.Width(after) > rest {
		after = runewidth.Truncate(after, rest, "…")
	}
	return before, before + after
}
