package session

import (
	"context"
	"slices"

	"steelyard/lang/finding"
	"steelyard/lang/limit"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/reading"
)

// Several are the statements that a text is entered as, each as a line: one, but where a
// line is none and holds several, of which each is accepted without a finding.
func (p *Pad) Several(ctx context.Context, text string) []string {
	defer p.within(ctx, limit.Steps)()
	if lines := reading.Several(p.page, syntax.AsStored(text), p.accepts); lines != nil {
		return lines
	}
	return []string{text}
}

// accepts is the last of statements that are entered one after the other, and taken back;
// nil where one has a finding but notes.
func (p *Pad) accepts(lines ...string) (e *entry.Entry) {
	before := len(p.page.Entries)
	trying, free, asks := p.trying, p.free, p.asks
	p.trying, p.free, p.asks = true, false, false
	for _, text := range lines {
		e = p.enter(p.mark(), p.Next(), text, nil)
		if _, command := e.Stmt.(*syntax.Command); command || slices.ContainsFunc(e.Findings, func(f finding.Finding) bool { return f.Severity < finding.Note }) {
			e = nil
			break
		}
	}
	for len(p.page.Entries) > before {
		p.Undo()
	}
	p.trying, p.free, p.asks = trying, free, asks
	return e
}
