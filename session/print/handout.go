package print

import (
	"strconv"

	"steelyard/lang/syntax"
	"steelyard/session/entry"
)

// What a handout shows of a worksheet: the builder asks here, and what is left out is
// told with its line and the reason.

// tell notes what the writer of a handout must know of a line.
func (b *builder) tell(e *entry.Entry, what string) {
	b.told = append(b.told, "line "+strconv.Itoa(e.Line)+": "+what)
}

// leaveOut tells that something of a line is not in the handout.
//
// Nothing is left out in silence: the writer sees which line, why, and how to keep it.
func (b *builder) leaveOut(e *entry.Entry, what, why string) {
	b.tell(e, what+" is left out of the handout: "+why+". `on handout` before the line keeps it.")
}

// hidden tells whether a line is kept out of this edition by its own words.
func (b *builder) hidden(e *entry.Entry) bool {
	audience, _ := syntax.For(e.Text)
	return b.edition == Handout && audience == syntax.KeyOnly
}

// wanted tells whether a line is put on the handout by its own words.
func wanted(e *entry.Entry) bool {
	audience, _ := syntax.For(e.Text)
	return audience == syntax.OnHandout
}

// note is prose: in a handout only what stands above the parts or directly under a
// question and its givens, since further down it explains the solution, and nothing
// that holds a result.
func (b *builder) note(e *entry.Entry, text string) {
	if b.edition == Handout && !wanted(e) {
		if b.solved {
			b.leaveOut(e, "the note", "it is below the first line of a solution")
			return
		}
		if l := b.guard().reveals(text); l != nil {
			b.leaveOut(e, "the note", "it holds "+l.String())
			return
		}
	}
	b.add(note{Text: text})
}

// meaning is what words say of a given, unless they hold a result.
func (b *builder) meaning(e *entry.Entry, text string) string {
	if b.edition == Handout && !wanted(e) {
		if l := b.guard().reveals(text); l != nil {
			b.leaveOut(e, "what words say of the given", "they hold "+l.String())
			return ""
		}
	}
	return text
}

// public tells whether a function of a part is printed on a handout: a question may
// need one that uses what is given alone, and another would be a step of the solution.
//
// The functions that are shown are known from then on, and others may use them.
func (b *builder) public(s *syntax.FuncDef, e *entry.Entry) bool {
	if b.edition == Key || wanted(e) {
		return true
	}
	for _, x := range s.Exprs() {
		if l := b.guard().reveals(syntax.PrintExpr(x)); l != nil {
			b.leaveOut(e, "the function "+s.Name, "it holds "+l.String())
			return false
		}
	}
	if b.part == nil {
		return true
	}
	for _, line := range e.Uses {
		if used := b.at(line); used != nil && !b.known(used) {
			b.leaveOut(e, "the function "+s.Name, "it uses line "+strconv.Itoa(line)+", which is part of a solution")
			return false
		}
	}
	b.shown[e.Line] = true
	return true
}

// known tells whether a line gives what a reader of the handout knows.
func (b *builder) known(e *entry.Entry) bool {
	role := syntax.RoleOf(e.Stmt)
	_, function := e.Stmt.(*syntax.FuncDef)
	return role == syntax.Given || role == syntax.Aside || b.shown[e.Line] || function && e.Line < b.first
}

// at is the entry of a line, or nil.
func (b *builder) at(line int) *entry.Entry {
	for _, e := range b.all {
		if e.Line == line {
			return e
		}
	}
	return nil
}

// question tells of a question that holds a result, or a number that may be out of
// date; it is printed as it was written.
func (b *builder) question(e *entry.Entry) {
	b.other(e, b.part.Question)
	if b.edition == Handout && !wanted(e) {
		if l := b.guard().reveals(b.part.Question); l != nil {
			b.tell(e, "the question of part "+b.part.Label+" holds "+l.String()+". `on handout` before the line says that it may.")
		}
	}
}

// axes are the blank axes of a graph, whose ends and ticks don't show results.
func (b *builder) axes(e *entry.Entry, axes *entry.Graph) {
	if l := b.guard().redraw(axes); l != nil && !wanted(e) {
		b.tell(e, "the axes have a tick at "+l.String()+".")
	}
	b.add(figure{axes})
}

// Rows of writing that an answer is left: equal for all parts, or by their points where
// there are any. Axes to draw on take some of them.
const (
	usualRoom = 8
	leastRoom = 4
	pointRoom = 3 // for each point
	mostRoom  = 16
	axesRoom  = 4
)

// room is the empty space that a part is left to answer in, with a line for each
// result that it asks for.
//
// Eight rows of handwriting are about a quarter of a page. A part that is worth more asks for more.
func (b *builder) room() room {
	lines := usualRoom
	if b.pointed {
		lines = min(leastRoom+pointRoom*max(b.part.Points, 1)-pointRoom+1, mostRoom)
	}
	for _, block := range b.part.Blocks {
		if _, axes := block.(figure); axes {
			lines = max(leastRoom, lines-axesRoom)
		}
	}
	asked := b.asked
	if len(asked) == 0 {
		for _, a := range b.concluded() {
			if n, ok := a.X.(*syntax.Name); ok { // another expression is a step of the solution
				asked = append(asked, n)
			}
		}
	}
	return room{Lines: max(leastRoom-1, lines-len(asked)), Answers: asked}
}

// hasPoints tells whether any answer of a worksheet is worth points.
func hasPoints(all []*entry.Entry) bool {
	for _, e := range all {
		if r, ok := e.Stmt.(*syntax.Report); ok && r.Points > 0 {
			return true
		}
	}
	return false
}
