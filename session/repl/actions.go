package repl

import (
	"slices"
	"strings"
)

// enter ends the line, or begins its next row where the statement asks for more.
func (ed *editor) enter() {
	text := ed.buf.String()
	rows := strings.Split(text, "\n")
	last := rows[len(rows)-1]
	if _, n := statement(ed.pad, rows); ed.whole && n < len(rows) && !slices.Contains(rows, "") {
		ed.screen.erase()
		ed.done = &typed{pasted: rows} // several statements, as an offer may be
		return
	}
	switch statement := fold(ed.pad, rows); {
	case len(rows) > 1 && ed.pad.Aside(last):
		ed.aside(text[:len(text)-len(last)], last)
	case len(rows) > 1 && (!isText(last) || ed.whole && !ed.pad.Incomplete(strings.TrimSpace(last))):
		ed.finish(typed{text: statement})
	case ed.pad.Incomplete(statement):
		ed.buf.move(ed.buf.Len())
		ed.newRow()
	default:
		ed.finish(typed{text: statement})
	}
}

// newRow begins a row at the cursor.
func (ed *editor) newRow() { ed.buf.insert("\n", otherEdit) }

// aside ends the line with a command that was typed within it; the rows above it are
// there again afterwards.
func (ed *editor) aside(above, command string) {
	ed.finish(typed{text: strings.TrimSpace(command), aside: true})
	rs := []rune(above)
	ed.rest = &rest{state: state{rs, len(rs)}}
}

// paste puts text in at the cursor. Statements that are whole are entered; the one that
// the last row belongs to stays to be edited with what stood behind the cursor.
func (ed *editor) paste(text string) {
	rows := pastedRows(ed.pad, strings.Split(text, "\n"))
	for i := range rows {
		rows[i] = ed.pad.Pasted(rows[i])
	}
	lines := slices.Clone(rows)
	lines[0] = ed.buf.before() + rows[0]
	at := 0
	for {
		_, n := statement(ed.pad, lines[at:])
		if at+n == len(lines) {
			break
		}
		at += n
	}
	last := strings.Join(rows[at:], "\n")
	several := len(rows)-at > 1
	if at == 0 {
		ed.buf.insert(last, otherEdit)
		ed.whole = ed.whole || several
		return
	}
	ed.rest = &rest{state{[]rune(last + ed.buf.after()), len([]rune(last))}, several}
	ed.screen.erase()
	ed.done = &typed{pasted: lines[:at]}
}

// abandon drops the line; Up finds it.
func (ed *editor) abandon() {
	text := ed.buf.String()
	if ed.offer.open {
		text = ""
	}
	ed.recall.remember(strings.TrimRight(text, " \n"))
	ed.finish(typed{err: errAbandoned})
}

func (ed *editor) backspace() {
	if at := ed.buf.Pos(); at > 0 {
		ed.buf.erase(at-1, at)
	}
}

// deletes takes the character at the cursor out.
func (ed *editor) deletes() {
	if at := ed.buf.Pos(); at < ed.buf.Len() {
		ed.buf.erase(at, at+1)
	}
}

// deletesOrLeaves is deletes, or leaves the scratchpad on an empty line.
func (ed *editor) deletesOrLeaves() {
	if ed.buf.Len() == 0 {
		ed.finish(typed{err: errLeave})
		return
	}
	ed.deletes()
}

// undo takes the last change of the line back; on an empty line where nothing is left to
// take back, the last change of the page.
func (ed *editor) undo() { ed.unless(ed.buf.undo(), "undo") }

// redo does again what undo took back.
func (ed *editor) redo() { ed.unless(ed.buf.redo(), "redo") }

// unless gives a command on an empty line, unless the key has done something there.
func (ed *editor) unless(did bool, command string) {
	if did || ed.buf.Len() > 0 {
		return
	}
	ed.buf.begin(command)
	ed.finish(typed{text: command, quiet: true})
}

// clear empties the screen but for the line.
func (ed *editor) clear() {
	if ed.look.Plain {
		return
	}
	ed.screen.erase()
	ed.term.control("\x1b[H\x1b[2J")
}

// suspend stops the program until the shell calls it back.
func (ed *editor) suspend() {
	ed.leave()
	ed.term.pause()
}
