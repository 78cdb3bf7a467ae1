//go:build !windows

package worksheet

import (
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// TestLinks saves through a symbolic link, which stays, and refuses to part two
// names of one file.
func TestLinks(t *testing.T) {
	dir := t.TempDir()
	path, link, hard := filepath.Join(dir, "a.worked"), filepath.Join(dir, "link.worked"), filepath.Join(dir, "hard.worked")
	os.WriteFile(path, []byte("worksheet 1  A\n"), 0o640)
	os.Symlink("a.worked", link)
	if problem := WriteFile(link, "worksheet 1  B\n"); problem != nil {
		t.Fatal(problem)
	}
	if to, err := os.Readlink(link); err != nil || to != "a.worked" || content(t, path) != "worksheet 1  B\n" {
		t.Errorf("the link leads to %q, %v; the file is %q", to, err, content(t, path))
	}
	if info, _ := os.Stat(path); info.Mode().Perm() != 0o640 {
		t.Errorf("mode %v", info.Mode())
	}
	os.Link(path, hard)
	if problem := WriteFile(hard, "worksheet 1  C\n"); problem == nil || !strings.Contains(problem.Message, "hard link") || content(t, path) != "worksheet 1  B\n" {
		t.Errorf("%v; the file is %q", problem, content(t, path))
	}
	round := filepath.Join(dir, "round.worked")
	os.Symlink("round.worked", round)
	if problem := WriteFile(round, "x"); problem == nil {
		t.Error("a link to itself was replaced")
	}
	onlyFiles(t, dir, "a.worked", "hard.worked", "link.worked", "round.worked")
}

// TestOwner keeps the owner of a file, or refuses.
func TestOwner(t *testing.T) {
	if os.Getuid() != 0 {
		t.Skip("only root can give files away")
	}
	dir, err := os.MkdirTemp("/tmp", "steelyard-test-")
	if err != nil {
		t.Skip("no folder to try it in")
	}
	t.Cleanup(func() { os.RemoveAll(dir) })
	path := filepath.Join(dir, "a.worked")
	os.WriteFile(path, []byte(plunger), 0o666)
	os.Chown(path, 1234, 1234)
	if problem := WriteFile(path, plunger+"\n"); problem != nil {
		t.Fatal(problem)
	}
	info, _ := os.Stat(path)
	if stat := info.Sys().(*syscall.Stat_t); stat.Uid != 1234 || stat.Gid != 1234 {
		t.Errorf("it belongs to %d", stat.Uid)
	}
	os.Chmod(path, 0o666)
	os.Chmod(dir, 0o777)
	if said := savedElsewhere(t, path, "folder", "save"); !strings.Contains(said, "belongs to someone else") || content(t, path) != plunger+"\n" {
		t.Errorf("said %q", said)
	}
	onlyFiles(t, dir, "a.worked")
}

// TestPipesAndDevices writes to them what is printed, saves nothing there, and
// replaces none.
func TestPipesAndDevices(t *testing.T) {
	dir := t.TempDir()
	pipe := filepath.Join(dir, "pipe")
	if err := syscall.Mkfifo(pipe, 0o600); err != nil {
		t.Skip(err)
	}
	if problem := WriteFile(pipe, "x"); problem == nil || !strings.Contains(problem.Message, "nobody reads") {
		t.Errorf("without a reader: %v", problem)
	}
	read := make(chan string)
	go func() {
		data, _ := os.ReadFile(pipe)
		read <- string(data)
	}()
	text := strings.Repeat("a line\n", 100_000)
	for end := time.Now().Add(10 * time.Second); ; time.Sleep(time.Millisecond) {
		problem := WriteFile(pipe, text)
		if problem == nil {
			break
		}
		if time.Now().After(end) {
			t.Fatal(problem)
		}
	}
	if got := <-read; got != text {
		t.Errorf("%d bytes were read", len(got))
	}
	for _, path := range []string{pipe, "/dev/null"} {
		if path != pipe {
			if problem := WriteFile(path, "x"); problem != nil {
				t.Error(problem)
			}
		}
		if _, problem := Save(path, entered("m = 2 kg"), Saving{Anyway: true}); problem == nil {
			t.Errorf("saved to %s", path)
		}
		if info, err := os.Lstat(path); err != nil || info.Mode().IsRegular() {
			t.Errorf("%s was replaced", path)
		}
	}
}

// TestLeftovers removes what a killed program has left, and nothing else.
func TestLeftovers(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{".saving-1x.steelyard", ".saving-.steelyard", "saving-1.steelyard", ".saving-mine"} {
		os.WriteFile(filepath.Join(dir, name), []byte("half"), 0o600)
	}
	os.Mkdir(filepath.Join(dir, ".saving-dir.steelyard"), 0o700)
	if problem := WriteFile(filepath.Join(dir, "a.worked"), "worksheet 1  A\n"); problem != nil {
		t.Fatal(problem)
	}
	onlyFiles(t, dir, ".saving-dir.steelyard", ".saving-mine", "a.worked", "saving-1.steelyard")
}

// TestSavedTogether saves one file from several places at once: it is always one
// of the texts, and none fails.
func TestSavedTogether(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a.worked")
	done := make(chan *FileProblem)
	for n := range 8 {
		go func() {
			var worst *FileProblem
			for range 20 {
				if problem := WriteFile(path, strings.Repeat(itoa(n), 1000)); problem != nil {
					worst = problem
				}
			}
			done <- worst
		}()
	}
	for range 8 {
		if problem := <-done; problem != nil {
			t.Error(problem)
		}
	}
	if got := content(t, path); got != strings.Repeat(got[:1], 1000) {
		t.Errorf("%.20q…", got)
	}
	onlyFiles(t, dir, "a.worked")
}
