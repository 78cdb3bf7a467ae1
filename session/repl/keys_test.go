package repl

import (
	"io"
	"strings"
	"testing"
	"testing/iotest"
	"time"
)

// typed is a source that a reader feeds.
type typed struct{ io.Reader }

func (s typed) next(time.Duration) ([]byte, error) {
	buf := make([]byte, 4096)
	n, err := s.Read(buf)
	return buf[:n], err
}

// pieces is a text that is read in two pieces, cut at a byte.
func pieces(text string, cut int) source {
	return typed{io.MultiReader(strings.NewReader(text[:cut]), strings.NewReader(text[cut:]))}
}

// TestKeys translates every sequence, cut at every byte.
func TestKeys(t *testing.T) {
	tests := map[string]string{
		"ab\x1b[1~c":             "ab\x01c",
		"\x1b[4~":                "\x05",
		"\x1b[H\x1b[F":           "\x01\x05",
		"\x1bOH\x1bOF":           "\x01\x05",
		"\x1b[3~":                string(deleteRune),
		"\x1b[1;5Dx\x1b[1;5C":    "\x1bbx\x1bf",
		"\x1b[5D\x1b[5C":         "\x1bb\x1bf",
		"\x1b[A\x1b[B\x1b[C":     "\x1b[A\x1b[B\x1b[C",
		"ω = √(k/m)² ± 1":        "ω = √(k/m)² ± 1",
		"\x1bb":                  "\x1bb",
		"\x1b[5~x\x1b[6~":        "x",
		"\x03":                   "\x07\x03",
		"\x1b[200~a\tb\x1b[201~": "a  b",
		// Ctrl-C ends whatever is half read.
		"\x1b[200~a = 1\x03b": "\x07\x03b",
		"\x1b\x03b":           "\x07\x03b",
		"\x1b[1;\x03b":        "\x07\x03b",
		"a\x03b\x03":          "a\x07\x03b\x07\x03",
	}
	for in, want := range tests {
		for cut := range len(in) + 1 {
			k := &keyReader{in: pieces(in, cut)}
			got, err := io.ReadAll(k)
			if err != nil || string(got) != want {
				t.Errorf("%q cut at %d: %q, %v; want %q", in, cut, got, err, want)
			}
		}
	}
}

// TestPaste takes whole lines out of a bracketed paste, cut at every byte.
func TestPaste(t *testing.T) {
	in := "x\x1b[200~m = 2 kg\r\n\tv = 3 m/s\rω = 1\nrest\x1b[201~y"
	for cut := range len(in) + 1 {
		k := &keyReader{in: pieces(in, cut)}
		got, err := io.ReadAll(k)
		if err != nil || string(got) != "x\rresty" {
			t.Errorf("cut at %d: %q, %v", cut, got, err)
		}
		if lines := strings.Join(k.takePasted(), "|"); lines != "m = 2 kg|  v = 3 m/s|ω = 1" {
			t.Errorf("cut at %d: pasted %q", cut, lines)
		}
		if again := k.takePasted(); len(again) != 0 {
			t.Errorf("pasted lines are given twice: %q", again)
		}
	}
}

// TestBurst takes lines that come in one piece for a paste, though the terminal
// does not mark it.
func TestBurst(t *testing.T) {
	k := &keyReader{in: typed{strings.NewReader("a = 1\tm\rb = 2\rc")}}
	got, _ := io.ReadAll(k)
	if string(got) != "\rc" || strings.Join(k.takePasted(), "|") != "a = 1  m|b = 2" {
		t.Errorf("%q", got)
	}
	// Typed key by key the same text is no paste.
	k = &keyReader{in: typed{iotest.OneByteReader(strings.NewReader("a\rb\r"))}}
	got, _ = io.ReadAll(k)
	if string(got) != "a\rb\r" || len(k.takePasted()) != 0 {
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
		k := &keyReader{in: pieces(in, cut)}
		if _, err := io.ReadAll(k); err != nil {
			t.Fatal(err)
		}
	})
}

// TestLongPaste hands a long line to the editor in one piece, a short one as typed.
func TestLongPaste(t *testing.T) {
	for n, piece := range map[int]bool{longPaste: false, longPaste + 1: true, 20_000: true} {
		text := strings.Repeat("x", n)
		k := &keyReader{in: pieces("a\x1b[200~"+text+"\x1b[201~b", 0)}
		got, err := io.ReadAll(k)
		want := "a" + text + "b"
		if piece {
			want = "a" + string(pasteRune) + "b"
		}
		if err != nil || string(got) != want || piece && k.takePiece() != text || k.takePiece() != "" {
			t.Errorf("%d bytes: %.40q, %v", n, got, err)
		}
	}
}
