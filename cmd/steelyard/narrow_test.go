package main

import (
	"bytes"
	"context"
	"strings"
	"testing"

	"github.com/mattn/go-runewidth"
)

// TestNarrow prints tables, drawings, lists and help on narrow screens: no row is wider,
// but for a statement as it was typed.
func TestNarrow(t *testing.T) {
	lines := []string{
		"k = 250 N/m", "v(x) = x/(0.013 s)", "U(x) = 1/2*k*x^2 in J", "table U(x) against x from 0 cm to 6 cm by 2 cm",
		"table U(x), v(x), x^3 against x from 0 cm to 6 cm by 2 cm", "graph U(x) against x from 0 cm to 6 cm",
		`bars at "before": U(3 cm), 0 J | at "half way through": 0 J, U(3 cm)`, "names", "describe k", "solve U(x) = 3 J for x", "steps x", "help newton", "help",
		"3 J + 2 N", "U(3 cm) in N",
	}
	for _, width := range []int{30, 40, 60} {
		for _, ascii := range []bool{true, false} {
			var out bytes.Buffer
			w := &world{ctx: context.Background(), width: width, ascii: ascii}
			w.stdout, w.stderr = &screen{to: &out}, &screen{to: &out}
			run(w, append([]string{"eval"}, lines...))
			for row := range strings.SplitSeq(out.String(), "\n") {
				_, text, _ := strings.Cut(row, ".  ")
				typed := strings.HasPrefix(row, "  ") && strings.Contains(strings.Join(lines, "\n")+"\n", text+"\n")
				if n := runewidth.StringWidth(row); n > width && !typed {
					t.Errorf("%d columns: a row of %d cells: %q", width, n, row)
				}
				if ascii && strings.ContainsFunc(row, func(r rune) bool { return r >= '\u2500' && r <= '\u28ff' }) {
					t.Errorf("%d columns: not drawn in plain characters: %q", width, row)
				}
			}
			if said := out.String(); width == 30 && (!strings.Contains(said, "x / cm   U / J\n") || !strings.Contains(said, "v / (m/s): 1.53846\n")) {
				t.Errorf("a table that fits is in columns, another row by row:\n%s", said)
			}
		}
	}
}

// TestPlainLocale draws with fine characters only where the terminal and the locale
// have them.
func TestPlainLocale(t *testing.T) {
	for _, c := range []struct {
		set   map[string]string
		plain bool
	}{
		{map[string]string{"LC_ALL": "C"}, true},
		{map[string]string{"LC_ALL": "POSIX", "LANG": "en_GB.UTF-8"}, true},
		{map[string]string{"LANG": "C"}, true},
		{map[string]string{"LC_ALL": "C.UTF-8"}, false},
		{map[string]string{"LC_CTYPE": "en_GB.utf8", "LANG": "C"}, false},
		{map[string]string{"LANG": "de_DE.ISO-8859-1"}, true},
		{map[string]string{"LANG": "de_DE.UTF-8", "TERM": "dumb"}, true},
		{map[string]string{"LANG": "de_DE.UTF-8", "TERM": "linux"}, true},
		{map[string]string{}, false},
	} {
		for _, name := range []string{"LC_ALL", "LC_CTYPE", "LANG", "TERM"} {
			t.Setenv(name, c.set[name])
		}
		if plainTerminal() != c.plain {
			t.Errorf("%v: plain is %v", c.set, !c.plain)
		}
	}
}
