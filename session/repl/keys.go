package repl

import (
	"bytes"
	"strings"
	"sync"
	"time"
	"unicode/utf8"

	"steelyard/units/writing"
)

// The keys as the line editor knows them.
const (
	keyLineStart = "\x01"
	keyLineEnd   = "\x05"
	keyEnter     = "\r"
	keyDrop      = "\x03"
	keyLeaveMode = "\x07"
	keyWordLeft  = "\x1bb"
	keyWordRight = "\x1bf"
	// deleteRune stands for the Delete key. The editor's own key for it leaves
	// the program where the line is empty; it is told apart before the editor
	// sees it.
	deleteRune = '\uF8F0'
	// pasteRune stands for a long paste, which the editor is given in one piece:
	// rune by rune it would draw all of the line for each.
	pasteRune = '\uF8F1'
)

// longPaste is how many bytes of a line are pasted in one piece. Fewer are as good
// as typed, and find their way into a search too.
const longPaste = 200

// translations are the sequences that terminals send for a key, and what the
// editor reads instead (ECMA-48 control sequences as terminals use them).
var translations = map[string]string{
	"\x1b[1~": keyLineStart, "\x1b[7~": keyLineStart, "\x1b[H": keyLineStart, "\x1bOH": keyLineStart, "\x1b[1;5H": keyLineStart,
	"\x1b[4~": keyLineEnd, "\x1b[8~": keyLineEnd, "\x1b[F": keyLineEnd, "\x1bOF": keyLineEnd, "\x1b[1;5F": keyLineEnd,
	"\x1b[3~": string(deleteRune), "\x1b[3;5~": "\x1bd",
	"\x1b[1;5D": keyWordLeft, "\x1b[5D": keyWordLeft, "\x1bOd": keyWordLeft, "\x1b[1;3D": keyWordLeft,
	"\x1b[1;5C": keyWordRight, "\x1b[5C": keyWordRight, "\x1bOc": keyWordRight, "\x1b[1;3C": keyWordRight,
	"\x1b[2~": "", "\x1b[5~": "", "\x1b[6~": "", "\x1b[I": "", "\x1b[O": "",
}

const (
	pasteBegin = "\x1b[200~"
	pasteEnd   = "\x1b[201~"
)

// keyReader stands between the terminal and the line editor. It translates
// keys, and takes the whole lines of a paste out of the stream: they wait in a
// queue, and the editor is sent Enter in their place.
type keyReader struct {
	in source
	// stop is told of a Ctrl-C behind Enter.
	stop func()
	// offered tells whether an offer is at hand, which Esc alone empties; nil for never.
	offered func() bool

	mu     sync.Mutex
	pasted []string // whole lines that were pasted
	pieces []string // what each pasteRune stands for

	raw   []byte // read, not yet translated
	out   []byte // translated, not yet handed on
	paste []byte // the paste so far
	open  bool   // within a bracketed paste
	err   error
}

// pastePause is how long a paste may pause. A terminal sends one in one go; after
// that time its end mark has been lost, and waiting for it would swallow every key.
const pastePause = time.Second

// escapePause is how long an Esc may wait for the rest of a key that begins with it.
const escapePause = 50 * time.Millisecond

// Read hands translated bytes to the editor.
func (k *keyReader) Read(p []byte) (int, error) {
	for len(k.out) == 0 {
		if k.err != nil {
			return 0, k.err
		}
		patience := time.Duration(0)
		escaped := !k.open && string(k.raw) == "\x1b" && k.offered != nil && k.offered()
		switch {
		case k.open:
			patience = pastePause
		case escaped:
			patience = escapePause
		}
		data, err := k.in.next(patience)
		switch {
		case err == errQuiet && escaped:
			k.raw, k.out = nil, utf8.AppendRune(k.out, emptyRune)
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
	n := copy(p, k.out)
	k.out = k.out[n:]
	return n, nil
}

// cutDrop parts what was read at the first Ctrl-C; last tells that there is none.
func cutDrop(data []byte) (before, after []byte, last bool) {
	before, after, found := bytes.Cut(data, []byte(keyDrop))
	return before, after, !found
}

// take translates what was read.
func (k *keyReader) take(data []byte, last bool) {
	k.raw = append(k.raw, data...)
	if isBurst(k.raw) && !k.open {
		k.burst()
	}
	k.translate(last)
}

// drop is Ctrl-C. It ends whatever is half read, a paste too. It leaves a search
// or a list of completions first, so that it drops the line there as well; behind
// Enter it is for the work.
func (k *keyReader) drop() {
	k.raw, k.paste, k.open = nil, nil, false
	if bytes.HasSuffix(k.out, []byte(keyEnter)) && k.stop != nil {
		k.stop()
		return
	}
	k.out = append(k.out, keyLeaveMode+keyDrop...)
}

// Close ends the stream for the editor; the terminal stays open.
func (k *keyReader) Close() error { return nil }

// takePasted returns the whole lines pasted since it was last asked.
func (k *keyReader) takePasted() []string {
	k.mu.Lock()
	defer k.mu.Unlock()
	lines := k.pasted
	k.pasted, k.pieces = nil, nil
	return lines
}

// hasPasted tells whether whole lines were pasted since.
func (k *keyReader) hasPasted() bool {
	k.mu.Lock()
	defer k.mu.Unlock()
	return len(k.pasted) > 0
}

// isBurst tells whether bytes came faster than anyone types: a line end with
// more after it, in one piece, from a terminal that does not mark a paste.
func isBurst(b []byte) bool {
	if bytes.Contains(b, []byte("\x1b")) {
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

// translate works through what has been read as far as it is complete.
func (k *keyReader) translate(last bool) {
	for len(k.raw) > 0 {
		if k.open {
			if !k.pasteMore() {
				return
			}
			continue
		}
		if k.raw[0] != 0x1b {
			n := bytes.IndexByte(k.raw, 0x1b)
			if n < 0 {
				n = len(k.raw)
			}
			k.out = append(k.out, k.raw[:n]...)
			k.raw = k.raw[n:]
			continue
		}
		n, complete := sequence(k.raw)
		if !complete {
			if !last && n < 16 {
				return
			}
			n = len(k.raw)
		}
		k.key(string(k.raw[:n]))
		k.raw = k.raw[n:]
	}
}

// key hands on one sequence, translated if it is known.
func (k *keyReader) key(seq string) {
	if seq == pasteBegin {
		k.open, k.paste = true, nil
		return
	}
	if seq == pasteEnd {
		return
	}
	if to, ok := translations[seq]; ok {
		k.out = append(k.out, to...)
		return
	}
	k.out = append(k.out, seq...)
}

// sequence returns the length of the control sequence that bytes begin with,
// and whether it is complete.
func sequence(b []byte) (int, bool) {
	if len(b) == 1 {
		return 1, false
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
	}
	return 2, true
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

// deliver queues the whole lines of a paste and hands on the rest as typed.
func (k *keyReader) deliver(text string) {
	text = strings.ReplaceAll(strings.ReplaceAll(text, "\r\n", "\n"), "\r", "\n")
	lines := strings.Split(text, "\n")
	for i := range lines {
		lines[i] = cleanPaste(lines[i])
	}
	rest := lines[len(lines)-1]
	if len(lines) > 1 {
		k.mu.Lock()
		k.pasted = append(k.pasted, lines[:len(lines)-1]...)
		k.mu.Unlock()
		k.out = append(k.out, keyEnter...)
	}
	rest = writing.Clean(rest, writing.Screen)
	if len(rest) > longPaste {
		k.mu.Lock()
		k.pieces = append(k.pieces, rest)
		k.mu.Unlock()
		rest = string(pasteRune)
	}
	k.out = append(k.out, rest...)
}

// takePiece returns what the next pasteRune stands for.
func (k *keyReader) takePiece() string {
	k.mu.Lock()
	defer k.mu.Unlock()
	if len(k.pieces) == 0 {
		return ""
	}
	piece := k.pieces[0]
	k.pieces = k.pieces[1:]
	return piece
}

// cleanPaste makes a pasted line fit to be edited: a tab is blanks, and control
// characters go.
func cleanPaste(line string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7f {
			return -1
		}
		return r
	}, strings.ReplaceAll(line, "\t", "  "))
}
