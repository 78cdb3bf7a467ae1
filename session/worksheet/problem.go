package worksheet

import (
	"os"
	"strconv"
	"strings"

	"steelyard/lang/finding"
	"steelyard/session/worksheet/oserr"
	"steelyard/units/writing"
)

// ProblemKind says what a FileProblem is about, for a caller that can offer a
// way round it.
type ProblemKind uint8

// The kinds of problem.
const (
	NotRead     ProblemKind = iota // the file can't be read
	NotSheet                       // it is read, but is no worksheet of a known format
	NotWritten                     // the file can't be written
	Exists                         // saving would replace a file that was not opened here
	Changed                        // the file has changed since it was opened
	WrongOption                    // a replacement or a combination of options that can't be used
	OurFault                       // this program has gone wrong at the file
)

// FileProblem is what is wrong with a file as a whole, or with what was asked
// of it. It makes the exit status 2.
type FileProblem struct {
	Kind ProblemKind
	// ID is the identifier of the finding, where there is one: unknown-format,
	// bad-text, too-long.
	ID finding.ID
	// Path is the file as it was named, or empty.
	Path string
	// Line is the number of the line that is meant, or 0.
	Line    int
	Message string
	// Hint says what to do; it may be empty.
	Hint string
}

// Error returns file, line, message and hint as they are printed: each in one
// row, whatever characters the name of the file has.
func (p *FileProblem) Error() string {
	var b strings.Builder
	b.WriteString(writing.Clean(p.Path, writing.Screen))
	if p.Line > 0 {
		b.WriteString(", line " + strconv.Itoa(p.Line))
	}
	if b.Len() > 0 {
		b.WriteString(": ")
	}
	b.WriteString(writing.Clean(p.Message, writing.Screen))
	if p.Hint != "" {
		b.WriteString("\n  " + writing.Clean(p.Hint, writing.Screen))
	}
	return b.String()
}

// Fault is the problem of a file at which this program itself has gone wrong.
func Fault(path string) *FileProblem {
	return &FileProblem{Kind: OurFault, Path: path, Message: "the file could not be worked out: a fault of the program.",
		Hint: "The fault is ours, not the file's. Please report it, with the file if you can."}
}

func unreadable(path string, err error) *FileProblem {
	return &FileProblem{Kind: NotRead, Path: path, Message: "the file can't be read: " + oserr.Words(err) + "."}
}

// unwritten is the problem of a file that the system refuses to write; what stood there, if
// something did, is as it was.
func unwritten(path string, err error) *FileProblem {
	hint := "Save in another folder or under another name."
	if _, none := os.Stat(path); none == nil {
		hint = "The old file is unchanged. " + hint
	}
	return &FileProblem{Kind: NotWritten, Path: path, Message: "the file can't be written: " + oserr.Words(err) + ".", Hint: hint}
}
