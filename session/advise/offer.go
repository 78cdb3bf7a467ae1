package advise

import (
	"slices"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
)

// maxTries bounds how often a reading is put right before it is offered, and maxOffers
// how many are offered.
const (
	maxTries  = 3
	maxOffers = 3
)

// offer is a reading that has been tried.
type offer struct {
	text  string
	lines []string // whole lines instead of it, since it can be read in several ways
	mend  bool     // it was put right
	// unknown tells that a name in it has no value.
	unknown bool
	value   *entry.Value
}

// Enter works a text out as if it were the line, and leaves no trace. Of several statements
// it is the last, or the first that fails.
type Enter func(text string) *entry.Entry

// Readings tries the readings that the first n findings of an entry offer, and puts them right.
// Those of the others come as they are, or not at all.
//
// An offer that is refused in its turn sends a person round in a circle, so none is shown that
// has not been entered on trial.
func Readings(e *entry.Entry, n int, enter Enter) {
	for i := range e.Findings[n:] {
		f := &e.Findings[n+i]
		f.Readings = slices.DeleteFunc(f.Readings, func(reading string) bool {
			if f.At.To > len(e.Text) {
				return false
			}
			bad, _ := enter(e.Text[:f.At.From] + reading + e.Text[f.At.To:]).Refusal()
			return bad != nil
		})
	}
	for i := range n {
		offers(e, &e.Findings[i], enter)
	}
}

// offers tries every reading of a finding in the place of what it stands for, and
// keeps those that are not refused there. One in which something else is to be put
// right is replaced by the text put right; one that can itself be read in several
// ways by the lines that say which. Those with a name that has no value come only where
// there are no others. Where the line stands, or its value does, a hint of which nothing
// is kept goes too, unless something else is wrong as well.
func offers(e *entry.Entry, f *finding.Finding, enter Enter) {
	if len(f.Readings)+len(f.Lines) == 0 || f.At.To > len(e.Text) || f.At.From > f.At.To {
		return
	}
	hinted := len(f.Readings) == 0 || slices.ContainsFunc(f.Readings, func(r string) bool { return strings.Contains(f.Hint, r) })
	f.Lines = slices.DeleteFunc(f.Lines, func(line string) bool {
		bad, _ := enter(line).Refusal()
		return bad != nil
	})
	inPlace(e, f, enter)
	if len(f.Lines) == 0 && hinted && f.Severity != finding.Error && e.Refusals() <= 1 {
		f.Hint = ""
	}
}

// inPlace tries the readings of a finding in the place of what it stands for.
func inPlace(e *entry.Entry, f *finding.Finding, enter Enter) {
	var kept []offer
	part := f.At
	for _, reading := range f.Readings {
		f.At, reading = syntax.InPlace(e.Text, part, reading)
		o, ok := try(e, f.At, reading, enter)
		if !ok || o.mend && saidBefore(kept, o) || slices.ContainsFunc(kept, func(k offer) bool { return k.text == o.text }) {
			continue
		}
		kept = append(kept, o)
	}
	if slices.ContainsFunc(kept, func(o offer) bool { return !o.unknown }) {
		kept = slices.DeleteFunc(kept, func(o offer) bool { return o.unknown })
	}
	head, tail := e.Text[:f.At.From], e.Text[f.At.To:]
	f.Readings = nil
	for _, o := range kept {
		if o.lines == nil {
			f.Readings = append(f.Readings, o.text)
			o.lines = []string{head + o.text + tail}
		}
		for _, line := range o.lines {
			if !slices.Contains(f.Lines, line) {
				f.Lines = append(f.Lines, line)
			}
		}
	}
	f.Lines = f.Lines[:min(len(f.Lines), maxOffers)]
}

// saidBefore tells whether one of the offers has the value of another.
//
// Two ways to put a line right that give the same value are one to whoever chooses.
func saidBefore(before []offer, o offer) bool {
	return slices.ContainsFunc(before, func(b offer) bool {
		return b.value != nil && o.value != nil && b.value.SI == o.value.SI && b.value.Dim == o.value.Dim
	})
}

// try enters a statement with a reading in its place and takes it back; false if it
// is refused there. Slips elsewhere on the line are put right with it.
func try(e *entry.Entry, at finding.Span, reading string, enter Enter) (offer, bool) {
	o := offer{text: reading}
	text, elsewhere := e.Text[:at.From]+reading+e.Text[at.To:], false
	if parts := syntax.StatementsOf(reading); len(parts) > 1 {
		return several(parts, enter)
	}
	for range maxTries {
		got := enter(text)
		bad, unknown := got.Refusal()
		if _, command := got.Stmt.(*syntax.Command); command && bad == nil {
			return o, true // never stored
		}
		if bad == nil {
			o.unknown = unknown
			if all := got.Values(); len(all) > 0 {
				o.value = &all[0]
			}
			if elsewhere {
				o.lines = []string{text}
			}
			return o, true
		}
		switch {
		case bad.At == finding.Span{To: len(text)} && len(bad.Readings) > 0, len(bad.Readings) > 1 && (bad.ID == finding.TwoReadings || bad.ID == finding.NotWritten):
			for _, r := range bad.Readings {
				line := text[:bad.At.From] + r + text[bad.At.To:]
				if refused, _ := enter(line).Refusal(); refused == nil {
					o.lines = append(o.lines, line)
				}
			}
			return o, len(o.lines) > 0
		case len(bad.Readings) != 1 || bad.At.To > len(text) || bad.ID == finding.UnknownUnit:
			return o, false
		}
		part, mended := syntax.InPlace(text, bad.At, bad.Readings[0])
		elsewhere = elsewhere || part.From < at.From || len(text)-part.To < len(e.Text)-at.To
		text = text[:part.From] + mended + text[part.To:]
		if o.mend = true; !elsewhere {
			o.text = text[at.From : len(text)-(len(e.Text)-at.To)]
		}
	}
	return o, false
}

// several tries statements one after the other, each put right below those before it. Where one
// can be read in several ways, there are as many offers.
//
// m = 2 kg and F = mg are two lines of which the second needs the first, so each is tried below
// those before it.
func several(parts []string, enter Enter) (o offer, ok bool) {
	ways := []string{""}
	for i, part := range parts {
		below := func(text string) *entry.Entry {
			return enter(strings.Join(append(slices.Clone(parts[:i]), text), "\n"))
		}
		one, ok := try(&entry.Entry{Text: part}, finding.Span{To: len(part)}, part, below)
		if !ok {
			return o, false
		}
		lines := one.lines
		if len(lines) == 0 {
			lines = []string{one.text}
		}
		parts[i], o.unknown = lines[0], o.unknown || one.unknown
		var next []string
		for _, way := range ways {
			for _, line := range lines {
				next = append(next, strings.TrimPrefix(way+"\n"+line, "\n"))
			}
		}
		ways = next
	}
	if o.text = ways[0]; len(ways) > 1 {
		o.lines = ways
	}
	return o, true
}
