package plan

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"steelyard/lang/formula"
	"steelyard/lang/limit"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// traces is all that a planner holds, as text.
func traces(p *Planner) string {
	var b strings.Builder
	fmt.Fprintln(&b, p.Program.Main, p.zeros, p.settled, p.plans, p.loaded, p.own, p.part, p.that, p.gravity, p.nesting)
	for _, f := range p.Program.Funcs {
		fmt.Fprintln(&b, *f)
	}
	for _, s := range p.Program.Solves {
		fmt.Fprintln(&b, *s)
	}
	for _, d := range p.Names.all {
		fmt.Fprintln(&b, *d, len(p.Names.each(d.Name)))
	}
	fmt.Fprintln(&b, p.library)
	for _, name := range p.loaded {
		fmt.Fprintln(&b, p.library[name].planned)
	}
	return b.String()
}

// exampleLines are the statements of the example worksheets, without records.
func exampleLines(t *testing.T) [][]string {
	files, _ := filepath.Glob("../../examples/*.worked")
	var out [][]string
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		var lines []string
		for _, line := range strings.Split(string(text), "\n") {
			if !strings.HasPrefix(line, " ") {
				lines = append(lines, line)
			} else if !strings.HasPrefix(strings.TrimSpace(line), "=") {
				lines[len(lines)-1] += "\n" + line
			}
		}
		out = append(out, lines)
	}
	if len(out) < 5 {
		t.Fatal("no examples are found")
	}
	return out
}

// onTrial plans the expressions of a statement in every way there is.
func onTrial(p *Planner, s syntax.Stmt, text string) {
	for _, x := range s.Exprs() {
		if x == nil {
			continue
		}
		c := p.Compile(x, text, "")
		p.CompileOf(text, []string{"x"}, []run.Static{{}}, x)
		p.CompileOf(text, []string{"k"}, p.Unknowns(1), x, x)
		if zero := p.Compile(&syntax.Number{}, text, ""); c.Slot != run.NoSlot {
			p.Meet(x, &syntax.Number{}, &c, &zero, text)
		}
	}
	if f, ok := s.(*syntax.FuncDef); ok {
		p.CheckFunction(f, text)
	}
	p.DefineUnit("crate", units.Preferred(units.Dim{}, units.None), 3)
	p.Define(&Def{Name: "trial", Slot: run.NoSlot})
	p.BeginPart()
	p.SetThat(&Def{})
}

// TestTrial plans every line of the examples on trial, and finds the planner as
// it was.
func TestTrial(t *testing.T) {
	tried := 0
	for _, lines := range exampleLines(t) {
		p := New()
		p.Library = func(name string) (*syntax.FormulaDef, bool) {
			text, _ := formula.Source(name)
			s, _ := syntax.Parse(text)
			f, ok := s.(*syntax.FormulaDef)
			return f, ok
		}
		for i, text := range lines {
			p.Begin(i + 1)
			s, _ := syntax.Parse(text)
			if s == nil {
				continue
			}
			tried++
			before, m := traces(p), p.Mark()
			onTrial(p, s, text)
			p.Cut(m)
			if after := traces(p); after != before {
				t.Fatalf("%q leaves a trace:\n%s\nwas\n%s", text, after, before)
			}
			if p.Units.Has("crate") {
				t.Fatal("a unit is left")
			}
			switch s := s.(type) {
			case *syntax.Define:
				if c := p.Compile(s.X, text, s.Name); c.Slot != run.NoSlot {
					p.Define(&Def{Name: s.Name, Slot: c.Slot, Given: true})
				}
			case *syntax.FuncDef:
				p.Define(&Def{Name: s.Name, Kind: Function, Func: s, Slot: run.NoSlot})
			}
		}
	}
	if tried < 100 {
		t.Errorf("only %d lines were tried", tried)
	}
}

// TestCallsWithinEachOther plans functions that call each other as deep as they
// may, and one deeper.
func TestCallsWithinEachOther(t *testing.T) {
	for _, n := range []int{limit.Calls, limit.Calls + 1} {
		for _, ahead := range []bool{false, true} { // each planned in turn, or all at once
			p := New()
			st := &run.State{}
			var c Compiled
			for i := range n {
				body := "x + 1"
				if i > 0 {
					body = fmt.Sprintf("f%d(x) + 1", i-1)
				}
				s, _ := syntax.Parse(fmt.Sprintf("f%d(x) = %s", i, body))
				f := s.(*syntax.FuncDef)
				p.Define(&Def{Name: f.Name, Kind: Function, Func: f, Slot: run.NoSlot})
				if ahead || i == n-1 {
					x, _ := syntax.ParseExpr(fmt.Sprintf("f%d(2)", i))
					c = p.Compile(x, "", "")
				}
			}
			if ok := c.Slot != run.NoSlot; ok != (n == limit.Calls) {
				t.Fatalf("%d functions: planned %t, %v", n, ok, c.Findings)
			}
			if n > limit.Calls {
				continue
			}
			p.Program.Run(st, 0, p.Size())
			if v, ok := st.Value(c.Slot); !ok || v != float64(2+n) {
				t.Errorf("%d functions: %v %t, %v", n, v, ok, st.Failure(c.Slot))
			}
		}
	}
}

// TestFunctionsSeeWhatWasAbove calls a function that is given again by a line
// that uses the one above it by way of another.
func TestFunctionsSeeWhatWasAbove(t *testing.T) {
	p := New()
	for i, text := range []string{"f(x) = x", "g(x) = f(x) + 1", "f(x) = 2*g(x)"} {
		p.Begin(i + 1)
		s, _ := syntax.Parse(text)
		f := s.(*syntax.FuncDef)
		if _, bad := p.CheckFunction(f, text); len(bad) > 0 {
			t.Fatal(bad)
		}
		p.Define(&Def{Name: f.Name, Kind: Function, Func: f, Slot: run.NoSlot})
	}
	x, _ := syntax.ParseExpr("f(2)")
	c := p.Compile(x, "", "")
	st := &run.State{}
	p.Program.Run(st, 0, p.Size())
	if v, ok := st.Value(c.Slot); !ok || v != 6 {
		t.Errorf("f(2) is %v %t", v, ok)
	}
	s, _ := syntax.Parse("f(x) = f(x) + 1")
	if _, bad := p.CheckFunction(s.(*syntax.FuncDef), ""); len(bad) != 1 || bad[0].ID != "own-name" {
		t.Errorf("a function that calls itself: %v", bad)
	}
}
