package session

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"

	"steelyard/lang/finding"
	"steelyard/lang/limit"
	"steelyard/session/entry"
)

// costly are lines of each kind of work that may grow with what is written, with
// what they need, and what is said of one that is ended.
var costly = []struct{ above, line, while string }{
	{"f(x) = x + 1 m; g(x) = f(x) - f(2*x)/2; h(x) = g(x) - g(2*x)/2", "y = h(3 m)", ""},
	{"", "A = area under sin(x)/x against x from 1 to 900", ""},
	{"", "solve cos(x) = x for x", "searching for x"},
	{"", "solve a + exp(a) = b and b + exp(b) = 9 for a, b", "searching for a and b"},
	{"", "graph sin(x^2) against x from 0 to 40", "drawing"},
	{"", "table sin(x^2) against x from 0 to 40", ""},
	{"x = 3 m", "scaling sin(x/1 m) + x^2/1 m^2 against x", "working"},
	{"f0(u) = u; f1(u) = f0(u) + f0(2*u); f2(u) = f1(u) + f1(2*u); f3(u) = f2(u) + f2(2*u)", "y = f3(3 m)", ""},
	{"M = 3 kg; v = 2 m/s; W = 5 J; k = 2 N/m; T = 3 s", "describe x", ""},
	{"let p in m; let q in m", "solve x^2 + p*x = q^2 for x", "rearranging for x"},
}

// denied are lines that say that there is no solution, after several looks for one.
var denied = []struct{ above, line string }{
	{"", "solve √x*√(x + 1) = -2 for x"},
	{"", "solve exp(x) + 3 = cos(x) for x"},
	{"", "solve x + y = 5 and x*y = 10 for x, y"},
	{"", "solve 1/tan(x) = 0 for x"},
}

// withBudget enters a costly line with so many steps.
func withBudget(ctx context.Context, n int64, above, line string) (*Pad, *entry.Entry) {
	p := New()
	for _, text := range strings.Split(above, "; ") {
		if text != "" {
			p.Enter(context.Background(), text)
		}
	}
	p.page.State.Budget = limit.NewBudget(ctx, n)
	p.page.Planner.Budget = p.page.State.Budget
	e := p.Enter(ctx, line)
	p.page.State.Budget, p.page.Planner.Budget = nil, nil
	return p, e
}

// TestBudgetOfLines gives a line as many steps as it needs, and one less: then it
// has no value, nor has a name that it would have given.
func TestBudgetOfLines(t *testing.T) {
	for _, c := range costly {
		ended := func(n int64) bool {
			_, e := withBudget(t.Context(), n, c.above, c.line)
			return len(e.Findings) > 0 && e.Findings[0].ID == finding.TooLong
		}
		lo, hi := int64(0), int64(limit.Steps)
		for hi-lo > 1 {
			if mid := lo + (hi-lo)/2; ended(mid) {
				lo = mid
			} else {
				hi = mid
			}
		}
		if hi < 10 || hi > limit.Steps/10 {
			t.Errorf("%s: %d steps", c.line, hi)
		}
		if _, e := withBudget(t.Context(), hi, c.above, c.line); e.Failed() {
			t.Errorf("%s: %d steps: %v", c.line, hi, e.Findings)
		}
		p, e := withBudget(t.Context(), lo, c.above, c.line)
		if len(e.Findings) != 1 || e.Outcome != nil || !strings.Contains(e.Findings[0].Message, c.while) {
			t.Errorf("%s: %d steps: %v, %v", c.line, lo, e.Findings, e.Outcome)
		}
		for _, id := range e.Stmt.Defines() {
			if d, ok := p.page.Planner.Names.Lookup(id.Name); !ok || !d.Failed() {
				t.Errorf("%s: %s has a value", c.line, id.Name)
			}
		}
		if e := p.Enter(t.Context(), "2 m + 3 m"); e.Failed() {
			t.Errorf("after %s: %v", c.line, e.Findings)
		}
	}
}

// stopping is a context that is done after so many looks.
type stopping struct {
	context.Context
	looks int
}

func (s *stopping) Err() error {
	if s.looks--; s.looks < 0 {
		return context.Canceled
	}
	return nil
}

// TestStoppedAnywhere stops lines at every moment: at the first look a line ends,
// and says so.
func TestStoppedAnywhere(t *testing.T) {
	for _, c := range costly {
		for looks := 0; ; looks += 1 + looks/4 {
			ctx := &stopping{t.Context(), looks}
			_, e := withBudget(ctx, limit.Steps, c.above, c.line)
			if ctx.looks >= 0 {
				break
			}
			if len(e.Findings) != 1 || e.Findings[0].ID != finding.Stopped || e.Outcome != nil {
				t.Fatalf("%s: stopped at look %d: %v", c.line, looks, e.Findings)
			}
			if ctx.looks < -1 {
				t.Fatalf("%s: stopped at look %d, it went on for %d more", c.line, looks, -1-ctx.looks)
			}
		}
	}
}

// TestStoppedDenying stops lines that would deny a solution at every moment, and ends them
// at every step: none is denied then.
func TestStoppedDenying(t *testing.T) {
	for _, c := range denied {
		_, e := withBudget(t.Context(), limit.Steps, c.above, c.line)
		if !e.Failed() {
			t.Errorf("%s: %v", c.line, e.Outcome)
		}
		for looks := 0; ; looks++ {
			ctx := &stopping{t.Context(), looks}
			_, e := withBudget(ctx, limit.Steps, c.above, c.line)
			if ctx.looks >= 0 {
				break
			}
			if len(e.Findings) != 1 || e.Findings[0].ID != finding.Stopped || e.Outcome != nil {
				t.Fatalf("%s: stopped at look %d: %v", c.line, looks, e.Findings)
			}
		}
		for steps := int64(1); ; steps += 1 + steps/8 {
			_, e := withBudget(t.Context(), steps, c.above, c.line)
			if slices.ContainsFunc(e.Findings, func(f finding.Finding) bool { return f.ID == finding.NoSolution }) {
				break
			}
			if len(e.Findings) == 0 || steps > limit.Steps {
				t.Fatalf("%s: %d steps: %v", c.line, steps, e.Findings)
			}
		}
	}
}

// TestEnded enters lines that would take minutes: each is ended, and says so.
func TestEnded(t *testing.T) {
	var sines, functions []string
	for i := range 1499 {
		sines = append(sines, fmt.Sprintf("sin(%d*t)", i+1))
	}
	functions = append(functions, "f0(x) = x + 1")
	for i := range 16 {
		functions = append(functions, fmt.Sprintf("f%d(x) = f%d(x) + f%d(x)", i+1, i, i))
	}
	for _, c := range []struct {
		above []string
		line  string
		while string
	}{
		{nil, "graph " + strings.Join(sines, " + ") + " against t from 0 to 10", "while drawing"},
		{functions, "solve f16(t) = 3 for t where t > -10 and t < 10", "while searching for t"},
	} {
		p := New()
		for _, text := range c.above {
			p.Enter(t.Context(), text)
		}
		e := p.Enter(t.Context(), c.line)
		short := c.line[:min(len(c.line), 60)]
		if len(e.Findings) != 1 || e.Findings[0].ID != finding.TooLong || !strings.Contains(e.Findings[0].Message, c.while) {
			t.Errorf("%s: %v", short, e.Findings)
		}
	}
}

// TestAnyBudget enters lines that are solved in several passes with budgets of every
// size: a pass that is ended never leaves a value that the whole line refuses.
func TestAnyBudget(t *testing.T) {
	for _, c := range []struct{ above, line string }{
		{"x = 1 m; L = 2 m", "solve cos θ = x/L for θ"},
		{"W = 137 N; F = 100 N", "solve W sin θ = F for θ"},
		{"V = 137 N; H = 339 N", "solve H*tan(β) = V for β where β > 0° and β < 4000°"},
		{"a = 30°; n = 1.5", "solve sin(a) = n*sin(b) for the second b where b > 0°"},
		{"", "solve abs(sin(q)) = 0.5 for q where q > 0 and q < 90"},
		{byIntervals, "graph v(t) against t from 0 s to 35 s"},
		{byIntervals, "area under v(t) from 0 s to 35 s"},
		{byIntervals, "graph v(t)^2/(t - 5 s) against t from 0 s to 35 s"},
	} {
		_, whole := withBudget(t.Context(), limit.Steps, c.above, c.line)
		for steps := int64(1); steps < 1_000_000; steps += 1 + steps/12 {
			_, e := withBudget(t.Context(), steps, c.above, c.line)
			if e.Failed() {
				continue
			}
			if got, want := shown(e), shown(whole); whole.Failed() || got != want {
				t.Errorf("%s, with %d steps:\n%s %v\nwith no end:\n%s %v", c.line, steps, got, e.Findings, want, whole.Findings)
				break
			}
		}
	}
}

const byIntervals = "v(t) =\n(2 m/s^2)*t for 0 s ≤ t ≤ 7 s\n14 m/s for 7 s < t ≤ 28 s\n14 m/s - (2 m/s^2)*(t - 28 s) for t > 28 s"

func shown(e *entry.Entry) string {
	var all []string
	for _, v := range e.Values() {
		all = append(all, fmt.Sprintf("%s = %.9g", v.Name, v.SI))
	}
	return strings.Join(all, ", ")
}
