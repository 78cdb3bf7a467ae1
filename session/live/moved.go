package live

import (
	"reflect"
	"slices"
	"strings"

	"steelyard/lang/finding"
	"steelyard/session"
	"steelyard/session/entry"
)

// Moved is a line that has changed than before.
type Moved struct {
	// Entry is the line as it is now; nil if it is gone.
	Entry *entry.Entry
	// New tells that it was put in, or has another text.
	New bool
	// Was is what it came to before, where that has moved; else empty.
	Was string
	// Anew tells that it comes to other words, or to another figure.
	Anew bool
	// Came and Went are the findings that it has only now, and had only before.
	Came, Went []finding.Finding
}

// compare tells how a line that was worked out again has moved, and whether there is
// anything to tell.
func compare(a session.Anew) (Moved, bool) {
	m := Moved{Entry: a.Now}
	switch {
	case a.Now == nil:
		return m, false
	case a.Was == nil:
		m.New = true
		return m, true
	}
	m.New = a.Was.Text != a.Now.Text && !sameButPlaces(a)
	m.Was = Was(a.Was.Shown(), a.Now)
	m.Anew = m.Was == "" && a.Now.Shown() == "" && a.Was.Outcome != nil && a.Now.Outcome != nil && !reflect.DeepEqual(a.Was.Outcome, a.Now.Outcome)
	m.Came, m.Went = but(a.Now.Findings, a.Was.Findings), but(a.Was.Findings, a.Now.Findings)
	return m, m.New || m.Anew || m.Was != "" || len(m.Came)+len(m.Went) > 0
}

// sameButPlaces tells whether only the numbers of lines that a statement names differ.
func sameButPlaces(a session.Anew) bool {
	return strings.Contains(a.Was.Text, "@") && worded(a.Was.Text) == worded(a.Now.Text)
}

// worded is a text without its digits.
func worded(text string) string {
	return strings.Map(func(r rune) rune {
		if r >= '0' && r <= '9' {
			return -1
		}
		return r
	}, text)
}

// but are the findings that others lack, whatever lines they name; notes are left out, and that a
// record differs, which is compared as it is entered and not kept.
func but(all, others []finding.Finding) []finding.Finding {
	var out []finding.Finding
	for _, f := range all {
		if f.Severity != finding.Note && f.ID != finding.RecordDiffers && !slices.ContainsFunc(others, func(o finding.Finding) bool {
			return o.ID == f.ID && worded(o.Message) == worded(f.Message)
		}) {
			out = append(out, f)
		}
	}
	return out
}

// Was is what a line came to before, if it comes to something else now: else empty.
func Was(was string, now *entry.Entry) string {
	switch {
	case was == now.Shown():
		return ""
	case was == "":
		return "no value"
	}
	return was
}

// Told is a line as it is shown where it has moved: old → new, the words that it comes to
// now, or that a figure differs, and the findings that came or went. One that is new is
// shown whole.
func (m *Moved) Told() *entry.Entry {
	e := *m.Entry
	if m.New {
		return &e
	}
	e.Outcome, e.Findings = nil, slices.Clone(m.Came)
	for _, f := range m.Went {
		f = finding.Finding{ID: f.ID, Severity: finding.Note, Message: "no longer: " + f.Message}
		e.Findings = append(e.Findings, f)
	}
	switch words, _ := m.Entry.Outcome.(entry.Lines); {
	case m.Was != "":
		e.Outcome = Arrow(m.Was, m.Entry)
	case m.Anew && words != nil:
		e.Outcome = words
	case m.Anew:
		e.Outcome = entry.Rows("has changed")
	}
	return &e
}

// Arrow is the outcome of a line that has moved: old → new.
func Arrow(was string, now *entry.Entry) entry.Lines {
	to := now.Shown()
	if to == "" {
		to = "no value"
	}
	return entry.Rows(was + " → " + to)
}
