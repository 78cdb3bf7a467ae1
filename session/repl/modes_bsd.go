//go:build darwin || freebsd || netbsd || openbsd || dragonfly

package repl

import "golang.org/x/sys/unix"

const getModes, setModes = unix.TIOCGETA, unix.TIOCSETA

// noKey is no key for what a key does to the terminal (_POSIX_VDISABLE).
const noKey = 0xff

// slow tells whether the terminal is at the end of a line slower than 38,400 baud.
func (m *modes) slow() bool { return m.was.Ospeed > 0 && m.was.Ospeed < 38400 }
