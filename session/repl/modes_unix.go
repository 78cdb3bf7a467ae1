//go:build !windows

package repl

import (
	"os"
	"syscall"

	"golang.org/x/sys/unix"
)

// modes are how the terminal treats what is typed. While a line is edited each key comes
// as it is; while a statement is worked out nothing is shown of what is typed ahead, and
// Ctrl-C is a signal. Outside both the terminal is as it was found.
type modes struct {
	fd  int
	was *unix.Termios
}

// newModes notes how the terminal is.
func newModes(in *os.File) (*modes, error) {
	m := &modes{fd: int(in.Fd())}
	var err error
	m.was, err = unix.IoctlGetTermios(m.fd, getModes)
	return m, err
}

// typing hands each key on as it is.
func (m *modes) typing() {
	to := m.ours()
	to.Lflag &^= unix.ISIG
	m.change(&to)
}

// working shows nothing of what is typed, and makes Ctrl-C a signal. Ctrl-Z waits for the
// next line: only there it is known how to leave the terminal.
func (m *modes) working() {
	to := m.ours()
	to.Lflag |= unix.ISIG
	to.Cc[unix.VSUSP] = noKey
	m.change(&to)
}

// ours are the modes that typing and working share.
func (m *modes) ours() unix.Termios {
	to := *m.was
	to.Iflag &^= unix.BRKINT | unix.ISTRIP | unix.INLCR | unix.IGNCR | unix.ICRNL | unix.IXON
	to.Oflag |= unix.OPOST | unix.ONLCR
	to.Lflag &^= unix.ECHO | unix.ECHONL | unix.ICANON | unix.IEXTEN
	to.Cc[unix.VMIN], to.Cc[unix.VTIME] = 1, 0
	return to
}

// restore leaves the terminal as it was found.
func (m *modes) restore() { m.change(m.was) }

// change has no failure to report: a terminal that is gone needs no mode.
func (m *modes) change(to *unix.Termios) { _ = unix.IoctlSetTermios(m.fd, setModes, to) }

// pending tells whether keys wait at the terminal.
func (m *modes) pending() bool {
	fds := []unix.PollFd{{Fd: int32(m.fd), Events: unix.POLLIN}}
	n, err := unix.Poll(fds, 0)
	return err == nil && n > 0
}

// The signals that end the program, that tell that it has been called back, and that the
// screen has another size.
func endings() []os.Signal   { return []os.Signal{syscall.SIGTERM, syscall.SIGHUP, syscall.SIGQUIT} }
func resumes() []os.Signal   { return []os.Signal{syscall.SIGCONT} }
func resizings() []os.Signal { return []os.Signal{syscall.SIGWINCH} }

// pause stops all programs that the terminal has in the foreground.
func pause() { _ = syscall.Kill(0, syscall.SIGTSTP) }
