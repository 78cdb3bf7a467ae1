package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"
)

// shared is what one goroutine writes and another reads.
type shared struct {
	mu sync.Mutex
	b  bytes.Buffer
}

func (s *shared) Write(p []byte) (int, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.b.Write(p)
}

func (s *shared) String() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.b.String()
}

// TestWatch saves a worksheet in the ways that editors have; each time it is worked out
// again, and once.
func TestWatch(t *testing.T) {
	dir := t.TempDir()
	path, other := filepath.Join(dir, "sheet.worked"), filepath.Join(dir, "other.worked")
	sheet := func(record string) []byte { return []byte("worksheet 1  Watched\nF = 2 N*3\n  = " + record + "\n") }
	write := func(to, record string) {
		t.Helper()
		if err := os.WriteFile(to, sheet(record), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	write(path, "6 N")
	write(other, "6 N")
	var out shared
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	w := &world{ctx: ctx, stdout: &out, stderr: &out, width: 80}
	over := make(chan int)
	go func() { over <- run(w, []string{"replay", "--watch", path, other}) }()
	want := ""
	expect := func(file, summary string) {
		t.Helper()
		want += file + ": " + summary + "\n"
		for end := time.Now().Add(time.Minute); ; time.Sleep(5 * time.Millisecond) {
			said := out.String()
			if strings.Count(said, summary) >= strings.Count(want, summary) {
				return
			}
			if time.Now().After(end) {
				t.Fatalf("%q is not said:\n%s", summary, said)
			}
		}
	}
	expect(path, "1 result agrees.")
	expect(other, "1 result agrees.")

	write(path, "7 N") // written over
	expect(path, "1 result differs from its record.")

	write(path+"~", "6 N") // written beside it, and renamed
	if err := os.Rename(path+"~", path); err != nil {
		t.Fatal(err)
	}
	expect(path, "1 result agrees.")

	if err := os.Remove(path); err != nil { // gone for a while
		t.Fatal(err)
	}
	time.Sleep(3 * watchEvery)
	write(path, "8 N")
	expect(path, "1 result differs from its record.")

	time.Sleep(4 * watchEvery)
	if said := out.String(); strings.Count(said, ": 1 result") != strings.Count(want, ": 1 result") {
		t.Errorf("said\n%s\nand not once each of\n%s", said, want)
	}
	stop()
	if status := <-over; status != statusStopped {
		t.Errorf("status %d", status)
	}
}
