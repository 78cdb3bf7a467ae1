package worksheet

import (
	"context"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"steelyard/session/record"
	"steelyard/session/view"
)

const plunger = `worksheet 1  Pinball plunger

m = 0.080 kg
v = 3.4 m/s
x = 6.0 cm

part a: Work the spring does on the ball
W = 1/2*m*v^2
  = 0.4624 J

part b: Spring constant
k = 2*W/x^2 in N/m
  = 256.889 N/m
check 1/2*k*x^2 = W
`

func replay(t testing.TB, text string, o Options) (*Report, string) {
	t.Helper()
	s, problem := Parse("plunger.worked", text)
	if problem != nil {
		t.Fatal(problem)
	}
	r := Replay(context.Background(), s, o)
	var b strings.Builder
	if err := r.Text(&b, view.Options{}); err != nil {
		t.Fatal(err)
	}
	return r, b.String()
}

func TestReplay(t *testing.T) {
	for _, c := range []struct {
		name, old, new string
		with           []string
		strict         bool
		status         int
		say, hush      []string
	}{
		{name: "as it is", say: []string{"plunger.worked: 2 results agree, 1 check holds"}, hush: []string{"!"}},
		{name: "record changed in its last digit", old: "0.4624", new: "0.4625", status: 1,
			say: []string{"8.  W =", "0.4625 J", "0.4624 J", "1 result differs", "1 result agrees"}},
		{name: "a dropped zero counts", old: "= 0.4624 J", new: "= 0.46240 J", say: []string{"2 results agree"}},
		{name: "within half of the sixth figure", old: "256.889", new: "256.8887", say: []string{"2 results agree"}},
		{name: "unit of a record changed", old: "256.889 N/m", new: "256.889 J/m^2", status: 1, say: []string{"12.  k ="}},
		{name: "same unit in other signs", old: "256.889 N/m", new: "0.256889 kN/m", status: 1, say: []string{"12.  k ="}},
		{name: "a given changed", old: "3.4 m/s", new: "3.5 m/s", status: 1,
			say: []string{"8.  W =", "1 more differs because of that"}, hush: []string{"12.  k ="}},
		{name: "a line removed", old: "x = 6.0 cm\n", new: "", status: 1, say: []string{"11.  k =", "x"}},
		{name: "a check that fails", old: "x^2 = W", new: "x^2 = 2*W", status: 1, say: []string{"1 check fails"}},
		{name: "unrecorded", old: "  = 0.4624 J\n", new: "", say: []string{"1 result without a record"}},
		{name: "unrecorded, strict", old: "  = 0.4624 J\n", new: "", strict: true, status: 1, say: []string{"8.  W ="}},
		{name: "record of a given", old: "m = 0.080 kg\n", new: "m = 0.080 kg\n  = 0.08 kg\n", status: 1, say: []string{"3.  m =", "ine 4 is a result"}},
		{name: "record of a check", old: "2 = W\n", new: "2 = W\n  = 1 J\n", status: 1, say: []string{"14.  check"}},
		{name: "record of a part", old: "ball\n", new: "ball\n  = 1 J\n", status: 1, say: []string{"7.  part"}},
		{name: "two records", old: "  = 0.4624 J\n", new: "  = 0.4624 J\n  = 0.4624 J\n", status: 1, say: []string{"8.  W ="}},
		{name: "record under a blank line", old: "  = 0.4624 J\n", new: "\n  = 0.4624 J\n", status: 1, say: []string{"10.    = 0.4624 J", "directly above"}},
		{name: "record at the margin", old: "  = 0.4624 J\n", new: "= 0.4624 J\n", status: 1, say: []string{"9.  = 0.4624 J", "directly above"}},
		{name: "record under a remark", old: "  = 0.4624 J\n", new: "# done\n  = 0.4624 J\n", status: 1, say: []string{"directly above"}},
		{name: "nothing above", old: "Pinball plunger\n\n", new: "Pinball plunger\n  m0 = 2 kg\n", status: 1, say: []string{"2.    m0", "begins with a space"}},
		{name: "record that can't be read", old: "= 0.4624 J", new: "= some joules", status: 1, say: []string{"8.  W =", "ine 9"}},
		{name: "record of a symbol without a value", old: "m = 0.080 kg", new: "let m in kg", status: 1, say: []string{"8.  W =", "no value"}},
		{name: "a command", old: "# x", new: "", status: 0},
		{name: "a command in a file", old: "part b", new: "names\npart b", status: 1, say: []string{"names", "scratchpad"}},
		{name: "any indent of a record", old: "  = 0.4624 J", new: "\t\t =  0.4624 J", say: []string{"2 results agree"}},

		{name: "with", with: []string{"m = 0.10 kg"}, say: []string{"0.4624 J → 0.578 J", "256.889 N/m → 321.111 N/m", "2 results move", "1 check holds"}, hush: []string{"!"}},
		{name: "with, by line", with: []string{"v@4 = 6.8 m/s"}, say: []string{"0.4624 J → 1.8496 J"}},
		{name: "with two", with: []string{"m = 0.10 kg", "v=6.8 m/s"}, say: []string{"→ 2.312 J"}},
		{name: "with another dimension", with: []string{"m = 0.10 m"}, status: 2, say: []string{"m is a mass"}},
		{name: "with a result", with: []string{"W = 1 J"}, status: 2, say: []string{"W is worked out"}},
		{name: "with an unknown name", with: []string{"q = 1 J"}, status: 2, say: []string{"No line defines q"}},
		{name: "with another line", with: []string{"v@3 = 1 m/s"}, status: 2, say: []string{"line 3"}},
		{name: "with an expression", with: []string{"m = 2*x"}, status: 2},
		{name: "with no value", with: []string{"m"}, status: 2},
		{name: "with two lines", with: []string{"m = 1 kg\nv = 2 m/s"}, status: 2},
		{name: "with nothing", with: []string{""}, status: 2},
		{name: "with a name given twice", old: "part b: Spring constant\n", new: "part b: Spring constant\nm = 0.080 kg\n",
			with: []string{"m = 0.10 kg"}, status: 2, say: []string{"m@3"}},
		{name: "with one of two", old: "part b: Spring constant\n", new: "part b: Spring constant\nm = 0.080 kg\n",
			with: []string{"m@12 = 0.10 kg"}, say: []string{"0.080 kg → 0.10 kg", "nothing moves"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			text := plunger
			if c.old != "" {
				text = strings.Replace(plunger, c.old, c.new, 1)
				if text == plunger && c.old != "# x" {
					t.Fatalf("%q is not in the sheet", c.old)
				}
			}
			r, said := replay(t, text, Options{With: c.with, Strict: c.strict})
			if r.Status() != c.status {
				t.Errorf("status %d, want %d", r.Status(), c.status)
			}
			for _, want := range c.say {
				if !strings.Contains(said, want) {
					t.Errorf("does not say %q", want)
				}
			}
			for _, bad := range c.hush {
				if strings.Contains(said, bad) {
					t.Errorf("says %q", bad)
				}
			}
			if t.Failed() {
				t.Log("\n" + said)
			}
		})
	}
}

// What a record is compared with is the value, at the last figure in force.
func TestAgreement(t *testing.T) {
	for _, c := range []struct {
		statement, record string
		agrees            bool
	}{
		{"1000.003 m*1", "1000 m", true},
		{"1000.006 m*1", "1000 m", false},
		{"9.999997 m*1", "10 m", true},
		{"9.99996 m*1", "10 m", false},
		{"2.000005 m*1", "2.00001 m", true}, // a tie of the sixth figure
		{"0*3 m", "0 m", true},
		{"1e-20 m*1", "0 m", false},
		{"4.63e6 N*1 m in N m", "4.63e6 N m", true},
		{"4.63e6 N*1 m in N m", "4630000 N m", true},
		{"4.63e6 N*1 m in N m", "4.63001e6 N m", false},
		{"-3 m*1", "3 m", false},
		{"-3 m*1", "-3 m", true},
		{"π*1", "3.14159", true},
		{"π*1", "3.1416", false},
		{"asin(0.5) in °", "30°", true},
		{"0.25*1 in %", "25 %", true},
	} {
		text := "worksheet 1  Agreement\nq = " + c.statement + "\n  = " + c.record + "\n"
		r, said := replay(t, text, Options{})
		if (r.Status() == 0) != c.agrees || len(r.Rows) != 1 || (r.Rows[0].state == record.Agrees) != c.agrees {
			t.Errorf("%s against %s: status %d\n%s", c.statement, c.record, r.Status(), said)
		}
	}
	settings := "worksheet 1  Set\nresults to 3 figures\nW = 256.889 N*1 m in N m\n  = 257 N m\n"
	if r, said := replay(t, settings, Options{}); r.Status() != 0 {
		t.Errorf("three figures:\n%s", said)
	}
}

func TestCausesAreCountedOnce(t *testing.T) {
	var b strings.Builder
	b.WriteString("worksheet 1  Chain\na0 = 2 m*1\n  = 1 m\n")
	for n := range 50 {
		b.WriteString("a" + itoa(n+1) + " = 2*a" + itoa(n) + "\n  = 1 m\n")
	}
	r, said := replay(t, b.String(), Options{})
	if r.Status() != 1 || strings.Count(said, "!") != 1 || !strings.Contains(said, "50 more differ because of that") {
		t.Errorf("status %d\n%s", r.Status(), said)
	}
}

func TestReplayStops(t *testing.T) {
	s, _ := Parse("plunger.worked", plunger)
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if r := Replay(ctx, s, Options{}); r.Status() == 0 {
		t.Error("a replay that was stopped says that all holds")
	}
}

// Files are replayed on goroutines beside one another: under the race detector
// this tells whether two pages share anything that one of them writes, and
// anywhere whether a page has changed than alone.
func TestReplaysSideBySide(t *testing.T) {
	files, _ := filepath.Glob("../../examples/*.worked")
	if len(files) == 0 {
		t.Fatal("no examples are found")
	}
	report := func(path string) string {
		s, problem := Load(path)
		if problem != nil {
			return problem.Error()
		}
		var out strings.Builder
		if err := Replay(context.Background(), s, Options{}).JSON(&out); err != nil {
			return err.Error()
		}
		return out.String()
	}
	beside := make([][2]string, len(files))
	var all sync.WaitGroup
	for i, path := range files {
		for twin := range beside[i] {
			all.Go(func() { beside[i][twin] = report(path) })
		}
	}
	all.Wait()
	for i, path := range files {
		want := report(path)
		for _, got := range beside[i] {
			if got != want {
				t.Errorf("%s: side by side with others\n%s\nalone\n%s", path, got, want)
			}
		}
	}
}
