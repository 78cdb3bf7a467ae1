package repl

import (
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"testing"
)

// TestHistory keeps statements of several lines, for their owner alone.
func TestHistory(t *testing.T) {
	h := history{path: filepath.Join(t.TempDir(), "deep", "history")}
	all := []string{"m = 2 kg", "f(t) =\n  2 m for t > 0 s", `a\nb`, "ω = 3 rad/s"}
	for _, s := range all {
		h.add(s)
	}
	h.add("  ")
	if got := h.load(); strings.Join(got, "|") != strings.Join(all, "|") {
		t.Errorf("%q", got)
	}
	info, err := os.Stat(h.path)
	if err != nil {
		t.Fatal(err)
	}
	if runtime.GOOS != "windows" && info.Mode().Perm() != 0o600 {
		t.Errorf("mode %v", info.Mode())
	}
}

// TestHistoryTogether adds from several scratchpads at once.
func TestHistoryTogether(t *testing.T) {
	path := filepath.Join(t.TempDir(), "history")
	var wg sync.WaitGroup
	for range 8 {
		wg.Go(func() {
			for range 50 {
				history{path: path}.add("statement = 1 m")
			}
		})
	}
	wg.Wait()
	got := history{path: path}.load()
	if len(got) != 400 {
		t.Fatalf("%d statements", len(got))
	}
	for _, s := range got {
		if s != "statement = 1 m" {
			t.Fatalf("%q", s)
		}
	}
}

// TestHistoryDamaged skips what can't be read, and cuts a long file back.
func TestHistoryDamaged(t *testing.T) {
	path := filepath.Join(t.TempDir(), "history")
	if err := os.WriteFile(path, []byte("\"good\"\nbad\n\"bad\n\n\"also good\""), 0o644); err != nil {
		t.Fatal(err)
	}
	if got := (history{path: path}).load(); strings.Join(got, "|") != "good|also good" {
		t.Errorf("%q", got)
	}
	if err := os.WriteFile(path, []byte(strings.Repeat("\"x = 1 m\"\n", historyMost+10)), 0o644); err != nil {
		t.Fatal(err)
	}
	if got := (history{path: path}).load(); len(got) != historyKeep {
		t.Errorf("%d statements", len(got))
	}
	if got := (history{path: path}).load(); len(got) != historyKeep {
		t.Errorf("%d statements the second time", len(got))
	}
	if got := (history{}).load(); got != nil {
		t.Errorf("%q without a file", got)
	}
}
