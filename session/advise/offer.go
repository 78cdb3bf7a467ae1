package advise

import (
	"cmp"
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
	value *entry.Value
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
		Stands(e, &e.Findings[n+i], enter)
	}
	for i := range n {
		offers(e, &e.Findings[i], enter)
	}
}

// Stands drops what a finding offers that is refused when it is entered.
func Stands(e *entry.Entry, f *finding.Finding, enter Enter) {
	var why *finding.Finding
	refused := func(line string) bool {
		bad := enter(line).Refusal()
		why = cmp.Or(why, bad)
		return bad != nil
	}
	f.Lines = slices.DeleteFunc(f.Lines, refused)
	f.Readings = slices.DeleteFunc(f.Readings, func(reading string) bool {
		return f.At.To <= len(e.Text) && refused(e.Text[:f.At.From]+reading+e.Text[f.At.To:])
	})
	firstGiven(e, f, why)
}

// firstGiven says with a finding of which no offer is left which name needs a value first: what
// is offered otherwise can be typed then.
func firstGiven(e *entry.Entry, f, why *finding.Finding) {
	isUnknown := func(o finding.Finding) bool { return o.ID == finding.UnknownName }
	if why == nil || !isUnknown(*why) || f.Severity > finding.Mismatch || len(f.Offers()) > 0 || isUnknown(*f) || slices.ContainsFunc(e.Findings, isUnknown) {
		return
	}
	hint, _, _ := strings.Cut(why.Hint, ". ")
	if !strings.HasSuffix(hint, "?") {
		hint = strings.TrimSuffix(hint, ".") + "."
	}
	f.Hint = strings.TrimSpace(f.Hint + " " + why.Message + " " + hint)
}

// offers tries every reading of a finding in the place of what it stands for, and
// keeps those that are not refused there. One in which something else is to be put
// right is replaced by the text put right; one that can itself be read in several
// ways by the lines that say which. Where the line stands, or its value does, a hint of which nothing
// is kept goes too, unless something else is wrong as well.
func offers(e *entry.Entry, f *finding.Finding, enter Enter) {
	if len(f.Readings)+len(f.Lines) == 0 || f.At.To > len(e.Text) || f.At.From > f.At.To {
		return
	}
	hinted := len(f.Readings) == 0 || slices.ContainsFunc(f.Readings, func(r string) bool { return strings.Contains(f.Hint, r) })
	f.Lines = slices.DeleteFunc(f.Lines, func(line string) bool { return enter(line).Refusal() != nil })
	was := f.Readings
	why := inPlace(e, f, enter)
	for _, r := range was { // what the hint says to write may have been put right, or be refused
		if !slices.Contains(f.Readings, r) {
			f.Hint = strings.TrimSpace(strings.Replace(f.Hint, "Write `"+strings.ReplaceAll(r, "\n", "` and then `")+"`.", "", 1))
		}
	}
	if len(f.Lines) == 0 && hinted && f.Severity != finding.Error && e.Refusals() <= 1 {
		f.Hint = ""
	}
	firstGiven(e, f, why)
}

// inPlace tries the readings of a finding in the place of what it stands for. Why is what the
// first is refused for.
func inPlace(e *entry.Entry, f *finding.Finding, enter Enter) (why *finding.Finding) {
	var kept []offer
	part := f.At
	for _, reading := range f.Readings {
		f.At, reading = syntax.InPlace(e.Text, part, reading)
		o, bad := try(e, f, reading, enter)
		why = cmp.Or(why, bad)
		if bad != nil || o.mend && saidBefore(kept, o) || slices.ContainsFunc(kept, func(k offer) bool { return k.text == o.text }) {
			continue
		}
		kept = append(kept, o)
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
	return why
}

// saidBefore tells whether one of the offers has the value of another.
//
// Two ways to put a line right that give the same value are one to whoever chooses.
func saidBefore(before []offer, o offer) bool {
	return slices.ContainsFunc(before, func(b offer) bool {
		return b.value != nil && o.value != nil && b.value.SI == o.value.SI && b.value.Dim == o.value.Dim
	})
}

// try enters a statement with a reading in the place of a finding and takes it back. Slips
// elsewhere on the line are put right with it, names only with another name: v2 is not put in
// for u2 where a sign is missing. Bad is what it is refused for.
func try(e *entry.Entry, f *finding.Finding, reading string, enter Enter) (o offer, bad *finding.Finding) {
	o.text = reading
	at, elsewhere := f.At, false
	text := e.Text[:at.From] + reading + e.Text[at.To:]
	if parts := syntax.StatementsOf(reading); len(parts) > 1 {
		return several(parts, enter)
	}
	for range maxTries {
		got := enter(text)
		bad = got.Refusal()
		if _, command := got.Stmt.(*syntax.Command); command && bad == nil {
			return o, nil // never stored
		}
		if bad == nil {
			if all := got.Values(); len(all) > 0 {
				o.value = &all[0]
			}
			if elsewhere {
				o.lines = []string{text}
			}
			return o, nil
		}
		switch {
		case bad.At == finding.Span{To: len(text)} && len(bad.Readings) > 0, len(bad.Readings) > 1 && (bad.ID == finding.TwoReadings || bad.ID == finding.NotWritten):
			for _, r := range bad.Readings {
				line := text[:bad.At.From] + r + text[bad.At.To:]
				if enter(line).Refusal() == nil {
					o.lines = append(o.lines, line)
				}
			}
			if len(o.lines) > 0 {
				bad = nil
			}
			return o, bad
		case len(bad.Readings) != 1 || bad.At.To > len(text) || bad.ID == finding.UnknownUnit || bad.ID == finding.UnknownName && f.ID != finding.UnknownName:
			return o, bad
		}
		part, mended := syntax.InPlace(text, bad.At, bad.Readings[0])
		elsewhere = elsewhere || part.From < at.From || len(text)-part.To < len(e.Text)-at.To
		text = text[:part.From] + mended + text[part.To:]
		if o.mend = true; !elsewhere {
			o.text = text[at.From : len(text)-(len(e.Text)-at.To)]
		}
	}
	return o, bad
}

// several tries statements one after the other, each put right below those before it. Where one
// can be read in several ways, there are as many offers.
//
// m = 2 kg and F = mg are two lines of which the second needs the first, so each is tried below
// those before it.
func several(parts []string, enter Enter) (o offer, bad *finding.Finding) {
	ways := []string{""}
	for i, part := range parts {
		below := func(text string) *entry.Entry {
			return enter(strings.Join(append(slices.Clone(parts[:i]), text), "\n"))
		}
		one, bad := try(&entry.Entry{Text: part}, &finding.Finding{At: finding.Span{To: len(part)}}, part, below)
		if bad != nil {
			return o, bad
		}
		lines := one.lines
		if len(lines) == 0 {
			lines = []string{one.text}
		}
		parts[i] = lines[0]
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
	return o, nil
}
