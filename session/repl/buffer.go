package repl

import (
	"io"
	"slices"
	"strings"
	"unicode"

	"github.com/chzyer/readline"
)

// buffer is the text that is being edited, in one row or several. The library edits it
// and draws nothing.
type buffer struct {
	*readline.RuneBuffer
	past, future []state // what undo and redo go to
	last         edit    // what the last change was
	killed       []rune  // what was cut out last
}

// state is a text and the place of the cursor.
type state struct {
	text []rune
	at   int
}

// edit is a kind of change: several of one kind in a row are one step of undo.
type edit int

const (
	otherEdit edit = iota
	typingEdit
	erasingEdit
)

func newBuffer() *buffer {
	silent := &readline.Config{FuncIsTerminal: func() bool { return false }}
	return &buffer{RuneBuffer: readline.NewRuneBuffer(io.Discard, "", silent, 0)}
}

// begin is a new text, which nothing was before.
func (b *buffer) begin(text string) {
	rs := []rune(text)
	b.SetWithIdx(len(rs), rs)
	b.past, b.future, b.last = nil, nil, otherEdit
}

func (b *buffer) String() string { return string(b.Runes()) }

// before and after are the text on both sides of the cursor.
func (b *buffer) before() string { return string(b.Runes()[:b.Pos()]) }
func (b *buffer) after() string  { return string(b.Runes()[b.Pos():]) }

func (b *buffer) state() state { return state{b.Runes(), b.Pos()} }

func (b *buffer) to(s state) { b.SetWithIdx(s.at, slices.Clone(s.text)) }

// notes keeps the text as it is for undo, before a change of a kind.
func (b *buffer) notes(kind edit) {
	if kind == otherEdit || kind != b.last {
		b.past = append(b.past, b.state())
	}
	b.last, b.future = kind, nil
}

// moved ends a run of typing: what is typed at another place is another step.
func (b *buffer) moved() { b.last = otherEdit }

// undo takes the last change back; false if there is none.
func (b *buffer) undo() bool { return b.swap(&b.past, &b.future) }

// redo does it again.
func (b *buffer) redo() bool { return b.swap(&b.future, &b.past) }

func (b *buffer) swap(from, to *[]state) bool {
	n := len(*from) - 1
	if n < 0 {
		return false
	}
	s := (*from)[n]
	*from, *to = (*from)[:n], append(*to, b.state())
	b.to(s)
	b.last = otherEdit
	return true
}

// revert undoes all changes.
func (b *buffer) revert() {
	for b.undo() {
	}
}

// set is another text, which undo takes back.
func (b *buffer) set(text string) {
	b.notes(otherEdit)
	rs := []rune(text)
	b.SetWithIdx(len(rs), rs)
}

// insert puts characters in at the cursor. Those of one word that is typed are one step
// of undo.
func (b *buffer) insert(text string, kind edit) {
	if text == "" {
		return
	}
	b.notes(kind)
	b.WriteRunes(slices.Clip([]rune(text)))
	if strings.HasSuffix(text, " ") {
		b.last = otherEdit
	}
}

// put replaces what stands between two places.
func (b *buffer) put(from, to int, text string) {
	b.notes(otherEdit)
	rs := b.Runes()
	b.SetWithIdx(from+len([]rune(text)), slices.Concat(rs[:from], []rune(text), rs[to:]))
}

// erase takes characters out; those that are erased one by one are one step of undo.
func (b *buffer) erase(from, to int) {
	if from == to {
		return
	}
	b.notes(erasingEdit)
	rs := b.Runes()
	b.SetWithIdx(from, slices.Delete(rs, from, to))
}

// kill cuts characters out, which yank puts in again.
func (b *buffer) kill(from, to int) {
	if from == to {
		return
	}
	b.killed = b.Runes()[from:to]
	b.last = otherEdit
	b.erase(from, to)
	b.last = otherEdit
}

func (b *buffer) yank() { b.insert(string(b.killed), otherEdit) }

// move puts the cursor at a place.
func (b *buffer) move(to int) {
	rs := b.Runes()
	b.SetWithIdx(max(0, min(to, len(rs))), rs)
	b.moved()
}

// rowStart and rowEnd are the places where the row of a place begins and ends.
func (b *buffer) rowStart(at int) int {
	rs := b.Runes()[:at]
	for at > 0 && rs[at-1] != '\n' {
		at--
	}
	return at
}

func (b *buffer) rowEnd(at int) int {
	rs := b.Runes()
	for at < len(rs) && rs[at] != '\n' {
		at++
	}
	return at
}

// row moves the cursor by a row, up or down; false if there is none.
func (b *buffer) row(by int) bool {
	at := b.Pos()
	start := b.rowStart(at)
	column := at - start
	switch {
	case by < 0 && start > 0:
		start = b.rowStart(start - 1)
	case by > 0 && b.rowEnd(at) < b.Len():
		start = b.rowEnd(at) + 1
	default:
		return false
	}
	b.move(min(start+column, b.rowEnd(start)))
	return true
}

// wordRight and wordLeft are the ends of the words beside a place.
func (b *buffer) wordRight(at int) int {
	rs := b.Runes()
	for at < len(rs) && !inWord(rs[at]) {
		at++
	}
	for at < len(rs) && inWord(rs[at]) {
		at++
	}
	return at
}

func (b *buffer) wordLeft(at int) int {
	rs := b.Runes()
	for at > 0 && !inWord(rs[at-1]) {
		at--
	}
	for at > 0 && inWord(rs[at-1]) {
		at--
	}
	return at
}

func inWord(r rune) bool { return r == '_' || unicode.In(r, unicode.L, unicode.N, unicode.M) }

// blankLeft is where what stands between blanks begins.
func (b *buffer) blankLeft(at int) int {
	rs := b.Runes()
	for at > 0 && unicode.IsSpace(rs[at-1]) {
		at--
	}
	for at > 0 && !unicode.IsSpace(rs[at-1]) {
		at--
	}
	return at
}

// rewrite changes the letters of the word at or after the cursor, which goes behind it.
func (b *buffer) rewrite(change func(word string) string) {
	from, to := b.Pos(), b.wordRight(b.Pos())
	if from < to {
		b.put(from, to, change(string(b.Runes()[from:to])))
	}
}

// capital writes the first letter of a text large and the others small.
func capital(text string) string {
	first := true
	return strings.Map(func(r rune) rune {
		if !unicode.IsLetter(r) {
			return r
		}
		if first {
			first = false
			return unicode.ToUpper(r)
		}
		return unicode.ToLower(r)
	}, text)
}

// transpose drags the character before the cursor over the one at it.
func (b *buffer) transpose() {
	if b.Len() < 2 {
		return
	}
	b.notes(otherEdit)
	b.Transpose()
}
