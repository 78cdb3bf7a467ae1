package repl

import "time"

// settle is how long an Enter does not take an offer that has just been drawn: it was
// meant for what stood there before.
const settle = 150 * time.Millisecond

// offer is a line that the prompt holds ready, with others to choose from. Until it is
// edited, Enter takes it, Tab and Up show another, Esc empties it and what is typed
// replaces it.
type offer struct {
	lines []string
	at    int
	drawn time.Time
	open  bool // it has not been edited yet
}

// offers carries a key out that means the offer as a whole, and tells whether it does.
// Any other key edits it.
func (ed *editor) offers(seq string) bool {
	o := &ed.offer
	switch by := 1; seq {
	case "\x1b[A", "\x1bOA", "\x10", backTab:
		by = len(o.lines) - 1
		fallthrough
	case "\t", "\x1b[B", "\x1bOB", "\x0e":
		o.at = (o.at + by) % len(o.lines)
		ed.buf.begin(clean(o.lines[o.at]))
		return true
	case "\r", "\n":
		if time.Since(o.drawn) < settle {
			return true
		}
	case escKey:
		ed.buf.set("")
		o.open = false
		return true
	}
	o.open = seq == dropKey
	return false
}
