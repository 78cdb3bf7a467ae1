package plan

import (
	"bufio"
	"os"
	"strings"
	"testing"

	"steelyard/lang/formula"
	"steelyard/lang/ops"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// page plans lines one after the other, as a scratchpad does.
type page struct {
	*Planner
	line int
}

// enter plans a statement and says what is known of its value before any number
// is: the dimension, and the tags that it has. A statement without a plan says
// which findings it has, or nothing.
func (p *page) enter(t *testing.T, text string) string {
	t.Helper()
	s, bad := syntax.Parse(text)
	if s == nil {
		t.Fatalf("%q can't be read: %v", text, bad)
	}
	p.line++
	p.Begin(p.line)
	d := &Def{Line: p.line, Slot: run.NoSlot}
	var c Compiled
	switch s := s.(type) {
	case *syntax.Value:
		c = p.Compile(s.X, text, "")
		d = nil
	case *syntax.Define:
		c = p.Compile(s.X, text, s.Name)
		d.Name, d.Slot, d.Given = s.Name, c.Slot, true
		if e := syntax.Rational(s.X); !e.Lost() {
			d.Exponent = &e
		}
	case *syntax.FuncDef:
		d.Name, d.Kind, d.Func = s.Name, Function, s
		c.Slot = run.NoSlot
		_, c.Findings = p.CheckFunction(s, text)
	case *syntax.FormulaDef:
		d.Name, d.Kind, d.Formula = s.Name, Formula, s
		c.Slot = run.NoSlot
		c.Findings = p.CheckFormula(s, text)
	case *syntax.Let:
		u, bad := p.Unit(s.In, units.AloneInPlace)
		if bad != nil {
			t.Fatal(bad.Message)
		}
		d.Name, d.Kind, d.Unit = s.Symbols[0].Name, Symbol, u
		d.Slot = p.Emit(run.Instr{Op: ops.Const, K: 1}, run.Static{Dim: u.Dim(), Tag: u.Tag(), Absent: true})
		c.Slot, c.Static = d.Slot, p.Static(d.Slot)
	default:
		t.Fatalf("%q is a %T", text, s)
	}
	if d != nil {
		if c.Slot == run.NoSlot && d.Kind == Quantity {
			d.Root = d
		}
		p.Define(d)
	}
	return p.told(c)
}

// told writes what is known of a planned line.
func (p *page) told(c Compiled) string {
	if c.Slot == run.NoSlot {
		var ids []string
		for _, f := range c.Findings {
			ids = append(ids, "!"+string(f.ID))
		}
		if len(ids) == 0 {
			return "nothing"
		}
		return strings.Join(ids, " ")
	}
	st := p.Static(c.Slot)
	text := st.Dim.String()
	for _, tag := range []struct {
		is   bool
		name string
	}{
		{st.Tag == units.Angle, "angle"}, {st.Tag == units.Cycle, "cycle"},
		{st.Heat == run.Point, "point"}, {st.Heat == run.Difference, "difference"},
		{st.Open != 0, "open"}, {st.Absent, "absent"},
	} {
		if tag.is {
			text += ", " + tag.name
		}
	}
	for _, f := range c.Findings {
		text += " !" + string(f.ID)
	}
	return text
}

// newPage is a planner that has some lines.
func newPage(t *testing.T, lines ...string) *page {
	t.Helper()
	p := &page{Planner: New()}
	p.Library = func(name string) (*syntax.FormulaDef, bool) {
		text, _ := formula.Source(name)
		s, _ := syntax.Parse(text)
		f, ok := s.(*syntax.FormulaDef)
		return f, ok
	}
	for _, text := range lines {
		if got := p.enter(t, text); strings.HasPrefix(got, "!") {
			t.Fatalf("%q: %s", text, got)
		}
	}
	return p
}

// given are the lines above those of TestStatics.
var given = []string{
	"x = 5 m", "t = 2 s", "m = 3 kg", "v = 4 m/s", "F = 12 N", "A = 2 m^2", "E = 30 J",
	"θ = 30°", "f = 3 Hz", "ω = 4 rad/s", "n = 2", "half = 0.5", "w = 2*n", "α30 = 30",
	"T = 20 °C", "T2 = 300 K", "D = T - 15 °C", "z = 0",
	"step2(s) =\n  2 m/s for 0 s ≤ s ≤ 1 s\n  v for 1 s < s ≤ 3 s",
	"h(u) = u^2", "area2(a, b) = a*b", "sum2(a, b) = a + b",
	"formula myF: F = m*a\n  F in N, force\n  m in kg, mass\n  a in m/s^2, acceleration",
	"let k in N/m",
	"p = m*v", "d = x + v*t", "q2 = h(x) + A",
	"r(u) = p with m = u", "g2(u) = u*p", "g3(u) = g2(u) + g2(2*u)", "a3(u) = area under s against s from 0 to u",
	"s1(u) = u*v in m", "s0(u) = 0 in m", "ph(u) = u/x in rad",
	"two(u) =\n  2 m for 0 s ≤ u ≤ 1 s\n  3 s for 1 s < u ≤ 2 s",
}

// TestStatics checks each line of testdata/statics.txt below the same lines.
func TestStatics(t *testing.T) {
	file, err := os.Open("testdata/statics.txt")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	n := 0
	for rows := bufio.NewScanner(file); rows.Scan(); {
		text, want, ok := strings.Cut(rows.Text(), " => ")
		if !ok {
			continue
		}
		n++
		text = strings.ReplaceAll(text, `\n`, "\n")
		if got := newPage(t, given...).enter(t, text); got != want {
			t.Errorf("%s\n   is: %s\n want: %s", text, got, want)
		}
	}
	if n < 200 {
		t.Errorf("only %d lines are read", n)
	}
}

// expr reads an expression of a test.
func expr(t *testing.T, text string) syntax.Expr {
	t.Helper()
	x, bad := syntax.ParseExpr(text)
	if x == nil {
		t.Fatalf("%q: %v", text, bad)
	}
	return x
}

// TestUnknowns says what an equation tells of its unknown before it is solved.
func TestUnknowns(t *testing.T) {
	for _, c := range []struct{ left, right, want string }{
		{"F", "m*q", "m s^-2"},
		{"E", "1/2*m*q^2", "m s^-1"},
		{"x", "v*q + 0", "s"},
		{"q^2", "A", "m"},
		{"√(q)", "t", "s^2"},
		{"q", "q^2/x", "m"},
		{"sin(q)", "0.5", "1"},
		{"k*q", "F", "m"},
		{"q + x", "2*t", "!unlike-dimensions"},
		{"x", "t + q", "!unlike-dimensions"},
		{"nosuch*q", "F", "!unknown-name"},
	} {
		p := newPage(t, given...)
		q := p.Unknowns(1)
		eq := p.CompileOf(c.left+" = "+c.right, []string{"q"}, q, expr(t, c.left), expr(t, c.right))
		got := p.Settled(q[0]).Dim.String()
		if !eq.OK || len(eq.Findings) > 0 {
			got = p.told(Compiled{Slot: run.NoSlot, Findings: eq.Findings})
		}
		if got != c.want {
			t.Errorf("%s = %s: q is %s, want %s", c.left, c.right, got, c.want)
		}
	}
}

// TestBothSides compares the sides of a check.
func TestBothSides(t *testing.T) {
	for _, c := range []struct{ left, right, want string }{
		{"x", "5 m", ""}, {"x", "0", ""}, {"0", "x", ""}, {"0", "0", ""}, {"θ", "1", ""}, {"T", "293 K", ""},
		{"x", "t", "!unlike-dimensions"}, {"x", "5", "!unlike-dimensions"}, {"f", "ω", "!angle-or-cycle"}, {"nosuch", "x", "!unknown-name"},
	} {
		p := newPage(t, given...)
		text := c.left + " = " + c.right
		left, right := p.Compile(expr(t, c.left), text, ""), p.Compile(expr(t, c.right), text, "")
		fs := append(left.Findings, right.Findings...)
		if len(fs) == 0 {
			fs = p.Meet(expr(t, c.left), expr(t, c.right), &left, &right, text)
		}
		got := ""
		for _, f := range fs {
			got += "!" + string(f.ID)
		}
		if got != c.want {
			t.Errorf("check %s = %s: %q, want %q", c.left, c.right, got, c.want)
		}
	}
}

// TestCurves plans an expression as a function of a name that it frees.
func TestCurves(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"k*q", "kg m s^-2"}, {"h(q)", "m^2"}, {"x", "m"}, {"q + t", "!unlike-dimensions"}, {"nosuch", "!unknown-name"},
	} {
		p := newPage(t, given...)
		curve := p.CompileOf(c.text, []string{"q"}, []run.Static{p.Static(p.mustFind(t, "x"))}, expr(t, c.text))
		got := curve.Static.Dim.String()
		if len(curve.Findings) > 0 {
			got = p.told(Compiled{Slot: run.NoSlot, Findings: curve.Findings})
		}
		if got != c.want {
			t.Errorf("%s as a curve: %s, want %s", c.text, got, c.want)
		}
	}
}

// mustFind returns the slot of a name.
func (p *page) mustFind(t *testing.T, name string) run.Slot {
	t.Helper()
	d, ok := p.Find(&syntax.Name{Name: name})
	if !ok {
		t.Fatal(name, " is not given")
	}
	return d.Slot
}

// TestHints says what else may have been meant by a line in a wrong unit.
func TestHints(t *testing.T) {
	p := newPage(t, append([]string{"c1 = 3 m"}, given...)...)
	joule, bad := p.Units.Parse("J", units.AloneInPlace)
	if bad != nil {
		t.Fatal(bad.Message)
	}
	text := "m*x/t^2"
	c := p.Compile(expr(t, text), text, "")
	hint := p.GivenHint(expr(t, text), text, p.Static(c.Slot), joule.Dim())
	if hint != "" {
		t.Errorf("%s in J: %q", text, hint)
	}
	text = "1/2*A*v^2"
	c = p.Compile(expr(t, text), text, "")
	if hint = p.GivenHint(expr(t, text), text, p.Static(c.Slot), joule.Dim()); hint != "" {
		t.Errorf("A is no mass by custom, and is pointed at: %q", hint)
	}
	page := newPage(t, "m = 3 N", "v = 4 m/s")
	text = "1/2*m*v^2"
	c = page.Compile(expr(t, text), text, "")
	if hint = page.GivenHint(expr(t, text), text, page.Static(c.Slot), joule.Dim()); !strings.Contains(hint, "Check m (line 1)") {
		t.Errorf("a mass given in N: %q", hint)
	}
}

// TestNamesOfLines looks names up as they stood at a line.
func TestNamesOfLines(t *testing.T) {
	p := newPage(t, "x = 1 m", "x = 2 s", "y = x")
	for name, want := range map[string]string{"x": "s", "x@1": "m", "x@2": "s", "y": "s", "x@3": "!unknown-name"} {
		if got := p.enter(t, name); got != want {
			t.Errorf("%s is %s, want %s", name, got, want)
		}
	}
	if d := p.Names.Above("x", 2); d == nil || d.Line != 1 {
		t.Errorf("above line 2, x is that of %v", d)
	}
	if d := p.Names.Above("x", 1); d != nil {
		t.Errorf("above line 1, x is that of line %d", d.Line)
	}
	if d, ok := p.Names.Lookup("x"); !ok || d.Line != 2 {
		t.Errorf("at the end, x is that of %v", d)
	}
	if got := p.enter(t, "x = x@1 + nosuch"); got != "!unknown-name" {
		t.Error(got)
	}
	if got := p.enter(t, "x + 1 s"); got != "s" {
		t.Errorf("a line that failed takes x away: %s", got)
	}
	p.Names.Nearest = true
	if got := p.enter(t, "x + 1 s"); got != "!not-worked-out" {
		t.Errorf("in a file, a line that failed leaves x: %s", got)
	}
}

// TestGravity is the g of a page that gives none.
func TestGravity(t *testing.T) {
	p := newPage(t, "m = 2 kg")
	if got := p.enter(t, "m*g"); got != "kg m s^-2" {
		t.Error(got)
	}
	d, ok := p.Find(&syntax.Name{Name: "g"})
	if !ok || !p.IsStandardGravity(d) || p.StandardGravity() != d {
		t.Errorf("g is %v", d)
	}
	p.enter(t, "g = 1.6 m/s^2")
	if d, _ = p.Find(&syntax.Name{Name: "g"}); p.IsStandardGravity(d) || d.Line != 3 {
		t.Errorf("g of line 3 is %v", d)
	}
}

// TestUnknownName says what may have been meant by a name that no line gives.
func TestUnknownName(t *testing.T) {
	p := newPage(t, append([]string{"speed = 3 m/s"}, given...)...)
	for name, want := range map[string]string{"sped": "Did you mean speed?", "force": "force = 2.0 N", "τ": "τ = 2.0 N m"} {
		found := p.Unknown(&syntax.Name{Name: name}, name)
		if len(found) != 1 || !strings.Contains(found[0].Hint, want) {
			t.Errorf("%s: %v", name, found)
		}
	}
}
