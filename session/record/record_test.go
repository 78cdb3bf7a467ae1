package record_test

import (
	"context"
	"testing"

	"steelyard/lang/finding"
	"steelyard/session"
	"steelyard/session/record"
)

// TestCut takes results off a statement, wherever they are in it, and nothing else.
func TestCut(t *testing.T) {
	for _, c := range []struct {
		text, bare string
		results    int
	}{
		{"W = F*d", "W = F*d", 0},
		{"W = F*d\n  = 6 J", "W = F*d", 1},
		{"W = F*d\n\n\t=6 J\n = 7 J\n", "W = F*d\n\n", 2},
		{"v(t) =\n  2 m/s for t < 1 s\n  = 3 m\n  4 m/s for t > 1 s", "v(t) =\n  2 m/s for t < 1 s\n  4 m/s for t > 1 s", 1},
		{"W = F*d\n= 6 J", "W = F*d\n= 6 J", 0},
	} {
		bare, results := record.Cut(c.text)
		if bare != c.bare || len(results) != c.results {
			t.Errorf("%q: %q, %v", c.text, bare, results)
		}
	}
}

// TestByHand compares what is typed under a line: it may be rounded, to three figures at
// least, and in another unit.
func TestByHand(t *testing.T) {
	for _, c := range []struct {
		line, under string
		agrees      bool
	}{
		{"W = 3 N*(2.4567 m)", "= 7.3701 J", true},
		{"W = 3 N*(2.4567 m)", "= 7.37 J, an energy", true},
		{"W = 3 N*(2.4567 m)", "= 7370 mJ", true},
		{"W = 3 N*(2.4567 m)", "= 7.3 J", false},
		{"W = 3 N*(2.4567 m)", "= 7.36 J", false},
		{"W = 3 N*(2.4567 m)", "= 7.37 N", false},
		{"W = 3 N*(2.1 m)", "= 6 J", false}, // 6.00000 on a screen
		{"W = 3 N*(2.1 m)", "= (3 N)*(2.1 m)", true},
		{"W = 3 N*(2.1 m)", "= (3 N)*(2.2 m)", false},
		{"T = 20 °C + 5 K", "= 25 °C", true},
	} {
		e := session.New().Enter(context.Background(), c.line+"\n  "+c.under)
		differs := false
		for _, f := range e.Findings {
			differs = differs || f.ID == finding.RecordDiffers
		}
		if differs == c.agrees || e.Failed() {
			t.Errorf("%s under %s: %v", c.under, c.line, e.Findings)
		}
	}
}
