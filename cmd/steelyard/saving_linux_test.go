package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// TestSaving entitles a worksheet, saves it with and without failed attempts,
// and under another spelling of its path.
func TestSaving(t *testing.T) {
	state := t.TempDir()
	c := openTerminal(t, state)
	c.expect("  1.  ")
	c.line("replay", "Save it first: save")
	c.line("worksheet 1 Crates", "title: Crates")
	c.line("m = 2 kg", "  2.  ")
	c.line("W = m + 30 %", "m*(1 + 30 %)")
	c.expect("  2.  ") // a line that failed takes no number
	c.line("W = m*(1 + 30 %)", "= 2.6 kg")
	c.expect("  3.  ")
	c.line("2*q", "No line above defines q.")
	c.expect("  3.  ")
	c.line("worksheet 1 Crates over a pulley", "title: Crates over a pulley")
	c.line("save crates", "saved to crates.worked: 2 statements")
	c.expect("Lines that failed and are left out: 1.") // the other has been mended
	c.line("save crates with failed lines", "as remarks: 2.")
	c.line("replay", "1 result agrees")
	c.line("3*m", "= 6 kg")
	c.line("replay", "its file, crates.worked, and what is on")
	c.line("save ./crates.worked", "saved to ./crates.worked")
	if err := os.WriteFile(filepath.Join(state, "crates.worked"), []byte("worksheet 1  Other\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	c.line("save", "save ./crates.worked anyway")
	c.line("save anyway", "saved to ./crates.worked")
	data, err := os.ReadFile(filepath.Join(state, "crates.worked"))
	want := "worksheet 1  Crates over a pulley\n\nm = 2 kg\nW = m*(1 + 30 %)\n  = 2.6 kg\n3*m\n  = 6 kg\n"
	if err != nil || string(data) != want {
		t.Errorf("%v: %s", err, data)
	}
	c.line("open crates", "Crates over a pulley: 3 statements")
	c.line("save other", "saved to other.worked")
	if data, _ := os.ReadFile(filepath.Join(state, "other.worked")); !strings.HasPrefix(string(data), "worksheet 1  Crates over a pulley\n") {
		t.Errorf("the title is lost: %s", data)
	}
}

// TestTitleIsKept kills the program after a title and an undo; both are brought
// back.
func TestTitleIsKept(t *testing.T) {
	state := t.TempDir()
	c := openTerminal(t, state)
	c.expect("  1.  ")
	c.line("m = 2 kg", "  2.  ")
	c.line("q = 3 kg", "  3.  ")
	c.line("worksheet 1 Boxes", "title: Boxes")
	c.line("worksheet 1 Crates", "title: Crates")
	c.line("undo", "undone: the title Crates")
	c.line("undo", "undone: the title Boxes")
	c.line("undo", "undone: line 2")
	c.line("worksheet 1 Crates", "title: Crates")
	c.line("w = 4 kg", "  3.  ")
	c.cmd.Process.Kill()
	c.cmd.Wait()

	c = openTerminal(t, state)
	c.expect("without being saved")
	c.expect("  1.  ")
	c.line("recover", "brought back: 2 statements")
	c.line("names", "given, line 2")
	c.line("save crates", "saved")
	data, err := os.ReadFile(filepath.Join(state, "crates.worked"))
	if want := "worksheet 1  Crates\n\nm = 2 kg\nw = 4 kg\n"; err != nil || string(data) != want {
		t.Errorf("%v: %s", err, data)
	}
}

// TestWithoutHome goes on without a journal, and claims none.
func TestWithoutHome(t *testing.T) {
	state := t.TempDir()
	c := openTerminal(t, state, "XDG_STATE_HOME=", "HOME=")
	c.expect("a crash would lose")
	c.expect("  1.  ")
	c.line("m = 2 kg", "  2.  ")
	c.send("\x04")
	c.expect("saves it; if you leave again")
	c.send("\x04")
	c.leaves()
	if left, _ := os.ReadDir(state); len(left) != 0 {
		t.Errorf("files are left: %v", left)
	}
}

// TestRecoverAndForget leaves three scratchpads unsaved. Each start offers those
// that were neither brought back nor forgotten.
func TestRecoverAndForget(t *testing.T) {
	state := t.TempDir()
	for _, line := range []string{"m = 2 kg", "q = 3 kg", "w = 4 kg"} {
		c := openTerminal(t, state)
		c.expect("  1.  ")
		c.line(line, "  2.  ")
		c.crash()
	}
	c := openTerminal(t, state)
	for i, line := range []string{"w = 4 kg", "q = 3 kg", "m = 2 kg"} {
		c.expect(fmt.Sprintf("      %d  ", i+1))
		c.expect("begins with `" + line + "`")
	}
	c.expect("  1.  ")
	c.line("forget", "There are 3 of them")
	c.line("forget 1", "forgotten: 1 statement")
	c.expect("begins with `q = 3 kg`")
	c.expect("  1.  ")
	c.line("v = 1 m/s", "  2.  ")
	c.line("recover", "      1  ")
	c.expect("      2  ")
	c.line("recover 3", "Write `recover` and a number")
	c.line("recover it", "Write `recover` and a number")
	c.line("recover 1", "What is on the scratchpad is not saved")
	c.line("recover 1 anyway", "brought back: 1 statement")
	c.line("2*q", "= 6 kg")
	c.line("save crates", "saved to crates.worked")
	c.crash()

	c = openTerminal(t, state)
	c.expect("begins with `m = 2 kg`")
	c.expect("  1.  ")
	c.line("forget", "forgotten: 1 statement")
	c.line("forget", "There is nothing to bring back")
	c.line("recover", "There is nothing to bring back")
	c.crash()
	if left, _ := filepath.Glob(filepath.Join(state, "steelyard", "*.journal")); len(left) > 1 { // its own
		t.Errorf("left are %q", left)
	}
}

// TestForgetAll leaves more scratchpads than a start lists, and forgets them at once.
func TestForgetAll(t *testing.T) {
	state := t.TempDir()
	for i := range atStart + 2 {
		c := openTerminal(t, state)
		c.expect("  1.  ")
		c.line(fmt.Sprintf("m = %d kg", i+1), "  2.  ")
		c.crash()
	}
	c := openTerminal(t, state)
	c.expect("      5  ")
	c.expect("begins with `m = 3 kg`")
	c.expect("and 2 more: `recover` lists them all.")
	c.expect("  1.  ")
	c.line("recover", "begins with `m = 1 kg`")
	c.line("forget all", "forgotten: 1 statement")
	c.line("recover", "There is nothing to bring back")
	c.crash()
	if left, _ := filepath.Glob(filepath.Join(state, "steelyard", "*.journal")); len(left) > 1 { // its own
		t.Errorf("left are %q", left)
	}
}

// TestSavingWhereFilesAreRead does not save a worksheet to a folder in which it would not
// find the file that it reads.
func TestSavingWhereFilesAreRead(t *testing.T) {
	state := t.TempDir()
	if err := os.WriteFile(filepath.Join(state, "swing.csv"), []byte("m / kg,T / s\n0.1,0.45\n0.2,0.63\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := os.Mkdir(filepath.Join(state, "sub"), 0o755); err != nil {
		t.Fatal(err)
	}
	c := openTerminal(t, state)
	c.expect("  1.  ")
	c.line("data swing.csv", "  2.  ")
	c.line("save sub/s", "line 1 reads swing.csv, which is not in that folder")
	c.expect("or save where it is: s.worked")
	if _, err := os.Stat(filepath.Join(state, "sub", "s.worked")); !os.IsNotExist(err) {
		t.Error("it is saved all the same")
	}
	c.line("save s", "saved to s.worked")
}

// TestRecoverTellsOfFiles says so where a page that is brought back reads a file that was
// changed in between, and only there.
func TestRecoverTellsOfFiles(t *testing.T) {
	state := t.TempDir()
	write := func(last string) {
		if err := os.WriteFile(filepath.Join(state, "swing.csv"), []byte("m / kg,T / s\n0.1,0.45\n0.2,"+last+"\n"), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	write("0.63")
	c := openTerminal(t, state)
	c.expect("  1.  ")
	c.line("a = 2 kg", "  2.  ")
	c.line("data swing.csv", "  3.  ")
	c.line("b = 3 kg", "  4.  ")
	c.crash()

	c = openTerminal(t, state)
	c.expect("  1.  ")
	c.line("recover", "brought back: 3 statements")
	if c.answers("caution", 300*time.Millisecond) {
		t.Error("the same file is taken for another")
	}
	c.crash()

	write("0.72")
	c = openTerminal(t, state)
	c.expect("  1.  ")
	c.line("recover", "caution: swing.csv has changed since line 2 read it.")
	c.crash()
}
