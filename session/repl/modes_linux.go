package repl

import "golang.org/x/sys/unix"

const getModes, setModes = unix.TCGETS, unix.TCSETS

// noKey is no key for what a key does to the terminal (_POSIX_VDISABLE).
const noKey = 0

// slow tells whether the terminal is at the end of a line slower than 38,400 baud.
func (m *modes) slow() bool {
	speed := m.was.Cflag & unix.CBAUD
	return speed > unix.B0 && speed < unix.B38400
}
