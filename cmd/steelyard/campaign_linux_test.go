package main

import (
	"context"
	"errors"
	"fmt"
	"iter"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"
)

// trials counts random trials: a few in every run of the tests, and in a campaign
// (STEELYARD_CAMPAIGN=15m, see DEVELOPERS.md) as many as this test's share of the
// time allows, at least a few; none in a short run.
func trials(t *testing.T, few int, share float64) iter.Seq[int] {
	if testing.Short() {
		t.Skip("random trials")
	}
	length, _ := time.ParseDuration(os.Getenv("STEELYARD_CAMPAIGN"))
	end := time.Now().Add(time.Duration(share * float64(length)))
	return func(yield func(int) bool) {
		n := 0
		for ; n < few || time.Now().Before(end); n++ {
			if !yield(n) {
				return
			}
		}
		t.Logf("%d trials", n)
	}
}

// seed is that of the random trials: of the clock, or the one asked for (STEELYARD_SEED).
func seed(t *testing.T) uint64 {
	n, err := strconv.ParseUint(os.Getenv("STEELYARD_SEED"), 10, 64)
	if err != nil {
		n = uint64(time.Now().UnixNano())
	}
	t.Logf("STEELYARD_SEED=%d", n)
	return n
}

// tokens are the words, numbers and signs of a line.
var tokens = regexp.MustCompile(`[\pL_][\pL\pN_]*|[0-9.]+|\s+|.`)

// herd is where mutated worksheets come from: the lines of the examples, the statements of
// the reference and those that the tests of findings enter, and their words.
type herd struct {
	r     *rand.Rand
	lines []string
	words []string
}

func newHerd(t *testing.T, seed uint64) *herd {
	t.Helper()
	h := &herd{r: rand.New(rand.NewPCG(3, seed))}
	paths, err := filepath.Glob(filepath.Join("..", "..", "examples", "*.worked"))
	if err != nil || len(paths) == 0 {
		t.Fatal("no examples", err)
	}
	for _, path := range paths {
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		h.lines = append(h.lines, strings.Split(string(data), "\n")[1:]...)
	}
	typed := regexp.MustCompile(`(?m)^ *[0-9]+\.  (.*)$`)
	for _, b := range blocks(readDocument(t, "lang/REFERENCE.md")) {
		for _, m := range typed.FindAllStringSubmatch(b.text, -1) {
			h.lines = append(h.lines, m[1])
		}
	}
	entered, err := filepath.Glob(filepath.Join("..", "..", "session", "testdata", "*.txt"))
	if err != nil || len(entered) == 0 {
		t.Fatal("no findings files", err)
	}
	expected := regexp.MustCompile(`(?m)^[!~|#].*\n`)
	for _, path := range entered {
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		h.lines = append(h.lines, strings.Split(expected.ReplaceAllString(string(data), ""), "\n")...)
	}
	for _, line := range h.lines {
		h.words = append(h.words, tokens.FindAllString(line, -1)...)
	}
	for _, bad := range append(hostile, "1e308", "0", "-", "(", ")", "^", "@3", "1/", "\t", "  = 3 m") {
		for range len(h.words) / 400 {
			h.words = append(h.words, bad)
		}
	}
	return h
}

func (h *herd) line() string { return h.lines[h.r.IntN(len(h.lines))] }
func (h *herd) word() string { return h.words[h.r.IntN(len(h.words))] }

// mutate changes one word of a line.
func (h *herd) mutate(line string) string {
	words := tokens.FindAllString(line, -1)
	if len(words) == 0 {
		return h.line()
	}
	i, j := h.r.IntN(len(words)), h.r.IntN(len(words))
	switch h.r.IntN(7) {
	case 6:
		words = words[:i] // the line ends too early
	case 0:
		words[i] = ""
	case 1:
		words[i] += words[i]
	case 2:
		words[i], words[j] = words[j], words[i]
	case 3:
		words[i] += " " + h.word()
	case 4:
		words = append(words[:i:i], tokens.FindAllString(h.line(), -1)...)
	default:
		words[i] = h.word()
	}
	return strings.Join(words, "")
}

// sheet is a mutated worksheet: a run of lines that belong together, some lines
// from elsewhere, some changed.
func (h *herd) sheet() string {
	n := 1 + h.r.IntN(30)
	from := h.r.IntN(len(h.lines) - n)
	out := []string{"worksheet 1  Mutated", ""}
	for _, line := range h.lines[from : from+n] {
		for h.r.IntN(3) == 0 {
			line = h.mutate(line)
		}
		if h.r.IntN(12) == 0 {
			line = h.line() + "\n" + line
		}
		out = append(out, line)
	}
	return strings.Join(out, "\n") + "\n"
}

// TestMutatedSheets replays many mutated worksheets between two good ones, and
// prints some, by the program itself: the good ones are always reported, nothing
// goes out raw, and no file breaks the program or keeps it busy.
func TestMutatedSheets(t *testing.T) {
	const batch = 25
	h := newHerd(t, seed(t))
	dir, steelyard := t.TempDir(), program(t)
	good, good2 := filepath.Join(dir, "good.worked"), filepath.Join(dir, "good2.worked")
	for _, path := range []string{good, good2} {
		if err := os.WriteFile(path, []byte("worksheet 1  Good\n\nx = 2 m\n2*x\n  = 4 m\n"), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	for n := range trials(t, 4, 0.5) {
		files := []string{good}
		for i := range batch {
			path := filepath.Join(dir, fmt.Sprintf("bad%d.worked", i))
			if err := os.WriteFile(path, []byte(h.sheet()), 0o600); err != nil {
				t.Fatal(err)
			}
			files = append(files, path)
		}
		out := ranAlone(t, steelyard, append([]string{"replay"}, append(files, good2)...)...)
		if strings.Count(out, "good.worked: 1 result agrees.")+strings.Count(out, "good2.worked: 1 result agrees.") != 2 {
			t.Errorf("batch %d: a good file is not reported", n)
		}
		args := []string{"print", "--as", forms[n%len(forms)].name, "--edition", []string{"key", "handout"}[n/4%2], files[1]}
		ranAlone(t, steelyard, args...)
		if t.Failed() {
			keep := filepath.Join(os.TempDir(), fmt.Sprintf("steelyard-mutated-%d", os.Getpid()))
			if err := os.CopyFS(keep, os.DirFS(dir)); err == nil {
				t.Fatalf("the files are in %s", keep)
			}
			return
		}
	}
}

// ranAlone runs the program on files, and fails where it breaks, takes long or
// sends something raw.
func ranAlone(t *testing.T, program string, args ...string) string {
	t.Helper()
	ctx, cancel := context.WithTimeout(context.Background(), time.Minute)
	defer cancel()
	out, err := exec.CommandContext(ctx, program, args...).CombinedOutput()
	var ended *exec.ExitError
	switch {
	case ctx.Err() != nil:
		t.Errorf("%q is still at work after a minute", args)
	case err != nil && (!errors.As(err, &ended) || ended.ExitCode() < 0 || ended.ExitCode() > 2):
		t.Errorf("%q: %v", args, err)
	case strings.Contains(string(out), "fault of the program"), strings.Contains(string(out), "goroutine "):
		t.Errorf("%q: %s", args, out)
	}
	safe(t, fmt.Sprintf("%.40q", args), out)
	return string(out)
}
