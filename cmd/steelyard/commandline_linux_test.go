package main

import (
	"fmt"
	"os"
	"os/exec"
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
	if strings.Contains(control.ReplaceAllString(c.raw(), ""), "  3.  m*v\n  3.  m*v") {
		t.Error("what was typed is printed again")
	}
}

// TestFileNames saves, opens and prints under names in quotes and from the user's
// folder, and is told how to print what is none of a worksheet.
func TestFileNames(t *testing.T) {
	dir := t.TempDir()
	c := openTerminal(t, dir, "HOME="+dir)
	c.expect("Type a line such as m = 80 g. help tells more, quit leaves.")
	c.expect("  1.  ")
	c.line("L = 2.1 m", "  2.  ")
	c.line("T = 2π√(L/g)", "= 2.90756 s")
	c.line(`save "porch swing" anyway`, "saved to porch swing.worked: 2 statements")
	c.line("save '~/the swing.worked'", "saved to "+dir+"/the swing.worked")
	c.line("open ~/the swing", "Porch swing: 2 statements")
	c.line("save swing.html", "write: print swing.html")
	c.shown("  3.  print swing.html") // the offer at hand
	c.send("\r")
	c.expect("printed to swing.html: a key")
	c.line("print ~/blank.md as handout", "printed to "+dir+"/blank.md: a handout")
	c.line("print swing.doc", "in .html, .md, .tex or .txt.")
	c.line("print", "print handout.html as handout")
	c.line("save notes.txt anyway", "saved to notes.txt") // a worksheet may have any name
	c.line("open notes.txt", "Porch swing: 2 statements")
	c.line("save", "saved to notes.txt")
	c.line("? newton", "1 N = 1 kg m/s^2")
	c.line("help greek", "mu_k is μ_k")
	c.send("exit\r")
	c.leaves()
	for file, args := range map[string][]string{"swing.html": nil, "blank.md": {"--edition", "handout", "--as", "markdown"}} {
		cmd := exec.Command(program(t), append(args, "the swing.worked")...)
		cmd.Args = append(append(cmd.Args[:1:1], "print"), cmd.Args[1:]...)
		cmd.Dir = dir
		want, _ := cmd.Output()
		if got, err := os.ReadFile(filepath.Join(dir, file)); err != nil || string(got) != string(want) {
			t.Errorf("%s: %v; it is not what the shell prints", file, err)
		}
	}
}

// TestGreeting tells the first ten starts how to begin, in one dim row, and no more.
func TestGreeting(t *testing.T) {
	const words = "Type a line such as m = 80 g."
	state := t.TempDir()
	for n := 1; n <= greetings+2; n++ {
		c := openTerminal(t, state)
		c.expect("  1.  ")
		c.send("\x04")
		c.leaves()
		shown := c.raw()
		if told := strings.Contains(shown, dimSequence+words); told != (n <= greetings) {
			t.Errorf("start %d: %q", n, shown)
		}
	}
	c := openTerminal(t, t.TempDir(), "NO_COLOR=1")
	c.expect(words)
	if shown := c.raw(); strings.Contains(shown, dimSequence) {
		t.Errorf("dim without colours: %q", shown)
	}
}

// TestPrintOpens prints a page and has it shown by the system's program, which is one
// of ours here.
func TestPrintOpens(t *testing.T) {
	dir := t.TempDir()
	opener := "#!/bin/sh\necho \"shown $1\" > " + dir + "/shown\n"
	if err := os.WriteFile(filepath.Join(dir, "xdg-open"), []byte(opener), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, "swing.worked"), []byte(porch), 0o644); err != nil {
		t.Fatal(err)
	}
	t.Setenv("TMPDIR", dir)
	for _, c := range []struct {
		path   string
		args   []string
		status int
		shows  string
	}{
		{dir, []string{"--open"}, statusHolds, "/swing-key.html"},
		{dir, []string{"--open", "--edition", "handout", "--as", "text"}, statusHolds, "/swing-handout.txt"},
		{dir, []string{"--open", "-o", "key.html"}, statusHolds, "shown key.html"},
		{"", []string{"--open", "-o", "key.html"}, statusUsage, ""},
	} {
		os.Remove(filepath.Join(dir, "shown"))
		cmd := exec.Command(program(t), append(append([]string{"print"}, c.args...), "swing.worked")...)
		cmd.Dir = dir
		cmd.Env = append(os.Environ(), "PATH="+c.path+":/bin")
		out, _ := cmd.CombinedOutput()
		shown, _ := os.ReadFile(filepath.Join(dir, "shown"))
		if cmd.ProcessState.ExitCode() != c.status || !strings.Contains(string(shown), c.shows) {
			t.Errorf("%q: status %d, %s%s", c.args, cmd.ProcessState.ExitCode(), out, shown)
		}
	}
}

// TestFivePartKey types a key of five parts, changes line 3, puts a line in, changes a
// name, saves, opens and prints it, without leaving the program.
func TestFivePartKey(t *testing.T) {
	dir := t.TempDir()
	c := openTerminal(t, dir)
	c.expect("  1.  ")
	for n, line := range []string{
		"m = 36 g", "x = 2.4 cm", "h = 0.95 m",
		"part a: Work the spring does on the frog", "W = m*g*h in J",
		"part b: Spring constant", "k = 2*W/x^2 in N/m",
		"part c: Greatest acceleration of the frog", "a_max = (k*x - m*g)/m",
		"part d: Speed at which the foot leaves the floor", "v = √(2*(W - m*g*x)/m)",
		"part e: Period at which the frog bobs if the sucker keeps its hold", "T = 2π√(m/k)",
	} {
		c.line(line, fmt.Sprintf("\n%3d.  ", n+2))
	}
	c.line("change 3 to h = 0.90 m", "0.335387 J → 0.317735 J")
	c.expect("\n 14.  ")
	c.line("title Spring frog", "title: Spring frog")
	c.line("insert before 4 note A toy frog jumps off its spring foot.", "\n 15.  ")
	c.line("rename k to k_s", "k is k_s in lines 8, 10 and 14")
	c.expect("\n 15.  ")
	c.line("save frog", "saved to frog.worked: 14 statements")
	c.line("open frog", "14 statements")
	c.line("print frog.html", "printed to frog.html: a key")
	c.line("print blank.html as handout", "printed to blank.html: a handout")
	c.send("quit\r")
	c.leaves()
	if out, status := replayedIn(t, dir, "frog.worked"); status != statusHolds || !strings.Contains(out, "5 results agree") {
		t.Errorf("the saved key does not replay: %s", out)
	}
	key, err1 := os.ReadFile(filepath.Join(dir, "frog.html"))
	blank, err2 := os.ReadFile(filepath.Join(dir, "blank.html"))
	if err1 != nil || err2 != nil || !strings.Contains(string(key), "<mn>1.1</mn>") || strings.Contains(string(blank), "<mn>1.1</mn>") {
		t.Errorf("the key and the handout: %v, %v", err1, err2)
	}
}
