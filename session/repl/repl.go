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
	"time"
)

// Pad is what stands behind the prompt.
type Pad interface {
	// Prompt is what the next statement begins with. One that goes on is the end of a
	// paste: it goes where the lines above it went.
	Prompt(goesOn bool) Prompt
	// Incomplete tells whether a statement asks for more lines.
	Incomplete(text string) bool
	// Continues tells whether a line that is not indented is one more of a statement
	// that asks for more.
	Continues(text, line string) bool
	// Aside tells whether a line within a statement is a command of its own.
	Aside(line string) bool
	// Pasted is a line from elsewhere as it is written here.
	Pasted(line string) string
	// Enter works a statement out and prints what becomes of it. Shown tells
	// whether the statement already stands on the screen. It returns false if
	// the scratchpad is to be left.
	Enter(ctx context.Context, text string, shown bool) bool
	// Lends is told once how another program can have the terminal while Enter runs.
	Lends(lend func(run func() error) error)
	// Complete lists the words that may stand at a byte of a line, and the
	// byte at which they begin, in the order in which they are offered.
	Complete(text string, at int) (from int, candidates []string)
	// Names are the parts of a text that are set in italics.
	Names(text string) []Span
	// Preview says in a few words what a line would come to; nothing where that can't
	// be told yet.
	Preview(text string) string
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

// Look is what is shown beside the characters that are typed.
type Look struct {
	Italics bool // for names
	Preview bool // under the line
	// Plain is for terminals that know no sequences of control, and for readers of the
	// screen: one line after another, and nothing is drawn anew.
	Plain bool
}

// Config says where the scratchpad reads, writes and remembers.
type Config struct {
	In, Out *os.File
	Pad     Pad
	Look    Look
	// History is the file of earlier statements, or empty for none.
	History string
}

// loop is one run of the scratchpad.
type loop struct {
	cfg     Config
	ed      *editor
	history history
	prompt  *Prompt // the one of the line that an aside interrupted
	pasted  bool    // the last lines were pasted
}

// ErrBusy says that a statement was still being worked out when the program was
// told to end, and didn't stop: what belongs to the Pad must not be touched.
var ErrBusy = errors.New("still at work")

// lastWait is how long a statement may take to stop when the program is to end.
const lastWait = 2 * time.Second

// Run reads statements until the user leaves. It returns ErrBusy, or an error if
// the terminal can't be used. While it runs nothing else touches the Pad.
func Run(ctx context.Context, cfg Config) error {
	ed, err := newEditor(cfg)
	if err != nil {
		return err
	}
	defer ed.close()
	cfg.Pad.Lends(ed.term.lend)
	l := &loop{cfg: cfg, ed: ed, history: history{path: cfg.History}}
	for _, s := range l.history.load() {
		ed.recall.remember(s)
	}
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	gone, stop := make(chan os.Signal, 1), make(chan os.Signal, 1)
	resized, resumed := make(chan os.Signal, 1), make(chan os.Signal, 1)
	for c, signals := range map[chan os.Signal][]os.Signal{gone: endings(), stop: {os.Interrupt}, resized: resizings(), resumed: resumes()} {
		listen(c, signals)
		defer signal.Stop(c)
	}
	done := make(chan struct{})
	go func() {
		defer close(done)
		defer ed.close() // whatever ends it
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
		case <-resized:
			ed.in.wake()
			continue
		case <-resumed:
			if !ed.term.continued.Swap(false) {
				ed.term.resume()
				ed.term.resumed.Store(true)
				ed.in.wake()
			}
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
		t := l.ed.line(l.next())
		switch t.err {
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
		if !l.enterAll(ctx, &t) {
			return
		}
	}
}

// next is the prompt of the next line. Where a command was typed within a statement, that
// is gone on with.
func (l *loop) next() Prompt {
	if p := l.prompt; p != nil {
		l.prompt = nil
		return *p
	}
	rest := l.ed.rest
	p := l.cfg.Pad.Prompt(l.pasted && rest != nil && isText(string(rest.text)))
	if l.pasted {
		p.Offers = nil // the lines below may mend it
	}
	return p
}

// enterAll enters what was typed, or the lines that were pasted.
func (l *loop) enterAll(ctx context.Context, t *typed) bool {
	if t.aside {
		p := l.ed.prompt
		l.prompt = &p
	}
	l.pasted = len(t.pasted) > 0
	if !l.pasted {
		stay, _ := l.enter(ctx, t.text, true, t.quiet)
		return stay
	}
	lines := t.pasted
	for len(lines) > 0 {
		text, n := statement(l.cfg.Pad, lines)
		lines = lines[n:]
		stay, stopped := l.enter(ctx, text, false, false)
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
// whether Ctrl-C stopped the work. One that is quiet is not to be found again.
func (l *loop) enter(ctx context.Context, text string, shown, quiet bool) (stay, stopped bool) {
	if !isText(text) {
		return true, false
	}
	if !quiet {
		l.ed.recall.remember(text)
		l.history.add(text)
	}
	ctx, done := l.ed.stops.work(ctx)
	defer done()
	stay = l.cfg.Pad.Enter(ctx, text, shown)
	return stay, ctx.Err() != nil
}
