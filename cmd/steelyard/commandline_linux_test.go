package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// porch is a worksheet to open.
const porch = "worksheet 1  Porch swing\n\nm = 32 kg\nL = 2.1 m\nT = 2π√(L/g)\n  = 2.90756 s\n"

// TestOpenedFromTheShell opens a worksheet by its name, changes it and saves it.
func TestOpenedFromTheShell(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "swing.worked")
	if err := os.WriteFile(path, []byte(porch), 0o644); err != nil {
		t.Fatal(err)
	}
	c := openCommand(t, 80, dir, []string{"swing.worked"})
	c.expect("Porch swing: 3 statements")
	c.expect("  4.  ")
	c.line("change 2 to L = 2.4 m", "2.90756 s → 3.10832 s")
	c.line("save", "saved to swing.worked: 3 statements")
	c.send("\x04")
	c.leaves()
	if out, status := replayedIn(t, dir, "swing.worked"); status != statusHolds {
		t.Errorf("the saved file does not replay: %s", out)
	}

	// One that is not there is told of, and nothing is opened.
	c = openCommand(t, 80, dir, []string{"swin.worked"})
	c.expect("swin.worked: the file can't be read: there is no such file.")
	<-c.over
	c.cmd.Wait()
	if status := c.cmd.ProcessState.ExitCode(); status != statusUsage {
		t.Errorf("status %d", status)
	}
	if left, _ := filepath.Glob(filepath.Join(dir, "steelyard", "*.journal")); len(left) > 0 {
		t.Errorf("a journal is left: %q", left)
	}
}

// TestEvalAtATerminal types lines, each of which is answered before the next.
func TestEvalAtATerminal(t *testing.T) {
	c := openCommand(t, 80, t.TempDir(), []string{"eval", "m = 2 kg", "-"})
	c.expect("  2.  ")
	c.line("v = 3 m/s", "  3.  ")
	c.line("m*v", "= 6 kg·m/s, a momentum")
	c.expect("  4.  ")
	c.line("2*(", "      ")
	c.line("3 s + 1 s)", "= 8 s, a time")
	c.expect("  5.  ")
	c.send("x(t) =\r2 m/s*t for 0 s ≤ t ≤ 2 s\r4 m for t > 2 s\r\r")
	c.expect("  6.  ")
	c.line("x(1 s)", "= 2 m, a length")
	c.line("m + v", "they can't be added")
	c.send("\x04")
	<-c.over
	c.cmd.Wait()
	if status := c.cmd.ProcessState.ExitCode(); status != statusFinding {
		t.Errorf("status %d", status)
	}
	if strings.Contains(control.ReplaceAllString(c.out.String(), ""), "  3.  m*v\n  3.  m*v") {
		t.Error("what was typed is printed again")
	}
}
