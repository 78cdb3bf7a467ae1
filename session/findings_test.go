package session

import (
	"context"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"steelyard/lang/finding"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
)

// expectation is what a statement of a findings file must meet.
type expectation struct {
	text     string
	ids      []string // of its findings, in their order
	readings []string
	says     []string
}

// readFindings reads a file of blocks, each a scratchpad of its own.
func readFindings(t testing.TB, path string) map[string][]expectation {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	blocks := map[string][]expectation{}
	title := ""
	for line := range strings.Lines(string(data)) {
		line = strings.TrimRight(line, "\n")
		if rest, ok := strings.CutPrefix(line, "## "); ok {
			if _, twice := blocks[rest]; twice {
				t.Fatalf("%s: two blocks are called %q", path, rest)
			}
			title = rest
			continue
		}
		if title == "" || line == "" || strings.HasPrefix(line, "# ") {
			continue
		}
		block := blocks[title]
		mark, rest := line[:1], strings.TrimSpace(line[1:])
		last := len(block) - 1
		switch {
		case mark == "!" && last >= 0:
			block[last].ids = append(block[last].ids, rest)
		case mark == "|" && last >= 0 && strings.HasPrefix(line, "| "):
			block[last].readings = append(block[last].readings, strings.ReplaceAll(rest, " ↵ ", "\n"))
		case mark == "~" && last >= 0:
			block[last].says = append(block[last].says, rest)
		case line[0] == ' ' && last >= 0:
			block[last].text += "\n" + line
		default:
			block = append(block, expectation{text: line})
		}
		blocks[title] = block
	}
	return blocks
}

// findingsFiles are all of them: one that no test names would be held against nothing.
var findingsFiles, _ = filepath.Glob("testdata/*.txt")

// TestFindings enters every block and holds each statement against what its
// block expects of it.
func TestFindings(t *testing.T) {
	for _, path := range findingsFiles {
		for title, block := range readFindings(t, path) {
			t.Run(title, func(t *testing.T) {
				p := New()
				for _, want := range block {
					meets(t, p.Enter(context.Background(), want.text), want)
				}
			})
		}
	}
}

func meets(t *testing.T, e *entry.Entry, want expectation) {
	t.Helper()
	var said, ids []string
	for _, f := range e.Findings {
		expected := contains(want.ids, string(f.ID))
		if f.ID.Severity().String() == "note" && !expected {
			continue
		}
		whole := f.Message + " " + f.Hint
		said = append(said, string(f.ID)+": "+whole+" ["+strings.Join(f.Readings, " | ")+"]")
		ids = append(ids, string(f.ID))
		if f.At.From < 0 || f.At.To > len(e.Text) || f.At.From > f.At.To {
			t.Errorf("%s: the span %v lies outside the text", e.Text, f.At)
		}
	}
	for _, r := range want.readings {
		has := func(text string) bool { return text == r || contains(syntax.StatementsOf(text), r) }
		if !slices.ContainsFunc(e.Findings, func(f finding.Finding) bool {
			return slices.ContainsFunc(f.Readings, has) || slices.ContainsFunc(f.Lines, has)
		}) {
			t.Errorf("%s: the reading %q is not offered; found\n%s", e.Text, r, strings.Join(said, "\n"))
		}
	}
	for _, s := range want.says {
		if !strings.Contains(strings.Join(said, "\n"), s) {
			t.Errorf("%s: does not say %q, but\n%s", e.Text, s, strings.Join(said, "\n"))
		}
	}
	if !slices.Equal(ids, want.ids) {
		t.Errorf("%s: the findings %q were expected; found\n%s", e.Text, want.ids, strings.Join(said, "\n"))
	}
}

func contains(all []string, one string) bool {
	return slices.Contains(all, one)
}

// TestReadingsRead enters every reading that is offered in the place of what it
// stands for: none may fail to be read again.
func TestReadingsRead(t *testing.T) {
	tried := 0
	for _, path := range findingsFiles {
		for title, block := range readFindings(t, path) {
			p := New()
			for _, want := range block {
				e := p.Enter(context.Background(), want.text)
				for _, f := range e.Findings {
					for _, reading := range f.Readings {
						tried++
						text := e.Text[:f.At.From] + reading + e.Text[f.At.To:]
						got := enterAndUndo(p, text)
						if got.Stmt == nil && got.Findings[0].At.From <= f.At.From+len(reading) {
							t.Errorf("%s, %s: the reading %q gives %s: %s", path, title, text, got.Findings[0].ID, got.Findings[0].Message)
						}
					}
				}
			}
		}
	}
	if tried < 100 {
		t.Errorf("only %d readings were offered", tried)
	}
}
