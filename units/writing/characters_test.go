package writing

import (
	"strings"
	"testing"
	"unicode/utf8"
)

func TestRaisedAndBack(t *testing.T) {
	for _, c := range []struct{ plain, up string }{
		{"-12", "⁻¹²"}, {"+34567890", "⁺³⁴⁵⁶⁷⁸⁹⁰"}, {"n", "ⁿ"}, {"", ""},
	} {
		if got := Raised(c.plain); got != c.up {
			t.Errorf("raised %q is %q", c.plain, got)
		}
		if got := OnTheLine(c.up); got != c.plain {
			t.Errorf("%q on the line is %q", c.up, got)
		}
	}
	if got := Raised("1/2"); got != "¹/²" {
		t.Errorf("what has no raised form stays: %q", got)
	}
}

func TestUnlowered(t *testing.T) {
	got := strings.Map(func(r rune) rune {
		if c := Unlowered(r); c != 0 {
			return rune(c)
		}
		return '.'
	}, "₀₉ₐₓⱼᵥxθ²")
	if got != "09axjv..." {
		t.Errorf("%q", got)
	}
}

// TestSign finds one sign for all that look like it, which is its own.
func TestSign(t *testing.T) {
	for sign, all := range map[rune]string{
		' ': " \t\n\r\u00a0\u2009\u202f\u205f\u3000", '-': "-−–‐‑", '·': "·⋅∙•・", '*': "*×∗", '/': "/⁄∕", '°': "°º˚∘", '^': "^＾", 'x': "x", '÷': "÷", 'Ω': "Ω",
	} {
		for _, r := range all {
			if got := Sign(r); got != sign {
				t.Errorf("%q is read as %q, want %q", r, got, sign)
			}
		}
	}
}

func TestGreekBothWays(t *testing.T) {
	for name, letter := range greek {
		r, _ := utf8.DecodeRuneInString(letter)
		if got := GreekName(r); got != name {
			t.Errorf("%s is called %q, want %q", letter, got, name)
		}
	}
	for r, want := range map[rune]string{'\u00b5': "mu", '\u2206': "Delta", '\u2126': "Omega", 'ϕ': "phi", 'Α': "", 'a': ""} {
		if got := GreekName(r); got != want {
			t.Errorf("%c is called %q, want %q", r, got, want)
		}
	}
	if Greek("speed") != "" {
		t.Error("speed is no Greek letter")
	}
}

func TestClean(t *testing.T) {
	for _, c := range []struct {
		name, text, screen, page, file string
	}{
		{"plain", "v = 3 m/s", "v = 3 m/s", "v = 3 m/s", "v = 3 m/s"},
		{"letters", "ω = 2·π ½ e\u0301 \u00a0", "ω = 2·π ½ e\u0301 \u00a0", "ω = 2·π ½ e\u0301 \u00a0", "ω = 2·π ½ e\u0301 \u00a0"},
		{"tab", "a\tb", "a b", "a\tb", "a\tb"},
		{"line end", "a\nb", "a\uFFFDb", "a\nb", "a\uFFFDb"},
		{"other line ends", "a\u2028b\u0085c", "a\uFFFDb\uFFFDc", "a\nb\nc", "a\u2028b\uFFFDc"},
		{"escape", "\x1b[31mred", "\uFFFD[31mred", "[31mred", "\uFFFD[31mred"},
		{"old control", "a\u009b31mb\x7f", "a\uFFFD31mb\uFFFD", "a31mb", "a\uFFFD31mb\uFFFD"},
		{"direction", "a\u202eb\u2066c\u200fd", "a\uFFFDb\uFFFDc\uFFFDd", "abcd", "a\u202eb\u2066c\u200fd"},
		{"no text", "a\xffb\ufffe", "a\uFFFDb\uFFFD", "a\uFFFDb\uFFFD", "a\uFFFDb\uFFFD"},
	} {
		for i, want := range []string{c.screen, c.page, c.file} {
			if got := Clean(c.text, For(i)); got != want {
				t.Errorf("%s, for %d: %q, want %q", c.name, i, got, want)
			}
		}
	}
}

func TestHidden(t *testing.T) {
	for _, r := range "\x00\x7f\u0085\u00ad\u061c\u200b\u200d\u200f\u2028\u202e\u2060\u2069\ufeff" {
		if !Hidden(r) {
			t.Errorf("%U can be seen", r)
		}
	}
	for _, r := range "a0θ \u00a0\u0301\u2009−" {
		if Hidden(r) {
			t.Errorf("%U can't be seen", r)
		}
	}
}

func FuzzClean(f *testing.F) {
	f.Add("a\x1b[2J\u202e\xff\t\n")
	f.Fuzz(func(t *testing.T, text string) {
		for to := Screen; to <= File; to++ {
			once := Clean(text, to)
			if Clean(once, to) != once || !utf8.ValidString(once) {
				t.Errorf("%q for %d: %q", text, to, once)
			}
			if strings.ContainsAny(once, "\x1b\x00\r") || to == Screen && strings.ContainsFunc(once, turns) {
				t.Errorf("%q for %d keeps %q", text, to, once)
			}
		}
	})
}
