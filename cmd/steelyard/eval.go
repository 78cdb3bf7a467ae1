package main

import (
	"bufio"
	"io"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/limit"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/help"
	"steelyard/session/live"
	"steelyard/session/spreadsheet"
	"steelyard/session/view"
)

// runEval works statements out without a scratchpad.
func runEval(w *world, g given, statements []string) int {
	ev := &evaluator{w: w, pad: live.Lines(), out: bufio.NewWriter(w.stdout), json: g.has("json")}
	ev.pad.Reads(spreadsheet.Folder("."))
	if len(statements) == 0 {
		statements = []string{stdinName}
	}
	for _, s := range statements {
		switch {
		case ev.over:
			ev.enter(s) // seen, and left out
		case s == stdinName:
			ev.typed = w.typed
			ev.stream(w.stdin)
			ev.typed = false
		default:
			ev.stream(strings.NewReader(s))
		}
	}
	return ev.end()
}

// evaluator enters statements and prints what becomes of them.
type evaluator struct {
	w      *world
	pad    *live.Page
	out    *bufio.Writer
	json   bool
	status int
	over   bool // nothing more is to be entered
	quit   bool // because a line says quit
	rest   bool // statements follow it, and are left out
	typed  bool // the lines are typed, one by one
	// unshown tells that a line could not be printed: it is the last one.
	unshown bool
}

// end shows what is still to be shown and returns the exit status.
func (ev *evaluator) end() int {
	if ev.unshown || ev.out.Flush() != nil {
		return ev.w.unwritten()
	}
	if ev.rest {
		ev.w.complain("steelyard: the lines after quit were left out.")
		ev.status = max(ev.status, statusFinding)
	}
	return ev.status
}

// stream works out the lines of a reader. A line that begins with a blank
// belongs to the one above it, so a statement is entered when the next begins; one
// that is typed, as soon as it is whole.
func (ev *evaluator) stream(r io.Reader) {
	in := bufio.NewReader(r)
	statement := ""
	for !ev.over {
		if ev.typed {
			statement = ev.typedLine(statement)
		}
		line, err := readLine(in)
		switch {
		case err != nil || statement == "":
		case ev.typed && !isIndented(line) && strings.TrimSpace(line) != "":
			line = "  " + line
			fallthrough
		case isIndented(line):
			if len(statement) <= limit.Line {
				statement += "\n" + line
			}
			continue
		}
		ev.enter(statement)
		statement = line
		switch err {
		case nil:
		case io.EOF:
			if ev.prompts() {
				io.WriteString(ev.w.stdout, "\n")
			}
			return
		default:
			ev.w.complain("steelyard: the lines can't be read from standard input.")
			ev.status, ev.over = statusUsage, true
		}
	}
	// What has come with quit is seen, and not waited for: whoever writes the
	// lines may wait for the end.
	if behind, _ := in.Peek(in.Buffered()); ev.quit {
		ev.enter(statement)
		ev.enter(string(behind))
	}
}

// typedLine enters what has been typed unless it asks for more lines, and begins the
// row of the next. It returns what is left to be gone on with.
func (ev *evaluator) typedLine(statement string) string {
	if !syntax.Incomplete(statement) {
		ev.enter(statement)
		statement = ""
	}
	if !ev.over && ev.prompts() {
		lead := view.Prompt(ev.pad.Next())
		if statement != "" {
			lead = strings.Repeat(" ", len(lead))
		}
		io.WriteString(ev.w.stdout, lead)
	}
	return statement
}

// prompts tells whether a line is typed behind its number, on the screen on which it
// is answered.
func (ev *evaluator) prompts() bool { return ev.typed && ev.w.in != nil }

// readLine reads one line without its end. Of a line that is longer than any
// statement may be, no more is kept than shows that it is.
func readLine(in *bufio.Reader) (string, error) {
	var b strings.Builder
	for {
		part, more, err := in.ReadLine()
		if err == io.EOF && b.Len() > 0 {
			return b.String(), nil
		}
		if err != nil {
			return "", err
		}
		if b.Len() <= limit.Line {
			b.Write(part)
		}
		if !more {
			return b.String(), nil
		}
	}
}

func isIndented(line string) bool {
	return line != "" && (line[0] == ' ' || line[0] == '\t') && strings.TrimSpace(line) != ""
}

// enter works one statement out and prints it. A blank line is passed over.
func (ev *evaluator) enter(text string) {
	text = strings.TrimLeft(text, " \t")
	switch {
	case strings.TrimSpace(text) == "":
		return
	case ev.quit:
		ev.rest = true
		return
	}
	for _, one := range ev.pad.Several(ev.w.ctx, text) {
		if !ev.over {
			ev.statement(one)
		}
	}
}

// statement is enter for one of the statements of a line.
func (ev *evaluator) statement(text string) {
	e, got := ev.pad.Enter(ev.w.ctx, text)
	if cmd, ok := e.Stmt.(*syntax.Command); ok {
		if cmd.Word == "quit" {
			ev.over, ev.quit = true, true
			return
		}
		ev.command(e, cmd, got)
	}
	ev.judge(e)
	for _, m := range got.Change.Moved {
		ev.judge(m.Entry)
	}
	ev.unshown = ev.show(e, got) != nil || ev.out.Flush() != nil
	if ev.unshown || ev.w.ctx.Err() != nil {
		ev.over = true
	}
}

// judge sets the exit status where a line has a finding.
func (ev *evaluator) judge(e *entry.Entry) {
	if worst, some := finding.Worst(e.Findings); some && worst.Fails() {
		ev.status = statusFinding
	}
}

// show prints an entry, and what has moved because of it.
func (ev *evaluator) show(e *entry.Entry, got live.Answer) error {
	entries := append([]*entry.Entry{e}, got.Lines...)
	for _, m := range got.Change.Moved {
		if ev.json {
			entries = append(entries, m.Entry)
		} else {
			entries = append(entries, m.Told())
		}
	}
	for _, e := range entries {
		write := func() error {
			return view.Text(ev.out, e, view.Options{Statement: !ev.prompts(), Bold: ev.w.bold, Width: ev.w.width, Height: ev.w.height, Folds: ev.w.folds, ASCII: ev.w.ascii})
		}
		if ev.json {
			write = func() error { return view.JSON(ev.out, e, view.Replayed{}) }
		}
		if err := write(); err != nil {
			return err
		}
	}
	return nil
}

// command answers the commands that need more than the scratchpad itself.
func (ev *evaluator) command(e *entry.Entry, cmd *syntax.Command, got live.Answer) {
	switch cmd.Word {
	case "help":
		e.Outcome = entry.Rows(help.Topic(ev.pad.Pad, cmd.Arg, ev.w.width-8)...)
	case "change", "insert":
		if got.Draft != nil {
			e.Findings = append(e.Findings, finding.New(finding.Incomplete, cmd.ArgAt, "The new line is missing.",
				"Write, for example, `change 3 to x = 5.0 cm` or `insert before 3 x = 5.0 cm`."))
		}
	case "save", "open", "print", "recover", "forget", "replay", "preview":
		e.Findings = append(e.Findings, finding.New(finding.NotAvailableYet, cmd.WordAt,
			"`"+cmd.Word+"` works only where you type line by line.", "Start `steelyard` alone and type it there."))
	}
}
