package worksheet

import (
	"context"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"steelyard/session/entry"
	"steelyard/session/live"
	"steelyard/session/record"
)

func entered(texts ...string) []*entry.Entry { return onPage(texts...).Entries() }

func onPage(texts ...string) *live.Page {
	p := live.New()
	for _, text := range texts {
		p.Enter(context.Background(), text)
	}
	return p
}

func TestSave(t *testing.T) {
	path := filepath.Join(t.TempDir(), "crate.worked")
	page := onPage("m = 2 kg", "nonsense here (", "part a: How\tfar?", "  W = m*3 m^2/s^2 in J", "q = (m\n+ 1 kg)", "later = nowhere*2\r",
		"formula lift: E = m*h\n  E in kg m, made up\n\nm in kg, mass\n  h in m, height", "bytes \xff\x00 here", "m = 3 kg", "k = m@1*2", "# done", "check m@1 = 2 kg")
	if _, problem := Save(path, page.Entries(), Saving{Title: "Crate\n and rope", Failed: page.Failed()}); problem != nil {
		t.Fatal(problem)
	}
	want := `worksheet 1  Crate and rope

m = 2 kg
# nonsense here (

part a: How	far?
W = m*3 m^2/s^2 in J
  = 6 J
q = (m
  + 1 kg)
  = 3 kg
# later = nowhere*2
formula lift: E = m*h
  E in kg m, made up
  m in kg, mass
  h in m, height
` + "# bytes \ufffd\ufffd here" + `
m = 3 kg
k = m@3*2
  = 4 kg
# done
check m@3 = 2 kg
`
	if got := content(t, path); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	s, problem := Load(path)
	if problem != nil {
		t.Fatal(problem)
	}
	if r, said := replay(t, content(t, path), Options{Strict: true}); r.Status() != 0 {
		t.Errorf("what was saved does not replay:\n%s", said)
	}
	if s.Title != "Crate and rope" {
		t.Errorf("title %q", s.Title)
	}
}

// Lines that failed are left out, or are remarks where they were typed, whatever has
// changed above since.
func TestSaveFailedLines(t *testing.T) {
	path := filepath.Join(t.TempDir(), "crate.worked")
	page := onPage("L = 2 m", "M = L + 30 %", "M = L*(1 + 30 %)", "w = nowhere", "part b: Again", "w = 3 m", "check M@2 = 2.6 m", "1 +",
		"insert before 1 note One", "remove 4", "undo", "change 2 to L = 2 m +", "insert before 2 L + 2 s")
	for _, failed := range []bool{false, true} {
		how := Saving{Title: "A", Anyway: true}
		want := "worksheet 1  A\n\nnote One\nL = 2 m\nM = L*(1 + 30 %)\n  = 2.6 m\n\npart b: Again\nw = 3 m\ncheck M@5 = 2.6 m\n"
		if failed {
			how.Failed = page.Failed()
			want = "worksheet 1  A\n\nnote One\n# L + 2 s\nL = 2 m\n# M = L + 30 %\nM = L*(1 + 30 %)\n  = 2.6 m\n# w = nowhere\n\npart b: Again\nw = 3 m\ncheck M@7 = 2.6 m\n# 1 +\n"
		}
		if _, problem := Save(path, page.Entries(), how); problem != nil {
			t.Fatal(problem)
		}
		if got := content(t, path); got != want {
			t.Errorf("got\n%s\nwant\n%s", got, want)
		}
		if r, said := replay(t, content(t, path), Options{Strict: true}); r.Status() != 0 {
			t.Errorf("what was saved does not replay:\n%s", said)
		}
	}
}

// TestSaveWhatHasNoValue keeps a line that has lost what it needs as it is.
func TestSaveWhatHasNoValue(t *testing.T) {
	path := filepath.Join(t.TempDir(), "crate.worked")
	if _, problem := Save(path, entered("L = 2 m", "M = 2*L", "remove 1"), Saving{Title: "A"}); problem != nil {
		t.Fatal(problem)
	}
	if got, want := content(t, path), "worksheet 1  A\n\nM = 2*L\n"; got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

func TestSaveRefusesWhatSomeoneElseChanged(t *testing.T) {
	path := write(t, plunger)
	s, _ := Load(path)
	entries := entered("m = 2 kg")
	kind := func(how Saving) (ProblemKind, bool) {
		_, problem := Save(path, entries, how)
		if problem == nil {
			return 0, false
		}
		plain(t, problem)
		return problem.Kind, true
	}
	if k, bad := kind(Saving{}); !bad || k != Exists {
		t.Errorf("a file that was not opened here is replaced: %v %v", k, bad)
	}
	// The same number of bytes, and as far as the clock can tell the same time.
	info, _ := os.Stat(path)
	os.WriteFile(path, []byte(strings.Replace(plunger, "3.4", "3.5", 1)), 0o640)
	os.Chtimes(path, info.ModTime(), info.ModTime())
	if k, bad := kind(Saving{Since: s.Stamp()}); !bad || k != Changed {
		t.Errorf("a changed file is replaced: %v %v", k, bad)
	}
	if got := content(t, path); !strings.Contains(got, "3.5") {
		t.Errorf("the change is lost: %q", got)
	}
	stamp, problem := Save(path, entries, Saving{Since: s.Stamp(), Anyway: true})
	if problem != nil {
		t.Fatal(problem)
	}
	if _, problem := Save(path, entries, Saving{Since: stamp}); problem != nil {
		t.Errorf("saving twice: %v", problem)
	}
	os.Remove(path)
	if _, problem := Save(path, entries, Saving{Since: stamp}); problem != nil {
		t.Errorf("saving what was deleted: %v", problem)
	}
}

func TestSaveKeepsPermissionsAndLinks(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("no such permissions")
	}
	path := write(t, plunger)
	os.Chmod(path, 0o664)
	dir := t.TempDir()
	link, hanging := filepath.Join(dir, "link.worked"), filepath.Join(dir, "hanging.worked")
	os.Symlink(path, link)
	os.Symlink("new.worked", hanging)
	for _, at := range []string{link, hanging} {
		if _, problem := Save(at, entered("m = 2 kg"), Saving{Title: "A", Anyway: true}); problem != nil {
			t.Fatal(problem)
		}
		if info, err := os.Lstat(at); err != nil || info.Mode()&os.ModeSymlink == 0 {
			t.Errorf("%s is no link any more: %v", at, err)
		}
	}
	if info, _ := os.Stat(path); info.Mode().Perm() != 0o664 {
		t.Errorf("permissions are %v", info.Mode())
	}
	for _, at := range []string{path, filepath.Join(dir, "new.worked")} {
		if got := content(t, at); got != "worksheet 1  A\n\nm = 2 kg\n" {
			t.Errorf("%s: %q", at, got)
		}
	}
	os.Chmod(path, 0o444)
	if _, problem := Save(path, entered("m = 3 kg"), Saving{Anyway: true}); problem == nil || !strings.Contains(problem.Message, "read-only") {
		t.Errorf("a file marked read-only: %v", problem)
	}
	onlyFiles(t, dir, "hanging.worked", "link.worked", "new.worked")
}

// onlyFiles fails if a folder holds anything else.
func onlyFiles(t *testing.T, dir string, names ...string) {
	t.Helper()
	found, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, f := range found {
		got = append(got, f.Name())
	}
	if strings.Join(got, " ") != strings.Join(names, " ") {
		t.Errorf("the folder holds %q, want %q", got, names)
	}
}

func TestSaveKeepsTheFormOfLines(t *testing.T) {
	path := write(t, byteOrderMark+strings.ReplaceAll(plunger, "\n", "\r\n"))
	s, _ := Load(path)
	if _, problem := Save(path, entered("m = 2 kg", "k = m*2"), Saving{Title: s.Title, Since: s.Stamp()}); problem != nil {
		t.Fatal(problem)
	}
	want := byteOrderMark + "worksheet 1  Pinball plunger\r\n\r\nm = 2 kg\r\nk = m*2\r\n  = 4 kg\r\n"
	if got := content(t, path); got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

// What is saved replays, whatever was entered.
func TestSavedReplays(t *testing.T) {
	numbers := rapid.StringMatching(`-?[1-9][0-9]{0,3}(\.[0-9]{1,7})?(e-?[1-9])?`)
	line := rapid.Custom(func(t *rapid.T) string {
		name := rapid.SampledFrom([]string{"m", "v", "x_1", "Δt", "ω"})
		unit := rapid.SampledFrom([]string{"kg", "m/s", "°", "%", "°C", "N m", "ft", "", "min", "rev/min"})
		switch rapid.IntRange(0, 6).Draw(t, "kind") {
		case 0, 1:
			return name.Draw(t, "name") + " = " + numbers.Draw(t, "n") + " " + unit.Draw(t, "unit")
		case 2, 3:
			return name.Draw(t, "name") + " = 1.1*" + name.Draw(t, "x") + "/" + name.Draw(t, "y")
		case 4:
			return name.Draw(t, "x") + "^2 + " + name.Draw(t, "y") + "*" + name.Draw(t, "z")
		case 5:
			return rapid.SampledFrom([]string{"results to 3 figures", "round halves to even", "part b: And then?", "# so", "note done", "1 lap = 400 m"}).Draw(t, "other")
		}
		return rapid.String().Draw(t, "anything")
	})
	path := filepath.Join(t.TempDir(), "any.worked")
	rapid.Check(t, func(t *rapid.T) {
		page := onPage(rapid.SliceOfN(line, 1, 12).Draw(t, "lines")...)
		if _, problem := Save(path, page.Entries(), Saving{Title: "Any", Anyway: true, Failed: page.Failed()}); problem != nil {
			t.Fatal(problem)
		}
		s, problem := Load(path)
		if problem != nil {
			t.Fatal(problem)
		}
		r := Replay(context.Background(), s, Options{Strict: true})
		for _, row := range r.Rows {
			if row.Entry.Failed() || row.state != record.Nothing && row.state != record.Agrees {
				t.Fatalf("line %d is in state %d\n%s", row.Entry.Line, row.state, s.text)
			}
		}
	})
}

// TestSaveSpeaksOfNoOldFile says that the old file is unchanged only where there is one.
func TestSaveSpeaksOfNoOldFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "none", "a.worked")
	_, problem := Save(path, entered("m = 2 kg"), Saving{Title: "A"})
	if problem == nil || problem.Kind != NotWritten || strings.Contains(problem.Hint, "old file") {
		t.Errorf("it says %v", problem)
	}
}
