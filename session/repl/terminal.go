package repl

import (
	"io"
	"os"
	"os/signal"
	"sync"
	"sync/atomic"
	"time"

	"golang.org/x/term"
)

// markPastes asks the terminal to mark what is pasted, and no more to (xterm's mode 2004,
// which others have taken over).
const markPastes, markNone = "\x1b[?2004h", "\x1b[?2004l"

// terminal is the terminal as a whole: how it treats keys, how large it is, and who has
// it. It is given back as it was found on every way out.
type terminal struct {
	out   *os.File
	modes *modes
	plain bool // it knows no sequences of control

	mu     sync.Mutex
	set    func() // what sets the present modes
	closed bool

	// continued tells that the program has been called back from a pause that it was told
	// of; resumed that it was called back otherwise.
	continued, resumed atomic.Bool
}

func newTerminal(in, out *os.File, plain bool) (*terminal, error) {
	m, err := newModes(in)
	if err != nil {
		return nil, err
	}
	return &terminal{out: out, modes: m, plain: plain}, nil
}

// typing is for a line that is being edited.
func (t *terminal) typing() { t.use(t.modes.typing) }

// working is for a statement that is being worked out.
func (t *terminal) working() { t.use(t.modes.working) }

func (t *terminal) use(set func()) {
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.closed {
		return
	}
	if t.set == nil {
		t.control(markPastes)
	}
	t.set = set
	set()
}

// resume sets the modes once more, where someone else has had the terminal.
func (t *terminal) resume() {
	t.mu.Lock()
	defer t.mu.Unlock()
	if !t.closed && t.set != nil {
		t.control(markPastes)
		t.set()
	}
}

// back gives the terminal to others for a while.
func (t *terminal) back() {
	t.control(plainType + markNone)
	t.modes.restore()
}

// close gives the terminal back for good.
func (t *terminal) close() {
	t.mu.Lock()
	defer t.mu.Unlock()
	if !t.closed {
		t.back()
	}
	t.closed = true
}

// control sends a sequence of control to a terminal that knows such. It has no failure
// to report: a terminal that is gone shows nothing.
func (t *terminal) control(s string) {
	if !t.plain {
		_, _ = io.WriteString(t.out, s)
	}
}

// size is how many columns and rows the screen has now.
func (t *terminal) size() (columns, rows int) {
	columns, rows, err := term.GetSize(int(t.out.Fd()))
	if err != nil || columns <= 0 {
		return 80, 24
	}
	return columns, rows
}

// lend lets another program have the terminal.
func (t *terminal) lend(run func() error) error {
	t.mu.Lock()
	set := t.set
	t.set = nil
	t.mu.Unlock()
	t.back()
	err := run()
	t.use(set)
	return err
}

// unpaused is how long a pause may take to come.
const unpaused = 100 * time.Millisecond

// pause stops the program, as Ctrl-Z does elsewhere, until the shell calls it back. That
// signal is never caught, so that it does what it does for others: where no shell could
// call the program back, nothing.
func (t *terminal) pause() {
	continued := make(chan os.Signal, 1)
	listen(continued, resumes())
	defer signal.Stop(continued)
	t.continued.Store(true)
	t.back()
	begun := time.Now()
	pause()
	select {
	case <-continued:
	case <-time.After(unpaused):
		if time.Since(begun) < 2*unpaused {
			t.continued.Store(false) // nothing has stopped it
		}
	}
	t.resume()
}

// listen has some signals sent to a channel; of no signals that is none.
func listen(to chan os.Signal, signals []os.Signal) {
	if len(signals) > 0 {
		signal.Notify(to, signals...)
	}
}
