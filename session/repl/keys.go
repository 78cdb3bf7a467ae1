package repl

import (
	"bytes"
	"strings"
	"time"
	"unicode/utf8"

	"steelyard/units/writing"
)

// press is one press of a key, or what comes in one piece like it.
type press struct {
	// seq is what the key sends where it is no text: a character of control, or a
	// sequence that begins with Esc or Ctrl-X (ECMA-48, and what terminals add to it).
	seq string
	// text is what was typed or pasted, and lines where that is several lines.
	text   string
	pasted bool
}

const (
	enterKey = "\r"
	dropKey  = "\x03" // Ctrl-C
	escKey   = "\x1b"
	prefixX  = "\x18" // Ctrl-X, with which some keys begin
	// pasteBegin and pasteEnd mark what is pasted.
	pasteBegin = "\x1b[200~"
	pasteEnd   = "\x1b[201~"
)

// keyReader makes presses of the bytes that the terminal sends.
type keyReader struct {
	in source
	// alone tells whether Esc by itself means something now; nil for never.
	alone func() bool

	ready []press // read, not yet handed on
	raw   []byte  // read, not yet complete
	paste []byte  // the paste so far
	open  bool    // within a bracketed paste
	err   error
}

// pastePause is how long a paste may pause. A terminal sends one in one go; after
// that time its end mark has been lost, and waiting for it would swallow every key.
const pastePause = time.Second

// escapePause is how long an Esc may wait for the rest of a key that begins with it.
const escapePause = 50 * time.Millisecond

// next returns what is typed next; errWoken where there is something else to do first.
func (k *keyReader) next() (press, error) {
	for len(k.ready) == 0 {
		if k.err != nil {
			return press{}, k.err
		}
		patience := time.Duration(0)
		escaped := !k.open && string(k.raw) == escKey && k.alone != nil && k.alone()
		switch {
		case k.open:
			patience = pastePause
		case escaped:
			patience = escapePause
		}
		data, err := k.in.next(patience)
		switch {
		case err == errWoken:
			return press{}, err
		case err == errQuiet && escaped:
			k.raw = nil
			k.put(escKey)
			continue
		case err == errQuiet:
			k.endPaste()
			continue
		}
		k.err = err
		for last := false; !last; {
			var keys []byte
			keys, data, last = cutDrop(data)
			k.take(keys, k.err != nil)
			if !last {
				k.drop()
			}
		}
	}
	p := k.ready[0]
	k.ready = k.ready[1:]
	return p, nil
}

// waiting tells whether more has been read.
func (k *keyReader) waiting() bool { return len(k.ready) > 0 }

// takeDrop takes a Ctrl-C that is next, and tells whether there was one.
func (k *keyReader) takeDrop() bool {
	is := len(k.ready) > 0 && k.ready[0].seq == dropKey
	if is {
		k.ready = k.ready[1:]
	}
	return is
}

func (k *keyReader) put(seq string) { k.ready = append(k.ready, press{seq: seq}) }

// cutDrop cuts bytes at the first Ctrl-C; last tells that there is none.
func cutDrop(data []byte) (keys, rest []byte, last bool) {
	keys, rest, found := bytes.Cut(data, []byte(dropKey))
	return keys, rest, !found
}

// take works through bytes as far as they are complete; last tells that no more come.
func (k *keyReader) take(data []byte, last bool) {
	k.raw = append(k.raw, data...)
	if isBurst(k.raw) && !k.open {
		k.burst()
	}
	for len(k.raw) > 0 && k.one(last) {
	}
}

// drop is Ctrl-C. It ends whatever is half read, a paste too.
func (k *keyReader) drop() {
	k.raw, k.paste, k.open = nil, nil, false
	k.put(dropKey)
}

// isBurst tells whether bytes came faster than anyone types: a line end with
// more after it, in one piece, from a terminal that does not mark a paste. Where a key is
// among them that is no text, they were typed ahead.
func isBurst(b []byte) bool {
	if bytes.ContainsFunc(b, func(r rune) bool { return r < ' ' && !strings.ContainsRune("\t\r\n", r) || r == 0x7f }) {
		return false
	}
	i := bytes.IndexAny(b, "\r\n")
	return i >= 0 && i < len(b)-1
}

// burst treats what has been read as a paste.
func (k *keyReader) burst() {
	text := k.raw
	k.raw = nil
	if cut := incompleteRune(text); cut > 0 {
		k.raw = append(k.raw, text[len(text)-cut:]...)
		text = text[:len(text)-cut]
	}
	k.deliver(string(text))
}

// incompleteRune returns how many bytes at the end begin a character that is
// not complete.
func incompleteRune(b []byte) int {
	for n := 1; n <= 3 && n <= len(b); n++ {
		if c := b[len(b)-n]; utf8.RuneStart(c) {
			if !utf8.FullRune(b[len(b)-n:]) {
				return n
			}
			return 0
		}
	}
	return 0
}

// one takes the press that the bytes begin with, and returns false if more must be
// read first.
func (k *keyReader) one(last bool) bool {
	switch c := k.raw[0]; {
	case k.open:
		return k.pasteMore()
	case c == escKey[0], c == prefixX[0]:
		n, complete := sequence(k.raw)
		if !complete {
			if !last && n < 16 {
				return false
			}
			n = len(k.raw)
		}
		seq := string(k.raw[:n])
		k.raw = k.raw[n:]
		switch seq {
		case pasteBegin:
			k.open, k.paste = true, nil
		case pasteEnd:
		default:
			k.put(seq)
		}
	case c < ' ', c == 0x7f:
		k.put(string(k.raw[:1]))
		k.raw = k.raw[1:]
	default:
		return k.text(last)
	}
	return true
}

// text takes the characters that the bytes begin with.
func (k *keyReader) text(last bool) bool {
	n := bytes.IndexFunc(k.raw, func(r rune) bool { return r < ' ' || r == 0x7f })
	if n < 0 {
		n = len(k.raw)
		if !last {
			n -= incompleteRune(k.raw)
		}
	}
	if n == 0 {
		return false
	}
	k.ready = append(k.ready, press{text: cleanPaste(string(k.raw[:n]))})
	k.raw = k.raw[n:]
	return true
}

// sequence returns the length of the sequence that bytes begin with, and whether it is
// complete.
func sequence(b []byte) (int, bool) {
	if len(b) == 1 {
		return 1, false
	}
	if b[0] == prefixX[0] {
		return 2, true
	}
	switch b[1] {
	case '[':
		for i := 2; i < len(b); i++ {
			if b[i] >= 0x40 && b[i] <= 0x7e {
				return i + 1, true
			}
		}
		return len(b), false
	case 'O':
		if len(b) < 3 {
			return len(b), false
		}
		return 3, true
	case escKey[0]: // Alt with a key that has a sequence of its own
		return 1, true
	}
	_, n := utf8.DecodeRune(b[1:])
	return 1 + n, utf8.FullRune(b[1:])
}

// pasteMore takes bytes of a bracketed paste, and returns false if more must be
// read first.
func (k *keyReader) pasteMore() bool {
	if i := bytes.Index(k.raw, []byte(pasteEnd)); i >= 0 {
		rest := k.raw[i+len(pasteEnd):]
		k.raw = k.raw[:i]
		k.endPaste()
		k.raw = rest
		return true
	}
	// The mark of the end may itself be incomplete.
	keep := 0
	for n := min(len(pasteEnd)-1, len(k.raw)); n > 0; n-- {
		if strings.HasPrefix(pasteEnd, string(k.raw[len(k.raw)-n:])) {
			keep = n
			break
		}
	}
	k.paste = append(k.paste, k.raw[:len(k.raw)-keep]...)
	k.raw = append([]byte{}, k.raw[len(k.raw)-keep:]...)
	return false
}

// endPaste takes the paste so far, with what has been read, for the whole of it.
func (k *keyReader) endPaste() {
	text := string(k.paste) + string(k.raw)
	k.raw, k.paste, k.open = nil, nil, false
	k.deliver(text)
}

// deliver hands a paste on in one piece.
func (k *keyReader) deliver(text string) {
	text = strings.ReplaceAll(strings.ReplaceAll(text, "\r\n", "\n"), "\r", "\n")
	lines := strings.Split(text, "\n")
	for i := range lines {
		lines[i] = cleanPaste(lines[i])
	}
	k.ready = append(k.ready, press{text: strings.Join(lines, "\n"), pasted: true})
}

// cleanPaste makes a row of text fit to be edited: a tab is blanks, characters of
// control go, and what can't be shown gets a mark.
func cleanPaste(line string) string {
	line = strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7f {
			return -1
		}
		return r
	}, strings.ReplaceAll(line, "\t", "  "))
	return writing.Clean(line, writing.Screen)
}
