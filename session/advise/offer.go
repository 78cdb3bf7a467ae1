package advise

import (
	"slices"

	"steelyard/lang/finding"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
)

// The ranks of a reading once it has been tried in its place.
const (
	reads   = iota // it can be read and worked out
	unlike         // its dimension does not fit there
	unknown        // a name or a unit in it is not known
	broken         // it can't be read
)

// maxTries bounds how often a reading is put right before it is offered.
const maxTries = 3

// offer is a reading that has been tried.
type offer struct {
	text  string
	rank  int
	mend  bool // it was put right
	value *entry.Value
}

// Enter works a text out as if it were the line, and leaves no trace.
type Enter func(text string) *entry.Entry

// Readings tries the readings that the first n findings of an entry offer.
func Readings(e *entry.Entry, n int, enter Enter) {
	for i := range n {
		offers(e, &e.Findings[i], enter)
	}
}

// offers tries every reading of a finding in the place of what it stands for,
// and keeps the best: a reading offered must itself read. A reading in which
// something else is to be put right is replaced by the text put right.
func offers(e *entry.Entry, f *finding.Finding, enter Enter) {
	if len(f.Readings) == 0 || f.Severity != finding.Error || f.At.To > len(e.Text) || f.At.From > f.At.To {
		return
	}
	all, best := make([]offer, len(f.Readings)), broken
	for i, reading := range f.Readings {
		all[i] = try(e, f.At, reading, enter)
		best = min(best, all[i].rank)
	}
	if best == broken {
		return
	}
	var kept []string
	for i, o := range all {
		if o.rank == best && !slices.Contains(kept, o.text) && !(o.mend && saidBefore(all[:i], o)) {
			kept = append(kept, o.text)
		}
	}
	f.Readings = kept
}

// saidBefore tells whether one of the offers has the value of another.
func saidBefore(before []offer, o offer) bool {
	for _, b := range before {
		if b.value != nil && o.value != nil && b.value.SI == o.value.SI && b.value.Dim == o.value.Dim {
			return true
		}
	}
	return false
}

// try enters a statement with a reading in its place and takes it back.
func try(e *entry.Entry, at syntax.Span, reading string, enter Enter) offer {
	mended := false
	for range maxTries {
		text := e.Text[:at.From] + reading + e.Text[at.To:]
		got := enter(text)
		if _, ok := got.Stmt.(*syntax.Command); ok {
			return offer{text: reading, rank: reads} // never stored
		}
		bad, rank := faultIn(got, at.From, at.From+len(reading))
		o := offer{text: reading, rank: rank, mend: mended}
		if all := got.Values(); len(all) > 0 {
			o.value = &all[0]
		}
		if bad == nil || len(bad.Readings) != 1 || bad.ID == finding.UnknownName || bad.ID == finding.UnknownUnit {
			return o
		}
		from, to := bad.At.From-at.From, bad.At.To-at.From
		reading, mended = reading[:from]+bad.Readings[0]+reading[to:], true
	}
	return offer{text: reading, rank: broken}
}

// faultIn finds what is wrong in a part of an entry, and ranks it.
func faultIn(e *entry.Entry, from, to int) (*finding.Finding, int) {
	for i := range e.Findings {
		f := &e.Findings[i]
		if f.Severity > finding.Mismatch || f.At.To < from || f.At.From > to || f.At.From == f.At.To && f.At.To == from {
			continue
		}
		rank := unknown
		switch {
		case f.Severity == finding.Mismatch:
			rank = unlike
		case e.Stmt == nil:
			rank = broken
		case f.ID == finding.NotWorkedOut:
			rank = reads
		}
		if f.At.From < from || f.At.To > to {
			return nil, rank
		}
		return f, rank
	}
	return nil, reads
}
