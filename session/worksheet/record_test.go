package worksheet

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"steelyard/session/view"
)

func write(t testing.TB, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "plunger.worked")
	if err := os.WriteFile(path, []byte(text), 0o640); err != nil {
		t.Fatal(err)
	}
	return path
}

func recordAnew(t testing.TB, path string) *Report {
	t.Helper()
	s, problem := Load(path)
	if problem != nil {
		t.Fatal(problem)
	}
	return Replay(context.Background(), s, Options{Record: true})
}

func content(t testing.TB, path string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

func TestRecord(t *testing.T) {
	head := "worksheet 1  Recording\n"
	for _, c := range []struct {
		name, before, after string
		status              int
	}{
		{"nothing to do", "m = 2 kg\n\n# kept  \nW = m*3 m/s^2\n\t=  6.0 N  \n", "m = 2 kg\n\n# kept  \nW = m*3 m/s^2\n\t=  6.0 N  \n", 0},
		{"missing", "W = 2 N*3 m in J\nk = W*2\n", "W = 2 N*3 m in J\n  = 6 J\nk = W*2\n  = 12 J\n", 0},
		{"differs", "W = 2 N*3 m in J\n      =   7 J\n", "W = 2 N*3 m in J\n  = 6 J\n", 0},
		{"unreadable", "W = 2 N*3 m in J\n  = seven\n", "W = 2 N*3 m in J\n  = 6 J\n", 0},
		{"under the sign", "ΔU_1  = 2 N*3 m in J\n2 N*3 m in J\n", "ΔU_1  = 2 N*3 m in J\n      = 6 J\n2 N*3 m in J\n  = 6 J\n", 0},
		{"power of ten", "W = 4.63e6 N*1 m in J\n", "W = 4.63e6 N*1 m in J\n  = 4.63e6 J\n", 0},
		{"no line end", "W = 2 N*3 m in J", "W = 2 N*3 m in J\n  = 6 J", 0},
		{"several lines", "W = (2 N\n  *3 m) in J\n\n# end\n", "W = (2 N\n  *3 m) in J\n  = 6 J\n\n# end\n", 0},
		{"a given has none", "m = 2 kg\n", "m = 2 kg\n", 0},
		{"stray stays", "m = 2 kg\n  = 3 kg\nW = m*1\n", "m = 2 kg\n  = 3 kg\nW = m*1\n  = 2 kg\n", 1},
		{"stale stays", "W = nowhere*2\n  = 3 kg\n", "W = nowhere*2\n  = 3 kg\n", 1},
		{"failed check", "W = 2 kg*1\ncheck W = 3 kg\n", "W = 2 kg*1\n  = 2 kg\ncheck W = 3 kg\n", 1},
	} {
		for _, form := range []struct{ name, mark, eol string }{{"", "", "\n"}, {" crlf", "", "\r\n"}, {" mark", byteOrderMark, "\n"}, {" both", byteOrderMark, "\r\n"}} {
			t.Run(c.name+form.name, func(t *testing.T) {
				as := func(text string) string { return form.mark + strings.ReplaceAll(head+text, "\n", form.eol) }
				path := write(t, as(c.before))
				r := recordAnew(t, path)
				if r.Problem != nil || r.Status() != c.status {
					t.Errorf("status %d, want %d; %v", r.Status(), c.status, r.Problem)
				}
				if got := content(t, path); got != as(c.after) {
					t.Errorf("got\n%q\nwant\n%q", got, as(c.after))
				}
				if again := recordAnew(t, path); again.written || content(t, path) != as(c.after) {
					t.Errorf("recording twice changes the file")
				}
			})
		}
	}
}

// TestRecordSaysWhatItWrote names each line whose record is written in the place
// of another one, and no others.
func TestRecordSaysWhatItWrote(t *testing.T) {
	path := write(t, "worksheet 1  Recording\n\nm = 2 kg\nW = m*3 m^2/s^2 in J\n  = 7 J\nk = W*2\n  = 12.0 J\nq = 2*W\n")
	r := recordAnew(t, path)
	var b strings.Builder
	if err := r.Text(&b, view.Options{}); err != nil {
		t.Fatal(err)
	}
	want := "  4.  W = m*3 m^2/s^2 in J\n        record: 7 J → 6 J\n" + path + ": 3 results agree, records written.\n"
	if b.String() != want || r.Status() != 0 {
		t.Errorf("status %d, got\n%swant\n%s", r.Status(), b.String(), want)
	}
}

func TestRecordAndWithDoNotGoTogether(t *testing.T) {
	s, _ := Parse("x", plunger)
	r := Replay(context.Background(), s, Options{Record: true, With: []string{"m = 1 kg"}})
	if r.Problem == nil || r.Status() != 2 || r.Problem.Kind != WrongOption {
		t.Errorf("got %+v", r.Problem)
	}
}

func TestReplayWritesNothing(t *testing.T) {
	path := write(t, strings.Replace(plunger, "0.4624", "0.5", 1))
	before, _ := os.Stat(path)
	s, _ := Load(path)
	if r := Replay(context.Background(), s, Options{}); r.Status() != 1 {
		t.Errorf("status %d", r.Status())
	}
	after, _ := os.Stat(path)
	if !os.SameFile(before, after) || !before.ModTime().Equal(after.ModTime()) {
		t.Error("the file was written")
	}
}

func FuzzWorksheet(f *testing.F) {
	f.Add(plunger)
	f.Add(strings.ReplaceAll(plunger, "\n", "\r\n"))
	for _, text := range []string{
		"", "worksheet", "worksheet 2  New", "worksheet 1", "worksheet 1  A\n  = 3 J\n= 4\n \n  x",
		"worksheet 1  A\nm = 2 kg*1\n  = 3\n  = 4\n  +1 kg\n", "\ufeffworksheet 1  A\nx = 0/0\n", "worksheet 1  A\r\nx = 1 m*2\r\n\r\n\t=2 m\ny = x@2",
		"worksheet 1  A\nq = 2.000005 m*1", "worksheet 1  A\nq = 0.9999995*1\nr = 1e308 m*1e308\n 1 lap = 400 m\n1 lap = 400 m\n2 lap*1 in laps\n",
		"worksheet 1  A\nq = asin(0.5) in °\nT = 25 °C in K\ndT = 3 K*1 in °C\nresults to 3 figures\nz = 12345 m*1\nround halves to even\n",
	} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		s, problem := Parse("fuzz.worked", text)
		if problem != nil {
			return
		}
		once := rerecord(t, s)
		if once == "" {
			return
		}
		s2, problem := Parse("fuzz.worked", once)
		if problem != nil {
			t.Fatalf("a recorded sheet is no sheet: %v\n%q", problem, once)
		}
		if twice := rerecord(t, s2); twice != once {
			t.Fatalf("recording twice changes\n%q\nto\n%q", once, twice)
		}
	})
}

// rerecord is the text of a sheet with its records brought up to date.
func rerecord(t *testing.T, s *Sheet) string {
	t.Helper()
	r := Replay(context.Background(), s, Options{})
	var b strings.Builder
	if err := r.JSON(&b); err != nil {
		t.Fatal(err)
	}
	return r.recorded(s)
}
