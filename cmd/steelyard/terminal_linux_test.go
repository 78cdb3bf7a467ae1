package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/mattn/go-runewidth"
	"golang.org/x/sys/unix"
)

// terminal is the program at a pseudo-terminal of 80 by 24 cells.
type terminal struct {
	t    *testing.T
	cmd  *exec.Cmd
	tty  *os.File // our end
	mu   sync.Mutex
	out  bytes.Buffer
	rest bytes.Buffer // of out, what expect has not passed
	over chan struct{}
}

// program is the test binary, which runs as steelyard under that name.
func program(t *testing.T) string {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	name := filepath.Join(t.TempDir(), "steelyard")
	if err := os.Symlink(self, name); err != nil {
		t.Fatal(err)
	}
	return name
}

// openTerminal starts the scratchpad with its state in a folder, in 80 columns.
func openTerminal(t *testing.T, state string, env ...string) *terminal {
	t.Helper()
	return openColumns(t, 80, state, env...)
}

// openColumns is openTerminal on a screen of so many columns.
func openColumns(t *testing.T, columns uint16, state string, env ...string) *terminal {
	t.Helper()
	return openCommand(t, columns, state, nil, env...)
}

// openCommand starts any command line at a terminal, in a folder where it also keeps its
// state.
func openCommand(t *testing.T, columns uint16, state string, args []string, env ...string) *terminal {
	t.Helper()
	return openProgram(t, columns, state, exec.Command(program(t), args...), env...)
}

// openProgram starts a program at a terminal of its own.
func openProgram(t *testing.T, columns uint16, state string, cmd *exec.Cmd, env ...string) *terminal {
	t.Helper()
	ours, err := os.OpenFile("/dev/ptmx", os.O_RDWR|syscall.O_NOCTTY, 0)
	if err != nil {
		t.Skip("there is no pseudo-terminal here: ", err)
	}
	fd := int(ours.Fd())
	number, err := unix.IoctlGetInt(fd, unix.TIOCGPTN)
	if err == nil {
		err = unix.IoctlSetPointerInt(fd, unix.TIOCSPTLCK, 0)
	}
	if err == nil {
		err = unix.IoctlSetWinsize(fd, unix.TIOCSWINSZ, &unix.Winsize{Row: 24, Col: columns})
	}
	if err != nil {
		t.Skip("there is no pseudo-terminal here: ", err)
	}
	theirs, err := os.OpenFile(fmt.Sprintf("/dev/pts/%d", number), os.O_RDWR|syscall.O_NOCTTY, 0)
	if err != nil {
		t.Skip("there is no pseudo-terminal here: ", err)
	}
	defer theirs.Close()
	term := &terminal{t: t, tty: ours, cmd: cmd, over: make(chan struct{})}
	term.cmd.Env = append(append(os.Environ(), "XDG_STATE_HOME="+state, "TERM=xterm"), env...)
	term.cmd.Dir = state
	term.cmd.Stdin, term.cmd.Stdout, term.cmd.Stderr = theirs, theirs, theirs
	term.cmd.SysProcAttr = &syscall.SysProcAttr{Setsid: true, Setctty: true}
	if err := term.cmd.Start(); err != nil {
		t.Fatal(err)
	}
	go term.read()
	t.Cleanup(func() {
		term.cmd.Process.Kill()
		term.cmd.Wait()
		ours.Close()
	})
	return term
}

func (c *terminal) read() {
	defer close(c.over)
	buf := make([]byte, 4096)
	for {
		n, err := c.tty.Read(buf)
		c.mu.Lock()
		c.out.Write(buf[:n])
		c.rest.Write(buf[:n])
		c.mu.Unlock()
		if err != nil {
			return
		}
	}
}

var control = regexp.MustCompile("\x1b\\[[0-9;?]*[A-Za-z]|\r")

// patience is how long is waited for what must come: long enough for a machine that
// is busy with much else.
const patience = time.Minute

// expect waits until a text is printed after what was expected before.
func (c *terminal) expect(want string) {
	c.t.Helper()
	if !c.answers(want, patience) {
		c.mu.Lock()
		defer c.mu.Unlock()
		c.t.Fatalf("%q is not printed; the screen shows\n%s", want, control.ReplaceAllString(c.out.String(), ""))
	}
}

// answers waits for a text like expect, and tells whether it came in time.
func (c *terminal) answers(want string, within time.Duration) bool {
	for end := time.Now().Add(within); ; time.Sleep(2 * time.Millisecond) {
		late := time.Now().After(end)
		if c.passes(want) {
			return true
		}
		if late {
			return false
		}
	}
}

// passes tells whether a text is printed, and passes it.
func (c *terminal) passes(want string) bool {
	c.mu.Lock()
	defer c.mu.Unlock()
	_, after, found := strings.Cut(control.ReplaceAllString(c.rest.String(), ""), want)
	if found {
		c.rest.Reset()
		c.rest.WriteString(after)
	}
	return found
}

// send types keys.
func (c *terminal) send(keys string) {
	c.t.Helper()
	if _, err := c.tty.WriteString(keys); err != nil {
		c.t.Fatal(err)
	}
}

// line types a line and waits for the prompt of the next.
func (c *terminal) line(text, then string) {
	c.t.Helper()
	c.send(text + "\r")
	c.expect(then)
}

// leaves waits for the program to end by itself.
func (c *terminal) leaves() {
	c.t.Helper()
	select {
	case <-c.over:
	case <-time.After(patience):
		c.t.Fatal("the program does not end")
	}
	if err := c.cmd.Wait(); err != nil {
		c.t.Error(err)
	}
}

// TestScratchpad works a problem at the prompt, saves it, and replays the file.
func TestScratchpad(t *testing.T) {
	state := t.TempDir()
	c := openTerminal(t, state)
	c.expect("  1.  ")
	c.line("m = 0.080 kg", "  2.  ")
	c.line("v = 3.4 m/s", "  3.  ")
	c.line("W = 1/2*m*v^2 in N", "= 0.4624 J")
	c.expect("  4.  ")
	c.line("undo", "undone")
	c.expect("  3.  ")
	c.line("W = 1/2*m*v^2 in J", "= 0.4624 J, an energy")
	c.expect("  4.  ")
	c.line("2*(", "    ")
	c.line("3 + 4)", "= 14")
	c.expect("  5.  ")
	c.line("names", "given, line 1")
	c.line("help newton", "1 N = 1 kg m/s^2")
	c.line("save plunger.worked", "saved")
	c.send("\x04")
	c.leaves()
	data, err := os.ReadFile(filepath.Join(state, "plunger.worked"))
	if err != nil || !strings.HasPrefix(string(data), "worksheet 1  ") {
		t.Fatalf("%v: %s", err, data)
	}
	if out, status := replayedIn(t, state, "plunger.worked"); status != statusHolds {
		t.Errorf("the saved file does not replay: %s", out)
	}
	if left, _ := filepath.Glob(filepath.Join(state, "steelyard", "*.journal")); len(left) > 0 {
		t.Errorf("a journal is left after saving: %q", left)
	}
	if info, err := os.Stat(filepath.Join(state, "steelyard", "history")); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("the history: %v, %v", info, err)
	}
}

// replayedIn replays a file of a folder.
func replayedIn(t *testing.T, folder, file string) (string, int) {
	t.Helper()
	cmd := exec.Command(program(t), "replay", file)
	cmd.Dir = folder
	out, _ := cmd.CombinedOutput()
	return string(out), cmd.ProcessState.ExitCode()
}

// TestKeys types what a terminal sends for the keys that move and delete, and
// completes words by place.
func TestKeys(t *testing.T) {
	c := openTerminal(t, t.TempDir())
	c.expect("  1.  ")
	// Home of tmux and of xterm, End, Delete, Ctrl-arrows.
	c.send("= 2 kg\x1b[1~m \x1b[4~*3\r")
	c.expect("= 6 kg")
	c.expect("  2.  ")
	c.send("xx = 4 m\x1b[H\x1b[3~\x1b[F/2\r")
	c.expect("= 2 m")
	c.expect("  3.  ")
	c.send("x + 1 cm m\x1b[1;5D\x7f\x1b[1;5C\x7f\r")
	c.expect("= 2.01 m")
	// Greek and signs.
	c.expect("  4.  ")
	c.line("ω = √(9 rad²/s²)·2", "  5.  ")
	// Completion: a unit after a number, a name, a function, a statement.
	c.send("3 newto\t*2\r")
	c.expect("= 6 N")
	c.expect("  6.  ")
	c.send("spring_en\t250 N/m, 2 cm)\r")
	c.expect("= 0.05 J")
	c.expect("  7.  ")
	// Ctrl-C abandons a line, Ctrl-R finds an earlier one.
	c.send("2*nothing")
	c.expect("nothing")
	c.send("\x03")
	c.expect("\n  7.  ")
	c.send("\x12")
	c.expect("search above:")
	c.send("spring_en")
	c.expect("spring_energy(250 N/m, 2 cm)")
	c.send("\r")
	c.expect("= 0.05 J")
	c.expect("  8.  ")
	// Delete on an empty line does not leave.
	c.send("\x1b[3~3 s*2\r")
	c.expect("= 6 s")
}

// TestPaste pastes a page, with and without the marks of bracketed paste.
func TestPaste(t *testing.T) {
	const page = "m = 0.080 kg\rv = 3.4 m/s\rf(t) =\r  2 m/s*t for 0 s ≤ t ≤ 2 s\r  4 m for t > 2 s\rf(1 s)\rW = 1/2*m*v^2\r  = 0.4624 J\r"
	for _, marks := range [][2]string{{"\x1b[200~", "\x1b[201~"}, {"", ""}} {
		c := openTerminal(t, t.TempDir())
		c.expect("  1.  ")
		c.send(marks[0] + page + marks[1] + "\r")
		c.expect("= 2 m, a length")
		c.expect("= 0.4624 J, an energy")
		c.line("m*v", "= 0.272 kg·m/s, a momentum")
	}
}

// TestKilledScratchpad kills the program without warning; the next start
// offers what was accepted.
func TestKilledScratchpad(t *testing.T) {
	state := t.TempDir()
	c := openTerminal(t, state)
	c.expect("  1.  ")
	c.line("k = 250 N/m", "  2.  ")
	c.line("x = 3.0 cm", "  3.  ")
	c.line("1/2*k*x^2 in J", "  4.  ")
	c.cmd.Process.Kill()
	c.cmd.Wait()

	c = openTerminal(t, state)
	c.expect("without being saved")
	c.expect("  1.  ")
	c.line("recover", "= 0.1125 J, an energy")
	c.expect("  4.  ")
	c.line("k*x", "= 7.5 N, a force")
	c.line("save spring.worked", "saved")
	c.send("\x04")
	c.leaves()

	// A saved scratchpad leaves nothing to offer.
	c = openTerminal(t, state)
	c.expect("  1.  ")
	c.mu.Lock()
	shown := c.out.String()
	c.mu.Unlock()
	if strings.Contains(shown, "without being saved") {
		t.Errorf("the saved worksheet is offered again: %s", shown)
	}
}

// TestTwoScratchpads opens two at once: neither sees the other's statements.
func TestTwoScratchpads(t *testing.T) {
	state := t.TempDir()
	a := openTerminal(t, state)
	a.expect("  1.  ")
	a.line("a = 1 m", "  2.  ")
	b := openTerminal(t, state)
	b.expect("  1.  ")
	b.line("b = 2 m", "  2.  ")
	a.line("2*a", "= 2 m")
	b.line("2*b", "= 4 m")
	if left, _ := filepath.Glob(filepath.Join(state, "steelyard", "*.journal")); len(left) != 2 {
		t.Errorf("%d journals for two scratchpads", len(left))
	}
}

// TestPlainTerminal shows no bold type where it isn't wanted.
func TestPlainTerminal(t *testing.T) {
	for _, tt := range []struct {
		env  string
		bold bool
	}{{"A=b", true}, {"NO_COLOR=1", false}, {"TERM=dumb", false}} {
		c := openTerminal(t, t.TempDir(), tt.env)
		c.expect("1.")
		c.line("2 m*3", "= 6 m")
		c.mu.Lock()
		bold := strings.Contains(c.out.String(), "\x1b[1m")
		c.mu.Unlock()
		if bold != tt.bold {
			t.Errorf("%s: bold type is %v", tt.env, bold)
		}
	}
}

// TestDrawnInSixtyColumns draws a graph, a table and bars on a narrow screen, in
// fine characters and without colours.
func TestDrawnInSixtyColumns(t *testing.T) {
	c := openColumns(t, 60, t.TempDir(), "NO_COLOR=1", "LC_ALL=C.UTF-8")
	c.expect("1.")
	c.line("F(x) = (250 N/m)*x", "  2.  ")
	c.line("graph F(x) against x from 0 cm to 12 cm in N", "F is a line in x")
	c.expect("  3.  ")
	c.line("table F(x) against x from 0 cm to 12 cm by 6 cm", "F / N")
	c.expect("  4.  ")
	c.line(`bars at "before": 3 J, 0 J | at "after": 0 J, 3 J`, "The energies add up")
	c.expect("  5.  ")
	c.mu.Lock()
	shown := c.out.String()
	c.mu.Unlock()
	if strings.Contains(shown, "\x1b[1m") || strings.Contains(shown, "\x1b[3") {
		t.Error("a type or a colour is set")
	}
	shown = control.ReplaceAllString(shown, "")
	if !strings.ContainsFunc(shown, func(r rune) bool { return r > '\u2800' && r <= '\u28ff' }) {
		t.Error("the curve is not drawn in fine characters")
	}
	for row := range strings.SplitSeq(shown, "\n") {
		if n := runewidth.StringWidth(row); n > 60 && !strings.Contains(row, "\b") { // a line as it was typed has one
			t.Errorf("a row of %d cells: %q", n, row)
		}
	}
}
