package session

import (
	"context"
	"testing"
)

// A place that is worked out, such as three quarters of a period, is off by a few
// roundings: a curve that is 0 there is shown as 0.
func TestTableZeros(t *testing.T) {
	p := New()
	for _, line := range []string{"A = 6.0 cm", "ω = 17.8885 s^-1", "T = 2*π/ω", "x(t) = A*cos(ω*t)"} {
		p.Enter(context.Background(), line)
	}
	table := tableOf(p.Enter(context.Background(), "table x(t) against t from 0 s to 5*T by T/4"))
	for i, row := range table.Rows {
		if got := row[1].Value.SI; (got == 0) != (i%2 == 1) {
			t.Errorf("row %d: %g m", i, got)
		}
	}
}

// A value where two pieces of a function meet is no residue, however far the function jumps
// there.
func TestTableAtJumps(t *testing.T) {
	p := New()
	for _, line := range []string{"f(t) =\n  (0.3 m)*t/(1 s) for 0 s ≤ t < 2 s\n  1.2 m for t ≥ 2 s", "g(t) =\n  1 m for t ≤ 2 s\n  -1 m for t > 2 s"} {
		p.Enter(context.Background(), line)
	}
	table := tableOf(p.Enter(context.Background(), "table f(t), g(t) against t from 0 s to 4 s by 1 s"))
	for i, want := range [][2]float64{{0, 1}, {0.3, 1}, {1.2, 1}, {1.2, -1}, {1.2, -1}} {
		if row := table.Rows[i]; row[1].Value.SI != want[0] || row[2].Value.SI != want[1] {
			t.Errorf("row %d: %g m and %g m", i, row[1].Value.SI, row[2].Value.SI)
		}
	}
}
