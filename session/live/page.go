// Package live is a worksheet as paper: any line of it can be changed, taken out or
// put in, and what follows from it is worked out again. The text of a change goes in,
// the lines that came out otherwise come back; all that does not depend on the change
// stays as it is. It knows of no file and no terminal, so that any view can be built
// on it.
package live

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"steelyard/lang/syntax"
	"steelyard/session"
	"steelyard/session/advise"
	"steelyard/session/entry"
)

// Page is one worksheet that is being written. It is not safe for concurrent use.
type Page struct {
	*session.Pad
	done, undone []step
	drafts       bool
	trying       bool // what is offered is being tried
	failed       []Failed
}

// Failed is a line that could not be worked out and is none of the page.
type Failed struct {
	After int // the number of the line above it
	Text  string
}

// Failed are the lines that could not be worked out, in the order of their places.
func (p *Page) Failed() []Failed { return p.failed }

// fails notes a line that could not be worked out, behind those of its place.
func (p *Page) fails(after int, text string) {
	at := len(p.failed)
	for at > 0 && p.failed[at-1].After > after {
		at--
	}
	p.failed = slices.Insert(p.failed, at, Failed{After: after, Text: text})
}

// Unmended is how many of them no line below has taken the place of: it has their name, or
// holds them but for signs and brackets.
func (p *Page) Unmended() (n int) {
	bare := strings.NewReplacer(" ", "", "*", "", "·", "", "(", "", ")", "").Replace
	for _, f := range p.failed {
		name := entry.BeginsWith(f.Text)
		mends := func(e *entry.Entry) bool {
			return e.Line > f.After && (name != "" && entry.BeginsWith(e.Text) == name || strings.Contains(bare(e.Text), bare(f.Text)))
		}
		if !slices.ContainsFunc(p.Entries(), mends) {
			n++
		}
	}
	return n
}

// step is a change that can be taken back.
type step struct {
	does, undoes session.Edit
	title        *titles // nil where that stays
}

// titles are those before and after a change.
type titles struct{ was, now string }

// New returns an empty page.
func New() *Page {
	p := &Page{Pad: session.New()}
	p.Filed()
	p.Revised()
	return p
}

// Lines returns an empty page in which a line that fails is kept as an attempt that
// takes nothing away: for lines that come one after the other, with no one there to
// mend them.
func Lines() *Page {
	p := &Page{Pad: session.New(), drafts: true}
	p.Revised()
	return p
}

// Change is what became of a page.
type Change struct {
	// Edit is what was done to the lines, and Title the new title if that was changed.
	Edit  session.Edit
	Title *string
	// What says what was taken back, or done again.
	What string
	// Moved are the lines that have come out otherwise, in order.
	Moved []Moved
}

// Write is Enter for a line that is typed above, where a draft says so. One that fails
// leaves a draft of the same place; with its text where it would change a line, so that
// what is meant for the end of the page does not take its place.
func (p *Page) Write(ctx context.Context, text string, at *Draft) (*entry.Entry, Answer) {
	if at == nil {
		return p.Enter(ctx, text)
	}
	if s, _ := syntax.Parse(text); isCommand(s) {
		return p.Enter(ctx, text)
	}
	e := &entry.Entry{Line: at.Line, Text: text}
	c := &command{Page: p, ctx: ctx, e: e, cmd: &syntax.Command{}}
	place, draft := "", &Draft{Line: at.Line, Insert: true}
	if !at.Insert {
		place, draft = at.command(), &Draft{Line: at.Line, Text: text}
	}
	c.put(at, text, place)
	if !c.got.Done && (at.Insert || len(c.got.Offers) == 0) {
		c.got.Draft = draft
	}
	if moved := c.got.Change.Moved; c.got.Done {
		e = p.Entries()[at.Line-1]
		c.got.Change.Moved = slices.DeleteFunc(moved, func(m Moved) bool { return m.Entry == e })
	}
	return e, c.got
}

// Enter works a statement out as the next line, or carries a command out. A line that
// could not be worked out is no line of the page.
func (p *Page) Enter(ctx context.Context, text string) (*entry.Entry, Answer) {
	line, title := p.Next(), p.Title()
	e := p.Pad.Enter(ctx, text)
	switch cmd, asks := e.Stmt.(*syntax.Command); {
	case asks && p.Title() != title:
		now := p.Title()
		p.remember(step{title: &titles{was: title, now: now}})
		return e, Answer{Change: Change{Title: &now}, Done: true}
	case asks:
		got := p.answer(ctx, e, cmd)
		p.stands(ctx, e)
		return e, got
	case e.Failed() && !p.drafts:
		p.Pad.Undo()
		p.fails(line-1, e.Text)
		p.stands(ctx, e)
		return e, Answer{Offers: offers(e)}
	}
	got := p.entered(line, e)
	p.stands(ctx, e)
	return e, got
}

// stands drops what a line is offered that is a command and would be refused. What is no command
// has been tried when it was found.
func (p *Page) stands(ctx context.Context, e *entry.Entry) {
	if p.trying {
		return
	}
	for i := range e.Findings {
		advise.Stands(e, &e.Findings[i], func(text string) *entry.Entry {
			s, _ := syntax.Parse(text)
			if cmd, ok := s.(*syntax.Command); !ok || cmd.Word == "undo" || cmd.Word == "redo" {
				return &entry.Entry{}
			}
			return p.tried(ctx, text)
		})
	}
}

// tried carries a command out and takes it back.
func (p *Page) tried(ctx context.Context, text string) *entry.Entry {
	done, undone, failed := p.done, p.undone, slices.Clone(p.failed)
	p.trying = true
	e, _ := p.Enter(ctx, text)
	for len(p.done) > len(done) {
		p.Undo(ctx)
	}
	p.done, p.undone, p.failed, p.trying = done, undone, failed, false
	return e
}

// Add enters a line of a file, which is kept even if it fails.
func (p *Page) Add(ctx context.Context, text string) *entry.Entry {
	e := p.EnterAt(ctx, p.Next(), text)
	if !isCommand(e.Stmt) {
		p.entered(e.Line, e)
	}
	return e
}

// entered notes a line that has been entered below all others.
func (p *Page) entered(line int, e *entry.Entry) Answer {
	s := step{
		does:   session.Edit{At: line, Put: []string{e.Text}},
		undoes: session.Edit{At: line, Drop: 1},
	}
	p.remember(s)
	return Answer{Change: Change{Edit: s.does}, Done: true}
}

func (p *Page) remember(s step) { p.done, p.undone = append(p.done, s), nil }

// Change changes lines. Where the work is stopped, they stay as they were, and false
// is returned.
func (p *Page) Change(ctx context.Context, ed session.Edit) (Change, bool) {
	back := p.inverse(ed)
	c := p.revise(ctx, ed)
	if ctx.Err() != nil {
		p.revise(context.WithoutCancel(ctx), back)
		return Change{}, false
	}
	p.remember(step{does: ed, undoes: back})
	return c, true
}

// Try is what a change would come to; nothing of it is kept.
func (p *Page) Try(ctx context.Context, ed session.Edit) Change {
	back := p.inverse(ed)
	c := p.revise(ctx, ed)
	p.revise(context.WithoutCancel(ctx), back)
	return c
}

// Undo takes the last change back; false if there is none.
func (p *Page) Undo(ctx context.Context) (Change, bool) {
	return p.take(ctx, &p.done, &p.undone, func(s *step) session.Edit { return s.undoes }, func(t *titles) string { return t.was })
}

// Redo does again what was taken back last; false if there is nothing.
func (p *Page) Redo(ctx context.Context) (Change, bool) {
	return p.take(ctx, &p.undone, &p.done, func(s *step) session.Edit { return s.does }, func(t *titles) string { return t.now })
}

// take carries the last step of one list out, in one direction, and puts it on the
// other.
func (p *Page) take(ctx context.Context, from, to *[]step, lines func(*step) session.Edit, title func(*titles) string) (Change, bool) {
	last := len(*from) - 1
	if last < 0 {
		return Change{}, false
	}
	s := (*from)[last]
	*from, *to = (*from)[:last], append(*to, s)
	c := p.revise(context.WithoutCancel(ctx), lines(&s))
	if s.title != nil {
		now := title(s.title)
		p.SetTitle(now)
		c.Title = &now
	}
	c.What = s.words()
	return c, true
}

// words say what a step was.
func (s *step) words() string {
	lines := len(s.does.Texts)
	switch {
	case s.title != nil && lines == 0:
		return "the title " + s.title.now
	case len(s.does.Put) > 0:
		return fmt.Sprintf("line %d, %s", s.does.At, FirstRow(s.does.Put[0]))
	case s.does.Drop > 1:
		return fmt.Sprintf("removing lines %d to %d", s.does.At, s.does.At+s.does.Drop-1)
	case s.does.Drop > 0:
		return fmt.Sprintf("removing line %d", s.does.At)
	case lines == 1:
		for line := range s.does.Texts {
			return fmt.Sprintf("the change of line %d", line)
		}
	}
	return fmt.Sprintf("the change of %d lines", lines)
}

// inverse is the edit that takes an edit of the page as it is now back.
func (p *Page) inverse(ed session.Edit) session.Edit {
	back := session.Edit{At: ed.At, Drop: len(ed.Put), Texts: map[int]string{}}
	from := max(ed.At-1, 0) // where nothing is put in or taken out, At is 0
	for _, e := range p.Entries()[from : from+ed.Drop] {
		back.Put = append(back.Put, e.Text)
	}
	for line := range ed.Texts {
		now := line
		if line >= ed.At+ed.Drop {
			now += len(ed.Put) - ed.Drop
		}
		back.Texts[now] = p.Entries()[line-1].Text
	}
	return back
}

// revise changes lines and compares what came out.
func (p *Page) revise(ctx context.Context, ed session.Edit) Change {
	c := Change{Edit: ed}
	for i := range p.failed {
		switch f := &p.failed[i]; {
		case f.After >= ed.At+ed.Drop:
			f.After += len(ed.Put) - ed.Drop
		case f.After >= ed.At:
			f.After = ed.At - 1
		}
	}
	p.Revise(ctx, ed, func(a session.Anew) {
		if m, tells := compare(a); tells {
			c.Moved = append(c.Moved, m)
		}
	})
	return c
}

// texts are the statements of the page.
func (p *Page) texts() []string {
	out := make([]string, 0, len(p.Entries()))
	for _, e := range p.Entries() {
		out = append(out, e.Text)
	}
	return out
}

// Sheet makes the page one of these statements, in whatever way they differ from those
// that it has: what begins and ends alike stays.
func (p *Page) Sheet(ctx context.Context, texts []string) (Change, bool) {
	old := p.texts()
	from := 0
	for from < len(old) && from < len(texts) && old[from] == texts[from] {
		from++
	}
	same := 0
	for same < min(len(old), len(texts))-from && old[len(old)-1-same] == texts[len(texts)-1-same] {
		same++
	}
	return p.Change(ctx, session.Edit{At: from + 1, Drop: len(old) - same - from, Put: slices.Clone(texts[from : len(texts)-same])})
}
