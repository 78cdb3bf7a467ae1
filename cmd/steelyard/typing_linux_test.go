package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"golang.org/x/sys/unix"
)

// raw is all that the program has sent so far.
func (c *terminal) raw() string {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.out.String()
}

// modes are those of the terminal, as one would see them in the program's place.
func (c *terminal) modes() unix.Termios {
	c.t.Helper()
	m, err := unix.IoctlGetTermios(int(c.tty.Fd()), unix.TCGETS)
	if err != nil {
		c.t.Fatal(err)
	}
	return *m
}

// has waits until the page is these lines.
func (c *terminal) has(lines ...string) {
	c.t.Helper()
	c.send("page\r")
	c.expect("page")
	for i, line := range lines {
		c.expect(fmt.Sprintf("%d.  %s", i+1, line))
	}
	c.expect(fmt.Sprintf("  %d.  ", len(lines)+1))
}

// TestPasteAtTheCursor pastes lines in front of what stands there, and a page of our own.
func TestPasteAtTheCursor(t *testing.T) {
	c := openTerminal(t, t.TempDir())
	c.expect("  1.  ")
	c.send("c = 3 m\x1b[H" + pasted("a = 1 m\nb = 2 m\n"))
	c.expect("  3.  c = 3 m")
	c.send("\r")
	c.expect("  4.  ")
	c.has("a = 1 m", "b = 2 m", "c = 3 m")
	c.send(pasted("  4.  d = 4 m\n  5.  2*d\n        = 8 m, a length\n  6.  f(t) =\n    … 2*t for 0 s < t < 1 s\n    … (2 s) for t > 1 s\n    … \n  7.  f(3 s)"))
	c.expect("f(3 s)")
	c.expect("= 2 s")
	c.expect("  8.  ")
	c.send(pasted(`W = \frac{1}{2}\,(3\,\mathrm{kg})\,(2\,\mathrm{m/s})^2`) + "\r")
	c.expect("W = 1/2*(3 kg)*(2 m/s)^2")
	c.expect("= 6 J")
	c.expect("  9.  ")
	c.send(pasted("d_2 = 5\u2009m \u2212 2\u00a0m") + "\r") // as print sets it
	c.expect("= 3 m")
	c.expect(" 10.  ")
	// A body that has begun goes on with what is pasted; what is no row of it does not.
	c.send("h(t) =\r" + pasted("2*t for 0 s < t < 1 s\n3*t for 1 s < t < 2 s\nh(1.5 s)\n"))
	c.expect("= 4.5 s")
	c.expect(" 12.  ")
	// Without an end of line the statement of the last row waits, with all its rows.
	c.send(pasted("n = 1\ndata\n  q / C   I / A\n  1   2\n  2   3"))
	c.expect("2   3")
	c.send("\r")
	c.expect("2 rows: q in C and I in A")
	c.expect(" 14.  ")
	c.send(pasted("data\n  p / W\n  5\n  6"))
	c.expect("6")
	c.send("0\r") // it can be gone on with
	c.expect("2 rows: p in W")
	c.expect(" 15.  ")
	c.line("p", "[5, 60] W")
	// Rows of a spreadsheet program are not indented, and have tabs between them.
	c.send(pasted("data\nR / Ω\tz / m\n5\t1\n6\t2\nmax(R)\n"))
	c.expect("2 rows: R in Ω and z in m")
	c.expect("= 6 Ω")
	// Of a page that was shown again the rows of a body stay.
	c.send(pasted("  1.  y(t) =\n        2*t for 0 s < t < 1 s\n        3*t for 1 s < t < 2 s\n  2.  data\n        j / A   b / T\n" +
		"        1   4\n        2   5\n        2 rows: j in A and b in T\n  3.  y(0.5 s) + max(b)*(3 s/T)\n        = 16 s, a time\n"))
	c.expect("= 16 s")
}

// TestInsert puts several lines in before another, one by one, in their order: what fails
// leaves the place as it is, and so does a command; an empty line goes on below.
func TestInsert(t *testing.T) {
	c := openTerminal(t, t.TempDir())
	c.expect("  1.  ")
	c.line("x = 1 m", "  2.  ")
	c.line("y = 2 m", "  3.  ")
	c.line("insert before 2", "Lines go in before line 2; Enter on an empty line ends that.")
	c.expect("  2.  ")
	c.line("a = 3 m", "  3.  ")
	c.line("b = 4 m*q", "The page stays as it was.")
	c.expect("  3.  ")
	c.line("help newton", "  3.  ")
	c.line("b = 4*a", "  4.  ")
	c.line("undo", "  3.  ")
	c.line("b = 5*a", "  4.  ")
	c.line("rename a to c", "a is c in lines")
	c.expect("  4.  ")
	c.line("2x", "Write `2*x`") // the offer is the line alone
	c.expect("  4.  2*x")
	time.Sleep(200 * time.Millisecond)
	c.line("", "= 2 m")
	c.expect("  5.  ")
	c.line("", "  6.  ")
	c.has("x = 1 m", "c = 3 m", "b = 5*c", "2*x", "y = 2 m")
	// A line that is changed waits at its place too, as it was typed.
	c.line("change 3", "  3.  b = 5*c")
	c.send("*q\r")
	c.expect("No line above defines q.")
	c.expect("  3.  b = 5*c*q")
	c.send("\x7f2\r")
	c.expect("  6.  ")
	c.has("x = 1 m", "c = 3 m", "b = 5*c*2", "2*x", "y = 2 m")
}

// TestPasteIntoInsert puts several lines in before another, in their order.
func TestPasteIntoInsert(t *testing.T) {
	c := openTerminal(t, t.TempDir())
	c.expect("  1.  ")
	c.line("x = 1 m", "  2.  ")
	c.line("y = 2 m", "  3.  ")
	c.line("insert before 2", "  2.  ")
	c.send(pasted("a = 3 m\nb = 4 m\n"))
	c.expect("  4.  ")
	c.line("", "  5.  ")
	c.has("x = 1 m", "a = 3 m", "b = 4 m", "y = 2 m")
	// Without an end of line the last row waits in the prompt, where the others went.
	c.line("insert before 2", "  2.  ")
	c.send(pasted("p = 7 m\nq = 8 m"))
	c.expect("  3.  q = 8 m")
	c.send("\r")
	c.expect("  4.  ")
	c.line("", "  7.  ")
	c.line("page 1 to 4", "  7.  ")
	c.has("x = 1 m", "p = 7 m", "q = 8 m", "a = 3 m")
	c.line("remove 2", "  6.  ")
	c.line("remove 2", "  5.  ")
	// The last line of a paste may be a command that puts a line into the prompt.
	c.send(pasted("z = 5 m\nchange 2\n"))
	c.expect("  2.  a = 3 m")
	c.send("\x7f\x7f\x7f6 m\r")
	c.expect("  6.  ")
	c.has("x = 1 m", "a = 6 m", "b = 4 m", "y = 2 m", "z = 5 m")
}

// TestPastedLength pastes 20,000 characters, which come in one piece.
func TestPastedLength(t *testing.T) {
	c := openTerminal(t, t.TempDir())
	c.expect("  1.  ")
	from := time.Now()
	c.send(pasted("note " + strings.Repeat("weights ", 2499) + "end"))
	c.expect("end")
	t.Logf("shown after %v, in %d bytes", time.Since(from).Round(time.Millisecond), len(c.raw()))
}

// TestBody types a function by intervals: help within it, and the rows above come again
// with Up after Ctrl-C, where one Enter is enough.
func TestBody(t *testing.T) {
	c := openTerminal(t, t.TempDir())
	c.expect("  1.  ")
	c.line("f(t) =", "… ")
	c.line("2*t for 0 s < t < 1 s", "… ")
	c.line("help newton", "1 N = 1 kg m/s^2")
	c.expect("  1.  f(t) =")
	c.expect("2*t for 0 s < t < 1 s")
	c.send("\x03")
	c.expect("\n  1.  ")
	c.send("\x1b[A")
	c.expect("2*t for 0 s < t < 1 s")
	c.send("\r")
	c.expect("  2.  ")
	c.line("f(0.5 s)", "= 1 s")
	c.expect("  3.  ")
	c.line("g(t) =", "… ")
	c.line("quit", "not saved")
	c.expect("g(t) =")
	c.send("\x03\x04")
	c.leaves()
}

// TestTable types a table of readings, row by row, and ends it with an empty line.
func TestTable(t *testing.T) {
	c := openTerminal(t, t.TempDir())
	c.expect("  1.  ")
	c.line("data", "… ")
	c.line("m / kg   T / s", "… ")
	c.line("0.10   0.61", "… ")
	c.line("0.20   0.82", "… ")
	c.line("", "2 rows: m in kg and T in s")
	c.expect("  2.  ")
	c.line("mean(T)", "= 0.72 ± 0.11 s")
	c.expect("  3.  ")
	c.send("\x04\x04")
	c.leaves()
}

// TestUndoKeys takes typing back, and on an empty line the last change of the page.
func TestUndoKeys(t *testing.T) {
	c := openTerminal(t, t.TempDir())
	c.expect("  1.  ")
	c.line("x = 1 m", "  2.  ")
	c.send("y = 2 km\x1f\x1f\x1f") // word by word
	c.send("\x1f")
	c.expect("undone: line 1")
	c.expect("  1.  ")
	c.send("\x1e")
	c.expect("redone: line 1")
	c.expect("  2.  ")
	c.send("z = 7 m\x15\x1f\r") // cut out, and taken back
	c.expect("  3.  ")
	c.has("x = 1 m", "z = 7 m")
	c.send("abc def\x1b[H\x1bu\x1bc\x1bb\x1bl\x1f\x14\x15\x19\r")
	c.expect("ABC")
}

// TestUpByPrefix finds earlier lines by what stands to the left of the cursor.
func TestUpByPrefix(t *testing.T) {
	c := openTerminal(t, t.TempDir())
	c.expect("  1.  ")
	c.line("a_1 = 1 m", "  2.  ")
	c.line("b_1 = 2 m", "  3.  ")
	c.line("a_2 = 3 m", "  4.  ")
	c.send("a\x1b[A\x1b[A\x1b[F*5\r")
	c.expect("= 5 m")
	c.expect("  5.  ")
	c.send("x\x1b[A\x15\x1b[A\x1b[A\x1b[A\x1b[B\r") // no line begins with x
	c.expect("  6.  ")
	c.line("page 5", "  5.  a_2 = 3 m")
}

// TestOwnEditor edits a line in the program that EDITOR names.
func TestOwnEditor(t *testing.T) {
	state := t.TempDir()
	script := filepath.Join(state, "ed")
	if err := os.WriteFile(script, []byte("#!/bin/sh\nstty -a | grep -q ' icanon' || exit 1\nsed -i s/2/40/ \"$1\"\necho '3*m' >> \"$1\"\n"), 0o700); err != nil {
		t.Fatal(err)
	}
	c := openTerminal(t, state, "EDITOR="+script, "VISUAL=")
	c.expect("  1.  ")
	c.line("m = 2 kg", "  2.  ")
	c.line("change 1", "  1.  m = 2 kg")
	c.send("\x18\x05")
	c.expect("m = 40 kg")
	c.send("\x7f\x7f\x7f\x7f\r")
	c.expect("  2.  ")
	c.has("m = 40 kg")
	c = openTerminal(t, state, "EDITOR=", "VISUAL=")
	c.expect("  1.  ")
	c.send("\x18\x05")
	c.expect("Set EDITOR")
}

// TestModesRestored leaves the terminal as it was on every way out.
func TestModesRestored(t *testing.T) {
	for name, leave := range map[string]func(c *terminal){
		"quit":       func(c *terminal) { c.send("quit\r") },
		"Ctrl-D":     func(c *terminal) { c.send("\x04") },
		"terminated": func(c *terminal) { c.signal(syscall.SIGTERM) },
		"hung up":    func(c *terminal) { c.signal(syscall.SIGHUP) },
		"at work": func(c *terminal) {
			c.send(slowLine() + "\r")
			time.Sleep(100 * time.Millisecond)
			c.signal(syscall.SIGQUIT)
		},
	} {
		// A shell keeps the terminal open.
		c := openProgram(t, 80, t.TempDir(), exec.Command("sh", "-c", program(t)+"; cat"))
		was := c.modes()
		c.expect("  1.  ")
		for c.modes() == was {
			time.Sleep(time.Millisecond)
		}
		leave(c)
		// What was sent before is read after that.
		for end := time.Now().Add(patience); c.modes() != was || !strings.Contains(c.raw(), "\x1b[?2004l"); time.Sleep(2 * time.Millisecond) {
			if time.Now().After(end) {
				t.Fatalf("%s leaves %+v, was %+v: %q", name, c.modes(), was, c.raw())
			}
		}
	}
}

// TestPaused stops at Ctrl-Z with the terminal as it was, and goes on with the line.
func TestPaused(t *testing.T) {
	shell, err := exec.LookPath("bash")
	if err != nil {
		t.Skip(err)
	}
	c := openProgram(t, 80, t.TempDir(), exec.Command(shell, "--norc", "--noediting", "-i"), "PS1=shell: ")
	c.expect("shell: ")
	was := c.modes()
	c.send(program(t) + "\r")
	c.expect("  1.  ")
	c.send("m = 2")
	c.expect("m = 2")
	c.send("\x1a")
	c.expect("Stopped")
	c.expect("shell: ")
	if c.modes() != was {
		t.Errorf("stopped with %+v, was %+v", c.modes(), was)
	}
	c.send("fg\r")
	c.expect("  1.  m = 2")
	c.send(" kg*3\r")
	c.expect("= 6 kg")
	c.expect("  2.  ")
	c.signal(syscall.SIGKILL)
}

// TestTypedAhead shows nothing of what is typed while a line is worked out, until the
// prompt is there for it.
func TestTypedAhead(t *testing.T) {
	c := openTerminal(t, t.TempDir())
	c.expect("  1.  ")
	sines, _, _ := strings.Cut(slowLine(), " + sin(60*t)")
	c.send(pasted(sines+" against t from 0 to 10") + "\r")
	time.Sleep(50 * time.Millisecond)
	c.send("m = 2 kg")
	c.expect("is greatest")
	c.expect("m = 2 kg")
	c.send("*3\r")
	c.expect("= 6 kg")
	if head, _, _ := strings.Cut(c.raw(), "is greatest"); strings.Contains(control.ReplaceAllString(head, ""), "m = 2 kg") {
		t.Error("it is shown before the prompt")
	}
}

// TestPreview shows the unit and kind of a line, and what is found, where there is room
// and it is wanted; names in italics likewise.
func TestPreview(t *testing.T) {
	for _, tt := range []struct {
		columns         uint16
		env             string
		preview, italic bool
	}{
		{80, "A=b", true, true}, {60, "A=b", true, true}, {59, "A=b", false, true}, {80, "TERM=linux", true, false},
		{80, "NO_COLOR=1", false, false}, {80, "TERM=dumb", false, false}, {80, "STEELYARD_PLAIN=1", false, false},
	} {
		c := openColumns(t, tt.columns, t.TempDir(), tt.env)
		c.expect("1.  ")
		c.send("k = 250 N/m")
		c.expect("250 N/m")
		if tt.preview {
			c.expect("N/m, a force per length")
		}
		c.send("\r")
		c.expect("2.  ")
		c.send("k + 3 s")
		c.expect("+ 3 s")
		if tt.preview {
			c.expect("! `k` is a force per length, `3 s` is a time")
		}
		c.send("\x15")
		time.Sleep(100 * time.Millisecond)
		raw := c.raw()
		if got := strings.Contains(raw, "a force per length"); got != tt.preview {
			t.Errorf("%d columns, %s: a preview is %v", tt.columns, tt.env, got)
		}
		if got := strings.Contains(raw, "\x1b[3mk"); got != tt.italic {
			t.Errorf("%d columns, %s: italics are %v", tt.columns, tt.env, got)
		}
		if plain := tt.env == "TERM=dumb" || tt.env == "STEELYARD_PLAIN=1"; plain == strings.Contains(raw, "\x1b[?2004h") {
			t.Errorf("%s: a sequence of control is %v", tt.env, !plain)
		}
		if tt.env == "TERM=dumb" && strings.Contains(raw, "\x1b") {
			t.Errorf("%q", raw)
		}
	}
}

// TestPreviewAbove shows what a line comes to where it is put in, and what one that is
// changed comes to.
func TestPreviewAbove(t *testing.T) {
	c := openTerminal(t, t.TempDir())
	c.expect("  1.  ")
	c.line("k = 25 N/m", "  2.  ")
	c.line("x = 3 cm", "  3.  ")
	c.line("insert before 2", "  2.  ")
	c.send("x*k")
	c.expect("! No line above defines x")
	c.send("\x15k*(3 s)")
	c.expect("a mass per time")
	c.send("\x15\r")
	c.expect("  3.  ")
	c.send("change 1\r")
	c.expect("N/m, a force per length")
}

// TestPlainLines edits a line by what goes back a character alone.
func TestPlainLines(t *testing.T) {
	c := openTerminal(t, t.TempDir(), "TERM=dumb")
	c.expect("1.  ")
	c.send("m = 3 kg\x1b[D\x1b[D\x1b[D\x7f4\r")
	c.expect("2.  ")
	c.send("\x1b[A\x1b[H\x1b[3~x\x1b[F*2\r")
	c.expect("= 8 kg")
	c.send("f(t) =\r2*t for 0 s < t < 1 s\r\rf(0.5 s)\r")
	c.expect("= 1 s")
	if strings.Contains(c.raw(), "\x1b") {
		t.Errorf("%q", c.raw())
	}
}

// TestPager reads an answer that is longer than the screen in the user's program, which
// has the terminal as it is elsewhere; not a short one, and none where there is no program.
func TestPager(t *testing.T) {
	state := t.TempDir()
	script := filepath.Join(state, "reads")
	if err := os.WriteFile(script, []byte("#!/bin/sh\nstty -a </dev/tty | grep -q ' echo ' && echo in the pager\ntail -1\n"), 0o700); err != nil {
		t.Fatal(err)
	}
	c := openTerminal(t, state, "PAGER="+script)
	c.expect("  1.  ")
	c.line("help units", "in the pager")
	c.expect("  1.  ")
	c.line("help newton", "source:")
	c.expect("  1.  ")
	c.line("2 m*3", "= 6 m")
	if strings.Count(c.raw(), "in the pager") != 1 {
		t.Errorf("%s", c.raw())
	}
	c = openTerminal(t, state, "PAGER=")
	c.expect("  1.  ")
	c.line("help units", "  1.  ")
}

// TestPreviewOff ends the preview, and begins it again.
func TestPreviewOff(t *testing.T) {
	c := openTerminal(t, t.TempDir())
	c.expect("  1.  ")
	c.line("preview off", "  1.  ")
	c.line("k = 250 N/m", "  2.  ")
	c.line("preview what", "Write `preview on` or `preview off`.")
	if strings.Contains(c.raw(), "a force per length") {
		t.Errorf("%q", c.raw())
	}
	c.line("preview on", "  2.  ")
	c.send("k_2 = 260 N/m")
	c.expect("a force per length")
}

// TestLeaving says once what is not saved, and where to.
func TestLeaving(t *testing.T) {
	c := openTerminal(t, t.TempDir())
	c.expect("  1.  ")
	c.line("m = 2 kg", "  2.  ")
	c.line("quit", "This worksheet is not saved: `save FILE` saves it; if you leave again")
	c.expect("  2.  ")
	c.line("save crates", "saved")
	c.line("v = 3 m/s", "  3.  ")
	c.send("\x04")
	c.expect("What has changed is not saved to crates.worked: `save` saves it")
	c.expect("  3.  ")
	c.send("\x04")
	c.leaves()
}
