package repl

import (
	"strings"
	"unicode"
)

// backTab is what Shift-Tab sends.
const backTab = "\x1b[Z"

// bindings are the keys that edit a line, by what terminals send for them: the usual ones
// of a command line.
func bindings() map[string]func(*editor) {
	keys := map[string]func(*editor){}
	bind := func(do func(*editor), seqs ...string) {
		for _, s := range seqs {
			keys[s] = do
		}
	}
	moves := func(to func(b *buffer) int) func(*editor) {
		return func(ed *editor) { ed.buf.move(to(ed.buf)) }
	}
	kills := func(to func(b *buffer, at int) int) func(*editor) {
		return func(ed *editor) {
			at := ed.buf.Pos()
			other := to(ed.buf, at)
			ed.buf.kill(min(at, other), max(at, other))
		}
	}
	// Moving.
	bind(moves(func(b *buffer) int { return b.Pos() - 1 }), "\x02", "\x1b[D", "\x1bOD")
	bind(moves(func(b *buffer) int { return b.Pos() + 1 }), "\x06", "\x1b[C", "\x1bOC")
	bind(moves(func(b *buffer) int { return b.rowStart(b.Pos()) }), "\x01", "\x1b[H", "\x1bOH", "\x1b[1~", "\x1b[7~", "\x1b[1;5H")
	bind(moves(func(b *buffer) int { return b.rowEnd(b.Pos()) }), "\x05", "\x1b[F", "\x1bOF", "\x1b[4~", "\x1b[8~", "\x1b[1;5F")
	bind(moves(func(b *buffer) int { return b.wordLeft(b.Pos()) }), "\x1bb", "\x1b[1;5D", "\x1b[5D", "\x1bOd", "\x1b[1;3D")
	bind(moves(func(b *buffer) int { return b.wordRight(b.Pos()) }), "\x1bf", "\x1b[1;5C", "\x1b[5C", "\x1bOc", "\x1b[1;3C")
	// Erasing, and cutting out to put in again.
	bind((*editor).backspace, "\x7f", "\x08")
	bind((*editor).deletes, "\x1b[3~")
	bind((*editor).deletesOrLeaves, "\x04")
	bind(kills((*buffer).toRowEnd), "\x0b")
	bind(kills((*buffer).toRowStart), "\x15")
	bind(kills((*buffer).blankLeft), "\x17")
	bind(kills((*buffer).wordLeft), "\x1b\x7f", "\x1b\x08")
	bind(kills((*buffer).wordRight), "\x1bd", "\x1b[3;5~")
	bind(func(ed *editor) { ed.buf.yank() }, "\x19")
	// Changing.
	bind(func(ed *editor) { ed.buf.transpose() }, "\x14")
	bind(func(ed *editor) { ed.buf.rewrite(strings.ToUpper) }, "\x1bu")
	bind(func(ed *editor) { ed.buf.rewrite(strings.ToLower) }, "\x1bl")
	bind(func(ed *editor) { ed.buf.rewrite(capital) }, "\x1bc")
	bind((*editor).undo, "\x1f", "\x18\x15")
	bind((*editor).redo, "\x1e", "\x1b\x1f")
	bind(func(ed *editor) { ed.buf.revert() }, "\x1br")
	// Lines typed before.
	bind((*editor).up, "\x10", "\x1b[A", "\x1bOA")
	bind((*editor).down, "\x0e", "\x1b[B", "\x1bOB")
	bind(func(ed *editor) { ed.searchFrom(-1) }, "\x12")
	bind(func(ed *editor) { ed.searchFrom(1) }, "\x13")
	// The line as a whole.
	bind((*editor).enter, "\r", "\n")
	bind(func(ed *editor) { ed.newRow() }, "\x1b\r", "\x1b\n")
	bind((*editor).complete, "\t")
	bind((*editor).completeBack, backTab)
	bind((*editor).abandon, dropKey)
	bind((*editor).clear, "\x0c")
	bind((*editor).suspend, "\x1a")
	bind((*editor).edit, "\x18\x05")
	return keys
}

func (b *buffer) toRowStart(at int) int { return b.rowStart(at) }

// toRowEnd is the end of the row, and of an empty rest the beginning of the next.
func (b *buffer) toRowEnd(at int) int {
	if end := b.rowEnd(at); end > at || end == b.Len() {
		return end
	}
	return at + 1
}

// isText tells whether a text has a character that can be seen.
func isText(s string) bool {
	return strings.ContainsFunc(s, func(r rune) bool { return !unicode.IsSpace(r) })
}
