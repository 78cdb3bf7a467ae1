package session

import (
	"context"
	"fmt"
	"hash/fnv"
	"maps"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"steelyard/lang/syntax"
	"steelyard/session/entry"
)

// TestOffers enters every line that is offered for the lines of the findings files, of the
// tables of lines and of the examples, and for mutations of them, be they refused or only
// cautioned about: none is refused. OFFERS is how many
// mutations of each are tried; without it a few lines have one. The pages come in parts of a
// hundred, so that a part can be run alone: -run 'TestOffers/^07$'.
func TestOffers(t *testing.T) {
	pages := offerPages(t)
	times, err := strconv.Atoi(os.Getenv("OFFERS"))
	part := 0
	for some := range slices.Chunk(pages, 100) {
		t.Run(fmt.Sprintf("%02d", part), func(t *testing.T) {
			for _, page := range some {
				p := below(page[0])
				enterOffers(t, p, page[0], page[1], true)
				// By the line alone: a case that is added to the files changes no other's mutation.
				h := fnv.New64a()
				h.Write([]byte(page[0] + "\n" + page[1]))
				r := rand.New(rand.NewPCG(11, h.Sum64()))
				times := times
				if err != nil {
					times = int(h.Sum64() % 8 / 7)
				}
				for range times {
					other := pages[r.IntN(len(pages))]
					enterOffers(t, p, page[0], mutated(r, page[1], other[1]), false)
				}
			}
		})
		part++
	}
}

// word is a run of letters, with the digits and indices of a name.
var word = regexp.MustCompile(`[\p{L}°][\p{L}\d_]*`)

// mutated makes a line with a slip in it: of the keys (a character left out, doubled, in the
// wrong case, before its neighbour), of signs (left out, another, a star or a bracket missing,
// a unit glued to what is before it), of words (one twice, one left out), or with a part of
// another line in it.
func mutated(r *rand.Rand, line, other string) string {
	rs, os := []rune(line), []rune(other)
	if len(rs) == 0 {
		return other
	}
	if len(os) == 0 {
		os = rs
	}
	at := r.IntN(len(rs))
	// near is the place of the next of some characters from at on, or at.
	near := func(of string) int {
		if i := slices.IndexFunc(rs[at:], func(c rune) bool { return strings.ContainsRune(of, c) }); i >= 0 {
			return at + i
		}
		return at
	}
	put := func(at int, with string) string { return string(rs[:at]) + with + string(rs[at+1:]) }
	words := word.FindAllStringIndex(line, -1)
	switch kind := r.IntN(13); {
	case kind == 0:
		return put(at, "")
	case kind == 1:
		return put(at, string(rs[at])+string(rs[at]))
	case kind == 2:
		signs := []rune(" */+-^()=23√πsmkgθ")
		return put(at, string(signs[r.IntN(len(signs))]))
	case kind == 3:
		return put(at, " "+string(rs[at]))
	case kind == 4 && at+1 < len(rs):
		return string(rs[:at]) + string(rs[at+1]) + string(rs[at]) + string(rs[at+2:])
	case kind == 5 && unicode.IsUpper(rs[at]):
		return put(at, string(unicode.ToLower(rs[at])))
	case kind == 5:
		return put(at, string(unicode.ToUpper(rs[at])))
	case kind == 6:
		return put(near("*·×"), "")
	case kind == 7:
		return put(near("()"), "")
	case kind == 8:
		return put(near("=+-/^"), "")
	case kind == 9:
		return put(near(" "), "")
	case kind == 10:
		return put(near("*·×"), " ")
	case kind == 11 && len(words) > 0:
		w := words[r.IntN(len(words))]
		return line[:w[1]] + " " + line[w[0]:]
	case kind == 12 && len(words) > 0:
		w := words[r.IntN(len(words))]
		return line[:w[0]] + line[w[1]:]
	}
	from := r.IntN(len(os))
	return string(rs[:at]) + string(os[from:min(from+1+r.IntN(6), len(os))]) + string(rs[at+1:])
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
	examples, _ := filepath.Glob("../examples/*.worked")
	for _, path := range examples {
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		_, lines, _ := strings.Cut(string(text), "\n")
		var above []string
		for _, stated := range syntax.StatementsOf(records.ReplaceAllString(lines, "")) {
			out = append(out, [2]string{strings.Join(above, "; "), stated})
			above = append(above, stated)
		}
	}
	return out
}

// records are the results of the lines of a worksheet.
var records = regexp.MustCompile(`(?m)^ +=.*\n`)

// FuzzOffers is TestOffers for any lines.
func FuzzOffers(f *testing.F) {
	for _, page := range offerPages(f) {
		f.Add(page[0], page[1])
	}
	f.Fuzz(func(t *testing.T, scope, line string) {
		if len(scope) <= 600 && len(line) <= 200 {
			enterOffers(t, below(scope), scope, line, false)
		}
	})
}

// below is a page with lines that have a semicolon between them.
func below(scope string) *Pad {
	p := New()
	for line := range strings.SplitSeq(scope, "; ") {
		p.Enter(context.Background(), line)
	}
	return p
}

// enterOffers enters a line below others, and then every reading that a finding
// offers in its place. A whole line is no mutation: what it is offered makes sense.
func enterOffers(t *testing.T, p *Pad, scope, line string, whole bool) {
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
			if bad := enter(text).Refusal(); bad != nil {
				t.Errorf("%s | %s offers %s (%s), which is refused: %s %s", scope, line, text, found.ID, bad.ID, bad.Message)
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
