//go:build !windows

package repl

import (
	"os"

	"golang.org/x/sys/unix"
)

// pending tells whether keys wait at the terminal.
func pending(in *os.File) bool {
	fds := []unix.PollFd{{Fd: int32(in.Fd()), Events: unix.POLLIN}}
	n, err := unix.Poll(fds, 0)
	return err == nil && n > 0
}
