package repl

import (
	"sync/atomic"
	"time"

	"github.com/chzyer/readline"
)

// settle is how long an Enter does not take an offer that has just been drawn: it was
// meant for what stood there before.
const settle = 150 * time.Millisecond

// The runes that stand for what a key does with an offer. The listener takes them out of
// the line again.
const (
	nothingRune = '\uF8F2' // a key that does nothing
	swapRune    = '\uF8F3' // another offer
	emptyRune   = '\uF8F4' // Esc
)

// offer is a line that the prompt holds ready, with others to choose from. Until it is
// edited, Enter takes it, Tab and Up show another, Esc empties it and what is typed
// replaces it.
type offer struct {
	lines []string
	at    int
	drawn time.Time
	// open tells that it has not been edited yet. The keys are read elsewhere than
	// they are carried out.
	open     atomic.Bool
	replaces bool // the key that is carried out replaces it
}

// draws begins a line with the first offer, if there is one and no key waits that was
// typed before it could be seen.
func (o *offer) draws(pending bool) (string, bool) {
	o.at, o.drawn = 0, time.Now()
	o.open.Store(len(o.lines) > 0 && !pending)
	if !o.open.Load() {
		return "", false
	}
	return o.lines[0], true
}

// key is what a key comes to where an offer is at hand. Lines that are pasted come with
// an Enter, which does not take it: it is open still then.
func (o *offer) key(r rune, pasted func() bool) rune {
	if !o.open.Load() {
		if r == emptyRune {
			return nothingRune
		}
		return r
	}
	switch r {
	case readline.CharEnter, readline.CharCtrlJ:
		switch {
		case pasted():
			return r
		case time.Since(o.drawn) < settle:
			return nothingRune
		}
	case readline.CharTab:
		o.at = (o.at + 1) % len(o.lines)
		return swapRune
	case readline.CharPrev:
		o.at = (o.at + len(o.lines) - 1) % len(o.lines)
		return swapRune
	case nothingRune:
		return r
	}
	o.open.Store(false)
	o.replaces = r >= ' ' && (r < '\uE000' || r > '\uF8FF' || r == pasteRune) && r != readline.CharBackspace
	return r
}

// edits is the line after a key, and whether it is another than the editor's.
func (o *offer) edits(line []rune, pos int, key rune) ([]rune, int, bool) {
	switch key {
	case swapRune:
		line = []rune(inOneRow(o.lines[o.at]))
		return line, len(line), true
	case emptyRune:
		return []rune{}, 0, true
	case nothingRune:
		if pos == 0 {
			return line, pos, false
		}
		return append(line[:pos-1:pos-1], line[pos:]...), pos - 1, true
	}
	if o.replaces {
		o.replaces = false
		return []rune{key}, 1, true
	}
	return line, pos, false
}
