// Package repl is the scratchpad at a terminal: it reads lines, edits them,
// keeps their history and hands statements on. It evaluates nothing and knows
// no statement; what becomes of one is the Pad's business.
package repl

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/signal"
	"strings"
	"syscall"
	"time"
)

// Pad is what stands behind the prompt.
type Pad interface {
	// Prompt is what the next statement begins with.
	Prompt() Prompt
	// Incomplete tells whether a statement asks for more lines.
	Incomplete(text string) bool
	// Enter works a statement out and prints what becomes of it. Shown tells
	// whether the statement already stands on the screen. It returns false if
	// the scratchpad is to be left.
	Enter(ctx context.Context, text string, shown bool) bool
	// Complete lists the words that may stand at a byte of a line, and the
	// byte at which they begin.
	Complete(text string, at int) (from int, candidates []string)
	// Leave is called at the end of the input. It returns false to stay.
	Leave() bool
}

// Prompt is what a line begins with.
type Prompt struct {
	// Number stands before it.
	Number string
	// Text is what the line holds already, to be edited.
	Text string
	// Offers are whole lines to choose from. The first is at hand: Enter takes it, and
	// what is typed replaces it.
	Offers []string
}

// Config says where the scratchpad reads, writes and remembers.
type Config struct {
	In, Out *os.File
	Pad     Pad
	// History is the file of earlier statements, or empty for none.
	History string
}

// loop is one run of the scratchpad.
type loop struct {
	cfg     Config
	ed      *editor
	history history
	pasted  bool // the last lines were pasted
}

// ErrBusy says that a statement was still being worked out when the program was
// told to end, and didn't stop: what belongs to the Pad must not be touched.
var ErrBusy = errors.New("still at work")

// lastWait is how long a statement may take to stop when the program is to end.
const lastWait = 2 * time.Second

// Run reads statements until the user leaves. It returns ErrBusy, or an error if
// the terminal can't be used. While it runs nothing else touches the Pad.
func Run(ctx context.Context, cfg Config) error {
	ed, err := newEditor(cfg.In, cfg.Out, cfg.Pad.Complete)
	if err != nil {
		return err
	}
	defer ed.close()
	l := &loop{cfg: cfg, ed: ed, history: history{path: cfg.History}}
	for _, s := range l.history.load() {
		ed.remember(s)
	}
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	gone, stop := make(chan os.Signal, 1), make(chan os.Signal, 1)
	signal.Notify(gone, syscall.SIGTERM, syscall.SIGHUP)
	signal.Notify(stop, os.Interrupt)
	defer signal.Stop(gone)
	defer signal.Stop(stop)
	done := make(chan struct{})
	go func() {
		defer close(done)
		l.run(ctx)
	}()
	for {
		select {
		case <-done:
			ed.in.end()
			return nil
		case <-stop:
			ed.stops.arrive()
			continue
		case <-gone:
		case <-ctx.Done():
		}
		break
	}
	// One goroutine alone has the Pad: it is asked to stop, and waited for.
	cancel()
	ed.in.end()
	select {
	case <-done:
		return nil
	case <-time.After(lastWait):
		return ErrBusy
	}
}

// run reads and enters statements, one after the other.
func (l *loop) run(ctx context.Context) {
	for ctx.Err() == nil {
		text, pasted, err := l.statement()
		switch err {
		case nil:
		case errAbandoned:
			continue
		case errGone:
			return
		default:
			if l.cfg.Pad.Leave() {
				return
			}
			continue
		}
		if !l.enterAll(ctx, text, pasted) {
			return
		}
	}
}

// statement reads a statement, asking for more lines while it is incomplete.
func (l *loop) statement() (string, []string, error) {
	p := l.cfg.Pad.Prompt()
	if l.pasted {
		p.Offers = nil // the lines below may mend it
	}
	text, pasted, err := l.ed.line(p)
	if err != nil {
		return "", nil, err
	}
	more := strings.Repeat(" ", max(0, len([]rune(p.Number))-2)) + "… "
	for len(pasted) == 0 && l.cfg.Pad.Incomplete(text) {
		next, later, err := l.ed.line(Prompt{Number: more})
		if err != nil {
			return "", nil, err
		}
		pasted = later
		if strings.TrimSpace(next) == "" && len(later) == 0 {
			break
		}
		text = l.joinLine(text, next)
	}
	return text, pasted, nil
}

// joinLine adds a further line to a statement: where the last line is whole by
// itself, or asks for a body, the next is a line of the body; else it goes on
// with the expression.
func (l *loop) joinLine(text, next string) string {
	last := lastLine(text)
	switch {
	case isIndented(next):
		return text + "\n" + next
	case strings.HasSuffix(strings.TrimSpace(last), "=") || !l.cfg.Pad.Incomplete(strings.TrimSpace(last)) || strings.HasPrefix(last, "formula "):
		return text + "\n  " + next
	}
	return strings.TrimRight(text, " ") + " " + next
}

func lastLine(text string) string { return text[strings.LastIndexByte(text, '\n')+1:] }

// goesOn tells whether a statement is cut off in the middle of an expression.
func (l *loop) goesOn(text string) bool {
	last := strings.TrimSpace(lastLine(text))
	return !strings.HasPrefix(last, "formula ") && l.cfg.Pad.Incomplete(last)
}

func isIndented(line string) bool {
	return line != "" && (line[0] == ' ' || line[0] == '\t')
}

// enterAll enters what was typed and then the lines that were pasted; an
// indented line belongs to the one above it.
func (l *loop) enterAll(ctx context.Context, text string, pasted []string) bool {
	l.pasted = len(pasted) > 0
	if !l.pasted {
		stay, _ := l.enter(ctx, text, true)
		return stay
	}
	// The row with the bare prompt makes room for the lines as they were pasted.
	l.cfg.Out.WriteString("\x1b[1A\x1b[2K\r")
	lines := append([]string{text + pasted[0]}, pasted[1:]...)
	for len(lines) > 0 {
		statement := lines[0]
		lines = lines[1:]
		for len(lines) > 0 && isIndented(lines[0]) && strings.TrimSpace(lines[0]) != "" {
			statement += "\n" + lines[0]
			lines = lines[1:]
		}
		for len(lines) > 0 && l.goesOn(statement) && strings.TrimSpace(lines[0]) != "" {
			statement = l.joinLine(statement, lines[0])
			lines = lines[1:]
		}
		stay, stopped := l.enter(ctx, statement, false)
		if !stay || ctx.Err() != nil {
			return false
		}
		if stopped && len(lines) > 0 {
			fmt.Fprintf(l.cfg.Out, "      stopped: pasted lines not entered: %d\n", len(lines))
			return true
		}
	}
	return true
}

// enter hands one statement on. It tells whether to stay in the scratchpad, and
// whether Ctrl-C stopped the work.
func (l *loop) enter(ctx context.Context, text string, shown bool) (stay, stopped bool) {
	if strings.TrimSpace(text) == "" {
		return true, false
	}
	l.ed.remember(text)
	l.history.add(text)
	ctx, done := l.ed.stops.work(ctx)
	defer done()
	stay = l.cfg.Pad.Enter(ctx, text, shown)
	return stay, ctx.Err() != nil
}
