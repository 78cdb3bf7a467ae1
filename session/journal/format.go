package journal

import (
	"fmt"
	"hash/crc32"
	"strings"
)

const (
	header   = "steelyard journal 1"
	undoLine = "- undo"
	indent   = "  "
)

// encode appends one statement as the journal holds it.
func encode(to []byte, text string) []byte {
	for line := range strings.SplitSeq(text, "\n") {
		to = append(to, indent...)
		to = append(to, line...)
		to = append(to, '\n')
	}
	to = append(to, "+ "...)
	to = append(to, checksum(text)...)
	return append(to, '\n')
}

// contents is what a journal's bytes say.
type contents struct {
	statements []string
	// damaged tells that a record which was once whole can't be read. A last
	// record cut off is not damage: it had not been accepted yet.
	damaged bool
	// good is the number of bytes up to the end of the last whole record.
	good int
}

// decode reads a journal. It keeps every whole statement, whatever stands
// between; ok is false if the bytes are no journal at all. An empty file and a
// header cut off are a journal without statements.
func decode(data string) (c contents, ok bool) {
	first, rest, whole := strings.Cut(data, "\n")
	if !whole {
		return c, strings.HasPrefix(header, data)
	}
	if first != header {
		return c, false
	}
	c.good = len(first) + 1
	d := decoder{contents: c, at: c.good}
	for rest != "" {
		rest = d.line(rest)
	}
	return d.contents, true
}

// decoder holds the lines of the statement being read.
type decoder struct {
	contents
	at    int
	lines []string
}

// line takes one line off the rest and returns what remains.
func (d *decoder) line(rest string) string {
	line, after, ended := strings.Cut(rest, "\n")
	d.at += len(line) + 1
	switch {
	case !ended:
		d.lines = nil
	case strings.HasPrefix(line, indent):
		d.lines = append(d.lines, line[len(indent):])
	case strings.HasPrefix(line, "+ "):
		d.end(line[2:])
	case line == undoLine && len(d.lines) == 0:
		d.statements = d.statements[:max(0, len(d.statements)-1)]
		d.good = d.at
	default:
		d.spoil()
	}
	return after
}

// end closes a statement if its bytes are those that were written.
func (d *decoder) end(sum string) {
	text := strings.Join(d.lines, "\n")
	if len(d.lines) == 0 || checksum(text) != sum {
		d.spoil()
		return
	}
	d.statements = append(d.statements, text)
	d.good = d.at
	d.lines = d.lines[:0]
}

// spoil gives up the statement being read.
func (d *decoder) spoil() {
	d.damaged = true
	d.lines = d.lines[:0]
}

func checksum(text string) string {
	return fmt.Sprintf("%08x", crc32.ChecksumIEEE([]byte(text)))
}
