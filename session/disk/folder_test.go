package disk

import (
	"os"
	"path/filepath"
	"testing"

	"steelyard/lang/limit"
)

// TestFolder reads files of a folder, and none outside it, by whatever way.
func TestFolder(t *testing.T) {
	outer := t.TempDir()
	dir := filepath.Join(outer, "sheets")
	for path, text := range map[string]string{"secret.csv": "no", "sheets/swing.csv": "yes", "sheets/more/swing.csv": "yes"} {
		if err := os.MkdirAll(filepath.Dir(filepath.Join(outer, path)), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(outer, path), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	links := os.Symlink("../secret.csv", filepath.Join(dir, "link.csv")) == nil
	read := Folder(dir)
	for _, name := range []string{"swing.csv", "more/swing.csv", "more/../swing.csv"} {
		if data, err := read(name); err != nil || string(data) != "yes" {
			t.Errorf("%s: %q, %v", name, data, err)
		}
	}
	for _, name := range []string{"../secret.csv", "link.csv", filepath.Join(outer, "secret.csv"), "more/../../secret.csv", ".", "more", "none.csv", ""} {
		if data, err := read(name); err == nil && (links || name != "link.csv") {
			t.Errorf("%s: %q", name, data)
		}
	}
}

// TestFolderLimit reads a file of the greatest size, and none that is a byte longer.
func TestFolderLimit(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "long.csv")
	if err := os.WriteFile(path, nil, 0o644); err != nil {
		t.Fatal(err)
	}
	for size, want := range map[int64]bool{limit.DataFile: true, limit.DataFile + 1: false} {
		if err := os.Truncate(path, size); err != nil {
			t.Fatal(err)
		}
		if data, err := Folder(dir)("long.csv"); (err == nil) != want || want && int64(len(data)) != size {
			t.Errorf("%d bytes: %v", size, err)
		}
	}
}
