package repl

import (
	"errors"
	"io"
	"os"
	"slices"
	"strings"
	"sync/atomic"
	"time"
	"unicode/utf8"

	"github.com/chzyer/readline"

	"steelyard/units/writing"
)

// lineBreak stands for the end of a line within a statement of several lines
// while it is edited in one row.
const lineBreak = "↵"

// errAbandoned says that the line was dropped by Ctrl-C; errLeave that Ctrl-D
// was typed on an empty line; errGone that nothing will be typed any more.
var (
	errAbandoned = errors.New("abandoned")
	errLeave     = errors.New("leave")
	errGone      = errors.New("gone")
)

// editor is the one place that knows the library for editing a line.
type editor struct {
	rl     *readline.Instance
	keys   *keyReader
	in     *input
	stops  *interrupts
	tty    *os.File // that keys come from
	out    *os.File
	length atomic.Int32 // characters in the line being edited
	offer  offer        // what the line holds ready
	given  string       // what it holds to be edited
}

// completer answers what may stand at a place in a line.
type completer func(text string, at int) (from int, candidates []string)

// newEditor prepares the terminal.
func newEditor(in, out *os.File, complete completer) (*editor, error) {
	ed := &editor{tty: in, out: out}
	ed.in = newInput(in)
	ed.stops = &interrupts{in: ed.in}
	ed.keys = &keyReader{in: ed.in, stop: ed.stops.behindEnter, offered: ed.offer.open.Load}
	cfg := &readline.Config{
		Stdin:                  ed.keys,
		Stdout:                 out,
		Stderr:                 out,
		AutoComplete:           completion(complete),
		DisableAutoSaveHistory: true,
		HistoryLimit:           historyMost,
		HistorySearchFold:      true,
		InterruptPrompt:        "\n",
		EOFPrompt:              "\n",
		FuncFilterInputRune:    ed.filter,
		ForceUseInteractive:    true,
	}
	cfg.SetListener(func(line []rune, pos int, key rune) ([]rune, int, bool) {
		switch {
		case key == 0 && line == nil:
			ed.begins()
			return nil, 0, false
		case key == readline.CharEnter, key == readline.CharCtrlJ, key == readline.CharInterrupt:
			return nil, 0, false // the line has been handed over
		}
		line, pos, other := ed.offer.edits(line, pos, key)
		if at := slices.Index(line, pasteRune); at >= 0 {
			piece := []rune(ed.keys.takePiece())
			line, pos, other = slices.Concat(line[:at], piece, line[at+1:]), at+len(piece), true
		}
		ed.length.Store(int32(len(line)))
		return line, pos, other
	})
	rl, err := readline.NewEx(cfg)
	if err != nil {
		return nil, err
	}
	ed.rl = rl
	// Ask the terminal to mark what is pasted.
	io.WriteString(out, "\x1b[?2004h")
	return ed, nil
}

// begins puts into the line what it holds already, once the terminal hands on each key.
func (ed *editor) begins() {
	text := inOneRow(ed.given)
	if ready, ok := ed.offer.draws(pending(ed.tty)); ok {
		text = inOneRow(ready)
	}
	ed.length.Store(int32(utf8.RuneCountInString(text)))
	if text != "" {
		ed.rl.Operation.SetBuffer(text)
	}
}

// filter keeps the Delete key from leaving the program on an empty line.
func (ed *editor) filter(r rune) (rune, bool) {
	if r != deleteRune {
		does := ed.offer.key(r, ed.keys.hasPasted)
		if does == nothingRune {
			ed.rl.Terminal.KickRead() // behind Enter it waits to be asked
		}
		return does, true
	}
	ed.offer.open.Store(false)
	return readline.CharDelete, ed.length.Load() > 0
}

// remember adds a statement to what the arrow keys and Ctrl-R find.
func (ed *editor) remember(statement string) {
	// The store in memory has no failure to report.
	_ = ed.rl.SaveHistory(inOneRow(statement))
}

// inOneRow is a statement as it is edited.
func inOneRow(statement string) string {
	return writing.Clean(strings.ReplaceAll(statement, "\n", lineBreak), writing.Screen)
}

// line reads one line, which may hold something already, and the whole lines that were
// pasted after it.
func (ed *editor) line(p Prompt) (string, []string, error) {
	ed.rl.SetPrompt(p.Number)
	ed.given, ed.offer.lines = p.Text, p.Offers
	ed.stops.prompt()
	text, err := ed.rl.Readline()
	if ed.offer.open.Swap(false) {
		text = "" // lines were pasted in its place
	}
	switch {
	case ed.in.ended.Load():
		// What was being typed is no statement: Enter was never pressed.
		return "", nil, errGone
	case errors.Is(err, readline.ErrInterrupt):
		ed.keys.takePasted()
		return "", nil, errAbandoned
	case err != nil:
		return "", nil, errLeave
	}
	return strings.ReplaceAll(text, lineBreak, "\n"), ed.keys.takePasted(), nil
}

// close gives the terminal back. The library may wait for input that never
// comes, so it is not waited for.
func (ed *editor) close() {
	io.WriteString(ed.out, "\x1b[?2004l")
	done := make(chan struct{})
	go func() {
		ed.rl.Close()
		close(done)
	}()
	select {
	case <-done:
	case <-time.After(200 * time.Millisecond):
	}
}

// completion adapts a completer to the library: it wants the rest of each
// candidate, and how many characters of it are typed already.
type completion completer

// Do answers the Tab key.
func (c completion) Do(line []rune, pos int) ([][]rune, int) {
	if c == nil {
		return nil, 0
	}
	text := strings.ReplaceAll(string(line), lineBreak, "\n")
	at := len(strings.ReplaceAll(string(line[:pos]), lineBreak, "\n"))
	from, candidates := c(text, at)
	if from < 0 || from > at {
		return nil, 0
	}
	typed := text[from:at]
	var rests [][]rune
	for _, word := range candidates {
		if rest, ok := strings.CutPrefix(word, typed); ok && rest != "" && !strings.ContainsFunc(rest, writing.Escaped) {
			rests = append(rests, []rune(rest))
		}
	}
	return rests, utf8.RuneCountInString(typed)
}
