package print

import (
	"context"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"steelyard/lang/syntax"
	"steelyard/session"
	"steelyard/session/entry"
	"steelyard/units"
)

func entered(lines ...string) []*entry.Entry {
	pad := session.New()
	for _, line := range lines {
		pad.Enter(context.Background(), line)
	}
	return pad.Entries()
}

// TestGuard hides results in notes, functions and ticks, and tells of each.
func TestGuard(t *testing.T) {
	entries := entered(
		"note A cart of 2.0 kg.", "note It will stop after 1.84 m, you know.", "M = 2.0 kg, it stops after 184 cm", "v = 6.0 m/s", "f(x) = x + 3.06 m", "h(x) = x + 1.84 m",
		"part a: How far does it go?", "s = v^2/(2*9.80 m/s^2)", "note The answer is 184 cm.", "s in cm", "U(x) = s*x", "on handout note Hint: below 1.84 m.",
		"graph (9 m/4.9)*x against x from 0 to 1 blank",
		"part b: Show that it stops after 1.84 m.", "check s = 1.84 m",
		"part c: And on ice?", "key only note Here many forget the sign.", "a = 0.30 m/s^2", "w(t) = v - a*t", "graph w(t) against t from 0 s to 10 s blank", "s2 = v^2/(2*a)",
	)
	d, told := New("Cart", entries, Handout)
	text := string(Plain(d, 80))
	for _, secret := range []string{"1.84 m, you", "184", "x + 1.84", "U(x)", "forget"} {
		if strings.Contains(text, secret) {
			t.Errorf("the handout holds %s:\n%s", secret, text)
		}
	}
	for _, kept := range []string{"A cart of 2.0 kg.", "M = 2.0 kg", "Show that", "x + 3.06 m", "Hint: below 1.84 m.", "w(t) = v − a·t", "s2 = ____"} {
		if !strings.Contains(text, kept) {
			t.Errorf("%q is missing:\n%s", kept, text)
		}
	}
	for i, part := range []string{
		"line 2: the note is left out of the handout: it holds 1.84 m, the result s of line 8. `on handout` before the line keeps it.",
		"line 3: what words say of the given is left out of the handout: they hold 184 cm, the result s of line 8.",
		"line 6: the function h is left out of the handout: it holds 1.84 m",
		"line 9: the note is left out of the handout: it is below the first line of a solution.",
		"line 11: the function U is left out of the handout: it uses line 8, which is part of a solution.",
		"line 14: the question of part b holds 1.84 m, the result s of line 8.",
	} {
		if i >= len(told) || !strings.Contains(told[i], part) {
			t.Errorf("%q is not told; told\n%s", part, strings.Join(told, "\n"))
		}
	}
}

// spellings are ways to write a value in its unit, with three figures or two.
var spellings = []func(v entry.Value) string{
	func(v entry.Value) string { return rounded(v, 3, units.Screen) },
	func(v entry.Value) string { return rounded(v, 2, units.File) },
	func(v entry.Value) string { return rounded(v, 6, units.Screen) },
	func(v entry.Value) string { return strings.Replace(rounded(v, 3, units.Screen), ".", ",", 1) },
	func(v entry.Value) string { return fmt.Sprintf("%.2e", v.InUnit) + v.Unit.Behind(units.File) },
	func(v entry.Value) string { return powered(v, "×10^%d") + v.Unit.Behind(units.Screen) },
	func(v entry.Value) string { return powered(v, " · 10^(%d)") + v.Unit.Behind(units.Screen) },
	func(v entry.Value) string { return "x = " + number(v, 3) + ", in all" },
	func(v entry.Value) string { return "x is " + number(v, 2) + "." },
	func(v entry.Value) string {
		return number(v, 4) + "\u202f" + strings.TrimSpace(v.Unit.Behind(units.Screen))
	},
	func(v entry.Value) string {
		return number(v, 3) + strings.ReplaceAll(v.Unit.Behind(units.File), " ", "")
	},
	func(v entry.Value) string { return "(" + number(v, 5) + v.Unit.Behind(units.Screen) + ")" },
}

func rounded(v entry.Value, n int, form units.Form) string {
	return units.FormatQuantity(v.InUnit, v.Unit, units.Figures{N: n, Keep: true}, v.Rounding, form)
}

func number(v entry.Value, n int) string {
	return units.FormatNumber(v.InUnit, units.Figures{N: n, Keep: true}, v.Rounding, units.Screen)
}

func powered(v entry.Value, how string) string {
	power := int(math.Floor(math.Log10(math.Abs(v.InUnit))))
	return fmt.Sprintf("%.3f"+how, v.InUnit/math.Pow10(power), power)
}

// TestEveryResultIsHidden writes each result of every example into a note in many
// spellings, and finds each note gone.
func TestEveryResultIsHidden(t *testing.T) {
	tried := 0
	for _, f := range printed(t) {
		entries, _ := worked(t, f)
		g := newGuard(entries)
		for _, e := range entries {
			for _, v := range eachValue(e.Values()) {
				if !syntax.RoleOf(e.Stmt).Asks() || public(g, quantity{v.SI, v.Dim}, 3) {
					continue
				}
				for i, spell := range spellings {
					if i == 1 && v.Dim.IsOne() || i == 7 && strings.HasSuffix(number(v, 3), "0") || i == 10 && v.Unit.Text() == "m s" {
						continue // 32 and 200 may be any number, and ms is a millisecond
					}
					if two := i == 1 || i == 8; two && (public(g, quantity{v.SI, v.Dim}, 2) || strings.Contains(number(v, 2), "0")) {
						continue
					}
					tried++
					if note := "It comes to " + spell(v) + " then."; g.reveals(note) == nil {
						t.Errorf("%s line %d: spelling %d is not found: %s", f, e.Line, i, note)
					}
				}
			}
		}
	}
	if tried < 600 {
		t.Errorf("only %d notes were tried", tried)
	}
}

// TestVectorsAreHidden writes a vector that is a result by its components, and by its
// magnitude and direction.
func TestVectorsAreHidden(t *testing.T) {
	g := newGuard(entered("F = 45 N at 20° south of west", "v_0 = (3.0, 4.0) m/s", "m = 2.4 kg", "b = 72 m", "part a: A kite",
		"v_1 = v_0 + F/m*(0.50 s)", "p = m*v_1", "r = (1, 2.5)*b", "u = 2*(3 N, 0 N, 2.35 N)"))
	for _, text := range []string{
		"It is (-5.8, 0.79) m/s then.", "v_1 = (−5.81, 0.794) m/s", "(-5,8; 0,79) m/s", "(-5.81 m/s, 0.79 m/s)", "-5.8 m/s i + 0.79 m/s j", "the components are -5.8 and 0.79 m/s",
		"v_x is -5.8 m/s", "5.86 m/s at 172°", "the speed is 5.9 m/s", "at 172.2°", "7.8° north of west", "at 82° west of north", "187.8° clockwise", "p is (-14, 1.9) kg m/s", "r = (72,180) m", "[5.0, 180] m", "7.6 N",
	} {
		if g.reveals(text) == nil {
			t.Errorf("not found: %s", text)
		}
	}
	for _, text := range []string{"The wind blows with 45 N at 20° south of west.", "from (3.0, 4.0) m/s on", "in 9 and 10 m", "(72) m"} {
		if l := g.reveals(text); l != nil {
			t.Errorf("%s is taken for %s", text, l)
		}
	}
}

// public tells whether a value is, at some figures, one of those that are put in, or a
// count.
func public(g *guard, q quantity, figures int) bool {
	for _, k := range g.known {
		if k.dim == q.dim && math.Abs(math.Abs(k.si)-math.Abs(q.si)) <= 5.5*math.Pow10(-figures)*math.Abs(q.si) {
			return true
		}
	}
	return q.dim.IsOne() && math.Abs(q.si-math.Round(q.si)) < 1e-9
}

// TestInnocentNotesStay keeps notes whose numbers are of other kinds than the results,
// or of things that are counted.
func TestInnocentNotesStay(t *testing.T) {
	data, err := os.ReadFile(filepath.Join("testdata", "innocent.txt"))
	if err != nil {
		t.Fatal(err)
	}
	notes := strings.Split(strings.TrimSpace(string(data)), "\n")
	if len(notes) < 200 {
		t.Errorf("only %d notes", len(notes))
	}
	entries, _ := worked(t, filepath.Join("..", "..", "examples", "pinball-plunger.worked"))
	g := newGuard(entries)
	for _, note := range notes {
		if l := g.reveals(note); l != nil {
			t.Errorf("%s: it is taken to hold %v", note, l)
		}
	}
}
