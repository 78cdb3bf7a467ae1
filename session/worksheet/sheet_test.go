package worksheet

import (
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"

	"steelyard/lang/finding"
	"steelyard/lang/limit"
)

func TestSplit(t *testing.T) {
	text := "worksheet 1  Lift of a\tcrate\n" + // 1
		"\n" + // 2
		"# a remark\n" + // 3
		"formula lift: W = m*g*h\n" + // 4
		"  W in J, work\n" + // 5
		"\tm in kg, mass\n" + // 6
		"W = lift(2 kg, 3 m)\n" + // 7
		"    = 58.8399 J\n" + // 8
		"  \n" + // 9
		"part a: How far?\n" + // 10
		"q = (1 m\n" + // 11
		"  = 1 m\n" + // 12
		"  + 2 m)\n" + // 13
		"last" // 14
	want := []string{
		`2 "" []`, `3 "# a remark" []`, `4 "formula lift: W = m*g*h\n  W in J, work\n\tm in kg, mass" []`,
		`7 "W = lift(2 kg, 3 m)" ["8 = 58.8399 J"]`, `9 "  " []`, `10 "part a: How far?" []`,
		`11 "q = (1 m\n  + 2 m)" ["12 = 1 m"]`, `14 "last" []`,
	}
	for _, eol := range []string{"\n", "\r\n"} {
		s, problem := Parse("", strings.ReplaceAll(text, "\n", eol))
		if problem != nil {
			t.Fatal(problem)
		}
		if s.Title != "Lift of a\tcrate" {
			t.Errorf("title %q", s.Title)
		}
		var got []string
		for _, st := range s.Statements {
			records := []string{}
			for _, r := range st.records {
				records = append(records, itoa(r.Number)+" "+r.Text)
			}
			got = append(got, fmt.Sprintf("%d %q %q", st.Line, st.Text, records))
		}
		if !slices.Equal(got, want) {
			t.Errorf("with %q:\n%s\nwant\n%s", eol, strings.Join(got, "\n"), strings.Join(want, "\n"))
		}
	}
}

func TestFilesThatAreNoWorksheet(t *testing.T) {
	for _, c := range []struct {
		name, text string
		id         finding.ID
		line       int
		say        string
	}{
		{"empty", "", finding.UnknownFormat, 0, "empty"},
		{"mark alone", byteOrderMark, finding.UnknownFormat, 1, "first line"},
		{"first line missing", "m = 0.080 kg\n", finding.UnknownFormat, 1, "first line"},
		{"blank first line", "\nworksheet 1  A\n", finding.UnknownFormat, 1, "first line"},
		{"no version", "worksheet Plunger\n", finding.UnknownFormat, 1, "number of the format"},
		{"later version", "worksheet 2  Plunger\n", finding.UnknownFormat, 1, "format 2"},
		{"version of many digits", "worksheet 99999999999999999999  A\n", finding.UnknownFormat, 1, "number of the format"},
		{"old line ends", "worksheet 1  A\rm = 2 kg\r", finding.BadText, 1, "control"},
		{"NUL in the title", "worksheet 1  A\x00\n", finding.BadText, 1, "control"},
		{"Latin-1", "worksheet 1  A\nm = 2 kg\nT = 20 \xb0C\n", finding.BadText, 3, "UTF-8"},
		{"UTF-16", "\xff\xfew\x00o\x00r\x00", finding.BadText, 0, "UTF-16"},
		{"lines", "worksheet 1  A\n" + strings.Repeat("\n", limit.Lines), finding.TooLong, 0, "lines"},
		{"statements", "worksheet 1  A\n" + strings.Repeat("x\n", limit.Statements+1), finding.TooLong, 0, "200001 statements"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, problem := Load(write(t, c.text))
			if problem == nil {
				t.Fatal("it is read")
			}
			if problem.Kind != NotSheet || problem.ID != c.id || problem.Line != c.line || !strings.Contains(problem.Message, c.say) {
				t.Errorf("got %+v", problem)
			}
			plain(t, problem)
		})
	}
	for _, body := range []string{strings.Repeat("\n", limit.Lines-1), strings.Repeat("x\n\n# a\n", limit.Statements)} {
		if _, problem := Parse("", "worksheet 1  A\n"+body); problem != nil {
			t.Errorf("as many as allowed: %v", problem)
		}
	}
}

// plain fails if a problem passes on what the system or the library said.
func plain(t *testing.T, problem *FileProblem) {
	t.Helper()
	for _, bad := range []string{"open ", "write ", "invalid", "syscall", "0x", "no such file or directory", "rename", "strconv"} {
		if strings.Contains(problem.Message+problem.Hint, bad) {
			t.Errorf("the problem speaks of %q: %s", bad, problem.Error())
		}
	}
	if !strings.HasSuffix(problem.Message, ".") {
		t.Errorf("no sentence: %q", problem.Message)
	}
}

func TestFilesThatCannotBeRead(t *testing.T) {
	dir := t.TempDir()
	huge := filepath.Join(dir, "huge")
	if err := os.WriteFile(huge, []byte("worksheet 1  A\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Truncate(huge, limit.File+1); err != nil {
		t.Fatal(err)
	}
	loop := filepath.Join(dir, "loop")
	paths := map[string]string{dir: "folder", filepath.Join(dir, "none"): "no such file", huge: "64 MiB", filepath.Join(huge, "a"): "not a folder"}
	if runtime.GOOS != "windows" {
		if err := os.Symlink(loop, loop); err != nil {
			t.Fatal(err)
		}
		paths[loop] = "circle"
		paths["/dev/zero"] = "device"
		paths[filepath.Join(dir, strings.Repeat("n", 5000))] = "too long"
	}
	for path, say := range paths {
		_, problem := Load(path)
		if problem == nil || !strings.Contains(problem.Message, say) {
			t.Errorf("%.80s: got %v, want %q", path, problem, say)
			continue
		}
		plain(t, problem)
	}
}

// A sheet that is hostile in its size is read, gives its findings and no more
// memory than a few times its size.
func TestHostileSheets(t *testing.T) {
	head := "worksheet 1  Hostile\n"
	for _, c := range []struct {
		name, text string
		status     int
	}{
		{"one line of 50 MB", head + "m = " + strings.Repeat("1", 50<<20) + " kg\nv = 3 m/s\n", 1},
		{"a body of many lines", head + "formula a: b = c\n" + strings.Repeat("  x\n", 1<<19), 1},
		{"the same with CR LF", head + "formula a: b = c\r\n" + strings.Repeat("  x\r\n", 1<<19), 1},
		{"many records", head + "m = 2 kg*1\n" + strings.Repeat("  = 2 kg\n", 1<<19), 1},
		{"a record of 10 MB", head + "m = 2 kg*1\n  = " + strings.Repeat("9", 10<<20) + " kg\n", 1},
		{"a title of 10 MB", "worksheet 1  " + strings.Repeat("A", 10<<20) + "\nm = 2 kg\n", 0},
		{"brackets", head + strings.Repeat("(", 100000) + "\n", 1},
		{"NUL and marks of direction", head + "m = 2 kg\x00\nv = 3 \u202em/s\n", 1},
		{"differences", head + strings.Repeat("2 kg*1\n  = 3 kg\n", 20000), 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			r, said := replay(t, c.text, Options{})
			if r.Status() != c.status {
				t.Errorf("status %d, want %d", r.Status(), c.status)
			}
			if len(said) > 300*len(r.Rows)+3*limit.Line {
				t.Errorf("%d bytes are said of %d statements", len(said), len(r.Rows))
			}
			if got := r.recorded(mustParse(t, c.text)); !strings.Contains(c.text, "\n  = 3 kg") && !strings.Contains(c.text, "= 99999") && got != c.text {
				t.Error("recording changes the file")
			}
		})
	}
}

func mustParse(t *testing.T, text string) *Sheet {
	t.Helper()
	s, problem := Parse("", text)
	if problem != nil {
		t.Fatal(problem)
	}
	return s
}
