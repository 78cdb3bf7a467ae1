package repl

import (
	"errors"
	"strings"
	"time"

	"steelyard/units/writing"
)

// errAbandoned says that the line was dropped by Ctrl-C; errLeave that Ctrl-D
// was typed on an empty line; errGone that nothing will be typed any more.
var (
	errAbandoned = errors.New("abandoned")
	errLeave     = errors.New("leave")
	errGone      = errors.New("gone")
)

// editor edits one line after the other at a terminal.
type editor struct {
	pad    Pad
	look   Look
	keys   *keyReader
	in     *input
	stops  *interrupts
	term   *terminal
	screen drawing
	bound  map[string]func(*editor)

	buf    *buffer
	prompt Prompt
	offer  offer
	recall recall
	search *search
	tab    *tab
	told   string // a sentence under the line, until the next key
	whole  bool   // the line was put in whole: its rows are not asked for one by one
	seen   preview
	rest   *rest  // what the next line begins with
	done   *typed // what became of the line, once it is over
}

// typed is what became of a line.
type typed struct {
	text string
	// pasted are whole lines that were pasted, where they were; the first may be several
	// rows of a statement that was begun.
	pasted []string
	// aside tells that the text is a command that was typed within another statement.
	aside bool
	// quiet tells that the text was not typed, and is not to be found again.
	quiet bool
	err   error
}

// rest is what a line begins with that is left of the one before; whole if its rows were
// put in together.
type rest struct {
	state
	whole bool
}

// preview is what a line would come to.
type preview struct{ text, says string }

// The least screen that has room for a preview.
const previewColumns, previewRows = 60, 12

// newEditor prepares the terminal.
func newEditor(cfg Config) (*editor, error) {
	t, err := newTerminal(cfg.In, cfg.Out, cfg.Look.Plain)
	if err != nil {
		return nil, err
	}
	ed := &editor{pad: cfg.Pad, look: cfg.Look, term: t, buf: newBuffer(), bound: bindings()}
	ed.in = newInput(cfg.In)
	ed.stops = &interrupts{in: ed.in}
	ed.keys = &keyReader{in: ed.in, alone: func() bool { return ed.offer.open || ed.search != nil || ed.tab != nil }}
	ed.screen = &painter{to: cfg.Out}
	if cfg.Look.Plain {
		ed.screen = &plainDrawing{to: cfg.Out}
	}
	if t.modes.slow() {
		ed.look.Preview = false
	}
	t.working()
	return ed, nil
}

// line reads one line, which may hold something already.
func (ed *editor) line(p Prompt) typed {
	ed.stops.prompt()
	ed.term.typing()
	defer ed.term.working()
	ed.begin(p)
	for ed.done == nil {
		if !ed.keys.waiting() {
			ed.draw()
		}
		k, err := ed.keys.next()
		switch {
		case err == errWoken:
			if ed.term.resumed.Swap(false) {
				ed.screen.forget()
			}
		case err != nil:
			// What was being typed is no statement: Enter was never pressed.
			ed.leave()
			return typed{err: errGone}
		default:
			ed.press(k)
		}
	}
	if ed.keys.takeDrop() {
		ed.stops.behindEnter()
	}
	return *ed.done
}

// begin puts into the line what it holds already.
func (ed *editor) begin(p Prompt) {
	ed.prompt, ed.done, ed.search, ed.tab, ed.told = p, nil, nil, nil, ""
	ed.recall.on = false
	ed.offer = offer{}
	rest := ed.rest
	ed.rest = nil
	switch {
	case rest != nil && len(rest.text) > 0:
		ed.buf.begin("")
		ed.buf.to(rest.state)
		ed.whole = rest.whole
	case len(p.Offers) > 0 && !ed.keys.waiting() && !ed.term.modes.pending():
		ed.offer = offer{lines: p.Offers, open: true, drawn: time.Now()}
		ed.buf.begin(clean(p.Offers[0]))
		ed.whole = true
	default:
		ed.buf.begin(clean(p.Text))
		ed.whole = p.Text != ""
	}
}

// clean makes a text fit to be edited, row by row.
func clean(text string) string {
	rows := strings.Split(text, "\n")
	for i := range rows {
		rows[i] = writing.Clean(rows[i], writing.Screen)
	}
	return strings.Join(rows, "\n")
}

// press carries one key out.
func (ed *editor) press(k press) {
	ed.told = ""
	if ed.search != nil && ed.searches(k) {
		return
	}
	if k.seq != "\t" && k.seq != backTab {
		ed.tab = nil
	}
	if k.seq == "" {
		ed.types(k)
		return
	}
	if ed.offer.open && ed.offers(k.seq) {
		return
	}
	if do := ed.bound[k.seq]; do != nil {
		do(ed)
	}
}

// types puts in what was typed or pasted; it replaces an offer.
func (ed *editor) types(k press) {
	if ed.offer.open {
		ed.offer.open, ed.whole = false, false
		ed.buf.set("")
	}
	if k.pasted {
		ed.paste(k.text)
		return
	}
	ed.buf.insert(k.text, typingEdit)
}

// frame is the line as it is, with nothing under it.
func (ed *editor) frame() *frame {
	f := &frame{prompt: ed.prompt.Number, more: more(ed.prompt.Number), text: ed.buf.String(), at: len(ed.buf.before())}
	if ed.look.Italics {
		f.slants = ed.pad.Names(f.text)
	}
	return f
}

// draw shows the line, and what belongs under it.
func (ed *editor) draw() {
	f := ed.frame()
	columns, height := ed.term.size()
	indent := strings.Repeat(" ", len(f.prompt))
	switch {
	case ed.search != nil:
		f.below = []string{ed.search.says()}
	case ed.tab != nil:
		f.below = ed.tab.rows(columns, height-1-strings.Count(f.text, "\n")-len(f.text)/columns)
	case ed.told != "":
		f.below = []string{indent + ed.told}
	case ed.look.Preview && columns >= previewColumns && height >= previewRows && f.text != "":
		if ed.seen.text != f.text {
			ed.seen = preview{f.text, ed.pad.Preview(f.text)}
		}
		if ed.seen.says != "" {
			f.below, f.dim = []string{indent + ed.seen.says}, true
		}
	}
	ed.screen.draw(f, columns, height)
}

// more stands before the further rows of a statement, under its number.
func more(number string) string {
	return strings.Repeat(" ", max(0, len(number)-2)) + "… "
}

// leave leaves the line as it is on the screen, with nothing under it.
func (ed *editor) leave() {
	at := ed.buf.Pos()
	ed.buf.move(ed.buf.Len())
	columns, _ := ed.term.size()
	ed.screen.draw(ed.frame(), columns, 0)
	ed.screen.leave()
	ed.buf.move(at)
}

// finish ends the line.
func (ed *editor) finish(t typed) {
	ed.leave()
	ed.done = &t
}

// close gives the terminal back.
func (ed *editor) close() { ed.term.close() }
