package plan

import (
	"strings"
	"testing"

	"steelyard/lang/limit"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// TestVaried finds which line of a name an expression was worked out from.
func TestVaried(t *testing.T) {
	lines := []string{
		"k = 2 N/m", "x = 3 m", "U = 1/2*k*x^2", "E(y) = k*y^2", "P(y) =\n  k*y^2 for 0 m ≤ y ≤ x\n  0 J for x < y ≤ 9 m",
		"k = 5 N/m", "W = 2*k*x^2", "both = U + W",
	}
	p := newPage(t, lines...)
	for text, want := range map[string]string{
		"U": "1", "W": "6", "both": "1 6", "x": "6", "E(2 m)": "1", "P(2 m)": "1", "k*x": "6", "k@1*x": "1",
		"E(2 m) + W": "1 6", "slope of E(u) at u = 1 m": "1",
	} {
		var got []string
		for _, d := range p.Varied(&syntax.Name{Name: "k"}, expr(t, text)) {
			got = append(got, itoa(d.Line))
		}
		if strings.Join(got, " ") != want {
			t.Errorf("k varied in %s is that of lines %v, want %s", text, got, want)
		}
	}
	for text, want := range map[string]string{
		"U with k = 3 N/m": "kg m^2 s^-2", "U with k = 2*k": "!two-readings", "U with k@1 = 2*k@1": "kg m^2 s^-2",
		"both with k = 3 N/m": "!two-readings", "both with k@6 = 3 N/m": "kg m^2 s^-2", "U with k@9 = 3 N/m": "!unknown-name",
		"(E(2 m) with k = 3 N/m)": "kg m^2 s^-2", "P(x) with x = 1 m": "kg m^2 s^-2",
	} {
		if got := p.enter(t, text); got != want {
			t.Errorf("%s: %s, want %s", text, got, want)
		}
	}
	c := p.Compile(expr(t, "both with k = 3 N/m"), "both with k = 3 N/m", "")
	if got, want := strings.Join(c.Findings[0].Readings, "; "), "both with k@1 = 3 N/m; both with k@6 = 3 N/m"; got != want {
		t.Errorf("offered: %s, want %s", got, want)
	}
}

// TestReplacedRoot plans a root of an equation again, with a value replaced that
// the equation holds, and one that only a function of the search loads.
func TestReplacedRoot(t *testing.T) {
	p := newPage(t, "k = 2 N/m", "F = 12 N")
	f := p.CompileOf("k*q = F", []string{"q"}, p.Unknowns(1), expr(t, "k*q"), expr(t, "F"))
	if !f.OK {
		t.Fatal(f.Findings)
	}
	length := units.BaseDim(units.Metre)
	for _, searched := range []bool{false, true} {
		candidate := p.Compile(expr(t, "F/k"), "F/k", "").Slot
		rule := &run.Solve{Differences: []int{f.Fn}, Dims: []units.Dim{length}, Sizes: []float64{0}, Searched: searched}
		args := []run.Slot{candidate}
		if searched {
			rule.Sizes, args = nil, nil
		}
		p.Define(&Def{Name: "q", Slot: p.EmitSolve(rule, args, run.Static{Dim: length})})
		c := p.Compile(expr(t, "q with F = 8 N"), "q with F = 8 N", "")
		if c.Slot == run.NoSlot {
			t.Fatal(c.Findings)
		}
		st := &run.State{}
		p.Program.Run(st, 0, p.Size())
		if v, ok := st.Value(c.Slot); !ok || v < 4-1e-9 || v > 4+1e-9 {
			t.Errorf("searched %t: q with F = 8 N is %v, %t", searched, v, ok)
		}
		if got := p.enter(t, "g1(u) = (q with F = u) + 0 m"); got != "nothing" {
			t.Error(got)
		}
		if got := p.enter(t, "g1(8 N)"); got != "!not-available-yet" {
			t.Errorf("within a function: %s", got)
		}
	}
}

// TestZeroSettles says what a bare zero is once it has been used or reported.
func TestZeroSettles(t *testing.T) {
	p := newPage(t, "z = 0", "o = 0", "x = 3 m")
	z := p.mustFind(t, "z")
	if st := p.SettleTo(z, units.BaseDim(units.Second)); st.Dim != units.BaseDim(units.Second) {
		t.Errorf("a zero reported in s is %+v", st)
	}
	if st := p.SettleTo(p.mustFind(t, "x"), units.BaseDim(units.Second)); st.Dim != units.BaseDim(units.Metre) {
		t.Errorf("x in s is %+v", st)
	}
	for _, c := range []struct{ text, want string }{
		{"z + x", "!zero-two-dimensions"}, {"z + 2 s", "s"}, {"√(o) + x", "m"}, {"o", "m^2"}, {"o + x", "!zero-two-dimensions"},
	} {
		if got := p.enter(t, c.text); got != c.want {
			t.Errorf("%s: %s, want %s", c.text, got, c.want)
		}
	}
	if got := Words(run.Static{Open: 1}); !strings.HasPrefix(got, "zero") {
		t.Errorf("an open zero is %q", got)
	}
}

// TestTooLong ends the plan of a line that would take more than a million steps.
func TestTooLong(t *testing.T) {
	lines := []string{"f0(u) = u + 1"}
	for i := range 19 {
		a, b := "f"+itoa(i), "f"+itoa(i+1)
		lines = append(lines, b+"(u) = "+a+"(u) + "+a+"(u + 1)")
	}
	p := newPage(t, lines...)
	for _, c := range []struct{ text, want string }{
		{"f15(1)", "1"}, {"f19(1)", "!too-long"}, {"f19(1) with f0 = 2", "!unknown-name"}, {"slope of f15(u)*u at u = 1", "1"},
	} {
		if got := p.enter(t, c.text); got != c.want {
			t.Errorf("%s: %s, want %s", c.text, got, c.want)
		}
	}
	f := p.CompileOf("f19(u)", []string{"u"}, []run.Static{{}}, expr(t, "f19(u)"))
	if f.OK || len(f.Findings) != 1 || f.Findings[0].ID != "too-long" {
		t.Errorf("as a curve: %+v", f)
	}
}

// TestManyPlans plans functions that call each other with ever other arguments:
// one that can't be worked out, and one that takes too long, are found so at once.
func TestManyPlans(t *testing.T) {
	for _, c := range []struct{ first, other, call, want string }{
		{"f0(u) = u + 1 s", "G(u) + G(u*1 m)", "F(1 kg)", "!unlike-dimensions"},
		{"f0(u) = u*1", "sgn(G(u*1 m)) + sgn(G(u*1 s)) + sgn(G(u*1 A)) + sgn(G(u/(1 m)))", "F(1 kg)", "!too-long"},
	} {
		lines := []string{c.first}
		for i := range 12 {
			names := strings.NewReplacer("F", "f"+itoa(i+1), "G", "f"+itoa(i))
			lines = append(lines, names.Replace("F(u) = "+c.other))
			c.call = strings.ReplaceAll(c.call, "F", "f12")
		}
		p := newPage(t, lines...)
		p.Budget = limit.NewBudget(t.Context(), 1_000_000)
		if got := p.enter(t, c.call); got != c.want || p.Budget.Ended() != limit.Going {
			t.Errorf("%s: %s, want %s", c.other, got, c.want)
		}
		p.Budget = limit.NewBudget(t.Context(), 40*nodeSteps)
		if got := p.enter(t, c.call); got != "nothing" || p.Budget.Ended() != limit.Spent {
			t.Errorf("%s with few steps: %s", c.other, got)
		}
	}
}

// TestCycleText tells angles and cycles apart, each in its own words.
func TestCycleText(t *testing.T) {
	p := newPage(t, given...)
	for _, c := range []struct{ text, in, want string }{
		{"ω", "Hz", "an angle per time (rad/s); Hz counts cycles"}, {"f", "rad/s", "a frequency (Hz); rad/s is an angle"},
		{"θ", "rev", "is an angle"},
	} {
		u, bad := p.Units.Parse(c.in, units.AloneInPlace)
		if bad != nil {
			t.Fatal(bad.Message)
		}
		st := p.Static(p.mustFind(t, c.text))
		if got := CycleText(c.text, st, u); !strings.Contains(got.Message, c.want) || got.Hint == "" {
			t.Errorf("%s in %s: %+v", c.text, c.in, got)
		}
	}
}
