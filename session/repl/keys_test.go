package repl

import (
	"io"
	"strings"
	"testing"
	"testing/iotest"
	"time"
)

// typed is a source that a reader feeds.
type fed struct{ io.Reader }

func (s fed) next(time.Duration) ([]byte, error) {
	buf := make([]byte, 4096)
	n, err := s.Read(buf)
	return buf[:n], err
}

// pieces is a text that is read in two pieces, cut at a byte.
func pieces(text string, cut int) source {
	return fed{io.MultiReader(strings.NewReader(text[:cut]), strings.NewReader(text[cut:]))}
}

// presses are all that comes of a source: what keys send in angle brackets, what is
// pasted in square ones.
func presses(k *keyReader) (string, error) {
	var b strings.Builder
	for {
		p, err := k.next()
		switch {
		case err != nil:
			return b.String(), err
		case p.pasted:
			b.WriteString("[" + p.text + "]")
		case p.seq != "":
			b.WriteString("<" + p.seq + ">")
		default:
			b.WriteString(p.text)
		}
	}
}

// TestKeys tells keys apart, cut at every byte.
func TestKeys(t *testing.T) {
	tests := map[string]string{
		"ab\x1b[1~c":             "ab<\x1b[1~>c",
		"\x1b[H\x1bOF":           "<\x1b[H><\x1bOF>",
		"\x1b[1;5Dx\x1b[1;5C":    "<\x1b[1;5D>x<\x1b[1;5C>",
		"ω = √(k/m)² ± 1":        "ω = √(k/m)² ± 1",
		"\x1bb\x1bω":             "<\x1bb><\x1bω>",
		"a\x18\x05\x7f":          "a<\x18\x05><\x7f>",
		"\x03":                   "<\x03>",
		"\x1b[200~a\tb\x1b[201~": "[a  b]",
		// Ctrl-C ends whatever is half read.
		"\x1b[200~a = 1\x03b": "<\x03>b",
		"\x1b\x03b":           "<\x03>b",
		"\x1b[1;\x03b":        "<\x03>b",
		"a\x03b\x03":          "a<\x03>b<\x03>",
		"a\r\x03b":            "a<\r><\x03>b",
	}
	for in, want := range tests {
		for cut := range len(in) + 1 {
			got, err := presses(&keyReader{in: pieces(in, cut)})
			if err != io.EOF || got != want {
				t.Errorf("%q cut at %d: %q, %v; want %q", in, cut, got, err, want)
			}
		}
	}
}

// TestPaste takes a bracketed paste in one piece, cut at every byte.
func TestPaste(t *testing.T) {
	in := "x\x1b[200~m = 2 kg\r\n\tv = 3 m/s\rω = 1\nrest\x1b[201~y"
	for cut := range len(in) + 1 {
		got, err := presses(&keyReader{in: pieces(in, cut)})
		if err != io.EOF || got != "x[m = 2 kg\n  v = 3 m/s\nω = 1\nrest]y" {
			t.Errorf("cut at %d: %q, %v", cut, got, err)
		}
	}
}

// TestBurst takes lines that come in one piece for a paste, though the terminal
// does not mark it.
func TestBurst(t *testing.T) {
	got, _ := presses(&keyReader{in: fed{strings.NewReader("a = 1\tm\rb = 2\rc")}})
	if got != "[a = 1  m\nb = 2\nc]" {
		t.Errorf("%q", got)
	}
	// With a key that is no text among them, they are keys.
	got, _ = presses(&keyReader{in: fed{strings.NewReader("ab\x7f\rb = 2\r")}})
	if got != "ab<\x7f><\r>b = 2<\r>" {
		t.Errorf("%q", got)
	}
	// Typed key by key the same text is no paste.
	got, _ = presses(&keyReader{in: fed{iotest.OneByteReader(strings.NewReader("a\rb\r"))}})
	if got != "a<\r>b<\r>" {
		t.Errorf("%q", got)
	}
}

// bodies is a scratchpad that reads a function by intervals.
type bodies struct{ Pad }

func (bodies) Continues(text, line string) bool {
	return strings.HasPrefix(text, "v(t) =") && strings.Contains(line, " for ")
}

// TestPastedPage takes the statements and their results out of a page that was copied from the screen.
func TestPastedPage(t *testing.T) {
	page := `  1.  m = 0.080 kg
  2.  W = m*g*h
            ^
      ! No line above defines h.
  3.  v(t) =
    … 2 m/s for t < 1 s
    … 3 m/s for t ≥ 1 s
    … 
  4.  v(2 s)
        = 3 m/s, a speed
  4.  page
  3.  v(t) =
        2 m/s for t < 1 s
        3 m/s for t ≥ 1 s
  4.  W = m*g*(2 m +            3 m)
        = 3.92 J
  5.  `
	want := "m = 0.080 kg|W = m*g*h|v(t) =|  2 m/s for t < 1 s|  3 m/s for t ≥ 1 s|v(2 s)|  = 3 m/s, a speed|" +
		"page|v(t) =|  2 m/s for t < 1 s|  3 m/s for t ≥ 1 s|W = m*g*(2 m + 3 m)|  = 3.92 J|"
	if got := strings.Join(pastedRows(bodies{}, strings.Split(page, "\n")), "|"); got != want {
		t.Errorf("%q", got)
	}
	page, want = "  1.  m = 3 kg\n  2.  m*(2 m/s)\n        = 6 kg·m/s, a momentum\nt = 2 s", "m = 3 kg|m*(2 m/s)|  = 6 kg·m/s, a momentum|t = 2 s|"
	if got := strings.Join(pastedRows(bodies{}, strings.Split(page, "\n")), "|"); got != want {
		t.Errorf("of a page and a line of one's own came %q", got)
	}
	if got := pastedRows(bodies{}, []string{"3. the crate", "m = 2 kg"}); len(got) != 2 || got[0] != "3. the crate" {
		t.Errorf("%q", got)
	}
}

// FuzzKeys translates anything without losing its place.
func FuzzKeys(f *testing.F) {
	f.Add("\x1b[200~a\nb\x1b[201~", 3)
	f.Add("\x1b[1;5", 2)
	f.Add("\x1b\x1b[[[", 1)
	f.Fuzz(func(t *testing.T, in string, cut int) {
		if cut < 0 || cut > len(in) {
			return
		}
		if _, err := presses(&keyReader{in: pieces(in, cut)}); err != io.EOF {
			t.Fatal(err)
		}
	})
}
