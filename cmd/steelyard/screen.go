package main

import (
	"io"
	"unicode/utf8"

	"steelyard/session/view"
	"steelyard/units/writing"
)

// screen is the one place where text leaves the program. Whatever stands in a
// file, an argument or a name, no character that moves the cursor, sets a colour
// or turns the direction of what follows goes through it; each gets a mark. Bold
// and dim type alone have sequences, and end with their row at the latest.
//
// It must be the last writer before the file: a writer with a buffer goes before
// it.
type screen struct {
	to   io.Writer
	bold bool
	set  bool   // bold or dim type is on
	cut  []byte // a character of which the rest is still to come
	buf  []byte
}

const (
	// dimOn begins dim type, which ends with its row.
	dimOn = "\ufdd2"

	boldSequence  = "\x1b[1m"
	dimSequence   = "\x1b[2m"
	plainSequence = "\x1b[0m"
)

// Write writes what is safe to write, and says that all was written.
func (s *screen) Write(p []byte) (int, error) {
	text := p
	if len(s.cut) > 0 {
		text = append(s.cut, p...)
	}
	s.buf = s.buf[:0]
	for len(text) > 0 && (text[0] < utf8.RuneSelf || utf8.FullRune(text)) {
		if n := plainStart(text); n > 0 {
			s.buf, text = append(s.buf, text[:n]...), text[n:]
			continue
		}
		r, n := utf8.DecodeRune(text)
		s.put(r)
		text = text[n:]
	}
	s.cut = append([]byte(nil), text...)
	if _, err := s.to.Write(s.buf); err != nil {
		return 0, err
	}
	return len(p), nil
}

// plainStart is how many characters at the start are printable ASCII.
func plainStart(text []byte) int {
	n := 0
	for n < len(text) && text[n] >= ' ' && text[n] < 0x7f {
		n++
	}
	return n
}

// put adds another character to what is written.
func (s *screen) put(r rune) {
	switch {
	case string(r) == view.BoldOn && s.bold:
		s.set = true
		s.buf = append(s.buf, boldSequence...)
	case string(r) == dimOn && s.bold:
		s.set = true
		s.buf = append(s.buf, dimSequence...)
	case string(r) == view.BoldOff && s.bold:
		s.plain()
	case writing.Escaped(r):
		s.buf = utf8.AppendRune(s.buf, utf8.RuneError)
	default:
		if r == '\n' && s.set {
			s.plain()
		}
		s.buf = utf8.AppendRune(s.buf, r)
	}
}

func (s *screen) plain() {
	s.set = false
	s.buf = append(s.buf, plainSequence...)
}
