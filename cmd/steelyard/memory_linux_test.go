package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// TestSoftMemory reads files that take more than the soft limit one after the other, with
// collecting switched off but for a limit: it is the limit that makes the program
// collect what is let go, and one that is given from outside counts instead.
func TestSoftMemory(t *testing.T) {
	dir, steelyard := t.TempDir(), program(t)
	args := []string{"replay"}
	for n := range 10 {
		path := filepath.Join(dir, fmt.Sprint(n, ".worked"))
		if err := os.WriteFile(path, []byte("\n"), 0o600); err != nil {
			t.Fatal(err)
		}
		if err := os.Truncate(path, 32<<20); err != nil { // no worksheet, and on no disk
			t.Fatal(err)
		}
		args = append(args, path)
	}
	for _, c := range []struct {
		given    string
		collects bool
	}{{"", true}, {"64GiB", false}} {
		cmd := exec.Command(steelyard, args...)
		cmd.Env = append(os.Environ(), "GOGC=off", "GODEBUG=gctrace=1", "GOMEMLIMIT="+c.given)
		out, _ := cmd.CombinedOutput()
		if got := bytes.Contains(out, []byte("gc 1 @")); got != c.collects {
			t.Errorf("with a limit of %q, collects is %v\n%.2000s", c.given, got, out)
		}
	}
}
