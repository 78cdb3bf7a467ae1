package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"steelyard/session/live"
	"steelyard/units/writing"
)

// hostile are pieces of text that upset a terminal which is sent them raw.
var hostile = []string{
	"\x1b[31m", "\x1b]0;t\x07", "\u202e", "\u2066", "\u009b31m", "\u0085", "\u2028", "\x9b", "\x08\x08", "\rX", "\x7f", "\ufeff", "\ufdd0", "\nX",
}

// hostileFields are texts with a place for such a piece, one for each kind of
// statement and for what can be wrong with it.
var hostileFields = []string{
	"m%s = 2 kg", "m = 2 k%sg", "m = %s2 kg", "2*%sq", "# remark %s", "note text %s", "part a%s: How stiff%s?", "1 l%sap = 400 m",
	"f(x%s) = 2*x", "formula li%sft: W = m*g\n  W in J, wo%srk\n  m in kg, mass", "check 2 m = 3%s m", "let k%s in N", "report k%s to 3 figures",
	"bars at \"be%sfore\": 3 J, 0 J | at \"after\": 0 J, 3 J", "graph x^2 as \"a%sb\" against x from 0 to 3", "table x%s^2 against x from 0 to 3 by 1",
	"describe k%s", "help %s", "help ne%swton", "worksheet 1 A%s", "worksheet %s", "solve x%s^2 = 4 for x", "results to 3%s figures", "steps to W%s", "%s", "save a%sb", "open %s", "undo%s", "let v%s",
}

// safe fails where bytes for a terminal hold what it must not be sent raw.
func safe(t *testing.T, what string, out []byte) {
	t.Helper()
	for rest := out; len(rest) > 0; {
		r, n := utf8.DecodeRune(rest)
		if writing.Escaped(r) || r == utf8.RuneError && n == 1 {
			t.Errorf("%s: %q goes out raw in %q", what, rest[:n], out)
			return
		}
		rest = rest[n:]
	}
	for row := range bytes.SplitSeq(out, []byte("\n")) {
		if bytes.HasPrefix(row, []byte("X")) {
			t.Errorf("%s: a row is made up: %q", what, out)
		}
	}
}

// shownBy runs a command line and returns what a terminal would be sent.
func shownBy(stdin string, args ...string) []byte {
	var out bytes.Buffer
	w := &world{ctx: context.Background(), stdin: strings.NewReader(stdin), width: 80}
	w.stdout, w.stderr = &screen{to: &out}, &screen{to: &out}
	run(w, args)
	return out.Bytes()
}

// TestHostileText drives every message with such text in every field: statements,
// records, titles, names of files, words and options of the command line.
func TestHostileText(t *testing.T) {
	dir := t.TempDir()
	t.Chdir(dir)
	for _, bad := range hostile {
		for _, field := range hostileFields {
			text := strings.ReplaceAll(field, "%s", bad)
			what := fmt.Sprintf("%q", text)
			one := strings.ReplaceAll(text, "\n", "\n  ")
			safe(t, what, shownBy("", "eval", "k = 2 N", one, one+" = 3", "2 kg +"))
			safe(t, what, shownBy("k = 2 N\n"+text+"\nundo\n", "eval"))
			lines := shownBy("", "eval", "--json", "k = 2 N", one)
			safe(t, what, lines)
			for line := range bytes.Lines(lines) {
				if !json.Valid(line) {
					t.Errorf("%s: no JSON: %q", what, line)
				}
			}
		}
		name := "a" + strings.ReplaceAll(bad, "/", "") + ".worked"
		sheet := "worksheet 1  A" + strings.Trim(bad, "\r\nX") + "\n\nm = 2 kg\n2*m\n  = 5" + bad + " kg\nx" + bad + "\n3*m\n  = 7 kg\n"
		if err := os.WriteFile(name, []byte(sheet), 0o600); err != nil {
			t.Fatal(err)
		}
		with := "m = 3" + bad
		for _, args := range [][]string{
			{"replay", name}, {"replay", "--json", name}, {"replay", "--strict", name}, {"replay", "no" + name}, {"replay", "--with", with, name},
			{"replay", "--with", bad, name}, {"replay", "--with", "m@" + bad + "=3 kg", name}, {"replay", "--with", "q" + bad + "=3 kg", name},
			{"print", name}, {"print", "--as", "text", name}, {"print", "--as", "latex", name}, {"print", "--as", "markdown", name}, {"print", "--as", bad, name}, {"print", "--edition", bad, name},
			{"print", "-o", "to" + bad + "/x/y.html", name}, {"print", "no" + name}, {"print", "-" + bad, name}, {"print", "-o", name, name},
			{"replay", "--x" + bad}, {bad}, {"a" + bad}, {"--a" + bad}, {bad + ".worked"}, {"x=" + bad}, {"help", bad}, {"help", "newto" + bad}, {"eval", "--js" + bad},
		} {
			safe(t, fmt.Sprintf("%q", args), shownBy("", args...))
		}
	}
}

// TestHostileScratchpad does so with what the scratchpad itself says.
func TestHostileScratchpad(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, bad := range hostile {
		var out bytes.Buffer
		w := &world{ctx: context.Background(), width: 80}
		w.stdout, w.stderr = &screen{to: &out}, &screen{to: &out}
		s := &scratchpad{w: w, pad: live.New()}
		for _, field := range hostileFields {
			text := strings.ReplaceAll(field, "%s", bad)
			s.Enter(w.ctx, text, false)
			s.Enter(w.ctx, "save "+bad, false)
			s.Enter(w.ctx, "save a"+bad+" anyway", false)
			s.Enter(w.ctx, "replay", false)
			s.Enter(w.ctx, "open no"+bad+" anyway", false)
			s.Enter(w.ctx, text, false)
			s.Enter(w.ctx, "undo", false)
		}
		safe(t, fmt.Sprintf("%q", bad), out.Bytes())
	}
	left, _ := filepath.Glob("*.worked")
	if len(left) == 0 {
		t.Error("nothing was saved")
	}
}

// TestScreenInPieces writes a text in two pieces, cut at every byte.
func TestScreenInPieces(t *testing.T) {
	const text = "a\ufdd0b\ufdd1 ω\u202e\x1b[1m\ufdd0c\nd\t\xff²"
	const want = "a\x1b[1mb\x1b[0m ω\ufffd\ufffd[1m\x1b[1mc\x1b[0m\nd\t\ufffd²"
	for cut := range len(text) + 1 {
		var out bytes.Buffer
		s := &screen{to: &out, bold: true}
		fmt.Fprint(s, text[:cut])
		fmt.Fprint(s, text[cut:])
		if out.String() != want {
			t.Fatalf("cut at %d: %q, want %q", cut, out.String(), want)
		}
	}
}

// TestJSONGoesOn prints a line for every statement, whatever a value in it comes to.
func TestJSONGoesOn(t *testing.T) {
	for _, lines := range [][]string{
		{"x = 0.0 ± 0.1 m", "y = √x", "budget y", "z = 2 m"},
		{"s = 1.0 ± 0.1", "p = arcsin(s)", "budget p", "z = 2 m"},
		{"T = [1, 2, 3] s", "m = [1e160, 2e160, 3e160] kg", "fit T against m as a, b", "z = 2 m"},
		{"x = 1e300 m in fm", "L = [1e300, 2e300] m in fm", "z = 2 m"},
	} {
		got := string(shownBy("", append([]string{"eval", "--json"}, lines...)...))
		for i := range lines {
			if want := `{"line":` + strconv.Itoa(i+1) + ","; !strings.Contains(got, want) {
				t.Errorf("%q: no line %d in %s", lines, i+1, got)
			}
		}
	}
}
