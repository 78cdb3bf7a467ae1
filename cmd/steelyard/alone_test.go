package main

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"steelyard/lang/limit"
	"steelyard/session/worksheet"
)

// TestFilesStandAlone replays many files at once, some of which break the
// program: all are reported in order, the broken ones as a fault of ours.
func TestFilesStandAlone(t *testing.T) {
	var paths, got []string
	for n := range 40 {
		paths = append(paths, fmt.Sprint(n, ".worked"))
	}
	breaks := func(path string) bool { return strings.Contains(path, "7") }
	replay := func(path string) *worksheet.Report {
		if breaks(path) {
			panic("index out of range")
		}
		return &worksheet.Report{Path: path}
	}
	replayAll(t.Context(), paths, replay, func(r *worksheet.Report) {
		got = append(got, r.Path)
		if broken := r.Problem != nil && r.Problem.Kind == worksheet.OurFault && r.Status() == 2; broken != breaks(r.Path) {
			t.Errorf("%s: %v", r.Path, r.Problem)
		}
	})
	if !slices.Equal(got, paths) {
		t.Errorf("got %q", got)
	}
}

// TestPrintStandsAlone prints a file that breaks the program between others.
func TestPrintStandsAlone(t *testing.T) {
	dir := t.TempDir()
	var out, errs bytes.Buffer
	w := &world{ctx: context.Background(), stdout: &out, stderr: &errs}
	p := &printing{w: w, form: &forms[3], to: dir, folder: true}
	files := []string{"a.worked", "broken.worked", "b.worked"}
	for i := range files {
		files[i] = filepath.Join(dir, files[i])
		if err := os.WriteFile(files[i], []byte("worksheet 1  One\n\nx = 2 m\n"), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	status := p.all(files, func(file string) int {
		if strings.Contains(file, "broken") {
			panic("nil map")
		}
		return p.print(file)
	})
	if status != statusUsage || !strings.Contains(errs.String(), "broken.worked: the file could not be worked out: a fault of the program.") {
		t.Errorf("status %d, %s", status, errs.String())
	}
	for _, name := range []string{"a-key.txt", "b-key.txt"} {
		if _, err := os.Stat(filepath.Join(dir, name)); err != nil {
			t.Error(err)
		}
	}
}

// TestDistinct leaves out a file that is named twice.
func TestDistinct(t *testing.T) {
	dir := t.TempDir()
	a, b := filepath.Join(dir, "a"), filepath.Join(dir, "b")
	os.WriteFile(a, nil, 0o600)
	os.WriteFile(b, nil, 0o600)
	if got := distinct([]string{a, b, dir + "/./a", dir + "/none", dir + "/none"}); !slices.Equal(got, []string{a, b, dir + "/none", dir + "/none"}) {
		t.Errorf("got %q", got)
	}
}

// TestMostPrinted prints as many statements as may be, and refuses one more.
func TestMostPrinted(t *testing.T) {
	path := filepath.Join(t.TempDir(), "long.worked")
	for _, c := range []struct{ lines, status int }{{limit.Printed, statusHolds}, {limit.Printed + 1, statusUsage}} {
		if err := os.WriteFile(path, []byte("worksheet 1  Long\n"+strings.Repeat("note a\n", c.lines)), 0o600); err != nil {
			t.Fatal(err)
		}
		var out, errs bytes.Buffer
		w := &world{ctx: context.Background(), stdout: &out, stderr: &errs}
		if status := run(w, []string{"print", "--as", "text", path}); status != c.status {
			t.Errorf("%d: status %d, %s", c.lines, status, errs.String())
		}
	}
}
