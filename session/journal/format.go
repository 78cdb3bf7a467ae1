package journal

import (
	"fmt"
	"hash/crc32"
	"strconv"
	"strings"
)

const (
	header = "steelyard journal 3"
	indent = "  "
)

// kind says what an entry does; it is the word that ends the entry.
type kind string

// The kinds of entry.
const (
	statement kind = "statement" // a statement is accepted
	change    kind = "change"    // statements above are changed, see change.go
	title     kind = "title"     // the worksheet gets a title
	saved     kind = "saved"     // all of it is saved, with a title
	reads     kind = "reads"     // what the files that are read came to, each in a row
)

// encode appends one entry as the journal holds it.
func encode(to []byte, k kind, number int, text string) []byte {
	for line := range strings.SplitSeq(text, "\n") {
		to = append(to, indent...)
		to = append(to, line...)
		to = append(to, '\n')
	}
	return fmt.Appendf(to, "%s %d %s\n", k, number, checksum(k, number, text))
}

func checksum(k kind, number int, text string) string {
	return fmt.Sprintf("%08x", crc32.ChecksumIEEE(fmt.Appendf(nil, "%s %d %s", k, number, text)))
}

// contents is what the entries of a journal come to.
type contents struct {
	statements []string
	numbers    []int // of the statements
	title      string
	reads      string
	saved      bool // nothing was entered since it was saved
	last       int  // the number of the last entry
}

// apply carries out one entry.
func (c *contents) apply(k kind, number int, text string) {
	c.last = number
	c.saved = k == saved
	switch k {
	case statement:
		c.statements = append(c.statements, text)
		c.numbers = append(c.numbers, number)
	case change:
		c.change(number, text)
	case title, saved:
		c.title = text
	case reads:
		c.reads = text
	}
}

// decoder reads a journal.
type decoder struct {
	contents
	// damaged tells that an entry which was once whole can't be read. A last
	// entry cut off is not damage: it had not been accepted yet.
	damaged bool
	// good is the number of bytes up to the end of the last whole entry.
	good  int
	at    int
	lines []string
}

// decode reads a journal. It keeps every whole entry, whatever stands between; ok
// is false if the bytes are no journal at all. An empty file and a header cut off
// are a journal without entries.
func decode(data string) (d decoder, ok bool) {
	first, rest, whole := strings.Cut(data, "\n")
	if !whole {
		return d, strings.HasPrefix(header, data)
	}
	if first != header {
		return d, false
	}
	d.good = len(first) + 1
	d.at = d.good
	for rest != "" {
		rest = d.line(rest)
	}
	return d, true
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
	default:
		d.end(line)
	}
	return after
}

// end carries out an entry if its bytes are those that were written.
func (d *decoder) end(line string) {
	fields := strings.Split(line, " ")
	text := strings.Join(d.lines, "\n")
	whole := len(fields) == 3 && len(d.lines) > 0
	d.lines = d.lines[:0]
	if whole {
		k := kind(fields[0])
		number, err := strconv.Atoi(fields[1])
		if err == nil && number > d.last && fields[2] == checksum(k, number, text) {
			d.apply(k, number, text)
			d.good = d.at
			return
		}
	}
	d.damaged = true
}
