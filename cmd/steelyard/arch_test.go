package main

import (
	"encoding/json"
	"errors"
	"io"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// pkg is what `go list` says of one package.
type pkg struct {
	ImportPath string
	Imports    []string
	Deps       []string
}

// packages lists the packages of the module, tests left out.
func packages(t *testing.T) []pkg {
	t.Helper()
	cmd := exec.Command("go", "list", "-json=ImportPath,Imports,Deps", "./...")
	cmd.Dir = filepath.Join("..", "..")
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	var all []pkg
	for d := json.NewDecoder(strings.NewReader(string(out))); ; {
		var p pkg
		if err := d.Decode(&p); errors.Is(err, io.EOF) {
			break
		} else if err != nil {
			t.Fatal(err)
		}
		all = append(all, p)
	}
	if len(all) < 8 {
		t.Fatalf("only %d packages found", len(all))
	}
	return all
}

// rooms are the folders of the module from left to right; nothing imports to
// the left.
var rooms = []string{"steelyard/cmd", "steelyard/session", "steelyard/lang", "steelyard/units"}

// room returns the place of a package in that order, or -1 for one of another
// module.
func room(path string) int {
	return slices.IndexFunc(rooms, func(r string) bool { return path == r || strings.HasPrefix(path, r+"/") })
}

// TestImportsPointRight keeps the rooms in their order.
func TestImportsPointRight(t *testing.T) {
	for _, p := range packages(t) {
		from := room(p.ImportPath)
		if from < 0 {
			t.Errorf("%s is in none of %s", p.ImportPath, rooms)
		}
		for _, i := range p.Imports {
			if to := room(i); to >= 0 && to < from {
				t.Errorf("%s imports %s, which is to its left", p.ImportPath, i)
			}
		}
	}
}

// TestSyntaxAndPlanOrder keeps the reading of text apart from the names in
// scope, and findings apart from both.
func TestSyntaxAndPlanOrder(t *testing.T) {
	forbidden := map[string][]string{
		"steelyard/lang/ops":     {"steelyard/lang/syntax", "steelyard/lang/plan", "steelyard/lang/finding", "steelyard/units"},
		"steelyard/lang/run":     {"steelyard/lang/plan"},
		"steelyard/lang/finding": {"steelyard/lang/syntax", "steelyard/lang/plan", "steelyard/units"},
		"steelyard/lang/syntax":  {"steelyard/lang/plan", "steelyard/lang/formula"},
		"steelyard/session":      {"steelyard/session/view", "steelyard/session/help", "steelyard/session/repl", "steelyard/session/worksheet", "steelyard/session/journal", "steelyard/session/live"},
		"steelyard/session/live": {"steelyard/session/view", "steelyard/session/help", "steelyard/session/repl", "steelyard/session/worksheet", "steelyard/session/journal"},
		// The library that reads spreadsheets fills tables at start; only the command has it.
		"steelyard/session/worksheet": {"steelyard/session/spreadsheet"},
		// A view reads entries, and neither evaluates nor asks the scratchpad.
		"steelyard/session/entry": {"steelyard/session", "steelyard/lang/plan"},
		"steelyard/session/view":  {"steelyard/session", "steelyard/lang/plan"},
		"steelyard/session/draw":  {"steelyard/session", "steelyard/lang/plan"},
		"steelyard/session/print": {"steelyard/session", "steelyard/lang/plan"},
	}
	for _, p := range packages(t) {
		for _, f := range forbidden[p.ImportPath] {
			if slices.Contains(p.Deps, f) {
				t.Errorf("%s needs %s", p.ImportPath, f)
			}
		}
	}
}

// TestSessionRooms keeps the rooms of the scratchpad apart: entry at the bottom,
// eval over it, and over that the kinds of statement, which don't know each other;
// curves and workings alone may use what solving knows. Views know the entries and
// none of these.
func TestSessionRooms(t *testing.T) {
	const session = "steelyard/session/"
	may := map[string][]string{
		"graph": nil, "entry": {"graph"}, "eval": {"entry", "graph"},
		"given": nil, "check": nil, "solve": nil, "vary": nil, "advise": nil, "ask": nil, "reading": nil, "lab": nil,
		"curve": {"solve"}, "work": {"solve"},
	}
	statement := []string{"given", "check", "solve", "vary", "advise", "ask", "curve", "work", "reading", "lab"}
	for _, r := range statement {
		may[r] = append(may[r], "entry", "eval", "graph")
	}
	for _, r := range []string{"view", "draw", "print"} {
		may[r] = []string{"entry", "graph", "draw", "rows"}
	}
	for _, p := range packages(t) {
		allowed, some := may[strings.TrimPrefix(p.ImportPath, session)]
		if !some || !strings.HasPrefix(p.ImportPath, session) {
			continue
		}
		for _, i := range p.Imports {
			if i == "steelyard/session" || strings.HasPrefix(i, session) && !slices.Contains(allowed, strings.TrimPrefix(i, session)) {
				t.Errorf("%s imports %s", p.ImportPath, i)
			}
		}
	}
}

// TestTerminalIsFarAway lets only the command and the line editor know that
// there is a terminal.
func TestTerminalIsFarAway(t *testing.T) {
	terminal := []string{"github.com/chzyer/readline", "golang.org/x/term"}
	for _, p := range packages(t) {
		if room(p.ImportPath) == 0 || p.ImportPath == "steelyard/session/repl" {
			continue
		}
		for _, i := range p.Imports {
			if slices.Contains(terminal, i) {
				t.Errorf("%s imports %s", p.ImportPath, i)
			}
		}
	}
}

// pureRooms are those of the session that work statements out.
var pureRooms = map[string]bool{
	"steelyard/session": true, "steelyard/session/entry": true, "steelyard/session/eval": true, "steelyard/session/given": true,
	"steelyard/session/check": true, "steelyard/session/solve": true, "steelyard/session/curve": true, "steelyard/session/vary": true,
	"steelyard/session/live": true, "steelyard/session/work": true, "steelyard/session/advise": true, "steelyard/session/ask": true, "steelyard/session/reading": true, "steelyard/session/lab": true, "steelyard/session/record": true,
}

// TestEngineIsSmall keeps out of everything that also runs in a browser what it does without:
// the reader of spreadsheet files alone is larger than all the rest.
func TestEngineIsSmall(t *testing.T) {
	modules := []string{"github.com/alecthomas/participle/v2", "github.com/martinlindhe/unit", "golang.org/x/text"}
	large := []string{"crypto", "net", "html", "text/template", "compress", "archive", "encoding/xml", "encoding/gob", "go", "database", "image", "testing"}
	within := func(path string, of []string) bool {
		return slices.ContainsFunc(of, func(p string) bool { return path == p || strings.HasPrefix(path, p+"/") })
	}
	for _, p := range packages(t) {
		if room(p.ImportPath) < 2 && !pureRooms[p.ImportPath] {
			continue
		}
		for _, d := range p.Deps {
			first, _, _ := strings.Cut(d, "/")
			if strings.Contains(first, ".") && !within(d, modules) || within(d, large) {
				t.Errorf("%s needs %s", p.ImportPath, d)
			}
		}
	}
}

// TestThePureRooms keeps files, clocks, networks and other programs out of
// everything that reads, plans and works out.
func TestThePureRooms(t *testing.T) {
	outside := []string{"os", "net", "net/http", "os/exec", "time", "syscall", "os/signal"}
	for _, p := range packages(t) {
		if room(p.ImportPath) < 2 && !pureRooms[p.ImportPath] {
			continue
		}
		for _, i := range p.Imports {
			if slices.Contains(outside, i) {
				t.Errorf("%s imports %s", p.ImportPath, i)
			}
		}
	}
}
