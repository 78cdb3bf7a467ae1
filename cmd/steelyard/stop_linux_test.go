package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"
)

// worked is how long a process has worked, in hundredths of a second.
func worked(t *testing.T, pid int) int {
	t.Helper()
	data, err := os.ReadFile(fmt.Sprintf("/proc/%d/stat", pid))
	if err != nil {
		t.Fatal(err)
	}
	fields := strings.Fields(string(data))
	user, err := strconv.Atoi(fields[13])
	if err != nil {
		t.Fatal(err)
	}
	return user
}

// awaitWork waits until a process has worked for some hundredths of a second; one that ends
// before, or waits for something itself, never does, and fails the test.
func awaitWork(t *testing.T, pid, hundredths int) {
	t.Helper()
	for end := time.Now().Add(patience); worked(t, pid) < hundredths; time.Sleep(5 * time.Millisecond) {
		if time.Now().After(end) {
			t.Fatal("it takes too little time to be stopped")
		}
	}
}

// slowLine is a line that takes about a second.
func slowLine() string {
	sines := make([]string, 1400)
	for i := range sines {
		sines[i] = fmt.Sprintf("sin(%d*t)", i+1)
	}
	return "graph " + strings.Join(sines, " + ") + " against t from 0 to 10"
}

// TestStopped sends SIGINT to each command while it is at work: it stops there,
// says so, and leaves no file half written.
func TestStopped(t *testing.T) {
	if testing.Short() {
		t.Skip("long work that is stopped")
	}
	dir, steelyard := t.TempDir(), program(t)
	slow, quick := filepath.Join(dir, "slow.worked"), filepath.Join(dir, "quick.worked")
	text := "worksheet 1  Slow\n\nx = 2 m\n2*x\n" + strings.Repeat("\n"+slowLine()+"\n", 30)
	for path, text := range map[string]string{slow: text, quick: "worksheet 1  Quick\n\nx = 2 m\n2*x\n"} {
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	page := filepath.Join(dir, "page.html")
	for _, c := range []struct {
		args  []string
		input string
		says  string
	}{
		{[]string{"replay", slow, quick}, "", "slow.worked: 1 result without a record, 1 finding, stopped before the end"},
		{[]string{"replay", "--record", slow}, "", "stopped before the end."},
		{[]string{"replay", "--with", "x = 3 m", slow}, "", "stopped before the end."},
		{[]string{"print", slow, "-o", page}, "", "steelyard: stopped."},
		{[]string{"eval", "2 m + 3 m", slowLine(), "7 m"}, "", "Stopped while drawing"},
		{[]string{"eval"}, "2 m + 3 m\n" + slowLine() + "\n" + slowLine() + "\n7 m\n", "Stopped while drawing"},
	} {
		var out bytes.Buffer
		cmd := exec.Command(steelyard, c.args...)
		cmd.Stdout, cmd.Stderr = &out, &out
		cmd.Stdin = strings.NewReader(c.input)
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		awaitWork(t, cmd.Process.Pid, 20)
		cmd.Process.Signal(syscall.SIGINT)
		cmd.Wait()
		if cmd.ProcessState.ExitCode() != statusStopped || !strings.Contains(out.String(), c.says) || strings.Contains(out.String(), "7 m") {
			t.Errorf("%.60q: %v: %s", c.args, cmd.ProcessState, out.String())
		}
	}
	if data, err := os.ReadFile(slow); err != nil || string(data) != text {
		t.Errorf("the worksheet was changed: %v", err)
	}
	if left, _ := filepath.Glob(filepath.Join(dir, "*")); len(left) != 2 {
		t.Errorf("the folder has %q", left)
	}
}

// TestStoppedWaiting sends SIGINT to eval while it waits for a line.
func TestStoppedWaiting(t *testing.T) {
	in, ours, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	defer ours.Close()
	cmd := exec.Command(program(t), "eval")
	cmd.Stdin = in
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	in.Close()
	fmt.Fprintln(ours, "2 m + 3 m\n7 m")
	shown := make([]byte, 1)
	if _, err := out.Read(shown); err != nil {
		t.Fatal(err)
	}
	cmd.Process.Signal(syscall.SIGINT)
	cmd.Wait()
	if cmd.ProcessState.ExitCode() != statusStopped {
		t.Errorf("%v", cmd.ProcessState)
	}
}
