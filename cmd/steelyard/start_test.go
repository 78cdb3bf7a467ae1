package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"testing"
	"time"
)

// BenchmarkStart runs the whole program for one statement, in turn with one
// that only prints a line. The metric x-hello is the ratio of the medians; it
// should stay below 2. Both are built without cgo, as the README says: with it
// the line editor's imports bind the program to the system's C library, which
// costs as much again as everything else at the start.
func BenchmarkStart(b *testing.B) {
	dir := b.TempDir()
	hello := filepath.Join(dir, "hello.go")
	const text = "package main\n\nimport \"os\"\n\nfunc main() { os.Stdout.WriteString(\"hello\\n\") }\n"
	if err := os.WriteFile(hello, []byte(text), 0o644); err != nil {
		b.Fatal(err)
	}
	plain := build(b, filepath.Join(dir, "hello"), hello)
	ours := build(b, filepath.Join(dir, "steelyard"), ".")
	var plainTimes, ourTimes []time.Duration
	for b.Loop() {
		plainTimes = append(plainTimes, duration(b, plain))
		ourTimes = append(ourTimes, duration(b, ours, "eval", "1 m"))
	}
	slices.Sort(plainTimes)
	slices.Sort(ourTimes)
	half := len(ourTimes) / 2
	b.ReportMetric(float64(ourTimes[half])/float64(plainTimes[half]), "x-hello")
}

func build(b *testing.B, to, from string) string {
	b.Helper()
	cmd := exec.Command("go", "build", "-o", to, from)
	cmd.Env = append(os.Environ(), "CGO_ENABLED=0")
	if out, err := cmd.CombinedOutput(); err != nil {
		b.Fatalf("%v: %s", err, out)
	}
	return to
}

func duration(b *testing.B, program string, args ...string) time.Duration {
	b.Helper()
	begun := time.Now()
	if err := exec.Command(program, args...).Run(); err != nil {
		b.Fatal(err)
	}
	return time.Since(begun)
}
