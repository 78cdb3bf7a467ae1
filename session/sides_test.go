package session

import (
	"context"
	"strings"
	"testing"

	"steelyard/session/entry"
)

// TestSidesToOnePlace holds how the sides of a check that holds are shown where results
// have the figures of their givens.
func TestSidesToOnePlace(t *testing.T) {
	for _, c := range []struct{ lines, sides string }{
		{"v = 13.16 m/s; h = 8.8 m; g = 9.8 m/s^2; check v^2 = 2*g*h within 5 %", "173.2 m²/s² and 172.5 m²/s²"},
		{"c = 2 m; check 13.1 m^2 = c*6.56 m within 5 %", "both sides are 13.1 m²"},
		{"a = 3.1 m; b = 2 m; check a*b = 6.2 m^2 within 5 %", "both sides are 6.2 m²"},
		{"a = 9.6 m; b = 1 s; c = 9.64 m; check a/b = c/(1.000 s) within 5 %", "9.60 m/s and 9.64 m/s"},
		{"a = 9 m; b = 2 m; check a*b > 6.2 m^2", "2×10¹ m² and 6.2 m²"},
		{"m = 5.4 kg; k = m*1.0163; check k < 5.5 kg", "5.49 kg and 5.50 kg"},
		{"m = 5.5 kg; k = m*1.0000; check k ≤ 5.5 kg", "both sides are 5.5 kg"},
	} {
		p := New()
		p.Enter(context.Background(), "results to the givens' figures")
		var last *entry.Entry
		for line := range strings.SplitSeq(c.lines, "; ") {
			last = p.Enter(context.Background(), line)
		}
		v, ok := last.Outcome.(*entry.Verdict)
		if !ok || !v.Holds || v.Sides().String() != c.sides {
			t.Errorf("%s: %v, want %s", c.lines, v.Sides(), c.sides)
		}
	}
}
