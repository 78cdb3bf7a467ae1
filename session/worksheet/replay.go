package worksheet

import (
	"context"
	"path/filepath"
	"slices"
	"strings"
	"unicode"

	"steelyard/lang/finding"
	"steelyard/lang/syntax"
	"steelyard/session"
	"steelyard/session/disk"
	"steelyard/session/entry"
	"steelyard/session/live"
	"steelyard/session/record"
)

// Options say how a worksheet is replayed.
type Options struct {
	// With replaces givens, each written as NAME = VALUE or NAME@LINE = VALUE.
	With []string
	// Record writes the records that are missing or differ.
	Record bool
	// To is where a new worksheet is written, with the givens replaced and its results
	// recorded; it needs Record and With.
	To string
	// Strict counts a result without a record as a failure.
	Strict bool
	// Numbered numbers the statements as a scratchpad does, and not by the lines
	// of the file.
	Numbered bool
}

// Row is one statement as it was worked out, with its record.
type Row struct {
	Entry *entry.Entry
	state record.State
	// anew tells that the record was written in the place of another one, which
	// is recorded.
	anew  bool
	moved bool // a result, before or after, that a replaced given has moved
	// recorded is the record as it stands in the file, without its =.
	recorded string
	// was is the value before a given was replaced, as printed; empty if it has
	// not moved.
	was string
	at  int // the statement in the sheet
}

// Report is what became of one worksheet.
type Report struct {
	Path string
	// Problem is set if the file as a whole can't be replayed; there are no
	// rows then.
	Problem *FileProblem
	Rows    []Row
	// with holds the replacements of givens, as written.
	with []string
	// written tells that records were written.
	written bool
	// stopped tells that the work was stopped before the last statement.
	stopped bool

	strict, record bool
}

// Replay works a sheet out again and compares every result with its record.
func Replay(ctx context.Context, s *Sheet, o Options) *Report {
	r := &Report{Path: s.path, with: o.With, strict: o.Strict, record: o.Record}
	if o.Record && len(o.With) > 0 {
		r.anew(ctx, s, o)
		return r
	}
	var numbers map[int]int
	if o.Numbered {
		numbers = s.numbers()
	}
	first, pad := work(ctx, s, numbers, len(o.With) > 0)
	table := pad.Table()
	r.stopped = ctx.Err() != nil
	if len(o.With) > 0 && !r.stopped {
		changed, refused := live.Replaced(pad, o.With, wording)
		if refused != nil {
			r.Problem = &FileProblem{Kind: WrongOption, Path: s.path, Message: refused.Message, Hint: refused.Hint}
			return r
		}
		r.Rows = first
		r.moved(ctx, pad, changed)
		r.stopped = ctx.Err() != nil
		return r
	}
	r.Rows = first
	compareAll(s, r.Rows, table)
	if o.Record && !r.stopped {
		r.Problem = r.writeRecords(s)
	}
	return r
}

// anew writes a worksheet with other givens, every result recorded.
func (r *Report) anew(ctx context.Context, s *Sheet, o Options) {
	if o.To == "" {
		r.Problem = &FileProblem{Kind: WrongOption, Message: "--record with --with writes a new worksheet, which needs a name.",
			Hint: "Name it with -o, as in -o class-b.worked."}
		return
	}
	other, problem := s.With(ctx, o.With)
	if problem == nil {
		r.with = nil
		rows, _ := work(ctx, other, nil, false)
		r.Rows = rows
		other.records(r.Rows)
		if r.stopped = ctx.Err() != nil; r.stopped {
			return
		}
		problem = readsOthers(entriesOf(rows), filepath.Dir(s.path), o.To)
		if problem == nil {
			problem = mayReplace(o.To, Saving{})
		}
		if problem == nil {
			problem = replaceFile(o.To, r.recorded(other))
			r.written = problem == nil
		}
	}
	r.Problem = problem
}

// records takes every record for one that is to be written anew.
func (s *Sheet) records(rows []Row) {
	for i := range rows {
		row := &rows[i]
		switch st := &s.Statements[row.at]; {
		case !row.Entry.Records() || len(row.Entry.Values()) == 0:
		case len(st.records) > 0:
			row.state = record.Follows
		default:
			row.state = record.Unrecorded
		}
	}
}

// With is the sheet with givens replaced, each written as NAME = VALUE. Its records are
// those of the old values.
func (s *Sheet) With(ctx context.Context, with []string) (*Sheet, *FileProblem) {
	_, pad := work(ctx, s, nil, false)
	changed, refused := live.Replaced(pad, with, wording)
	if refused != nil {
		return nil, &FileProblem{Kind: WrongOption, Path: s.path, Message: refused.Message, Hint: refused.Hint}
	}
	var b strings.Builder
	done := 0
	for i := range s.Statements {
		st := &s.Statements[i]
		if text, ok := changed[st.Line]; ok {
			from := s.begins(st)
			b.WriteString(s.text[done:from] + text)
			done = st.end - len(s.text[from:st.end]) + len(strings.TrimRight(s.text[from:st.end], "\r\n"))
		}
	}
	other, problem := Parse(s.path, b.String()+s.text[done:])
	if problem == nil {
		other.varied, other.Files = true, s.Files
	}
	return other, problem
}

// begins is the byte of the file at which a statement begins.
func (s *Sheet) begins(st *Statement) int {
	at := 0
	for range st.Line - 1 {
		at = lineEnd(s.text, at)
	}
	return at
}

var wording = live.Wording{Word: "--with", Open: "--with '", Close: "'"}

// printedFigures is how many figures a printed result has where no line says otherwise.
const printedFigures = 3

// Work works a sheet out for print, every result compared with its record.
func Work(ctx context.Context, s *Sheet) []*entry.Entry {
	pad := session.New()
	pad.Rounded(printedFigures)
	rows := s.enter(ctx, pad, nil)
	if !s.varied {
		compareAll(s, rows, pad.Table())
	}
	return entriesOf(rows)
}

// entriesOf are the statements of rows.
func entriesOf(rows []Row) []*entry.Entry {
	entries := make([]*entry.Entry, len(rows))
	for i := range rows {
		entries[i] = rows[i].Entry
	}
	return entries
}

// Printed works the lines of a scratchpad out for print; files reads those of its folder.
func Printed(ctx context.Context, page []*entry.Entry, files func(name, sheet string) ([]byte, error)) []*entry.Entry {
	pad := session.New()
	pad.Reads(files)
	pad.Filed()
	pad.Rounded(printedFigures)
	for _, e := range page {
		pad.EnterAt(ctx, e.Line, e.Text)
	}
	return pad.Entries()
}

// numbers are the places that the statements have in a scratchpad, by their lines.
func (s *Sheet) numbers() map[int]int {
	out := map[int]int{}
	for i := range s.Statements {
		if st := &s.Statements[i]; strings.TrimSpace(st.Text) != "" {
			out[st.Line] = len(out) + 1
		}
	}
	return out
}

// work enters the statements of a sheet, which may be revised.
func work(ctx context.Context, s *Sheet, numbers map[int]int, revised bool) ([]Row, *session.Pad) {
	pad := session.New()
	if revised {
		pad.Revised()
	}
	return s.enter(ctx, pad, numbers), pad
}

// enter enters the statements of a sheet into a scratchpad.
func (s *Sheet) enter(ctx context.Context, pad *session.Pad, numbers map[int]int) []Row {
	pad.Filed()
	if pad.Reads(s.Files); s.Files == nil {
		read := disk.Folder(filepath.Dir(s.path))
		pad.Reads(func(name, _ string) ([]byte, error) { return read(name) })
	}
	rows := make([]Row, 0, len(s.Statements))
	for i := range s.Statements {
		st := &s.Statements[i]
		if st.silent() {
			continue
		}
		if ctx.Err() != nil {
			break
		}
		text := st.Text
		if beginsBlank(text) || strings.HasPrefix(text, "=") {
			rows = append(rows, Row{Entry: loose(st.Line, text), at: i})
			continue
		}
		line := st.Line
		if n, ok := numbers[line]; ok {
			line, text = n, live.Renumber(text, numbers)
		}
		e := pad.EnterAt(ctx, line, text)
		if cmd, ok := e.Stmt.(*syntax.Command); ok {
			e.Findings = append(e.Findings, finding.New(finding.NotAvailableYet, cmd.WordAt,
				"`"+cmd.Word+"` is for the scratchpad and is not part of a worksheet.", "Take it out, or make it a remark with # in front."))
		}
		rows = append(rows, Row{Entry: e, at: i})
	}
	return rows
}

// loose is a line that belongs to the one above it, with nothing above that it
// could belong to.
func loose(line int, text string) *entry.Entry {
	e := &entry.Entry{Line: line, Text: text}
	at := finding.Span{From: len(text) - len(strings.TrimLeftFunc(text, unicode.IsSpace)), To: len(text)}
	f := finding.New(finding.Unreadable, at, "This line begins with a space, but there is no line above it.",
		"Take the space out, or the empty line above.")
	if strings.HasPrefix(text[at.From:], "=") {
		f = finding.New(finding.StrayRecord, at, "This line is a result, but there is no statement directly above it.",
			"Put it directly below its statement, or take it out.")
	}
	e.Findings = append(e.Findings, f)
	return e
}

// moved puts what is worked out again with other texts in the place of what was, and
// notes which results differ. Nothing is said below a line at which it was stopped.
func (r *Report) moved(ctx context.Context, pad *session.Pad, texts map[int]string) {
	at, end := 0, len(r.Rows)
	pad.Revise(ctx, session.Edit{Texts: texts}, func(a session.Anew) {
		for at < end && r.Rows[at].Entry != a.Was {
			at++
		}
		if at >= end {
			return
		}
		row := &r.Rows[at]
		row.was = live.Was(a.Was.Shown(), a.Now)
		row.Entry = a.Now
		row.moved = row.was != "" && (a.Was.Records() || a.Now.Records())
		at++
		if slices.ContainsFunc(a.Now.Findings, func(f finding.Finding) bool { return f.ID == finding.Stopped }) {
			end = at
		}
	})
	r.Rows = r.Rows[:end]
}
