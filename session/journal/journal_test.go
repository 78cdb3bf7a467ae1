package journal

import (
	"math"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"

	"steelyard/session"
)

// odd are statements whose bytes are easy to lose.
var odd = []string{
	"m = 0.080 kg",
	"",
	"formula lift: W = m*g*h\n  W in J, work\n  m in kg, mass",
	"statement 1 00000000",
	"change 2 00000000",
	"  without 1",
	"steelyard journal 3",
	"worksheet 1 Crates",
	"  indented\nstatement 1 not an end\nchange\n",
	"bytes \xff\xfe\x00 and a return\r",
	"\n\n",
	"Δx_1 = 3 m",
}

func start(t *testing.T, dir string) *Journal {
	t.Helper()
	j, problem := Start(dir)
	if problem != nil {
		t.Fatal(problem)
	}
	return j
}

// crash ends a journal as the end of its process would: the lock goes, nothing
// else is done.
func crash(t *testing.T, j *Journal) {
	t.Helper()
	if err := j.file.(*os.File).Close(); err != nil {
		t.Fatal(err)
	}
}

func TestKeepsEveryByte(t *testing.T) {
	dir := t.TempDir()
	j := start(t, dir)
	for _, text := range odd {
		if problem := j.Accept(text); problem != nil {
			t.Fatal(problem)
		}
	}
	crash(t, j)
	found := Abandoned(dir)
	if len(found) != 1 || !slices.Equal(found[0].Statements, odd) || found[0].damaged {
		t.Fatalf("found %+v", found)
	}
}

func TestTogetherOrOneByOne(t *testing.T) {
	dir := t.TempDir()
	one, all := start(t, dir), start(t, dir)
	for _, text := range odd {
		one.Accept(text)
	}
	all.Accept(odd...)
	a, _ := os.ReadFile(one.path)
	b, _ := os.ReadFile(all.path)
	if string(a) != string(b) {
		t.Errorf("one by one:\n%s\ntogether:\n%s", a, b)
	}
	one.Close(false)
	all.Close(false)
}

func TestUndo(t *testing.T) {
	dir := t.TempDir()
	j := start(t, dir)
	j.Accept("a = 1 m")
	j.Accept("b = 2 m")
	j.Change(session.Edit{At: 2, Drop: 1})
	j.Accept("c = 3 m")
	crash(t, j)
	found := Abandoned(dir)
	if want := []string{"a = 1 m", "c = 3 m"}; len(found) != 1 || !slices.Equal(found[0].Statements, want) {
		t.Fatalf("found %+v, want %q", found, want)
	}
}

func TestMode(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("no such modes")
	}
	dir := filepath.Join(t.TempDir(), "state", "steelyard")
	j := start(t, dir)
	defer j.Close(false)
	for path, want := range map[string]os.FileMode{dir: 0o700, j.path: 0o600} {
		info, err := os.Stat(path)
		if err != nil || info.Mode().Perm() != want {
			t.Errorf("%s: %v, %v; want %v", path, info.Mode(), err, want)
		}
	}
}

func TestTwoScratchpadsDoNotMix(t *testing.T) {
	dir := t.TempDir()
	a, b := start(t, dir), start(t, dir)
	a.Accept("a = 1 m")
	b.Accept("b = 2 m")
	if found := Abandoned(dir); len(found) != 0 {
		t.Fatalf("a journal in use was offered: %+v", found)
	}
	crash(t, b)
	found := Abandoned(dir)
	if len(found) != 1 || !slices.Equal(found[0].Statements, []string{"b = 2 m"}) {
		t.Fatalf("found %+v", found)
	}
	twice := Abandoned(dir)
	b, problem := found[0].Resume()
	if problem != nil {
		t.Fatal(problem)
	}
	if _, problem := twice[0].Resume(); problem == nil {
		t.Fatal("a journal was brought back by two")
	}
	crash(t, b)
	if again := Abandoned(dir); len(again) != 1 {
		t.Fatalf("a journal left alone was not offered again: %+v", again)
	}
	a.Close(false)
}

func TestCloseDeletesUnlessKept(t *testing.T) {
	dir := t.TempDir()
	gone, kept := start(t, dir), start(t, dir)
	gone.Accept("a = 1 m")
	kept.Accept("b = 2 m")
	gone.Close(false)
	gone.Close(false) // twice does no harm
	kept.Close(true)
	found := Abandoned(dir)
	if len(found) != 1 || found[0].path != kept.path {
		t.Fatalf("found %+v", found)
	}
	if j, problem := found[0].Resume(); problem != nil || j.Close(false) != nil {
		t.Fatal(problem)
	}
	if left, _ := os.ReadDir(dir); len(left) != 0 {
		t.Errorf("files are left: %v", left)
	}
}

func TestEmptyJournalsAreSweptUp(t *testing.T) {
	dir := t.TempDir()
	crash(t, start(t, dir))
	cut := filepath.Join(dir, "20260101-000000-1-0"+suffix)
	if err := os.WriteFile(cut, []byte("steelya"), 0o600); err != nil {
		t.Fatal(err)
	}
	if found := Abandoned(dir); len(found) != 0 {
		t.Errorf("found %+v", found)
	}
	if left, _ := os.ReadDir(dir); len(left) != 0 {
		t.Errorf("files are left: %v", left)
	}
}

func TestStrangeFilesAreLeftAlone(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "odd[1]*")
	if err := os.MkdirAll(filepath.Join(dir, "folder"+suffix), 0o700); err != nil {
		t.Fatal(err)
	}
	notes := filepath.Join(dir, "mine"+suffix)
	if err := os.WriteFile(notes, []byte("my own notes\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	if found := Abandoned(dir); len(found) != 0 {
		t.Errorf("found %+v", found)
	}
	if data, _ := os.ReadFile(notes); string(data) != "my own notes\n" {
		t.Errorf("a file that is no journal was touched: %q", data)
	}
	if found := Abandoned(filepath.Join(dir, "none")); found != nil {
		t.Errorf("found %+v in no folder", found)
	}
}

// A journal cut anywhere holds every statement that was whole before the cut,
// no more, and can be gone on with.
func TestCutAnywhere(t *testing.T) {
	whole := []byte(header + "\n")
	ends := []int{}
	for n, text := range odd {
		whole = encode(whole, statement, n+1, text)
		ends = append(ends, len(whole))
	}
	dir := t.TempDir()
	path := filepath.Join(dir, "cut"+suffix)
	for cut := range len(whole) + 1 {
		accepted := 0
		for accepted < len(ends) && ends[accepted] <= cut {
			accepted++
		}
		if accepted == 0 {
			continue
		}
		if err := os.WriteFile(path, whole[:cut], 0o600); err != nil {
			t.Fatal(err)
		}
		found := Abandoned(dir)
		if len(found) != 1 || !slices.Equal(found[0].Statements, odd[:accepted]) || found[0].damaged {
			t.Fatalf("cut at %d: found %+v, want %d statements", cut, found, accepted)
		}
		goOn(t, found[0], dir, odd[:accepted])
	}
}

func goOn(t *testing.T, r *Recovered, dir string, before []string) {
	t.Helper()
	j, problem := r.Resume()
	if problem != nil {
		t.Fatal(problem)
	}
	j.Accept("later = 1 s")
	crash(t, j)
	found := Abandoned(dir)
	if want := append(slices.Clone(before), "later = 1 s"); len(found) != 1 || !slices.Equal(found[0].Statements, want) {
		t.Fatalf("after going on: %+v, want %q", found, want)
	}
	if j, problem := found[0].Resume(); problem != nil || j.Close(false) != nil {
		t.Fatal(problem)
	}
}

func TestDamageInTheMiddle(t *testing.T) {
	data := header + "\n"
	for n, text := range []string{"a = 1 m", "b = 2 m", "c = 3 m"} {
		data = string(encode([]byte(data), statement, n+1, text))
	}
	c, ok := decode(strings.Replace(data, "b = 2", "b = 7", 1))
	if want := []string{"a = 1 m", "c = 3 m"}; !ok || !slices.Equal(c.statements, want) || !c.damaged {
		t.Errorf("got %+v %v, want %q and damage", c, ok, want)
	}
	// What changes a lost statement changes no other, and what it says is kept.
	data = string(encode([]byte(data), change, 4, "without 3"))
	data = string(encode([]byte(data), change, 5, "without 2\n2 is\n  b = 8 m"))
	c, _ = decode(strings.Replace(data, "b = 2", "b = 7", 1))
	if want := []string{"a = 1 m", "b = 8 m"}; !slices.Equal(c.statements, want) {
		t.Errorf("got %q, want %q", c.statements, want)
	}
}

// TestSavedIsNotOffered saves, and enters more: only what is not saved is offered.
func TestSavedIsNotOffered(t *testing.T) {
	dir := t.TempDir()
	j := start(t, dir)
	j.Accept("a = 1 m")
	j.Saved("Crates")
	crash(t, j)
	if found := Abandoned(dir); len(found) != 0 {
		t.Fatalf("found %+v", found)
	}
	j = start(t, dir)
	j.Title("Crates")
	j.Accept("worksheet = 3 m")
	j.Saved("Crates")
	j.Accept("b = 2 m")
	crash(t, j)
	found := Abandoned(dir)
	if len(found) != 1 || len(found[0].Statements) != 2 || found[0].Title != "Crates" {
		t.Fatalf("found %+v", found)
	}
}

// TestOldOnesGo keeps the newest twenty and those of thirty days.
func TestOldOnesGo(t *testing.T) {
	dir := t.TempDir()
	for n := range 30 {
		j := start(t, dir)
		j.Accept("a = 1 m")
		crash(t, j)
		if n < 25 {
			old := time.Now().Add(-keepFor - time.Hour*time.Duration(30-n))
			if err := os.Chtimes(j.path, old, old); err != nil {
				t.Fatal(err)
			}
		}
	}
	if found := Abandoned(dir); len(found) != keepNewest {
		t.Errorf("%d are offered", len(found))
	}
	if left, _ := os.ReadDir(dir); len(left) != keepNewest {
		t.Errorf("%d are left", len(left))
	}
	if again := Abandoned(dir); len(again) != keepNewest {
		t.Errorf("%d are offered at the next start", len(again))
	}
}

// TestFolderOfOthers writes and reads nothing where others can write, or where
// there is no folder.
func TestFolderOfOthers(t *testing.T) {
	if j, problem := Start(""); problem == nil || j != nil {
		t.Errorf("without a folder: %v", problem)
	}
	if runtime.GOOS == "windows" {
		t.Skip("no such modes")
	}
	dir := t.TempDir()
	j := start(t, dir)
	j.Accept("a = 1 m")
	crash(t, j)
	if err := os.Chmod(dir, 0o777); err != nil {
		t.Fatal(err)
	}
	if j, problem := Start(dir); problem == nil || j != nil || !strings.Contains(problem.Message, "others can write") {
		t.Errorf("%v", problem)
	}
	if found := Abandoned(dir); found != nil {
		t.Errorf("found %+v", found)
	}
}

func TestWriteThatFailsIsSaid(t *testing.T) {
	j := start(t, t.TempDir())
	j.Accept("a = 1 m")
	crash(t, j)
	problem := j.Accept("b = 2 m")
	if problem == nil || !strings.Contains(problem.Message, "would lose") || problem.Hint == "" {
		t.Errorf("got %v", problem)
	}
}

func TestFolderThatCannotBeMade(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(file, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	if j, problem := Start(filepath.Join(file, "steelyard")); problem == nil || j != nil {
		t.Errorf("got %v, %v", j, problem)
	}
}

func TestNoJournalIsNoTrouble(t *testing.T) {
	var j *Journal
	if j.Accept("a = 1 m") != nil || j.Change(session.Edit{}) != nil || j.Close(false) != nil {
		t.Error("a nil journal has something to say")
	}
}

func FuzzJournal(f *testing.F) {
	whole := []byte(header + "\n")
	for n, text := range odd {
		whole = encode(whole, statement, n+1, text)
		f.Add(string(whole), text)
	}
	f.Add("", "")
	f.Add(string(encode(whole, change, len(odd)+1, "without 2\n3 is\n  x = 1 m\nbefore 4\n  y\n  z\nat the end\n  ")), "x")
	f.Add(header+"\n  1\nchange 1 00000000\n  a\n", "x")
	f.Fuzz(func(t *testing.T, data, text string) {
		c, ok := decode(data)
		if !ok {
			return
		}
		if c.good > len(data) || len(c.statements) != len(c.numbers) {
			t.Fatalf("%d good bytes of %d, %d numbers of %d", c.good, len(data), len(c.numbers), len(c.statements))
		}
		if c.good == 0 || c.last == math.MaxInt {
			return
		}
		// What follows the good part is found again, whatever stood before.
		again, ok := decode(string(encode([]byte(data[:c.good]), statement, c.last+1, text)))
		if want := append(slices.Clone(c.statements), text); !ok || !slices.Equal(again.statements, want) {
			t.Fatalf("got %q, want %q", again.statements, want)
		}
	})
}
