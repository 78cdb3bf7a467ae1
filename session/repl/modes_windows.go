package repl

import (
	"os"
	"syscall"

	"golang.org/x/sys/windows"
)

// modes are how the console treats what is typed, as modes_unix.go tells.
type modes struct {
	in, out       windows.Handle
	wasIn, wasOut uint32
}

func newModes(in *os.File) (*modes, error) {
	m := &modes{in: windows.Handle(in.Fd()), out: windows.Handle(os.Stdout.Fd())}
	if err := windows.GetConsoleMode(m.in, &m.wasIn); err != nil {
		return nil, err
	}
	return m, windows.GetConsoleMode(m.out, &m.wasOut)
}

// typing hands each key on as it is.
func (m *modes) typing() { m.set(0) }

// working shows nothing of what is typed, and makes Ctrl-C a signal.
func (m *modes) working() { m.set(windows.ENABLE_PROCESSED_INPUT) }

func (m *modes) set(more uint32) {
	const lines = windows.ENABLE_ECHO_INPUT | windows.ENABLE_LINE_INPUT | windows.ENABLE_PROCESSED_INPUT
	m.change(m.wasIn&^lines|windows.ENABLE_VIRTUAL_TERMINAL_INPUT|more,
		m.wasOut|windows.ENABLE_PROCESSED_OUTPUT|windows.ENABLE_VIRTUAL_TERMINAL_PROCESSING)
}

// restore leaves the console as it was found.
func (m *modes) restore() { m.change(m.wasIn, m.wasOut) }

// change has no failure to report: a console that is gone needs no mode.
func (m *modes) change(in, out uint32) {
	_ = windows.SetConsoleMode(m.in, in)
	_ = windows.SetConsoleMode(m.out, out)
}

// pending can't tell here; an Enter that comes at once takes no offer all the same.
func (m *modes) pending() bool { return false }

func (m *modes) slow() bool { return false }

// A console ends programs, and knows none of the other signals.
func endings() []os.Signal   { return []os.Signal{syscall.SIGTERM, syscall.SIGHUP} }
func resumes() []os.Signal   { return nil }
func resizings() []os.Signal { return nil }

func pause() {}
