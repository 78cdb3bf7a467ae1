//go:build !windows

package oserr

import (
	"errors"
	"fmt"
	"io/fs"
	"strings"
	"syscall"
	"testing"
)

func TestWords(t *testing.T) {
	for _, c := range []struct {
		err  error
		want string
	}{
		{syscall.ENOSPC, "the disk is full"},
		{&fs.PathError{Op: "write", Path: "a.worked", Err: syscall.EROFS}, "the disk can only be read, not written"},
		{fmt.Errorf("wrapped: %w", syscall.EISDIR), "it is a folder"},
		{syscall.EACCES, "you have no permission for it"},
		{syscall.ENOENT, "there is no such file"},
		{syscall.EEXIST, "there is already a file with this name"},
		{fs.ErrClosed, "it is already closed"},
	} {
		if got := Words(c.err); got != c.want {
			t.Errorf("Words(%v) = %q, want %q", c.err, got, c.want)
		}
	}
}

func TestWordsHidesTheSystemsText(t *testing.T) {
	if got := Words(errors.New("open: bad file descriptor 7")); strings.Contains(got, "descriptor") {
		t.Errorf("Words passes on the system's text: %q", got)
	}
}
