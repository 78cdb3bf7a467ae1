package session

import (
	"context"
	"hash/fnv"
	"maps"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"steelyard/lang/finding"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/units"
)

// TestOffers enters every line that is offered for the lines of the findings files and
// of the tables of lines, and for mutations of them, be they refused or only cautioned
// about: none is refused, but for a name that no line gives. OFFERS is how many mutations of each are tried; without
// it a few lines have one.
func TestOffers(t *testing.T) {
	pages := offerPages(t)
	times, err := strconv.Atoi(os.Getenv("OFFERS"))
	for _, page := range pages {
		enterOffers(t, page[0], page[1], true)
		// By the line alone: a case that is added to the files changes no other's mutation.
		h := fnv.New64a()
		h.Write([]byte(page[0] + "\n" + page[1]))
		r := rand.New(rand.NewPCG(11, h.Sum64()))
		if err != nil {
			times = int(h.Sum64() % 8 / 7)
		}
		for range times {
			other := pages[r.IntN(len(pages))]
			enterOffers(t, page[0], mutated(r, page[1], other[1]), false)
		}
	}
}

// mutated leaves a character out of a line, doubles it, or puts a sign, a blank or a
// part of another line in its place.
func mutated(r *rand.Rand, line, other string) string {
	rs, os := []rune(line), []rune(other)
	if len(rs) == 0 {
		return other
	}
	at := r.IntN(len(rs))
	head, tail := string(rs[:at]), string(rs[at+1:])
	switch r.IntN(5) {
	case 0:
		return head + tail
	case 1:
		return head + string(rs[at]) + string(rs[at]) + tail
	case 2:
		signs := []rune(" */+-^()=23√πsmkgθ")
		return head + string(signs[r.IntN(len(signs))]) + tail
	case 3:
		return head + " " + string(rs[at]) + tail
	}
	if len(os) == 0 {
		return head
	}
	from := r.IntN(len(os))
	return head + string(os[from:min(from+1+r.IntN(6), len(os))]) + tail
}

// offerPages are lines of tests, each with what stands above it.
func offerPages(t testing.TB) (out [][2]string) {
	t.Helper()
	for _, path := range []string{"testdata/readings.csv", "testdata/readings-own.csv"} {
		for _, m := range readMeant(t, path) {
			out = append(out, [2]string{m.scope, m.line})
		}
	}
	for _, m := range textbookLines(t) {
		out = append(out, [2]string{m.scope, m.line})
	}
	files, _ := filepath.Glob("testdata/*.txt")
	for _, path := range files {
		blocks := readFindings(t, path)
		for _, title := range slices.Sorted(maps.Keys(blocks)) {
			var above []string
			for _, e := range blocks[title] {
				out = append(out, [2]string{strings.Join(above, "; "), e.text})
				above = append(above, e.text)
			}
		}
	}
	return out
}

// FuzzOffers is TestOffers for any lines.
func FuzzOffers(f *testing.F) {
	for _, page := range offerPages(f) {
		f.Add(page[0], page[1])
	}
	f.Fuzz(func(t *testing.T, scope, line string) {
		if len(scope) <= 600 && len(line) <= 200 {
			enterOffers(t, scope, line, false)
		}
	})
}

// lacking are the findings of a line that needs a value which no line above has: a name
// on both sides of a line is one, too.
var lacking = []finding.ID{finding.NotWorkedOut, finding.UnknownName, finding.OwnName}

// holdsOnceGiven tells whether an offer holds below values for the names that have none,
// each a quantity that it is used for; what it is refused for else.
func holdsOnceGiven(scope, text string, names []string) (holds bool, why string) {
	values := []string{""}
	for _, name := range names {
		var longer []string
		for _, before := range values {
			for _, dim := range units.Customs(name) {
				value := "2.0"
				if !dim.IsOne() {
					value = "(2.0 " + units.Preferred(dim, units.None).Text() + ")"
				}
				longer = append(longer, before+"; "+name+" = "+value)
			}
		}
		if longer == nil {
			return true, "" // a word, of which nobody knows what it is
		}
		values = longer[:min(len(longer), 100)]
	}
	for _, given := range values {
		p := New()
		for line := range strings.SplitSeq(scope+given, "; ") {
			p.Enter(context.Background(), line)
		}
		bad := slices.DeleteFunc(p.Enter(context.Background(), text).Findings, func(f finding.Finding) bool {
			return f.Severity > finding.Mismatch || f.ID == finding.CheckFailed || f.ID == finding.NotWorkedOut
		})
		if len(bad) == 0 {
			return true, ""
		}
		why = string(bad[0].ID) + " " + bad[0].Message
	}
	return false, why
}

// enterOffers enters a line below others, and then every reading that a finding
// offers in its place. A whole line is no mutation: what it is offered makes sense.
func enterOffers(t *testing.T, scope, line string, whole bool) {
	p := New()
	for given := range strings.SplitSeq(scope, "; ") {
		p.Enter(context.Background(), given)
	}
	enter := func(text string) *entry.Entry { return enterAndUndo(p, text) }
	e := enter(line)
	for _, found := range e.Findings {
		if found.At.To > len(e.Text) {
			continue
		}
		offers := found.Lines
		for _, reading := range found.Readings {
			offers = append(offers, e.Text[:found.At.From]+reading+e.Text[found.At.To:])
		}
		for i, text := range found.Offers() {
			if whole && (text == "" || text == line || slices.Contains(found.Offers()[:i], text)) {
				t.Errorf("%s | %s offers %q (%s), which is empty, the line itself or there twice", scope, line, found.Offers(), found.ID)
			}
		}
		for _, text := range offers {
			if lost := lostLetters(line, text); whole && lost != "" && lost != "pi" && strings.Contains(found.Message, " no value.") {
				t.Errorf("%s | %s offers %s (%s), which loses %s", scope, line, text, found.ID, lost)
			}
			var names []string // that have no value
			for _, bad := range enter(text).Findings {
				if bad.Severity <= finding.Mismatch && !slices.Contains(lacking, bad.ID) {
					t.Errorf("%s | %s offers %s (%s), which is refused: %s %s", scope, line, text, found.ID, bad.ID, bad.Message)
				}
				if bad.ID == finding.UnknownName && bad.At.To <= len(text) {
					names = append(names, text[bad.At.From:bad.At.To])
				}
			}
			if len(names) == 0 || !whole {
				continue
			}
			if holds, why := holdsOnceGiven(scope, text, names); !holds {
				t.Errorf("%s | %s offers %s, which is refused with values for %v: %s", scope, line, text, names, why)
			}
		}
	}
}

// enterAndUndo enters the statements of a text and takes them back: the last, or the first
// that fails.
func enterAndUndo(p *Pad, text string) (e *entry.Entry) {
	before := p.Next()
	for _, one := range syntax.StatementsOf(text) {
		if e = p.Enter(context.Background(), one); e.Failed() {
			break
		}
	}
	for p.Next() > before {
		p.Undo()
	}
	return e
}

// lostLetters are the letters of a line that another has not.
func lostLetters(line, other string) (lost string) {
	for _, r := range line {
		rest := strings.Replace(other, string(r), "", 1)
		if unicode.IsLetter(r) && rest == other {
			lost += string(r)
		}
		other = rest
	}
	return lost
}
