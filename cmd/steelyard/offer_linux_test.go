package main

import (
	"testing"
	"time"
)

// shown waits until an offer stands at the prompt, and has stood there long enough to be
// seen.
func (c *terminal) shown(offer string) {
	c.t.Helper()
	c.expect(offer)
	time.Sleep(300 * time.Millisecond)
}

// TestOfferAtHand takes a mended line with Enter, another with Tab, replaces one by
// typing, and empties one with Esc and with Ctrl-U.
func TestOfferAtHand(t *testing.T) {
	c := openTerminal(t, t.TempDir())
	c.expect("  1.  ")
	c.line("m = 3 kg", "  2.  ")
	c.line("v = 2 m", "Write `v = 2*m`")
	c.shown("  2.  v = 2*m")
	c.send("\t")
	c.shown("(2 m)") // only what changes is drawn
	c.send("\x1b[A") // Up means the offer too
	c.shown("2*m")
	c.send("\t")
	c.shown("(2 m)")
	c.send("\r")
	c.expect("  3.  ")
	c.line("change 2 to r = 2.0 m", "  2.  r = 2.0 m")
	c.expect("  3.  ")
	c.line("p = 2 r", "Write `p = 2*r`")
	c.shown("  3.  p = 2*r")
	c.send("\r")
	c.expect("= 4 m, a length")
	c.expect("  4.  ")

	c.line("q = 2 r", "Write `q = 2*r`")
	c.shown("  4.  q = 2*r")
	c.line("a = 7 s", "  5.  ") // what is typed replaces it
	c.line("page 4", "  4.  a = 7 s")
	c.expect("  5.  ")

	for _, empties := range []string{"\x1b", "\x15", "\x03"} {
		c.line("q = 2 r", "Write `q = 2*r`")
		c.shown("  5.  q = 2*r")
		c.send(empties)
		time.Sleep(200 * time.Millisecond)
		c.line("page 4", "  4.  a = 7 s")
		c.expect("  5.  ")
	}

	c.line("q = 2 r", "Write `q = 2*r`")
	c.shown("  5.  q = 2*r")
	c.send("\x1b[D\x1b[D\x7f5") // an arrow edits it: 5*r
	c.send("\r")
	c.expect("= 10 m, a length")
	c.expect("  6.  ")

	c.line("change 4 to p = 2 r", "Write `p = 2*r`")
	c.shown("  6.  change 4 to p = 2*r")
	c.send("\r")
	c.expect("  4.  p = 2*r")
	c.expect("  6.  ")
	c.line("change 4", "  4.  p = 2*r") // the line itself is in the prompt
	c.send("\x7f\x7f\x7f3*m\r")
	c.expect("= 9 kg, a mass")
}

// TestOfferOfSeveralLines takes with one Enter all lines that one line was meant for, also
// where a line above is changed.
func TestOfferOfSeveralLines(t *testing.T) {
	c := openTerminal(t, t.TempDir())
	c.expect("  1.  ")
	c.line("m = 2 kg, k = 5 N/m; A = 3 cm", "  3.  A = 3 cm") // each is sure
	c.expect("  4.  ")
	c.line("E = m*c^2", "c has no value")
	c.shown("… E = m*c^2")
	c.send("\r")
	c.expect("= 1.79751×10¹⁷ J, an energy")
	c.expect("  6.  ")
	c.line("change 1 to m = 4 kg; M = 9 kg", "and then `M = 9 kg`")
	c.shown("… insert before 2 M = 9 kg")
	c.send("\r")
	c.expect("  7.  ")
	c.line("page 1 to 2", "  2.  M = 9 kg")
}

// TestOfferIsNotTakenBlindly types ahead of an offer: no key that was typed before it
// was drawn takes it, nor an Enter right behind, and none is at hand among pasted lines.
func TestOfferIsNotTakenBlindly(t *testing.T) {
	c := openTerminal(t, t.TempDir())
	c.expect("  1.  ")
	c.line("r = 3 kg", "  2.  ")
	for range 5 {
		c.send("d = 2 r\r")
		time.Sleep(time.Millisecond)
		c.send("\r")
		c.expect("Write `d = 2*r`")
		c.expect("  2.  ")
	}
	time.Sleep(300 * time.Millisecond)
	c.send("\x15")
	c.line("page", "1.  r = 3 kg")
	c.expect("  2.  ")
	c.send(pasted("d = 2 r\ne = 2 r\n"))
	c.expect("Write `e = 2*r`")
	c.expect("  2.  ")
	time.Sleep(300 * time.Millisecond)
	c.send("\r\r")
	c.line("page", "1.  r = 3 kg")
	c.expect("  2.  ")
}

func pasted(text string) string { return "\x1b[200~" + text + "\x1b[201~" }
