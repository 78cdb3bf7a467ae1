package help_test

import (
	"bytes"
	"context"
	"flag"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/mattn/go-runewidth"

	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/syntax"
	"steelyard/session"
	"steelyard/session/help"
	"steelyard/session/view"
	"steelyard/units"
	"steelyard/units/writing"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// TestPages holds the pages that matter most against golden files.
func TestPages(t *testing.T) {
	pad := session.New()
	pad.Enter(context.Background(), "hill = 250 N/m")
	for _, word := range []string{
		"", "newton", "kN", "degC", "inch", "N m", "m/s^2", "torque", "energy", "speed", "work", "spring_energy",
		"pendulum_period", "oscillation", "check", "formula", "solve", "sqrt", "asin", "sum", "min", "round", "c", "G",
		"unit-mismatch", "angles", "temperatures", "numbers", "keys", "greek", "√", "±", "exit", "print", "hill", "newtn", "spring_enrgy", "chekc", "kinetic", "xyzzy",
		"statements", "functions", "formulas", "units", "quantities", "constants", "findings",
	} {
		t.Run(word, func(t *testing.T) {
			got := []byte(strings.Join(help.Topic(pad, word, 72), "\n") + "\n")
			path := "testdata/" + strings.NewReplacer("/", "_per_", " ", "_", "^", "", "√", "root", "±", "plusminus").Replace("help "+word) + ".golden"
			if *update {
				if err := os.WriteFile(path, got, 0o644); err != nil {
					t.Fatal(err)
				}
				return
			}
			want, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			if !bytes.Equal(got, want) {
				t.Errorf("got\n%s\nwant\n%s", got, want)
			}
		})
	}
}

// TestEveryWord asks for every word that help offers and for every unit: all
// are known, and no row is wider than a screen.
func TestEveryWord(t *testing.T) {
	pad := session.New()
	words := append(help.Words(pad), units.NewTable().Complete("")...)
	if len(words) < 500 {
		t.Fatalf("only %d words", len(words))
	}
	for _, word := range words {
		if !help.Known(pad, word) {
			t.Errorf("%s is offered and not known", word)
		}
		for _, row := range help.Topic(pad, word, 72) {
			if runewidth.StringWidth(row) > 72 {
				t.Errorf("help %s: a row of %d cells: %s", word, runewidth.StringWidth(row), row)
			}
			if strings.HasSuffix(row, " ") {
				t.Errorf("help %s: blanks at the end of %q", word, row)
			}
		}
	}
}

// TestNarrow asks for every word on narrow screens: no row is wider but for one
// long word, and the words are those of a usual screen.
func TestNarrow(t *testing.T) {
	pad := session.New()
	for _, cells := range []int{58, 34} {
		for _, word := range append(help.Words(pad), "") {
			rows := help.Topic(pad, word, cells)
			for _, row := range rows {
				if runewidth.StringWidth(row) > cells && len(strings.Fields(row)) > 1 {
					t.Errorf("help %s: a row of %d cells: %q", word, runewidth.StringWidth(row), row)
				}
			}
			got, want := strings.Fields(strings.Join(rows, " ")), strings.Fields(strings.Join(help.Topic(pad, word, 72), " "))
			if strings.Join(got, " ") != strings.Join(want, " ") {
				t.Errorf("help %s, %d cells: other words:\n%s", word, cells, strings.Join(rows, "\n"))
			}
		}
	}
}

// TestGreekGuide holds the guide to Greek letters to what is read.
func TestGreekGuide(t *testing.T) {
	text := strings.Fields(strings.Join(help.Topic(session.New(), "greek", 72), " "))
	letters := 0
	for i, word := range text {
		if letter := writing.Greek(word); letter != "" && text[i-1] == letter {
			letters++
		}
	}
	if letters != 35 {
		t.Errorf("%d letters", letters)
	}
}

// TestSigns enters what the guide to signs says can be typed: it is the sign beside it.
func TestSigns(t *testing.T) {
	for _, pair := range [][2]string{
		{"√(x)", "sqrt(x)"}, {"x²", "x^2"}, {"3·x", "3*x"}, {"3 × 2", "3*2"}, {"6 m ÷ 2", "6 m/2"}, {"½*x", "1/2*x"}, {"2×10⁻³ m", "2*10^-3 m"},
		{"10⁻³ m", "1e-3 m"}, {"check x ≤ 5 m²", "check x <= 5 m^2"}, {"check x ≥ 3 m²", "check x >= 3 m^2"}, {"30°*1", "30 deg*1"}, {"v₀", "v0"}, {"v₀", "v_0"},
		{"20 °C", "20 degC"}, {"5 μm", "5 um"},
	} {
		var said [2]string
		for i, line := range pair {
			pad := session.New()
			pad.Enter(context.Background(), "x = 4 m²")
			pad.Enter(context.Background(), "v0 = 3 m/s")
			var b strings.Builder
			view.Text(&b, pad.Enter(context.Background(), line), view.Options{})
			said[i] = b.String()
		}
		if said[0] != said[1] || said[0] == "" || strings.Contains(said[0], "!") {
			t.Errorf("%s prints %q, and %s %q", pair[0], said[0], pair[1], said[1])
		}
	}
}

// TestOneScreen holds help without a word to one screen of 24 rows of 80 cells,
// the prompt below it included.
func TestOneScreen(t *testing.T) {
	rows := help.Topic(session.New(), "", 72)
	if len(rows) > 23 {
		t.Errorf("%d rows", len(rows))
	}
	for _, row := range rows {
		if runewidth.StringWidth(row) > 72 {
			t.Errorf("%d cells: %s", runewidth.StringWidth(row), row)
		}
	}
}

// TestExamples enters the example of every statement and function.
func TestExamples(t *testing.T) {
	for _, f := range ops.Functions() {
		enter(t, session.New(), f.Example)
	}
	for _, s := range syntax.Statements() {
		if !s.Ready || !s.Stored {
			continue
		}
		pad := session.New()
		for _, line := range []string{"k = 250 N/m", "L = 0.99 m", "T = pendulum_period(L)"} {
			enter(t, pad, line)
		}
		enter(t, pad, s.Example)
	}
	for _, name := range session.New().FormulaNames() {
		pad := session.New()
		rows := help.Topic(pad, name, 72)
		for i, row := range rows {
			if row == "  Write:" {
				// The second example, which may go on over further rows.
				example := strings.TrimSpace(rows[i+2])
				for _, more := range rows[i+3:] {
					if strings.HasSuffix(example, ")") {
						break
					}
					example += " " + strings.TrimSpace(more)
				}
				enter(t, pad, example)
			}
		}
	}
}

// examplesPage are lines that the examples in the help of statements need.
var examplesPage = []string{"k = 257 ± 3 N/m", "k2 = 256.9 N/m", "v = 3 m/s", "m = [0.10, 0.20, 0.30, 0.40] kg", "t = [0.44, 0.63, 0.77, 0.89] s",
	"s(t) = (3 m/s)*t", "w(t) = (4 m/s)*t - (4.9 m/s^2)*t^2", "E(v) = (0.5 kg)*v^2 in J", "F(x) = (3 N/m)*x",
	"U = 5 J", "F1 = 25 N at 20°", "r(t) = (s(t), w(t))", "F2 = 40 N at 100°", "K = 3 J", "W = -2 J", "L = 0.84 m", "T = 2π√(L/g)", "v0 = 12 m/s", "h = 3 m", "u = (3.00, 4.00) m/s"}

// TestClauses enters every example in the help of a statement. Each word with which the
// statement goes on is in one of them, and has help of its own.
func TestClauses(t *testing.T) {
	for _, w := range syntax.Statements() {
		if !w.Ready || !w.Stored {
			continue
		}
		pad := session.New()
		pad.Reads(func(string, string) ([]byte, error) {
			return []byte("m / kg,T / s\n0.1,0.44\n0.2,0.63\n0.3,0.77\n"), nil
		})
		for _, line := range examplesPage {
			enter(t, pad, line)
		}
		examples := []string{w.Example}
		rows := help.Topic(session.New(), w.Word, 72)
		for _, row := range rows[slices.Index(rows, "  Example:")+2+strings.Count(w.Example, "\n"):] {
			if row == "" {
				break // the quantity of the word
			}
			if example, ok := strings.CutPrefix(row, "    "); ok {
				example, _, _ = strings.Cut(example, "   ") // words about it
				examples = append(examples, example)
			}
		}
		for _, example := range examples {
			enter(t, pad, example)
		}
		for _, word := range w.Clauses() {
			if !slices.ContainsFunc(examples, func(e string) bool { return slices.Contains(strings.Fields(e), word) }) {
				t.Errorf("help %s has no example with %s", w.Word, word)
			}
			if !help.Known(session.New(), word) {
				t.Errorf("help does not know %s, of %s", word, w.Word)
			}
		}
	}
}

func enter(t *testing.T, pad *session.Pad, text string) {
	t.Helper()
	e := pad.Enter(context.Background(), text)
	for _, f := range e.Findings {
		if f.ID == finding.GivenAgain {
			continue
		}
		if f.Severity.Fails() {
			t.Errorf("%s: %s: %s", text, f.ID, f.Message)
		}
	}
}

// FuzzTopic asks for anything.
func FuzzTopic(f *testing.F) {
	for _, s := range []string{"", "newton", "N m/", "\xff", "spring_energy(k", strings.Repeat("m ", 500)} {
		f.Add(s)
	}
	pad := session.New()
	f.Fuzz(func(t *testing.T, word string) {
		if len(help.Topic(pad, word, 72)) == 0 {
			t.Errorf("no answer to %q", word)
		}
		help.Known(pad, word)
	})
}
