package syntax

// trail is how far a reading of a line was read step by step, for the reading after it: that begins
// with the same tokens, as a rule, and is read on from where they differ. What is read of them is
// then a part of both trees.
//
// The readings of 2m*3s*4g differ from one to the next in their last letter most often, since they
// are made in this order.
type trail struct {
	line   *tokenLine
	text   string
	places []place
	steps  []step
}

// step is what has been read before the token at a place.
type step struct {
	partial
	next int
}

// add notes what has been read.
func (t *trail) add(read partial) { t.steps = append(t.steps, step{read, t.line.at}) }

// begin goes on to a reading, and returns what has been read of it already: nothing if ok is false.
func (t *trail) begin(text string, places []place) (last step, ok bool) {
	n := 0 // tokens that are the same
	for n < min(len(places), len(t.places)) && places[n] == t.places[n] && text[places[n].from:places[n].to] == t.text[places[n].from:places[n].to] {
		n++
	}
	k := len(t.steps)
	for k > 0 && t.steps[k-1].next >= n { // the token that is next is looked at, too
		k--
	}
	t.text, t.places, t.steps = text, places, t.steps[:k]
	if k == 0 {
		return last, false
	}
	last, t.steps = t.steps[k-1], t.steps[:k-1] // it is noted again
	return last, true
}
