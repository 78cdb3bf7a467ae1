package rows

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/mattn/go-runewidth"
)

func TestWrap(t *testing.T) {
	for _, c := range []struct {
		text  string
		width int
		want  string
	}{
		{"", 20, ""},
		{"one two three", 7, "one two|three"},
		{"one two three", 8, "one two|three"},
		{"the speed is 3.0 m/s here", 16, "the speed is|3.0 m/s here"},
		{"the speed is (−3.0 m/s) here", 16, "the speed is|(−3.0 m/s) here"},
		{"it is ±0.20 kg", 9, "it is|±0.20 kg"},
		{"the heat is 4186 J/(kg K) here", 22, "the heat is|4186 J/(kg K) here"},
		{"it is 12 kg m/s and", 12, "it is|12 kg m/s|and"},
		{"see line 12 above", 8, "see|line 12|above"},
		{"write `a + b` there", 9, "write|`a + b`|there"},
		{"anunbreakableword or two", 6, "anunbreakableword|or two"},
		{"two columns    apart here", 15, "two columns|apart here"},
		{"力力 力力", 6, "力力|力力"},
	} {
		if got := strings.Join(Wrap(c.text, c.width), "|"); got != c.want {
			t.Errorf("%q in %d: %q, want %q", c.text, c.width, got, c.want)
		}
	}
}

func TestHang(t *testing.T) {
	got := strings.Join(Hang("  m  the mass of the plunger", 5, 16), "|")
	if want := "  m  the mass of|     the plunger"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

func TestFit(t *testing.T) {
	for _, c := range []struct {
		text  string
		width int
		want  string
	}{
		{"  one   two ", 7, "one two"},
		{"abcdefgh ij", 3, "abc|def|gh|ij"},
		{"x abcdefgh", 4, "x|abcd|efgh"},
		{"力力力", 4, "力力|力"},
		{"", 4, ""},
	} {
		if got := strings.Join(Fit(c.text, c.width), "|"); got != c.want {
			t.Errorf("%q in %d: %q, want %q", c.text, c.width, got, c.want)
		}
	}
}

func FuzzFit(f *testing.F) {
	f.Add("W = 0.46 J, `an energy` of 3.0 kg", 9)
	f.Fuzz(func(t *testing.T, text string, width int) {
		if width < 2 || width > 200 || !utf8.ValidString(text) { // text is made safe before
			return
		}
		var b strings.Builder
		for _, row := range Fit(text, width) {
			if n := runewidth.StringWidth(row); n > width && len([]rune(row)) > 1 {
				t.Errorf("%q is %d cells wide, more than %d", row, n, width)
			}
			b.WriteString(row)
		}
		if got, want := strings.Join(strings.Fields(b.String()), ""), strings.Join(strings.Fields(text), ""); got != want {
			t.Errorf("%q has become %q", want, got)
		}
	})
}

// TestWidth asks the library for every character that is counted without it, alone and
// between others.
func TestWidth(t *testing.T) {
	var all strings.Builder
	for r := range rune(0x110000) {
		if !usual(r) {
			continue
		}
		all.WriteRune(r)
		if got := runewidth.RuneWidth(r); got != 1 {
			t.Errorf("%q takes %d", r, got)
		}
	}
	for _, text := range []string{all.String(), "", "v₀ = √(2·g·h) ≈ 3.1 m/s²", "力 = 2 N", "e\u0301", "a\u00adb", "\x7f", "👩‍🔬 k"} {
		if got, want := Width(text), runewidth.StringWidth(text); got != want {
			t.Errorf("%.40q takes %d, want %d", text, got, want)
		}
	}
}
