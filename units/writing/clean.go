package writing

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// For is where a text goes to, which decides what it must not hold.
type For uint8

const (
	// Screen is one line of a terminal: whatever moves the cursor, sets colours
	// or turns the direction of what follows gets a mark, a tab is a blank.
	Screen For = iota
	// Page is text of a document, in lines of its own: line ends are all one, and
	// what a reader would not see is taken out.
	Page
	// File is one line of a worksheet, which is read again: no character of
	// control is in it, but for tabs. All else is kept.
	File
)

// mark takes the place of what can't be shown (Unicode's replacement character).
const mark = utf8.RuneError

// Clean makes a text of strange origin safe for where it goes to. Bytes that are
// no text, and characters that Unicode says are none, get a mark.
func Clean(text string, to For) string {
	if safe(text, to) {
		return text
	}
	return strings.Map(to.clean, text)
}

// clean is what goes to a place for a character; below 0 if it is left out.
func (to For) clean(r rune) rune {
	switch {
	case isNone(r):
		return mark
	case r == '\t' && to == Screen:
		return ' '
	case r == '\t', r == '\n' && to == Page:
		return r
	case endsLine(r) && to == Page:
		return '\n'
	case unicode.IsControl(r), (turns(r) || endsLine(r)) && to != File:
		if to == Page {
			return -1
		}
		return mark
	}
	return r
}

// safe tells whether nothing of a text changes, as is so for most: a whole drawing is
// looked through at the speed of its bytes.
func safe(text string, to For) bool {
	for i := 0; i < len(text); {
		if c := text[i]; c >= ' ' && c <= '~' || c == '\n' && to == Page {
			i++
			continue
		}
		r, n := utf8.DecodeRuneInString(text[i:])
		if r == utf8.RuneError && n <= 1 || to.clean(r) != r {
			return false
		}
		i += n
	}
	return true
}

// isNone tells whether Unicode says of a code that it is no character, and never
// will be (Unicode Standard, 23.7): a program may use it within itself, and a text
// of strange origin must not.
func isNone(r rune) bool { return r&0xfffe == 0xfffe || r >= '\ufdd0' && r <= '\ufdef' }

// Escaped tells whether a character must not reach a screen raw, but for the end
// of a line and the tab.
func Escaped(r rune) bool {
	return r != '\n' && r != '\t' && (unicode.IsControl(r) || turns(r) || endsLine(r) || isNone(r))
}

// endsLine tells whether some program begins a new line at a character.
func endsLine(r rune) bool {
	return r == '\v' || r == '\f' || r == '\u0085' || r == '\u2028' || r == '\u2029'
}

// turns tells whether a character turns the direction of the text after it, so
// that a line may be read as another (Unicode Technical Report 36, 2.5), or
// marks the order of bytes.
func turns(r rune) bool {
	return r == '\u200e' || r == '\u200f' || r == '\u061c' || r >= '\u202a' && r <= '\u202e' || r >= '\u2066' && r <= '\u2069' || r == '\ufeff'
}

// Hidden tells whether a character takes no place that a reader could see:
// characters of control and of direction, joiners, and the soft hyphen.
func Hidden(r rune) bool {
	return unicode.IsControl(r) || turns(r) || r == '\u00ad' ||
		r >= '\u200b' && r <= '\u200d' || r == '\u2028' || r == '\u2029' || r >= '\u2060' && r <= '\u206f'
}
