package session

import (
	"context"
	"fmt"
	"runtime"
	"strings"
	"testing"

	"steelyard/lang/finding"
	"steelyard/session/entry"
	"steelyard/units"
)

// TestHostile enters lines that are made to hurt. Each must come back with a
// finding, and leave the scratchpad usable.
func TestHostile(t *testing.T) {
	lines := map[string]string{
		"parentheses":       strings.Repeat("(", 100_000) + "1" + strings.Repeat(")", 100_000),
		"calls":             strings.Repeat("sin(", 100_000) + "1" + strings.Repeat(")", 100_000),
		"signs":             strings.Repeat("-", 300_000) + "1",
		"few signs":         strings.Repeat("-", 30_000) + "1",
		"roots":             strings.Repeat("√", 60_000) + "1",
		"long name":         strings.Repeat("a", 2<<20),
		"name beyond":       strings.Repeat("ab", 4000) + " = 1",
		"chained operators": "1" + strings.Repeat("+1", 1_000_000),
		"large exponent":    "x = (2 m)^1000000000",
		"large unit power":  "x = 2 m^1000000000",
		"overflow":          "1e308 m * 1e308",
		"large number":      "1e999999999 m",
		"long number":       strings.Repeat("9", 5000),
		"zero over zero":    "0/0",
		"not UTF-8":         "x = \xff\xfe m",
		"NUL":               "x = 1\x00 m",
		"right to left":     "x = \u202e1 m",
		"powers of powers":  "2" + strings.Repeat("^9", 200),
		"unfinished":        "x = (1 + ",
	}
	for name, line := range lines {
		t.Run(name, func(t *testing.T) {
			p := New()
			var before, after runtime.MemStats
			runtime.ReadMemStats(&before)
			e := p.Enter(context.Background(), line)
			runtime.ReadMemStats(&after)
			if len(e.Findings) == 0 {
				t.Fatalf("no finding; values %v", e.Values())
			}
			for _, f := range e.Findings {
				if f.At.From < 0 || f.At.To > len(line) || f.At.From > f.At.To {
					t.Errorf("span %v outside the text", f.At)
				}
				if len(f.Message) > 2000 {
					t.Errorf("the message has %d bytes", len(f.Message))
				}
			}
			if used := after.TotalAlloc - before.TotalAlloc; used > 200<<20 {
				t.Errorf("took %d bytes", used)
			}
			if e := p.Enter(context.Background(), "2 m + 3 m"); len(e.Values()) != 1 || e.Values()[0].SI != 5 {
				t.Errorf("the next line gives %v, %v", e.Values(), e.Findings)
			}
		})
	}
}

// TestLongSums enters as long a sum as a line may hold.
func TestLongSums(t *testing.T) {
	p := New()
	e := p.Enter(context.Background(), "1"+strings.Repeat("+1", 30_000))
	if len(e.Values()) != 1 || e.Values()[0].SI != 30_001 {
		t.Fatalf("values %v, findings %v", e.Values(), e.Findings)
	}
}

// TestFunctionsDoubling enters sixty functions that each call the one before
// twice: the work doubles each time, and is refused before it is done.
func TestFunctionsDoubling(t *testing.T) {
	p := New()
	ctx := context.Background()
	p.Enter(ctx, "f0(x) = x + 1 m")
	for i := 1; i < 60; i++ {
		p.Enter(ctx, fmt.Sprintf("f%d(x) = f%d(x) - f%d(2*x)/2", i, i-1, i-1))
	}
	if e := p.Enter(ctx, "f9(3 m)"); len(e.Values()) != 1 {
		t.Errorf("f9: %v", e.Findings)
	}
	e := p.Enter(ctx, "f59(3 m)")
	if len(e.Values()) != 0 || len(e.Findings) == 0 || e.Findings[0].ID != finding.TooLong {
		t.Errorf("f59: values %v, findings %v", e.Values(), e.Findings)
	}
}

// TestStopped stops a line at once.
func TestStopped(t *testing.T) {
	p := New()
	ctx, cancel := context.WithCancel(context.Background())
	p.Enter(ctx, "f0(x) = x + 1 m")
	for i := 1; i < 16; i++ {
		p.Enter(ctx, fmt.Sprintf("f%d(x) = f%d(x) - f%d(2*x)/2", i, i-1, i-1))
	}
	cancel()
	e := p.Enter(ctx, "y = f15(3 m)")
	if len(e.Findings) == 0 || e.Findings[0].ID != finding.Stopped {
		t.Errorf("findings %v", e.Findings)
	}
}

func shownValues(e *entry.Entry) []string {
	var out []string
	for _, v := range e.Values() {
		out = append(out, v.Name+" "+v.Shown(units.File)+" "+v.Quantity)
	}
	return out
}

// TestUndo takes statements of every kind back and enters others in their
// place.
func TestUndo(t *testing.T) {
	ctx := context.Background()
	p := New()
	lines := []string{"m = 2 kg", "v = 0", "f(x) = 2*x*m", "1 lap = 400 m", "constants c", "results to 3 figures",
		"part a: One", "m = 3 kg", "K = m*v^2 in J", "f(2 m/s)", "2 laps in m", "w = m*g", "check w > 2 N"}
	var first []string
	for round := range 2 {
		for i, line := range lines {
			e := p.Enter(ctx, line)
			got := fmt.Sprint(shownValues(e), e.Findings)
			if round == 0 {
				first = append(first, got)
			} else if got != first[i] {
				t.Errorf("%s: first %s\nafter undo %s", line, first[i], got)
			}
		}
		for range lines {
			if _, ok := p.Undo(); !ok {
				t.Fatal("nothing to undo")
			}
		}
		if _, ok := p.Undo(); ok || len(p.Names()) != 0 {
			t.Fatalf("something is left: %v", p.Names())
		}
	}
	if e := p.Enter(ctx, "3 laps"); len(e.Findings) == 0 {
		t.Error("the unit lap is still known")
	}
}
