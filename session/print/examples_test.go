package print

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"steelyard/session/entry"
	"steelyard/session/worksheet"
)

// printed are the worksheets of the examples folder, and two that are hard on a page.
func printed(t testing.TB) []string {
	t.Helper()
	files, err := filepath.Glob(filepath.Join("..", "..", "examples", "*.worked"))
	hard, _ := filepath.Glob(filepath.Join("testdata", "*.worked"))
	if err != nil || len(files) < 9 || len(hard) < 2 {
		t.Fatalf("only %d examples and %d of the test data: %v", len(files), len(hard), err)
	}
	return append(files, hard...)
}

// sheets are such worksheets worked out.
func sheets(t testing.TB) map[string]func(Edition) *Document {
	t.Helper()
	out := map[string]func(Edition) *Document{}
	for _, f := range printed(t) {
		entries, title := worked(t, f)
		out[f] = func(e Edition) *Document {
			d, _ := New(title, entries, e)
			return d
		}
	}
	return out
}

func worked(t testing.TB, file string) ([]*entry.Entry, string) {
	t.Helper()
	s, problem := worksheet.Load(file)
	if problem != nil {
		t.Fatal(problem.Error())
	}
	entries := worksheet.Work(context.Background(), s)
	return entries, s.Title
}

// lengths are the measures of a LaTeX page.
var lengths = regexp.MustCompile(`\\(?:vspace|hspace|rule|put|line|setlength|parbox|begin\{picture\}|multiput)[^a-z]*|[0-9.]+(?:mm|cm|pt|em|ex|\\textwidth|\\linewidth)`)

// writers are all the forms.
var writers = map[string]func(*Document) []byte{
	"html": HTML, "markdown": Markdown, "latex": LaTeX, "text": func(d *Document) []byte { return Plain(d, 80) },
}

// TestHandoutsGiveNothingAway prints the handout of every example in every form,
// and looks for its results in what can be read there.
func TestHandoutsGiveNothingAway(t *testing.T) {
	for _, f := range printed(t) {
		entries, title := worked(t, f)
		d, _ := New(title, entries, Handout)
		for form, write := range writers {
			text := string(write(d))
			if form == "latex" { // lengths of the page are no numbers of the sheet
				_, text, _ = strings.Cut(text, `\begin{document}`)
				text = lengths.ReplaceAllString(text, " ")
			}
			if found := leaks(entries, text); len(found) > 0 {
				t.Errorf("%s as %s shows %v", f, form, found)
			}
		}
	}
}

// TestDeterministic prints every example twice.
func TestDeterministic(t *testing.T) {
	one, two := sheets(t), sheets(t)
	for f := range one {
		for _, e := range []Edition{Key, Handout} {
			for form, write := range writers {
				if !bytes.Equal(write(one[f](e)), write(two[f](e))) {
					t.Errorf("%s as %s differs between two printings", f, form)
				}
			}
		}
	}
}

// TestPrintedExamples compares the printed key and handout in the examples folder
// with what is printed now; -update writes them.
func TestPrintedExamples(t *testing.T) {
	file := filepath.Join("..", "..", "examples", "pinball-plunger.worked")
	entries, title := worked(t, file)
	for edition, name := range map[Edition]string{Key: "key", Handout: "handout"} {
		d, _ := New(title, entries, edition)
		printedIn(t, strings.TrimSuffix(file, ".worked")+"-"+name+".html", HTML(d))
	}
	d, _ := New(title, entries, Key)
	svg, of := d.Drawing(1)
	printedIn(t, strings.TrimSuffix(file, ".worked")+".svg", []byte(svg))
	if none, _ := d.Drawing(of + 1); of != 2 || none != "" {
		t.Errorf("%d drawings", of)
	}
}

func printedIn(t *testing.T, path string, now []byte) {
	t.Helper()
	if flag.Lookup("update").Value.String() == "true" {
		if err := os.WriteFile(path, now, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if was, err := os.ReadFile(path); err != nil || !bytes.Equal(was, now) {
		t.Errorf("%s is not what is printed now: go test ./session/print -update writes it (%v)", path, err)
	}
}

// BenchmarkPrint prints a key with ten parts and four graphs, from the text of the
// worksheet on.
func BenchmarkPrint(b *testing.B) {
	var text strings.Builder
	text.WriteString("worksheet 1  Ten parts\n\nk = 257 N/m\nm = 0.080 kg\nA = 6.0 cm\n")
	for i := range 10 {
		fmt.Fprintf(&text, "\npart %c: How large is it?\nU%d(x) = 1/2*k*x^2 in J\nW%d = U%d(A)\nsolve W%d = 1/2*m*v%d^2 for v%d in m/s\ncheck 1/2*m*v%d^2 = W%d\n", 'a'+i, i, i, i, i, i, i, i, i)
		if i < 4 {
			fmt.Fprintf(&text, "graph U%d(x), W%d - U%d(x) against x from -A to A in J\n", i, i, i)
		}
	}
	for b.Loop() {
		s, problem := worksheet.Parse("ten.worked", text.String())
		if problem != nil {
			b.Fatal(problem.Error())
		}
		entries := worksheet.Work(context.Background(), s)
		d, _ := New(s.Title, entries, Key)
		HTML(d)
	}
}

// leaks lists the results that a text shows.
func leaks(all []*entry.Entry, text string) []string {
	g := newGuard(all)
	var out []string
	for _, n := range readNumbers(visibleText(text), g.units) {
		if s := g.of(&n); s != nil {
			out = append(out, n.text)
		}
	}
	return out
}

// TestFiguresOfAKey says once how results are rounded where no line of the sheet does.
func TestFiguresOfAKey(t *testing.T) {
	const supported, three = "Results are shown to the figures that their givens support", "Results are shown to 3 figures; those that later"
	for _, c := range []struct{ setting, foot, value string }{
		{"", supported, "= 20 N"},
		{"givens are exact\n", three, "= 19.6 N"},
		{"results to 3 figures\n", "", "= 19.6 N"},
		{"results to the givens' figures\n", "", "= 20 N"},
	} {
		s, problem := worksheet.Parse("a.worked", "worksheet 1  A\n\n"+c.setting+"m = 2.0 kg\nF = m*(9.81234 m/s^2)\nT = [1.20, 1.1] s\n")
		if problem != nil {
			t.Fatal(problem.Error())
		}
		d, _ := New(s.Title, worksheet.Work(context.Background(), s), Key)
		page := strings.Join(strings.Fields(string(Plain(d, 100))), " ")
		for _, foot := range []string{supported, three} {
			if strings.Contains(page, foot) != (foot == c.foot) || !strings.Contains(page, c.value) || !strings.Contains(page, "T = [1.20, 1.1] s") {
				t.Errorf("%s: %s is printed as\n%s", c.setting, foot, page)
			}
		}
	}
}

// TestKeyEndsWithItsAnswers lists the answers of all parts once more, and a system's head
// names all unknowns.
func TestKeyEndsWithItsAnswers(t *testing.T) {
	d, _ := New("A", entered("m = 2 kg", "part a: A system", "u = 3 m/s", "solve a + b = 5 m and a - b = 1 m for a in m, b in m", "report b", "report a", "p = m*u", "part b: An energy", "E = 1/2*m*u^2"), Key)
	page := string(Plain(d, 80))
	for _, want := range []string{"Working for a and b\n", "Answers\n-------\n  a  b = 2 m, a = 3 m\n  b  E = 9 J\n"} {
		if !strings.Contains(page, want) {
			t.Errorf("no %q in\n%s", want, page)
		}
	}
}
