package journal

import "steelyard/session/worksheet/oserr"

// Problem says why a journal can't be kept or read, in words for the reader.
type Problem struct {
	Message string
	Hint    string
}

// Error returns the message and what to do about it.
func (p *Problem) Error() string {
	if p.Hint == "" {
		return p.Message
	}
	return p.Message + "\n  " + p.Hint
}

// notKept is the problem of a scratchpad without a journal.
func notKept(why string) *Problem {
	return &Problem{
		Message: "a crash would lose what you enter: " + why + ".",
		Hint:    "Save your work now and then with save FILE.",
	}
}

// unkept is the problem of a journal that can't be written.
func unkept(path string, err error) *Problem {
	return notKept(path + " can't be written, because " + oserr.Words(err))
}
