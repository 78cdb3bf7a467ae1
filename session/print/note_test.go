package print

import (
	"context"
	"reflect"
	"strings"
	"testing"

	"steelyard/lang/syntax"
	"steelyard/session"
	"steelyard/session/entry"
)

// partLines are lines of a part, at least one of every kind of statement, with
// what they do in it. The note after one that belongs to the solution is not in a
// handout.
var partLines = []struct {
	line string
	role syntax.Role
}{
	{"# a remark", syntax.Aside},
	{"data\n  m / kg   T / s\n  0.10     0.44\n  0.20     0.63", syntax.Given},
	{"fit [2, 4, 7] m against [1, 2, 3] s", syntax.Task},
	{"note The scale was read from straight ahead.", syntax.Aside},
	{"part b: How stiff is the spring?", syntax.Aside},
	{"results to 3 figures", syntax.Aside},
	{"results to the givens' figures", syntax.Aside},
	{"givens are exact", syntax.Aside},
	{"round halves to even", syntax.Aside},
	{"let k in N/m", syntax.Aside},
	{"constants G, c", syntax.Given},
	{"1 lap = 400 m", syntax.Given},
	{"n = 3", syntax.Given},
	{"d = -(4 m)", syntax.Given},
	{"w = 3 lb 8 oz", syntax.Given},
	{"w = 3 lb 8 oz in kg", syntax.Task},
	{"E = 1/2*m*v^2", syntax.Task},
	{"E = 1/2*M*v^2", syntax.Task}, // M has no value yet
	{"E = 1/2*m*v^2 in N", syntax.Task},
	{"v2 = v with m = 2*m", syntax.Task},
	{"T with L = 2*L", syntax.Task},
	{"slope of 2*x at x = 3 m", syntax.Task},
	{"area under 2*x against x from 0 m to 2 m", syntax.Task},
	{"solve 18 J = 1/2*m*u^2 for u in m/s", syntax.Task},
	{"graph 1/2*(30 N/m)*x^2 against x from 0 m to 2 m in J", syntax.Task},
	{"graph 1/2*(30 N/m)*x^2 against x from 0 m to 2 m in J blank", syntax.Task},
	{"table 1/2*(30 N/m)*x^2 against x from 0 m to 2 m in J", syntax.Task},
	{"1/2*m*v^2", syntax.Answer},
	{"scaling T against L", syntax.Answer},
	{"straighten [1, 2, 3, 4] m against [1, 2, 3, 4] s", syntax.Answer},
	{"report v", syntax.Answer},
	{"budget v", syntax.Support},
	{"bars at \"released\": 3 J, 0 J | at \"leaves\": 1 J, 2 J", syntax.Answer},
	{"bars at \"released\": 3 J | at \"leaves\": 1 J, 1 s", syntax.Answer},
	{"check 1/2*4 kg*(3 m/s)^2 = 18 J", syntax.Support},
	{"check v is negative", syntax.Support},
	{"compare v with 3 m/s", syntax.Support},
	{"steps T", syntax.Support},
	{"f(x) = 2*x", syntax.Support},
	{"formula hill_energy: E = m*a*h\n  E in J, energy gained\n  m in kg, mass\n  a in m/s^2, gravity\n  h in m, height", syntax.Support},
	{"arrows (m*v, 0 kg m/s), (1.0, 2.0) kg m/s", syntax.Task},
	{"chekc 1/2*m*v^2 = 18 J", syntax.Support}, // can't be read
}

// TestNotesOfAHandout puts a note after every kind of statement: it is kept under
// what the writer sets up, and nowhere under a line of the solution.
func TestNotesOfAHandout(t *testing.T) {
	for _, c := range partLines {
		lines := []string{"m = 4 kg", "v = 3 m/s", "L = 2 m", "T = 2π√(L/g)", "part a: How much energy?", c.line, "note It is eighteen joules."}
		pad := session.New()
		var entries []*entry.Entry
		for _, line := range lines {
			entries = append(entries, pad.Enter(context.Background(), line))
		}
		if got := syntax.RoleOf(entries[5].Stmt); got != c.role {
			t.Errorf("%s: its role is %d, want %d", c.line, got, c.role)
		}
		d, _ := New("Cart", entries, Handout)
		_, function := entries[5].Stmt.(*syntax.FuncDef) // of what is given alone: it is shown
		if kept := strings.Contains(string(Plain(d, 80)), "eighteen"); kept == (c.role.Solves() && !function) {
			t.Errorf("%s: the note after it is kept: %v", c.line, kept)
		}
		d, _ = New("Cart", entries, Key)
		if !strings.Contains(string(Plain(d, 80)), "eighteen") {
			t.Errorf("%s: the key lacks the note after it", c.line)
		}
		above, _ := New("Cart", append(entries[:4:4], entries[5:]...), Handout)
		if _, part := entries[5].Stmt.(*syntax.Part); !part && !strings.Contains(string(Plain(above, 80)), "eighteen") {
			t.Errorf("%s: above the parts the note after it is left out", c.line)
		}
	}
}

// TestPartLinesAreAll holds the lines above against the words of the language.
func TestPartLinesAreAll(t *testing.T) {
	tried := map[reflect.Type]bool{}
	for _, c := range partLines {
		stmt, _ := syntax.Parse(c.line)
		tried[reflect.TypeOf(stmt)] = true
	}
	for _, w := range syntax.Statements() {
		stmt, _ := syntax.Parse(w.Example)
		if w.Ready && w.Stored && !tried[reflect.TypeOf(stmt)] {
			t.Errorf("no line has a %T", stmt)
		}
	}
}

// TestUnitIsPutIn keeps a note with the number of a unit that the worksheet
// defines, where a result has the same.
func TestUnitIsPutIn(t *testing.T) {
	pad := session.New()
	var entries []*entry.Entry
	for _, line := range []string{"1 lap = 450 m", "note A lap is 450 m long.", "part a: How far is it?", "s = 2*(0.5 lap) in m"} {
		entries = append(entries, pad.Enter(context.Background(), line))
	}
	d, _ := New("Track", entries, Handout)
	if text := string(Plain(d, 80)); !strings.Contains(text, "is 450 m long") {
		t.Errorf("the note is left out:\n%s", text)
	}
}
