package main

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"steelyard/lang/finding"
	"steelyard/lang/formula"
	"steelyard/lang/ops"
	"steelyard/lang/syntax"
	"steelyard/session"
	"steelyard/session/entry"
	"steelyard/session/live"
	"steelyard/session/view"
)

var update = flag.Bool("update", false, "rewrite the examples of the documents and the sections of the scripts")

// The documents hold examples in fenced blocks, which the tests run:
//
//	scratchpad   statements, with what the program prints under each
//	worksheet    a file, called sheet.worked in the blocks that follow
//	shell        command lines behind a $, with what they print
//	functions    the table of built-in functions
//	formulas     the built-in formulas
//	later        the statements that this version does not work out
//
// With -update the blocks are rewritten. A new scratchpad block may hold
// statements alone, one a line.
var documents = []string{"README.md", "lang/REFERENCE.md", "lang/LAB.md"}

// block is a fenced block of a document.
type block struct {
	kind, text string
	from, to   int // bytes of the text in the document
}

var fence = regexp.MustCompile("(?ms)^```([a-z]+)\n(.*?)^```$")

func blocks(text string) []block {
	var out []block
	for _, m := range fence.FindAllStringSubmatchIndex(text, -1) {
		out = append(out, block{kind: text[m[2]:m[3]], text: text[m[4]:m[5]], from: m[4], to: m[5]})
	}
	return out
}

func readDocument(t *testing.T, name string) string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", filepath.FromSlash(name)))
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// TestDocuments runs every example of the documents and compares what is
// printed, byte for byte.
func TestDocuments(t *testing.T) {
	for _, name := range documents {
		text := readDocument(t, name)
		bs := blocks(text)
		if len(bs) == 0 {
			t.Errorf("%s has no examples", name)
		}
		var b strings.Builder
		at, sheet := 0, ""
		for _, bl := range bs {
			want := bl.text
			switch bl.kind {
			case "scratchpad":
				want = transcript(t, enteredIn(bl.text))
			case "worksheet":
				sheet = bl.text
			case "shell":
				want = shell(t, sheet, bl.text)
			case "functions":
				want = functionTable()
			case "formulas":
				want = formulaTable()
			case "later":
				want = laterTable()
			}
			if want != bl.text && !*update {
				line := 1 + strings.Count(text[:bl.from], "\n")
				t.Errorf("%s, line %d: the example prints\n%s\nand not\n%s", name, line, want, bl.text)
			}
			b.WriteString(text[at:bl.from] + want)
			at = bl.to
		}
		b.WriteString(text[at:])
		if *update && b.String() != text {
			if err := os.WriteFile(filepath.Join("..", "..", filepath.FromSlash(name)), []byte(b.String()), 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
}

// splitStatements takes a text of several lines apart; an indented line belongs
// to the one above it.
func splitStatements(text string) []string {
	var out []string
	for line := range strings.SplitSeq(strings.TrimRight(text, "\n"), "\n") {
		if len(out) > 0 && isIndented(line) {
			out[len(out)-1] += "\n" + line
			continue
		}
		out = append(out, line)
	}
	return out
}

var numbered = regexp.MustCompile(`^ {0,2}\d+\.  (.*)$`)

// enteredIn finds the statements in a block: what stands behind the number of the next
// line, with its indented lines; or, in a block without numbers, every line. What stands
// behind another number has moved because of a change.
func enteredIn(text string) []string {
	lines := strings.Split(strings.TrimSuffix(text, "\n"), "\n")
	if !slices.ContainsFunc(lines, numbered.MatchString) {
		return splitStatements(text)
	}
	var out []string
	open := false // the statement above takes indented lines
	page, done := live.Lines(), 0
	for _, line := range lines {
		if m := numbered.FindStringSubmatch(line); m != nil {
			for ; done < len(out); done++ {
				page.Enter(context.Background(), out[done])
			}
			if open = false; view.Prompt(page.Next())+m[1] != line {
				continue
			}
			out = append(out, m[1])
			open = strings.HasPrefix(m[1], "formula ") || strings.HasSuffix(m[1], ") =") || m[1] == "data"
			continue
		}
		body, ok := strings.CutPrefix(line, "      ")
		open = open && ok && strings.HasPrefix(body, "  ") && !strings.HasPrefix(strings.TrimSpace(body), "=")
		if open && strings.HasPrefix(out[len(out)-1], "data") { // what is found, and told of it, are no rows
			open = !strings.Contains(body, ": ") && !strings.Contains(out[len(out)-1], "\n"+body)
		}
		if open {
			out[len(out)-1] += "\n" + body
		}
	}
	return out
}

// transcript is what eval prints of statements.
func transcript(t *testing.T, statements []string) string {
	t.Helper()
	var out, errs bytes.Buffer
	w := &world{ctx: context.Background(), stdin: strings.NewReader(""), stdout: &out, stderr: &errs, width: 80}
	run(w, append([]string{"eval", "--"}, statements...))
	if errs.Len() > 0 {
		t.Error(errs.String())
	}
	return out.String()
}

var word = regexp.MustCompile(`'[^']*'|[^ ]+`)

// shell runs the command lines of a block in a folder with sheet.worked.
func shell(t *testing.T, sheet, text string) string {
	t.Helper()
	home, err := os.Getwd()
	if err == nil {
		err = os.Chdir(t.TempDir())
	}
	if err == nil {
		err = os.WriteFile("sheet.worked", []byte(sheet), 0o644)
	}
	if err != nil {
		t.Fatal(err)
	}
	defer os.Chdir(home)
	var b strings.Builder
	for line := range strings.Lines(text) {
		command, ok := strings.CutPrefix(line, "$ steelyard ")
		if !ok {
			continue
		}
		b.WriteString(line)
		var args []string
		for _, a := range word.FindAllString(strings.TrimSpace(command), -1) {
			args = append(args, strings.Trim(a, "'"))
		}
		run(&world{ctx: context.Background(), stdin: strings.NewReader(""), stdout: &b, stderr: &b, width: 80}, args)
	}
	return b.String()
}

func functionTable() string {
	var statements []string
	for _, f := range ops.Functions() {
		statements = append(statements, f.Example)
	}
	var b strings.Builder
	for i, f := range ops.Functions() {
		fmt.Fprintf(&b, "%-12s %s\n", f.Args, f.Summary)
		e := session.New().Enter(context.Background(), statements[i])
		fmt.Fprintf(&b, "%-12s %s", "", e.Text)
		if len(e.Values()) == 1 {
			fmt.Fprintf(&b, " = %s", e.Values()[0].Shown(1))
		}
		b.WriteString("\n")
	}
	return b.String()
}

func formulaTable() string {
	var b strings.Builder
	for i, name := range formula.Names() {
		text, _ := formula.Source(name)
		if i > 0 {
			b.WriteString("\n")
		}
		b.WriteString(text + "\n")
	}
	return b.String()
}

func laterTable() string {
	var b strings.Builder
	for _, s := range syntax.Statements() {
		if !s.Ready {
			fmt.Fprintf(&b, "%-42s %s\n", s.Example, s.Summary)
		}
	}
	return b.String()
}

// elsewhere are the identifiers whose example can't be printed, with a line
// that is met by them.
var elsewhere = map[finding.ID]func() *entry.Entry{
	finding.BadText: func() *entry.Entry { return session.New().Enter(context.Background(), "x = 3 \x00 m") },
	finding.Stopped: func() *entry.Entry {
		ctx, stop := context.WithCancel(context.Background())
		stop()
		pad := session.New()
		pad.Enter(ctx, "f0(x) = x + 1 m")
		for i := range 14 {
			pad.Enter(ctx, fmt.Sprintf("f%d(x) = f%d(x) + f%d(x)", i+1, i, i))
		}
		return pad.Enter(ctx, "f14(2 m)")
	},
}

// TestEveryFindingHasAnExample holds the reference's list of findings against
// the identifiers: each has a heading, its severity and its sentence, and an
// example that has it.
func TestEveryFindingHasAnExample(t *testing.T) {
	text := readDocument(t, "lang/REFERENCE.md")
	for _, id := range finding.IDs() {
		_, section, ok := strings.Cut(text, "\n### "+string(id)+"\n")
		if !ok {
			t.Errorf("%s has no heading", id)
			continue
		}
		section, _, _ = strings.Cut(section, "\n#")
		if want := strings.ToUpper(id.Severity().String()[:1]) + id.Severity().String()[1:] + ". " + id.Sentence(); !strings.Contains(section, want) {
			t.Errorf("%s: the reference does not say %q", id, want)
		}
		if e, ok := elsewhere[id]; ok {
			if !has(e(), id) {
				t.Errorf("the example of %s has %v", id, e().Findings)
			}
			continue
		}
		found := false
		for _, bl := range blocks(section) {
			switch bl.kind {
			case "scratchpad":
				pad := session.New()
				for _, s := range enteredIn(bl.text) {
					found = has(pad.Enter(context.Background(), s), id) || found
				}
			case "shell":
				// The findings of a replay are compared as printed.
				found = true
			}
		}
		if !found {
			t.Errorf("the example of %s does not have it", id)
		}
	}
}

func has(e *entry.Entry, id finding.ID) bool {
	return slices.ContainsFunc(e.Findings, func(f finding.Finding) bool { return f.ID == id })
}

// TestEveryStatementHasAnExample looks for each statement of the language in
// the examples that run.
func TestEveryStatementHasAnExample(t *testing.T) {
	var entered []string
	for _, bl := range blocks(readDocument(t, "lang/REFERENCE.md")) {
		if bl.kind == "scratchpad" {
			entered = append(entered, enteredIn(bl.text)...)
		}
	}
	only := []string{"save", "open", "print", "recover", "forget", "replay", "preview", "quit"} // they need a file or a terminal, or end the example
	for _, s := range syntax.Statements() {
		if !s.Ready || slices.Contains(only, s.Word) {
			continue
		}
		if !slices.ContainsFunc(entered, func(e string) bool {
			return e == s.Word || strings.HasPrefix(e, s.Word+" ") || strings.HasPrefix(e, s.Word+"\n")
		}) {
			t.Errorf("no example has the statement %s", s.Word)
		}
	}
}
