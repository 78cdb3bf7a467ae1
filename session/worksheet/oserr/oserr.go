// Package oserr says in plain words why the system refused to read or write a
// file. It never passes on the text of an error of the system, which speaks of
// calls and numbers.
package oserr

import (
	"errors"
	"io/fs"
)

// Words returns why an operation on a file failed, as the end of a sentence:
// "the disk is full". An error that it does not know gives a sentence that
// claims no more than that the system refused.
func Words(err error) string {
	for _, r := range reasons {
		if errors.Is(err, r.err) {
			return r.words
		}
	}
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return "there is no such file"
	case errors.Is(err, fs.ErrPermission):
		return "you have no permission for it"
	case errors.Is(err, fs.ErrExist):
		return "there is already a file with this name"
	case errors.Is(err, fs.ErrClosed):
		return "it is already closed"
	}
	return "the system refused, without a reason that can be put into words"
}

// reason is one error of the system and what it means to the reader.
type reason struct {
	err   error
	words string
}
