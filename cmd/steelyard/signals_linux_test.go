package main

import (
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// signal sends the program a signal.
func (c *terminal) signal(s syscall.Signal) {
	c.t.Helper()
	if err := c.cmd.Process.Signal(s); err != nil {
		c.t.Fatal(err)
	}
}

// crash kills the program without warning.
func (c *terminal) crash() {
	c.cmd.Process.Kill()
	c.cmd.Wait()
	<-c.over
}

// pause waits for a random time of up to so long.
func pause(most time.Duration) { time.Sleep(rand.N(most)) }

// works enters lines until one is answered: the keys work. A line may be cleared
// by a signal that the program is told of late.
func (c *terminal) works(n int) {
	c.t.Helper()
	want := fmt.Sprintf("= %d m", 7*n+3)
	for end := time.Now().Add(patience); time.Now().Before(end); {
		c.send(fmt.Sprintf("7 m*%d + 3 m\r", n))
		if c.answers(want, 2*time.Second) {
			return
		}
	}
	c.mu.Lock()
	defer c.mu.Unlock()
	c.t.Fatalf("no key works; the screen shows\n%s", control.ReplaceAllString(c.out.String(), ""))
}

// TestInterruptAtThePrompt clears the line, and leaves nothing else behind: in a
// plain line, a search, a list of completions and a statement of several lines.
func TestInterruptAtThePrompt(t *testing.T) {
	c := openTerminal(t, t.TempDir())
	c.expect("  1.  ")
	for n, keys := range []string{"", "2*nothing + ", "\x12m", "\t\t", "2*(\r"} {
		c.send(keys)
		time.Sleep(50 * time.Millisecond)
		c.signal(syscall.SIGINT)
		c.works(n)
	}
}

// TestInterruptAroundStatements sends SIGINT, or types Ctrl-C, at random moments
// round a statement. The keys work afterwards, each time.
func TestInterruptAroundStatements(t *testing.T) {
	c := openTerminal(t, t.TempDir())
	c.expect("  1.  ")
	for round := range trials(t, 30, 0.1) {
		c.send("k = 2 N/m\r")
		pause(3 * time.Millisecond)
		if round%3 == 0 {
			c.send("\x03")
		} else {
			c.signal(syscall.SIGINT)
		}
		c.works(round)
	}
}

// TestLostPasteEnd pastes text whose end mark never comes: Ctrl-C clears it, and
// after a while it is taken as it is.
func TestLostPasteEnd(t *testing.T) {
	c := openTerminal(t, t.TempDir())
	c.expect("  1.  ")
	c.send("\x1b[200~2*nothing + ")
	time.Sleep(20 * time.Millisecond)
	c.send("\x03")
	c.works(1)
	c.send("\x1b[200~2*nothing + ")
	time.Sleep(50 * time.Millisecond)
	c.signal(syscall.SIGINT)
	c.works(2)
	c.send("\x1b[200~m = 2 kg")
	c.expect("m = 2 kg") // after pastePause
	c.send("\r3*m\r")
	c.expect("= 6 kg")
}

// TestTypedLineIsNoStatement ends the program while a line is being typed: it
// was not entered, so it isn't brought back.
func TestTypedLineIsNoStatement(t *testing.T) {
	for _, end := range []syscall.Signal{syscall.SIGTERM, syscall.SIGHUP} {
		state := t.TempDir()
		c := openTerminal(t, state)
		c.expect("  1.  ")
		c.line("m = 2 kg", "  2.  ")
		c.send("v = 3 m/s")
		c.expect("v = 3 m/s")
		c.signal(end)
		c.leaves()
		c = openTerminal(t, state)
		c.expect("1 statement.")
	}
}

// TestEndedAfterAStatement ends the program by a signal at a random moment after
// a first statement. If the result was shown, the statement is offered.
func TestEndedAfterAStatement(t *testing.T) {
	for round := range trials(t, 15, 0.15) {
		state := t.TempDir()
		c := openTerminal(t, state)
		c.expect("  1.  ")
		c.send("2 m*3\r")
		shown := c.answers("= 6 m", time.Duration(rand.IntN(6))*time.Millisecond)
		c.signal([]syscall.Signal{syscall.SIGTERM, syscall.SIGHUP, syscall.SIGKILL}[round%3])
		<-c.over
		c.cmd.Wait()
		shown = shown || c.answers("= 6 m", time.Millisecond)
		if left, _ := filepath.Glob(filepath.Join(state, "steelyard", "*.journal")); shown && len(left) != 1 {
			t.Fatalf("round %d: the result was shown, and %d journals are left", round, len(left))
		}
		if shown {
			c = openTerminal(t, state)
			c.expect("ended without being saved: 1 statement.")
			c.crash()
		}
	}
}

// TestInterruptEachWork pastes a line of each kind of work that takes long, and
// sends SIGINT once it is at work.
func TestInterruptEachWork(t *testing.T) {
	if testing.Short() {
		t.Skip("long work that is stopped")
	}
	var products, names []string
	for i := range 6 {
		products = append(products, fmt.Sprintf("x_%d*x_%d*x_%d = %d m^3", i, (i+1)%6, (i+2)%6, i+2))
		names = append(names, fmt.Sprintf("x_%d", i))
	}
	doubling := make([]string, 17)
	for i := range doubling {
		doubling[i] = fmt.Sprintf("f%d(x) = f%d(x) + f%d(x)", i+1, i, i)
	}
	for _, c := range []struct{ above, line string }{
		{"", slowLine()},
		{"", strings.NewReplacer("graph ", "area under ", " to 10", " to 1000").Replace(slowLine())},
		{"", "solve " + strings.Join(products, " and ") + " for " + strings.Join(names, ", ")},
		{"", "solve " + strings.Repeat("1/(x+", 120) + "x" + strings.Repeat(")", 120) + " = 3 for x"},
		{"f0(x) = x + 1\n" + strings.Join(doubling, "\n") + "\n", "solve f16(t)*sin(t) = 3 for t where t > -10 and t < 10"},
	} {
		c1 := openTerminal(t, t.TempDir())
		c1.expect("  1.  ")
		if c.above != "" {
			c1.send("\x1b[200~" + c.above + "\x1b[201~")
			c1.expect(fmt.Sprintf("%d.  ", strings.Count(c.above, "\n")+1))
		}
		c1.send("\x1b[200~" + c.line + "\x1b[201~")
		c1.expect(c.line[len(c.line)-8:])
		before := worked(t, c1.cmd.Process.Pid)
		c1.send("\r")
		awaitWork(t, c1.cmd.Process.Pid, before+3)
		from := time.Now()
		c1.signal(syscall.SIGINT)
		c1.expect("topped")
		t.Logf("%.40s: stopped after %v", c.line, time.Since(from).Round(time.Millisecond))
		c1.works(1)
	}
}
