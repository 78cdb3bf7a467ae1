package repl

import (
	"strings"
	"unicode/utf8"
)

// recall goes through the statements that were entered before.
type recall struct {
	all []string

	on     bool // one of them is shown
	at     int
	prefix string // they begin with it
	kept   state  // what stood there before
	shown  string
}

// remember adds a statement; one that stands last already is not added.
func (r *recall) remember(text string) {
	if isText(text) && (len(r.all) == 0 || r.all[len(r.all)-1] != text) {
		r.all = append(r.all, clean(text))
	}
}

// find looks for the next statement that will do, from a place in a direction; -1 if
// there is none.
func (r *recall) find(from, by int, will func(string) bool) int {
	for i := from; i >= 0 && i < len(r.all); i += by {
		if will(r.all[i]) {
			return i
		}
	}
	return -1
}

// up goes a row up, and from the first to a statement above that begins with what stands
// to the left of the cursor.
func (ed *editor) up() { ed.through(-1) }

// down goes the other way, and in the end back to what was being typed.
func (ed *editor) down() { ed.through(1) }

func (ed *editor) through(by int) {
	if ed.buf.row(by) {
		return
	}
	r, now := &ed.recall, ed.buf.String()
	if r.on = r.on && r.shown == now; !r.on {
		if by > 0 {
			return
		}
		r.on, r.at, r.prefix, r.kept = true, len(r.all), ed.buf.before(), ed.buf.state()
	}
	at := r.find(r.at+by, by, func(s string) bool { return strings.HasPrefix(s, r.prefix) && s != now })
	switch {
	case at >= 0:
		r.at = at
		ed.buf.set(r.all[at])
		ed.whole = true
	case by > 0:
		r.at = len(r.all)
		ed.buf.set("")
		ed.buf.to(r.kept)
	}
	r.shown = ed.buf.String()
}

// search looks for a statement that has a piece of text.
type search struct {
	piece string
	by    int // -1 above the one that is shown, 1 below
	at    int
	fails bool
	kept  state
}

// says is the row under the line.
func (s *search) says() string {
	where := map[int]string{-1: "above", 1: "below"}[s.by]
	if s.fails {
		return "nothing " + where + " has: " + s.piece
	}
	return "search " + where + ": " + s.piece
}

// searchFrom begins a search from the line that is shown.
func (ed *editor) searchFrom(by int) {
	ed.search = &search{by: by, at: len(ed.recall.all), kept: ed.buf.state()}
	if r := &ed.recall; r.on && r.shown == ed.buf.String() {
		ed.search.at = r.at
	}
	ed.offer.open = false
}

// searches carries out a key of a search, and tells whether it was one.
func (ed *editor) searches(k press) bool {
	s := ed.search
	switch {
	case k.seq == "" && !strings.Contains(k.text, "\n"):
		s.piece += k.text
		ed.seek(s.at)
	case k.seq == "\x7f" || k.seq == "\x08":
		_, n := utf8.DecodeLastRuneInString(s.piece)
		s.piece = s.piece[:len(s.piece)-n]
		ed.seek(s.at)
	case k.seq == "\x12":
		s.by = -1
		ed.seek(s.at - 1)
	case k.seq == "\x13":
		s.by = 1
		ed.seek(s.at + 1)
	case k.seq == "\x07":
		ed.buf.to(s.kept)
		ed.search = nil
	case k.seq == escKey:
		ed.search = nil
	default:
		ed.search = nil
		return false
	}
	return true
}

// seek shows the next statement from a place on that has the piece.
func (ed *editor) seek(from int) {
	s, r := ed.search, &ed.recall
	if s.piece == "" {
		return
	}
	piece := strings.ToLower(s.piece)
	at := r.find(max(0, min(from, len(r.all)-1)), s.by, func(t string) bool { return strings.Contains(strings.ToLower(t), piece) })
	if s.fails = at < 0 || from < 0; s.fails {
		return
	}
	s.at = at
	ed.buf.set(r.all[at])
	text := strings.ToLower(r.all[at])
	ed.buf.move(len([]rune(text[:strings.Index(text, piece)])))
	ed.whole = true
	r.on, r.at, r.prefix, r.kept, r.shown = true, at, "", s.kept, r.all[at]
}
