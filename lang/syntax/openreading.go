package syntax

import "slices"

// Reading is one way to read a line, written so that it has no other.
type Reading struct {
	Text string
	// Units counts the words of units that may be names.
	Units int
	// Names are the open letters of the line that are read as names; GoesOn
	// tells that a unit goes on behind a sign.
	Names  []int
	GoesOn bool

	pick   []int   // the choice at each place of letters
	form   [2]int  // the way in which all else is read, and how many there are
	tokens []place // of the text, or nil
}

// Parse reads the line as it is written; nil if it can't be read.
func (r *Reading) Parse(rd *Reader) Stmt {
	if r.tokens == nil {
		s, _ := rd.read(r.Text, reader{silent: true})
		return s
	}
	tokens := tokensAt(rd.last.room, r.Text, r.tokens)
	rd.last = reader{text: r.Text, to: len(r.Text), known: rd.Known, room: tokens[:0], parser: rd.last.parser, scanned: tokens, reading: r}
	s, bad := rd.last.plain()
	if bad != nil {
		return nil
	}
	return s
}

// Named is the reading of a line that gives a name, with another in its place.
func (r Reading) Named(d *Define, name string) Reading {
	r.Text, r.tokens = r.Text[:d.NameAt.From]+name+r.Text[d.NameAt.To:], nil
	return r
}

// Before tells whether the same letters are grouped as print rather has them, F/(2*k) before
// (F/2)*k.
func (r *Reading) Before(o *Reading) bool {
	return slices.Equal(r.pick, o.pick) && r.form[0] < o.form[0]
}

// Meets tells whether a line that is written as another reading is open to this
// one: they are one but for letters that are units there, and may be names.
func (r *Reading) Meets(written *Reading) bool {
	if r.form != written.form || len(r.pick) != len(written.pick) {
		return false
	}
	for i, p := range written.pick {
		if r.pick[i] > p {
			return false
		}
	}
	return true
}
