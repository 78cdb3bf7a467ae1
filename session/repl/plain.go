package repl

import (
	"io"
	"strings"

	"github.com/mattn/go-runewidth"
)

// plainDrawing shows frames by what is typed alone, with no sequence of control but
// going back a character: for terminals that know none, and for readers of the screen.
// What can't be shown so is told on another row.
type plainDrawing struct {
	to    io.Writer
	shown *frame
	out   strings.Builder
}

// draw implements drawing.
func (p *plainDrawing) draw(f *frame, columns, _ int) {
	was := p.shown
	now := *f
	p.shown = &now
	switch {
	case was == nil:
		p.whole(f)
	case len(f.below) > 0 && strings.Join(was.below, "\n") != strings.Join(f.below, "\n"):
		p.out.WriteString("\n" + strings.Join(f.below, "\n") + "\n")
		p.whole(f)
	case was.at == len(was.text) && f.at == len(f.text) && strings.HasPrefix(f.text, was.text):
		p.rows(f, f.text[len(was.text):])
	case was.text != f.text || was.at != f.at:
		if !p.within(was, f, columns) {
			p.out.WriteString("\n")
			p.whole(f)
		}
	}
	p.flush()
}

// whole shows all of a frame on a row of its own.
func (p *plainDrawing) whole(f *frame) {
	p.out.WriteString(f.prompt)
	p.rows(f, f.text)
	p.back(f.text[f.at:])
}

func (p *plainDrawing) rows(f *frame, text string) {
	p.out.WriteString(strings.ReplaceAll(text, "\n", "\n"+f.more))
}

// within changes the last row in its place, if all that changes is there and it is no
// longer than the screen is wide.
func (p *plainDrawing) within(was, now *frame, columns int) bool {
	same := 0
	for same < min(len(was.text), len(now.text)) && was.text[same] == now.text[same] {
		same++
	}
	for same > 0 && same < len(now.text) && now.text[same]&0xc0 == 0x80 {
		same--
	}
	start := strings.LastIndexByte(was.text, '\n') + 1
	head := runewidth.StringWidth(now.more)
	if start == 0 {
		head = runewidth.StringWidth(now.prompt)
	}
	if strings.LastIndexByte(now.text, '\n')+1 != start || min(same, was.at, now.at) < start ||
		head+max(runewidth.StringWidth(was.text[start:]), runewidth.StringWidth(now.text[start:])) >= columns {
		return false
	}
	if was.at < same {
		p.out.WriteString(was.text[was.at:same])
	} else {
		p.back(was.text[same:was.at])
	}
	p.out.WriteString(now.text[same:])
	blank := strings.Repeat(" ", max(0, runewidth.StringWidth(was.text[same:])-runewidth.StringWidth(now.text[same:])))
	p.out.WriteString(blank)
	p.back(now.text[now.at:] + blank)
	return true
}

// back goes back over a text.
func (p *plainDrawing) back(text string) {
	if !strings.Contains(text, "\n") {
		p.out.WriteString(strings.Repeat("\b", runewidth.StringWidth(text)))
	}
}

// flush sends what was written. A terminal that is gone needs nothing.
func (p *plainDrawing) flush() {
	_, _ = io.WriteString(p.to, p.out.String())
	p.out.Reset()
}

// leave implements drawing.
func (p *plainDrawing) leave() {
	if p.shown != nil {
		p.out.WriteString("\n")
		p.flush()
	}
	p.forget()
}

// erase implements drawing: nothing can be taken back here.
func (p *plainDrawing) erase() { p.leave() }

// forget implements drawing.
func (p *plainDrawing) forget() { p.shown = nil }
