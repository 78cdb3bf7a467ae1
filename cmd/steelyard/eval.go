package main

import (
	"bufio"
	"fmt"
	"io"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/limit"
	"steelyard/lang/syntax"
	"steelyard/session"
	"steelyard/session/help"
	"steelyard/session/view"
)

// evalCommand works out statements without a scratchpad.
type evalCommand struct {
	Statements []string `arg:"" optional:"" passthrough:"" name:"statement" help:"Statements, each in quotes; without any, the lines of standard input."`
	JSON       bool     `name:"json" help:"Print one JSON object for each statement."`
}

// Help is what the shell help says of the command.
func (evalCommand) Help() string {
	return "Example:\n  steelyard eval 'm = 0.080 kg' 'v = 3.4 m/s' '1/2*m*v^2 in J'\n\n" +
		"The exit status is 0 if all holds, 1 if a line has an error, a mismatch or a failed check."
}

// run works the statements out one by one; a bad line does not stop the others.
func (c *evalCommand) run(w *world) int {
	ev := &evaluator{w: w, pad: session.New(), json: c.JSON, out: bufio.NewWriter(w.stdout)}
	defer ev.out.Flush()
	if len(c.Statements) == 0 {
		return ev.stream(w.stdin)
	}
	for _, s := range c.Statements {
		if s == "--json" {
			ev.json = true
			continue
		}
		for _, one := range splitStatements(s) {
			if !ev.enter(one) {
				return ev.status
			}
		}
	}
	return ev.status
}

// evaluator prints what becomes of statements.
type evaluator struct {
	w      *world
	pad    *session.Pad
	json   bool
	out    *bufio.Writer
	status int
}

// stream works out the lines of a reader as they come.
func (ev *evaluator) stream(r io.Reader) int {
	in := bufio.NewReader(r)
	statement, begun := "", false
	for {
		line, more := readLine(in)
		if !more && line == "" {
			break
		}
		if begun && isIndented(line) {
			statement += "\n" + line
			continue
		}
		if begun && !ev.enter(statement) {
			return ev.status
		}
		statement, begun = line, true
		if !more {
			break
		}
	}
	if begun {
		ev.enter(statement)
	}
	return ev.status
}

// readLine reads one line without its end. Of a line that is longer than any
// statement may be, only enough is kept to say so.
func readLine(in *bufio.Reader) (string, bool) {
	var b strings.Builder
	for {
		part, more, err := in.ReadLine()
		if err != nil {
			return b.String(), b.Len() > 0
		}
		if b.Len() <= limit.Line {
			b.Write(part)
		}
		if !more {
			return b.String(), true
		}
	}
}

func isIndented(line string) bool {
	return line != "" && (line[0] == ' ' || line[0] == '\t') && strings.TrimSpace(line) != ""
}

// splitStatements takes a text of several lines apart; an indented line belongs
// to the one above it.
func splitStatements(text string) []string {
	var out []string
	for line := range strings.SplitSeq(strings.TrimRight(text, "\r\n"), "\n") {
		line = strings.TrimSuffix(line, "\r")
		if len(out) > 0 && isIndented(line) {
			out[len(out)-1] += "\n" + line
			continue
		}
		out = append(out, line)
	}
	return out
}

// enter works one statement out and prints it. It returns false if nothing
// more is to be done.
func (ev *evaluator) enter(text string) bool {
	if strings.TrimSpace(text) == "" {
		return ev.w.ctx.Err() == nil
	}
	e := ev.pad.Enter(ev.w.ctx, strings.TrimLeft(text, " \t"))
	if cmd, ok := e.Stmt.(*syntax.Command); ok {
		if cmd.Word == "quit" {
			return false
		}
		ev.command(e, cmd)
	}
	if worst, some := finding.Worst(e.Findings); some && worst.Fails() {
		ev.status = statusFinding
	}
	if ev.json {
		view.JSON(ev.out, e, view.Replayed{})
	} else {
		view.Text(ev.out, e, view.Options{Statement: true, Bold: ev.w.bold, Width: ev.w.width})
	}
	ev.out.Flush()
	return ev.w.ctx.Err() == nil
}

// command answers the commands that need more than the scratchpad itself.
func (ev *evaluator) command(e *session.Entry, cmd *syntax.Command) {
	switch cmd.Word {
	case "help":
		e.Told = help.Topic(ev.pad, cmd.Arg)
	case "undo":
		if was, ok := ev.pad.Undo(); ok {
			e.Told = []string{fmt.Sprintf("taken back: line %d, %s", was.Line, was.Text)}
		} else {
			e.Told = []string{"There is nothing to take back."}
		}
	case "save", "open", "replay":
		e.Findings = append(e.Findings, finding.New(finding.NotAvailableYet, cmd.WordAt,
			cmd.Word+" works in the scratchpad only.", "Start `steelyard`, or use `steelyard replay FILE`."))
	}
}
